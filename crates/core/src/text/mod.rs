//! Text: finds its words, and converts each to the form used in the dictionary.

mod fold;
mod front;
mod lines;
mod token;

pub use fold::fold_word;
pub use front::{FrontMatter, front_matter};
pub use lines::Lines;
pub use token::{Token, TokenKind, Tokens, tokens};
