//! Text: where its words are, and what each is called in the dictionary.

mod fold;
mod front;
mod id;
mod lines;
mod token;

pub use fold::fold_word;
pub use front::{FrontMatter, front_matter};
pub(crate) use id::Id;
pub use lines::Lines;
pub use token::{Kind, Token, Tokens, tokens};
