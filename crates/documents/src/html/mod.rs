//! HTML: what a browser would show of it.

mod charset;
mod elements;
mod events;
mod open;
mod page;
mod text;

pub(crate) use charset::decode;

use crate::extract::Extract;
use crate::{Document, Problem};

/// What of an HTML file is shown.
pub(crate) fn read(bytes: Vec<u8>) -> Result<Document, Problem> {
    let (source, guessed) = decode(bytes)?;
    let extract = extract(&source, '\n');
    Ok(Document::extracted(source, extract, guessed))
}

/// The text of a page, a block a line. A break within a block is what the caller wants it to be.
pub(crate) fn extract(source: &str, line_break: char) -> Extract {
    page::read(source, line_break)
}
