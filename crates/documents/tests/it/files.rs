//! Documents that real programs saved.

use std::path::Path;

use untaught_documents::{Document, Kind, Problem, Unit, read};

fn try_document(name: &str) -> Result<Document, Problem> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/files").join(name);
    let bytes = std::fs::read(path).unwrap();
    read(Kind::of(name, &bytes)?, bytes)
}

fn document(name: &str) -> Document {
    try_document(name).unwrap()
}

fn words(document: &Document) -> Vec<&str> {
    document.text().split(|c: char| !c.is_alphabetic()).filter(|word| !word.is_empty()).collect()
}

const KITES: [&str; 10] = [
    "kite.md",
    "kite.txt",
    "kite.html",
    "kite.docx",
    "kite.odt",
    "kite.epub",
    "kite-from-odt.docx",
    "kite-from-odt.html",
    "kite-from-odt.epub",
    "kite-from-docx.odt",
];

#[test]
fn a_story_has_the_same_words_in_every_kind() {
    let markdown = document(KITES[0]);
    let expected = words(&markdown);
    assert_eq!(expected.len(), 144);
    assert!(["café", "kite", "fishing", "tree"].iter().all(|word| expected.contains(word)));
    for name in KITES {
        assert_eq!(words(&document(name)), expected, "{name}");
    }
}

#[test]
fn every_word_is_found_again_in_its_file() {
    for name in KITES {
        let document = document(name);
        let archive = document.unit() == Unit::Paragraph;
        assert_eq!(archive, name.ends_with("docx") || name.ends_with("odt") || name.ends_with("epub"), "{name}");
        let mut at = 0;
        for word in words(&document) {
            at += document.text()[at..].find(word).unwrap();
            let place = document.to_source(at);
            assert_eq!(document.source()[place..].chars().next(), word.chars().next(), "{word} in {name}");
            at += word.len();
        }
    }
}

#[test]
fn paragraphs_are_lines() {
    for name in ["kite.docx", "kite.odt", "kite.epub", "kite-from-odt.docx", "kite-from-odt.epub", "kite-from-docx.odt"]
    {
        let document = document(name);
        let lines: Vec<&str> = document.text().lines().collect();
        assert_eq!(lines.len(), 7, "{name}: {lines:#?}");
        assert_eq!(lines[0], "The kite in the plum tree", "{name}");
        assert_eq!(lines[5], "a fishing net", "{name}");
        assert!(lines[6].starts_with("“The net!” said Tim."), "{name}");
    }
}

#[test]
fn changes_are_accepted_and_what_is_hidden_is_left_out() {
    let shown = "The net\n\
                 Ada had a fat nut. It was in the net. Tim ran to the pond.\n\
                 Tim did jump\n\
                 and swim.\n\
                 who\nhas\nTim\na net\nAda\na nut\n\
                 By the log they sat.\n\
                 Big pond";
    for name in ["net.docx", "net.odt", "net-again.docx"] {
        assert_eq!(document(name).text().replace("  ", " "), shown, "{name}");
    }
}

#[test]
fn a_document_behind_a_password_is_refused() {
    for name in ["locked.docx", "locked.odt"] {
        let problem = try_document(name).unwrap_err().to_string();
        assert!(problem.starts_with("is protected by a password: open it, save it without"), "{name} {problem}");
    }
}
