//! What holds for every document, whatever the bytes.

use untaught_documents::{Document, Kind, read};

/// Reads bytes as a kind of document and checks what is said of them.
pub fn check(kind: Kind, bytes: &[u8]) {
    let _ = Kind::of("story", bytes);
    match read(kind, bytes.to_vec()) {
        Ok(document) => holds(&document),
        Err(problem) => assert!(problem.to_string().starts_with(|c: char| c.is_ascii_lowercase())),
    }
}

/// The way back grows and stays on character boundaries.
fn holds(document: &Document) {
    let (text, source) = (document.text(), document.source());
    assert!(!text.contains('\0'));
    let mut last = 0;
    for offset in 0..=text.len() {
        let place = document.to_source(offset);
        assert!(place >= last && source.is_char_boundary(place));
        last = place;
    }
}
