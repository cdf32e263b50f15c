//! What was read: the text, and where in the file each piece of it stands.

use crate::extract::{Extract, Map, floor};

/// What positions in a document count.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Unit {
    /// Lines of the file.
    Line,
    /// Paragraphs in the order of the document, empty ones too; of an epub, the paragraphs that are not empty.
    Paragraph,
}

/// The text of a document. Made by [`read`](crate::read).
#[derive(Clone, Debug)]
pub struct Document {
    text: String,
    /// The decoded file, where it is not the text itself.
    source: Option<String>,
    map: Map,
    unit: Unit,
    decoded_from: Option<&'static str>,
}

impl Document {
    /// A file that is its own text.
    pub(crate) fn plain(text: String, decoded_from: Option<&'static str>) -> Document {
        Document { text, source: None, map: Map::default(), unit: Unit::Line, decoded_from }
    }

    /// A text taken out of a marked-up one.
    pub(crate) fn extracted(source: String, extract: Extract, decoded_from: Option<&'static str>) -> Document {
        let (text, map) = extract.finish();
        Document { text, source: Some(source), map, unit: Unit::Line, decoded_from }
    }

    /// The text of an archive, a paragraph a line.
    pub(crate) fn paragraphs(text: String, decoded_from: Option<&'static str>) -> Document {
        Document { text, source: None, map: Map::default(), unit: Unit::Paragraph, decoded_from }
    }

    /// What is to be checked. Front matter of plain text and Markdown stands at its beginning, as in the file.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// What positions are counted in: the decoded file; of an archive the text itself, a paragraph a line.
    #[must_use]
    pub fn source(&self) -> &str {
        self.source.as_deref().unwrap_or(&self.text)
    }

    /// What a line of the source is.
    #[must_use]
    pub fn unit(&self) -> Unit {
        self.unit
    }

    /// Where in the source the text at this byte offset comes from. What the file has no letters for (the gap between two
    /// blocks) comes from the end of what stands before it; a decoded entity comes from its ampersand.
    ///
    /// Grows with the offset and always is a character boundary. Cost: a binary search; nothing for plain text and archives.
    #[must_use]
    pub fn to_source(&self, offset: usize) -> usize {
        self.map.to_source(floor(&self.text, offset))
    }

    /// The character encoding, where the file does not name it and is neither UTF-8 nor UTF-16: whether the guess is right is for
    /// the reader to judge.
    #[must_use]
    pub fn decoded_from(&self) -> Option<&'static str> {
        self.decoded_from
    }
}
