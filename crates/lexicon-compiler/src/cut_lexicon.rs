//! The lexicon, cut: what is packed.

use untaught_lexicon::format::E_DROPPED;
use untaught_phonics::accent::Outline;
use untaught_phonics::{CORRESPONDENCES, CorrespondenceId, Formation, Phone};

/// Letters that no correspondence joins to their sounds: part of *colonel*, all of *TV*. Never teachable.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(crate) struct Oddity {
    pub(crate) letters: Vec<u8>,
    pub(crate) phones: Vec<Phone>,
}

/// A reading, cut.
#[derive(PartialEq, Eq, Debug)]
pub(crate) struct CutReading {
    /// Correspondences; from the catalogue's length upwards, oddities.
    pub(crate) parts: Vec<u16>,
    /// The part with the main stress.
    pub(crate) stressed: Option<u8>,
    /// What the word is made of, read so.
    pub(crate) made: Option<Formation>,
}

impl CutReading {
    pub(crate) fn stressed_is_consonant(&self, at: usize) -> bool {
        !CorrespondenceId(self.parts[at]).get().sound.get().kind.is_vowel()
    }
}

/// A word with its readings.
pub(crate) struct CutWord {
    pub(crate) word: String,
    /// Size class and the country of the spelling, as packed; 0 for none.
    pub(crate) commonness: u8,
    pub(crate) readings: Vec<CutReading>,
}

/// Everything that is packed.
pub(crate) struct CutLexicon {
    pub(crate) entries: Vec<CutWord>,
    pub(crate) oddities: Vec<Oddity>,
}

impl CutLexicon {
    /// What is known of a reading of a word before its sounds are those of an accent.
    pub(crate) fn outline(&self, word: &str, number: u8) -> Option<Outline> {
        let at = self.entries.binary_search_by(|entry| entry.word.as_str().cmp(word)).ok()?;
        let reading = self.entries[at].readings.get(usize::from(number))?;
        let is_vowel = |code: &u16| {
            let code = code & !E_DROPPED;
            usize::from(code) < CORRESPONDENCES.len() && CorrespondenceId(code).get().sound.get().kind.is_vowel()
        };
        let stressed = reading.stressed.map(usize::from).or_else(|| reading.parts.iter().position(is_vowel));
        Some(Outline { parts: reading.parts.len(), stressed, made: reading.made })
    }
}
