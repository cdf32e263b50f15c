//! Reads the text of a story out of the file it was written in. Bytes in, text out: nothing here opens a file or the network.
//!
//! ```
//! use untaught_documents::{Kind, read};
//!
//! let bytes = b"# The kite\n\nIt was a *big* f**ish**.\n".to_vec();
//! let kind = Kind::of("kite.md", &bytes).unwrap();
//! let document = read(kind, bytes).unwrap();
//! assert_eq!(document.text(), "The kite\n\nIt was a big fish.");
//! let fish = document.text().find("fish").unwrap();
//! assert!(document.source()[document.to_source(fish)..].starts_with("f**ish**"));
//! ```
//!
//! What a reader of the page sees is read; the rest is left out, alike in every kind: what is hidden, deleted or struck through,
//! comments, notes and the marks that lead to them, code, alternative texts of pictures, where links lead.

mod archive;
mod decode;
mod document;
mod docx;
mod epub;
mod extract;
#[doc(hidden)]
pub mod fuzzing;
mod html;
mod kind;
mod markdown;
mod odt;
mod paragraphs;
mod problem;
mod xml;

pub use document::{Document, Unit};
pub use kind::Kind;
pub use problem::Problem;

/// Reads the text of a document.
///
/// # Errors
/// A sentence that says why the bytes cannot be read as a document of that kind.
pub fn read(kind: Kind, bytes: Vec<u8>) -> Result<Document, Problem> {
    match kind {
        Kind::Text => decode::decode(bytes).map(|(text, guessed)| Document::plain(text, guessed)),
        Kind::Markdown => decode::decode(bytes).map(|(source, guessed)| markdown::read(source, guessed)),
        Kind::Html => html::read(bytes),
        Kind::Docx => docx::read(bytes),
        Kind::Odt => odt::read(bytes),
        Kind::Epub => epub::read(bytes),
    }
}
