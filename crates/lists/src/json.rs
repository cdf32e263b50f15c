//! The lists as programs read them: the same from every command and on every page. Most types of the crate are serialised as they
//! are; here are those that are not.

use serde::ser::SerializeStruct;
use serde::{Serialize, Serializer};
use untaught::{Part, Scope};

use crate::{BankWord, ChainStep, Shape};

/// A word of a bank.
#[derive(Debug, Serialize)]
pub struct WordRow<'a> {
    word: &'a str,
    ipa: String,
    parts: Vec<&'a str>,
    sounds: usize,
    syllables: usize,
    shape: String,
    /// The id of the lesson from which it can be sounded out.
    lesson: &'a str,
}

impl<'a> WordRow<'a> {
    /// A word of a bank of a scope.
    #[must_use]
    pub fn of(word: &'a BankWord, scope: &'a Scope) -> WordRow<'a> {
        WordRow {
            word: &word.word,
            ipa: word.reading.ipa(),
            parts: word.reading.parts.iter().map(Part::spelling).collect(),
            sounds: word.sounds.len(),
            syllables: word.reading.syllables(),
            shape: Shape::of(&word.sounds).to_string(),
            lesson: scope.id(word.first),
        }
    }
}

impl Serialize for ChainStep {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut step = serializer.serialize_struct("Step", 5)?;
        step.serialize_field("change", self.change.name())?;
        step.serialize_field("place", self.place)?;
        step.serialize_field("from", &self.from)?;
        step.serialize_field("to", &self.to)?;
        step.serialize_field("say", &self.to_string())?;
        step.end()
    }
}
