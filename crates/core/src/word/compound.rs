//! Compounds that the dictionary lacks: *foghorn*, *goatherd*, *hothead*.

use super::{Reader, Reading};

/// The fewest letters of a word inside a compound.
const SHORTEST: usize = 3;

/// Words that end other words as endings do: *snuffled* is not *snuff* and *led*.
const NO_SECONDS: [&str; 5] = ["led", "ling", "ted", "less", "ship"];

impl Reader {
    /// The reading of two words of the dictionary written together. Of several ways to divide, the one with the longest shorter
    /// word counts, then the one with the longer first word.
    pub(super) fn compound(&self, word: &str) -> Option<Reading> {
        if !word.is_ascii() || word.len() < 2 * SHORTEST || word.contains('\'') {
            return None;
        }
        let seam = (SHORTEST..=word.len() - SHORTEST)
            .filter(|at| self.is_ordinary(&word[..*at]) && self.is_ordinary(&word[*at..]))
            .filter(|at| !NO_SECONDS.contains(&&word[*at..]))
            .max_by_key(|at| (*at.min(&(word.len() - at)), *at))?;
        let (first, second) = (self.known(&word[..seam]), self.known(&word[seam..]));
        let (first, second) = (first.first()?, second.first()?);
        let parts = first.parts.iter().chain(&second.parts).cloned().collect();
        Some(Reading { parts, stressed: first.stressed })
    }
}
