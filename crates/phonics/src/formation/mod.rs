//! How English forms words from other words: suffixes, prefixes and compounds.
//!
//! The table of [`affixes`]; [`forms`], the ways to split a word by its letters; the recogniser of [`compounds`];
//! [`join`](fn@join), which adds a suffix to a base that is cut into parts; and [`inflect`](fn@inflect), which spells regular
//! forms. The lexicon compiler records what each word in the dictionary is made of; [`derive`](fn@derive) makes readings for
//! other words.

pub mod affixes;
pub mod compounds;
mod contractions;
mod derive;
mod doubling;
mod expressive;
pub mod forms;
mod inflect;
mod join;

pub use affixes::{AFFIXES, Affix, AffixId, Change, Class, Side};
pub use contractions::{is_contraction, is_possessive};
pub use derive::derive;
pub use doubling::doubles;
pub use expressive::{is_vowelless, shortened, sound_word};
pub use forms::Form;
pub use inflect::inflect;
pub use join::join;

use crate::reading::Reading;

/// The words that other words can be made of.
pub trait Vocabulary {
    /// Whether a word is ordinary: neither a name nor rare. Only ordinary words are bases and halves of compounds.
    fn is_ordinary(&self, word: &str) -> bool;
}

/// A vocabulary with the readings of its words.
pub trait Dictionary: Vocabulary {
    /// The readings of a word, the usual one first; empty if it is not in the dictionary.
    fn readings(&self, word: &str) -> Vec<Reading>;

    /// Whether the dictionary has a word.
    fn has(&self, word: &str) -> bool;
}
