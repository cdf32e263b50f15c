//! The scope file as it is written: YAML, read whole or not at all.

use std::collections::BTreeMap;

use serde::Deserialize;

use crate::yaml::{self, Fault, Id, Outline, Position};

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ScopeFile {
    pub(crate) format: u32,
    pub(crate) title: Option<String>,
    pub(crate) accent: Option<String>,
    #[serde(default)]
    pub(crate) about: Option<String>,
    #[serde(default)]
    pub(crate) source: Option<String>,
    #[serde(default)]
    pub(crate) pronounce: BTreeMap<String, String>,
    pub(crate) age: Option<u8>,
    pub(crate) lessons: Vec<LessonEntry>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct LessonEntry {
    pub(crate) id: Option<Id>,
    pub(crate) title: Option<String>,
    #[serde(default)]
    pub(crate) teach: Vec<String>,
    #[serde(default)]
    pub(crate) sight: Vec<String>,
    #[serde(default)]
    pub(crate) skills: Vec<String>,
    #[serde(default)]
    pub(crate) review: Vec<String>,
}

/// The format of scope files.
pub(crate) const FORMAT: u32 = 1;

/// Reads a scope file with the outline of where everything stands in it.
pub(crate) fn read(text: &str) -> Result<(ScopeFile, Outline), Fault> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.lines().all(|line| line.trim().is_empty() || line.trim_start().starts_with('#')) {
        return Err(Fault::new(
            Position::START,
            "the scope file is empty; it needs at least `format: 1` and `lessons:`",
        ));
    }
    let (file, outline): (ScopeFile, Outline) = yaml::read(text)?;
    if file.format != FORMAT {
        let position = outline.position(&["format"]);
        let message =
            format!("this program reads scope files of format {FORMAT}, and the file says format {}", file.format);
        return Err(Fault::new(position, &message));
    }
    if file.lessons.is_empty() {
        return Err(Fault::new(outline.position(&["lessons"]), "the scope file has no lessons"));
    }
    Ok((file, outline))
}
