//! The sounds of English, the ways it spells them, and the search that cuts a word into both.
//!
//! A *correspondence* is one spelling with one sound, named by a key word: `ea as in bread`. The [catalogue](CORRESPONDENCES)
//! holds all of them; the [`Aligner`] finds the cheapest way to cover the letters and the phones of a word with them.
//! What each costs is [learnt](learn::learn) from the dictionary, under the catalogue's constraints and the cutting convention
//! that [`lattice`] spells out.
//!
//! No I/O, no allocation at start-up: both tables are static.

mod aligner;
mod catalogue;
pub mod formation;
pub mod lattice;
pub mod learn;
mod letters;
mod phone;
mod reading;
mod sound;

pub use aligner::{Aligner, Cut, CutPart, Weights};
pub use catalogue::{Context, Correspondence, CorrespondenceId, Grade, Transcription, spelled};
pub use letters::LetterModel;
pub use phone::{Phone, parse_phones};
pub use reading::{Formation, Part, Reading, alike};
pub use sound::{Sound, SoundId, SoundKind};

include!(concat!(env!("OUT_DIR"), "/tables.rs"));
