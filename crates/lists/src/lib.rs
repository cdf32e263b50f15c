//! Lists for a reading lesson, made by the same engine that checks its story: words to blend, chains of words, sound boxes, listening
//! lists, dictation, and the whole lesson on paper.
//!
//! Text in, lists out: nothing here opens a file or prints. What is drawn by lot is drawn by a seed, so that it can be made again.
//! Nothing unfit for children is in any list: [`fit`] holds the gate.

mod bank;
mod boxes;
mod chain;
mod contrast;
mod dictation;
mod features;
pub mod fit;
pub mod json;
mod lot;
mod pack;
mod shape;
mod shares;
mod sieve;
mod sounds;

pub use bank::{Bank, BankWord, Position, USUAL, Wanted};
pub use boxes::{Boxes, SoundBox, boxes};
pub use chain::{Chain, ChainWanted, Change, Step, chain};
pub use contrast::{Contrast, Item, contrast, sound_named};
pub use dictation::{Dictation, dictation};
pub use features::{closeness, confusions};
pub use pack::{Pack, PackWanted, pack, sound_taught};
pub use shape::Shape;
pub use sounds::{Heard, heard};

/// Why a list cannot be made: a sentence for a teacher.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Lacking(pub String);

impl std::fmt::Display for Lacking {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for Lacking {}
