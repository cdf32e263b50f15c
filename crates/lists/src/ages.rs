//! At what age children know a word when they hear it, as two readers judged it: see `data/README.md`.

use crate::word_list::{KNOWN_AT_5, KNOWN_AT_6, KNOWN_AT_7, KNOWN_AT_8, KNOWN_TO_CHILDREN, WordList};

/// The age that stands for older children and adults, and for words that were not judged.
pub const OLDER: u8 = 9;

const BY_AGE: [(u8, &WordList); 4] = [(5, &KNOWN_AT_5), (6, &KNOWN_AT_6), (7, &KNOWN_AT_7), (8, &KNOWN_AT_8)];

/// The age, from 5 to 8, at which most children know a word in lower case when they hear it; else [`OLDER`]. Only base words are
/// judged: a form is known with its base.
#[must_use]
pub fn known_from(word: &str) -> u8 {
    let judged = BY_AGE.iter().find(|(_, words)| words.has(word));
    // Sentences written for children may use rarer ones, which the dictionary of common words lacks.
    judged.map_or(if KNOWN_TO_CHILDREN.has(word) { 7 } else { OLDER }, |(age, _)| *age)
}

/// Whether stories for children of five to eight use a word, in lower case.
#[must_use]
pub fn is_known_to_children(word: &str) -> bool {
    KNOWN_TO_CHILDREN.has(word) || crate::swaps::has_headword(word)
}

/// Which words lists are made from.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Vocabulary {
    /// The rarest size class: 10 is the commonest, 50 the rarest.
    pub class: u8,
    /// Whether words count too that the children of the scope are too young to know.
    pub older: bool,
}

impl Default for Vocabulary {
    fn default() -> Self {
        Vocabulary { class: 35, older: false }
    }
}

impl Vocabulary {
    /// Rarer words too, about which nothing is known but how common they are.
    #[must_use]
    pub fn with_rarer() -> Vocabulary {
        Vocabulary { class: 40, older: true }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_known_from_an_age() {
        for (word, ages) in
            [("dog", 5..=5), ("puddle", 5..=6), ("compass", 6..=8), ("revenue", OLDER..=OLDER), ("zzz", OLDER..=OLDER)]
        {
            assert!(ages.contains(&known_from(word)), "{word}: {}", known_from(word));
        }
        let known: usize = BY_AGE.iter().map(|(_, words)| words.lines().count()).sum();
        assert!(known > 5_000, "{known}");
    }
}
