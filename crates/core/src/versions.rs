//! What the verdicts of this build depend on besides its code.

use untaught_phonics::{CATALOGUE_FINGERPRINT, CORRESPONDENCES};

use crate::scope::file::FORMAT;

/// The versions of the scope format and of the data that are built in. A fingerprint is another number for other data: two builds with
/// the same numbers judge with the same catalogue and dictionary.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct DataVersions {
    /// The format of scope files that is read.
    pub scope_format: u32,
    /// Correspondences in the catalogue.
    pub correspondences: usize,
    /// Fingerprint of the catalogue and its sounds.
    pub catalogue: u32,
    /// Words in the dictionary.
    pub words: usize,
    /// Fingerprint of the dictionary, with its British readings.
    pub dictionary: u32,
}

impl DataVersions {
    /// Those of this build. Cost: one pass over the British readings.
    #[must_use]
    pub fn current() -> DataVersions {
        DataVersions {
            scope_format: FORMAT,
            correspondences: CORRESPONDENCES.len(),
            catalogue: CATALOGUE_FINGERPRINT,
            words: untaught_lexicon::Lexicon::embedded().len(),
            dictionary: untaught_lexicon::fingerprint(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn there_is_something_to_tell_versions_by() {
        let now = DataVersions::current();
        assert_eq!(now.scope_format, 1);
        assert!(now.correspondences > 300 && now.words > 100_000, "{now:?}");
        assert!(now.catalogue != 0 && now.dictionary != 0 && now.catalogue != now.dictionary, "{now:?}");
    }
}
