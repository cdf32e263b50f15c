//! An English pronouncing dictionary, every reading cut into spellings and sounds.
//!
//! The dictionary is the CMU Pronouncing Dictionary (its licence is in `data/LICENSE-CMUDICT`). It is mended, cut and packed when
//! this crate is built, embedded, and read in place: opening it costs a look at the header, finding a word a hash and a compare.

#[doc(hidden)]
pub mod format;
mod read;

pub use read::{Entries, Entry, Flaw, Lexicon, PackedPart, PackedParts, PackedReading};
