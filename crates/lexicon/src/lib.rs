//! An English pronouncing dictionary, every reading cut into spellings and sounds.
//!
//! The dictionary is the CMU Pronouncing Dictionary (its licence is in `data/LICENSE-CMUDICT`). The lexicon
//! compiler fixes, cuts and packs it; the result is embedded and read in place. Opening it only checks the header; finding a word
//! takes a hash and a comparison.

pub mod accents;
#[doc(hidden)]
pub mod format;
mod read;

pub use read::{Entries, Entry, Flaw, Lexicon, PackedPart, PackedParts, PackedReading};
