//! The settings file as it is written.

use std::collections::BTreeMap;

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
    #[serde(default)]
    pub(crate) pronounce: BTreeMap<String, String>,
}

/// Settings for the texts that a glob fits.
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

/// The keys that the whole file and a rule share.
pub(crate) struct Keys<'f> {
    pub(crate) scope: Option<&'f str>,
    pub(crate) lesson: Option<&'f str>,
    pub(crate) names: &'f [String],
    pub(crate) story_words: &'f [String],
    pub(crate) focus: &'f [String],
    /// Least percent decodable, readable, and practising the focus.
    pub(crate) thresholds: [Option<f64>; 3],
}

// The reader cannot share the fields themselves: it would no longer refuse unknown keys.
macro_rules! keys {
    ($written:ident) => {
        impl $written {
            pub(crate) fn keys(&self) -> Keys<'_> {
                Keys {
                    scope: self.scope.as_deref(),
                    lesson: self.lesson.as_ref().map(|id| id.0.as_str()),
                    names: &self.names,
                    story_words: &self.story_words,
                    focus: &self.focus,
                    thresholds: [self.min_decodable, self.min_readable, self.min_focus],
                }
            }
        }
    };
}

keys!(SettingsFile);
keys!(Rule);

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
