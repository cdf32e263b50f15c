//! The sounds of English, their spellings, and the search that cuts words into spellings and sounds.
//!
//! A *correspondence* is one spelling with one sound, named by a key word: `ea as in bread`. The [catalogue](CORRESPONDENCES)
//! lists them all; the [`Aligner`] finds the cheapest way to cover the letters and the phones of a word with them.
//! Their costs are [learnt](learn::learn) from the dictionary, within the catalogue's constraints and the cutting convention
//! described in [`lattice`].
//!
//! There is no I/O and no allocation at start-up: both tables are static.

pub mod accent;
mod aligner;
mod catalogue;
pub mod formation;
pub mod lattice;
pub mod learn;
mod letters;
mod phone;
mod reading;
mod sound;

pub use accent::Accent;
pub use aligner::{Aligner, Cut, CutPart, Weights};
pub use catalogue::{Context, Correspondence, CorrespondenceId, Grade, Transcription, spelled, spelled_in};
pub use letters::LetterModel;
pub use phone::{Phone, parse_phones};
pub use reading::{Formation, Part, Reading, alike};
pub use sound::{Sound, SoundId, SoundKind};

include!(concat!(env!("OUT_DIR"), "/tables.rs"));
