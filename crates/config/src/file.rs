//! The settings file as it is written.

use serde::Deserialize;
use serde::de::{Deserializer, Error, SeqAccess, Visitor};
use untaught::yaml::Id;

#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(crate) struct SettingsFile {
    pub(crate) format: u32,
    #[serde(default)]
    pub(crate) exclude: Globs,
    pub(crate) lesson_from_name: Option<String>,
    #[serde(default)]
    pub(crate) texts: Vec<Rule>,
    pub(crate) scope: Option<String>,
    pub(crate) lesson: Option<Id>,
    #[serde(default)]
    pub(crate) names: Vec<String>,
    #[serde(default)]
    pub(crate) story_words: Vec<String>,
    #[serde(default)]
    pub(crate) focus: Vec<String>,
    pub(crate) min_decodable: Option<f64>,
    pub(crate) min_readable: Option<f64>,
    pub(crate) min_focus: Option<f64>,
}

/// What holds for the texts that a glob fits.
#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(crate) struct Rule {
    pub(crate) files: Globs,
    pub(crate) scope: Option<String>,
    pub(crate) lesson: Option<Id>,
    #[serde(default)]
    pub(crate) names: Vec<String>,
    #[serde(default)]
    pub(crate) story_words: Vec<String>,
    #[serde(default)]
    pub(crate) focus: Vec<String>,
    pub(crate) min_decodable: Option<f64>,
    pub(crate) min_readable: Option<f64>,
    pub(crate) min_focus: Option<f64>,
}

/// One glob, or a list of them.
#[derive(Debug, Default)]
pub(crate) struct Globs(pub(crate) Vec<String>);

impl<'de> Deserialize<'de> for Globs {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Globs, D::Error> {
        struct Written;
        impl<'de> Visitor<'de> for Written {
            type Value = Globs;

            fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str("a glob such as \"week-1/*.txt\" or a list of them")
            }

            fn visit_str<E: Error>(self, text: &str) -> Result<Globs, E> {
                Ok(Globs(vec![text.to_owned()]))
            }

            fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Globs, A::Error> {
                let mut globs = Vec::new();
                while let Some(glob) = list.next_element()? {
                    globs.push(glob);
                }
                Ok(Globs(globs))
            }
        }
        from.deserialize_any(Written)
    }
}
