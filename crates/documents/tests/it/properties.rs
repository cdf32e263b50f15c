//! Whatever the bytes, something sensible is said of them.

use std::path::Path;

use proptest::prelude::*;
use untaught_documents::{Document, Kind, fuzzing, read};

const KINDS: [Kind; 6] = [Kind::Text, Kind::Markdown, Kind::Html, Kind::Docx, Kind::Odt, Kind::Epub];

/// Checks what holds for every document.
fn holds(document: &Document) {
    let (text, source) = (document.text(), document.source());
    assert!(!text.contains('\0'));
    let mut last = 0;
    for offset in 0..=text.len() + 1 {
        let place = document.to_source(offset);
        assert!(
            place >= last && source.is_char_boundary(place),
            "{text:?} of {source:?} at {offset}: {place} after {last}"
        );
        last = place;
    }
}

/// Reads as every kind; problems are sentences.
fn read_all(bytes: &[u8]) {
    for kind in KINDS {
        match read(kind, bytes.to_vec()) {
            Ok(document) => holds(&document),
            Err(problem) => {
                let sentence = problem.to_string();
                assert!(sentence.starts_with(|c: char| c.is_ascii_lowercase()), "{sentence}");
            }
        }
    }
    let _ = Kind::of("a.docx", bytes);
    let _ = Kind::of("a.txt", bytes);
    for part in [fuzzing::docx_part, fuzzing::odt_content, fuzzing::epub_page] {
        if let Ok(text) = part(bytes.to_vec()) {
            assert!(text.len() <= bytes.len() * 8);
        }
    }
    let _ = fuzzing::epub_package(bytes.to_vec());
}

fn file(name: &str) -> Vec<u8> {
    std::fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/files").join(name)).unwrap()
}

/// Real documents, and pieces of markup that the readers know.
fn seeds() -> Vec<Vec<u8>> {
    let mut seeds: Vec<Vec<u8>> =
        ["kite.md", "kite.html", "kite.docx", "kite.odt", "kite.epub", "net.md", "net.docx", "net.odt"]
            .map(file)
            .to_vec();
    let word = "<w:document xmlns:w='http://schemas.openxmlformats.org/wordprocessingml/2006/main' \
                xmlns:mc='http://schemas.openxmlformats.org/markup-compatibility/2006'><w:p><w:pPr><w:rPr><w:del/></w:rPr></w:pPr><w:r><w:rPr>\
                <w:vanish/></w:rPr><w:t>a&amp;&#233;</w:t></w:r><w:r><mc:AlternateContent><mc:Choice><w:p/></mc:Choice><mc:Fallback/>\
                </mc:AlternateContent></w:r></w:p></w:document>";
    let content = "<o:document-content xmlns:o='urn:oasis:names:tc:opendocument:xmlns:office:1.0' \
                   xmlns:t='urn:oasis:names:tc:opendocument:xmlns:text:1.0'><o:text><t:p>a <t:span>b</t:span><t:s t:c='3'/><t:p>c</t:p></t:p>\
                   </o:text></o:document-content>";
    let page = "<p>f<b hidden>i</b>sh &eacute;&amp;&notit;<!-- --><br/>a\r\n<ul><li>a<li>b</ul><pre> a\n</pre><script/><s>x</s>";
    let markdown = "---\na: b\n---\n# a {#b}\n\nf**ish** &eacute; `c` [d](e) <b>x</b> ~~y~~[^1]\n\n- a\n  > b\n\n| a |\n|---|\n| \\| |\n\n[^1]: z\n";
    seeds.extend([word, content, page, markdown].map(|text| text.as_bytes().to_vec()));
    seeds
}

/// A change to a document: at a place, some bytes are replaced by others.
fn change() -> impl Strategy<Value = (prop::sample::Index, usize, Vec<u8>)> {
    let pieces = [
        "",
        "<",
        "</",
        "/>",
        "&",
        ";",
        "&#x110000;",
        "]]>",
        "<!--",
        "\r",
        "\n\n",
        "é",
        "*",
        "`",
        "<w:p>",
        "</w:p>",
        "<t:p>",
        "<!DOCTYPE a [<!ENTITY b 'c'>]>",
    ];
    let bytes = prop_oneof![
        prop::sample::select(pieces.map(|piece| piece.as_bytes().to_vec()).to_vec()),
        prop::collection::vec(any::<u8>(), 0..4),
    ];
    (any::<prop::sample::Index>(), 0_usize..6, bytes)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_bytes_are_too_strange(bytes in prop::collection::vec(any::<u8>(), 0..300)) {
        read_all(&bytes);
    }

    #[test]
    fn no_text_is_too_strange(text in "[ -~\\n\\r\\t<>&;*_`#|~\\[\\]é“\u{ad}\u{feff}-]{0,200}") {
        read_all(text.as_bytes());
    }

    #[test]
    fn no_change_is_too_strange(seed in prop::sample::select(seeds()), changes in prop::collection::vec(change(), 1..6)) {
        let mut bytes = seed;
        for (place, removed, added) in changes {
            let at = place.index(bytes.len() + 1);
            let end = bytes.len().min(at + removed);
            bytes.splice(at..end, added);
        }
        read_all(&bytes);
    }
}
