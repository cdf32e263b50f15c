//! What stands inside archives, reached without an archive around it: a checksum would keep changed bytes from the readers.

use crate::{Problem, docx, epub, odt};

/// The main part of a Word document.
///
/// # Errors
/// As for the document.
pub fn docx_part(xml: Vec<u8>) -> Result<String, Problem> {
    docx::text(xml)
}

/// The content of an odt document.
///
/// # Errors
/// As for the document.
pub fn odt_content(xml: Vec<u8>) -> Result<String, Problem> {
    odt::text(xml)
}

/// A page of an e-book.
///
/// # Errors
/// As for the document.
pub fn epub_page(bytes: Vec<u8>) -> Result<String, Problem> {
    epub::page_text(bytes).map(|(text, _)| text)
}

/// The package of an e-book: the names of its pages.
///
/// # Errors
/// As for the document.
pub fn epub_package(xml: Vec<u8>) -> Result<Vec<String>, Problem> {
    epub::page_names(xml)
}
