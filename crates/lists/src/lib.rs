//! Lists for a reading lesson, made by the same engine that checks its story: words to blend, chains of words, sound boxes, listening
//! lists, dictation, the whole lesson on paper; and readable words to put in place of one that is too hard.
//!
//! Text in, lists out: nothing here opens a file or prints. Random choices depend only on a seed, so a list can be made again.
//! Nothing unfit for children is in any list: [`fitness`] is the one gate.

mod ages;
mod banks;
mod boxes;
mod cards;
mod chains;
mod contrast;
mod deflated;
mod dialect;
mod dictation;
pub mod fitness;
mod json;
mod nonsense;
mod oral;
mod pack;
mod parallel;
mod practice_words;
mod questions;
mod random;
mod sorting;
mod sounds;
mod swaps;
mod teaching;
mod word_codes;
mod word_list;

pub use ages::{OLDER, Vocabulary, is_known_to_children, known_from};
pub use banks::{Bank, BankWord, Shape, WordFilter, WordPosition};
pub use boxes::{Boxes, SoundBox, boxes};
pub use cards::{CardPart, SightCard, cards};
pub use chains::{Chain, ChainRequest, ChainStep, FOCUSED, SoundChange, chain};
pub use contrast::{
    Contrast, ContrastItem, TaughtSound, closeness, confusions, contrast, listening, sound_named, taught_sounds,
};
pub use dictation::{Dictation, dictation};
pub use json::WordRow;
pub use nonsense::nonsense;
pub use oral::{Oral, OralWord, oral};
pub use pack::{MissingList, Pack, PackRequest, pack};
pub use practice_words::practice_words;
pub use questions::{StoryQuestion, questions};
pub use sorting::{SortWord, WordSort, word_sort};
pub use sounds::{SpokenSound, heard};
pub use swaps::{
    Around, MOST_OF_THE_KIND, MOST_REWORDINGS, MOST_SWAPS, Rewording, Swap, Swaps, swaps, swaps_somewhere,
};
pub use teaching::{Introduction, introductions};

/// Why a list cannot be made: a sentence for a teacher, without a capital and a full stop.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct CannotMake(pub String);

impl std::fmt::Display for CannotMake {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for CannotMake {}
