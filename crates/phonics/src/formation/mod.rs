//! How English makes words of words: endings, beginnings and compounds.
//!
//! The pieces, a module each: the table of [`affixes`]; the [`forms`] a word may be by its letters; the recogniser of
//! [`compounds`]; the [`join`] of a base and an ending, cut into parts; the letters of the regular forms that [`inflect`] makes. The compiler of the lexicon keeps what each word of the
//! dictionary is made of; [`derive`] makes the readings of words that the dictionary lacks.

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

/// The words that others are made of.
pub trait Vocabulary {
    /// Whether a word is an ordinary one, neither a name nor a rarity: only such words are bases and halves of compounds.
    fn is_ordinary(&self, word: &str) -> bool;
}

/// A vocabulary with the readings of its words.
pub trait Dictionary: Vocabulary {
    /// The readings of a word, the usual one first; none for a word that the dictionary lacks.
    fn readings(&self, word: &str) -> Vec<Reading>;

    /// Whether the dictionary has a word.
    fn has(&self, word: &str) -> bool;
}
