//! An English pronouncing dictionary, every reading cut into spellings and sounds.
//!
//! The dictionary is the CMU Pronouncing Dictionary (its licence is in `data/LICENSE-CMUDICT`). The lexicon
//! compiler fixes, cuts and packs it; the result is embedded and read in place. Opening it only checks the header; finding a word
//! takes a hash and a comparison.

pub mod accents;
#[doc(hidden)]
pub mod format;
mod read;

/// A number that is another for other data: by it, builds are told apart. Cost: one pass over the British readings.
#[must_use]
pub fn fingerprint() -> u32 {
    let sum = read::checksum() ^ accents::checksum().rotate_left(1);
    (sum >> 32) as u32 ^ sum as u32
}

pub use read::{Entries, Entry, Flaw, Lexicon, PackedPart, PackedParts, PackedReading};
