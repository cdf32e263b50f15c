//! The scope file as it is written: YAML, read whole or not at all.

use serde::Deserialize;

use super::locate::Outline;
use super::{Fault, Position};

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ScopeFile {
    pub(crate) format: u32,
    pub(crate) title: Option<String>,
    #[serde(default)]
    pub(crate) about: Option<String>,
    #[serde(default)]
    pub(crate) source: Option<String>,
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

/// An id may be written with or without quotes.
#[derive(Debug, Deserialize)]
#[serde(untagged)]
pub(crate) enum Id {
    Number(u64),
    Text(String),
}

impl std::fmt::Display for Id {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Id::Number(number) => number.fmt(f),
            Id::Text(text) => text.fmt(f),
        }
    }
}

/// Reads a scope file with the outline of where everything stands in it.
pub(crate) fn read(text: &str) -> Result<(ScopeFile, Outline), Fault> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim().is_empty() {
        return Err(Fault::new(
            Position::START,
            "the scope file is empty; it needs at least `format: 1` and `lessons:`",
        ));
    }
    let outline = Outline::read(text)?;
    let file: ScopeFile = serde_yaml::from_str(text).map_err(|error| {
        let position = error.location().map_or(Position::START, |l| Position { line: l.line(), column: l.column() });
        Fault::new(position, &plain(&error.to_string()))
    })?;
    if file.format != 1 {
        let position = outline.position(&["format"]);
        let message = format!("this program reads scope files of format 1, and the file says format {}", file.format);
        return Err(Fault::new(position, &message));
    }
    if file.lessons.is_empty() {
        return Err(Fault::new(outline.position(&["lessons"]), "the scope file has no lessons"));
    }
    Ok((file, outline))
}

/// The reader's message in a teacher's words, without the place, which is printed before it.
fn plain(message: &str) -> String {
    let message = message.split(" at line ").next().unwrap_or(message);
    message
        .replace("invalid type: ", "found ")
        .replace("unit value", "nothing")
        .replace("a sequence", "a list")
        .replace("sequence", "a list")
        .replace("struct ScopeFile", "a scope file with `format`, `title` and `lessons`")
        .replace("struct LessonEntry", "a lesson with `title`, `teach`, `sight`")
        .replace("unknown field", "unknown key")
        .replace("missing field", "missing key")
}
