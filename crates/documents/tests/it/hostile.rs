//! Documents that nobody means to give: small files that would become large ones, and markup without end. Each is refused with a
//! sentence that says what to do, or read as well as it can be.

use std::io::{Cursor, Write as _};

use untaught_documents::{Kind, read};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

/// What ends every refusal of a document that is too much.
const TOO_MUCH: &str = "; save only the story, as plain text, and try again";
/// What ends every refusal of a document that is not as it should be.
const DAMAGED: &str = "): open it in the program it was made with, save it again and try again";

fn refusal(kind: Kind, bytes: Vec<u8>) -> String {
    read(kind, bytes).map_or_else(|problem| problem.to_string(), |document| panic!("{:.200}", document.text()))
}

fn archive(files: &[(&str, &[u8])]) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in files {
        zip.start_file(*name, SimpleFileOptions::default().compression_method(CompressionMethod::Deflated)).unwrap();
        zip.write_all(bytes).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

fn docx(document: &str) -> Vec<u8> {
    let relations = "<Relationships xmlns='http://schemas.openxmlformats.org/package/2006/relationships'><Relationship Id='a' \
        Type='http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument' Target='word/document.xml'/>\
        </Relationships>";
    archive(&[("_rels/.rels", relations.as_bytes()), ("word/document.xml", document.as_bytes())])
}

/// The body of a Word document.
fn body(content: &str) -> String {
    format!(
        "<w:document xmlns:w='http://schemas.openxmlformats.org/wordprocessingml/2006/main'><w:body>{content}</w:body></w:document>"
    )
}

/// The parts of an e-book that say which pages it has.
fn frame(pages: usize) -> [(&'static str, String); 2] {
    let container = "<container xmlns='urn:oasis:names:tc:opendocument:xmlns:container'><rootfiles><rootfile full-path='o'/></rootfiles></container>";
    let items: String =
        (0..pages).map(|n| format!("<item id='p{n}' href='p{n}' media-type='application/xhtml+xml'/>")).collect();
    let order: String = (0..pages).map(|n| format!("<itemref idref='p{n}'/>")).collect();
    let package = format!(
        "<package xmlns='http://www.idpf.org/2007/opf'><manifest>{items}</manifest><spine>{order}</spine></package>"
    );
    [("META-INF/container.xml", container.to_owned()), ("o", package)]
}

fn epub(pages: &[&[u8]]) -> Vec<u8> {
    let frame = frame(pages.len());
    let names: Vec<String> = (0..pages.len()).map(|n| format!("p{n}")).collect();
    let mut files: Vec<(&str, &[u8])> = frame.iter().map(|(name, text)| (*name, text.as_bytes())).collect();
    files.extend(names.iter().map(String::as_str).zip(pages.iter().copied()));
    archive(&files)
}

/// An entry of a directory: a name, where its file begins, and what is said of it: the checksum and both sizes.
type Entry = (String, u32, [u32; 3]);

/// A directory of an archive, by hand.
fn directory(entries: &[Entry], at: usize) -> Vec<u8> {
    let mut out = Vec::new();
    for (name, start, said) in entries {
        out.extend(b"PK\x01\x02\x14\0\x14\0\0\0\x08\0\0\0\x21\0");
        out.extend(said.map(u32::to_le_bytes).concat());
        out.extend((name.len() as u32).to_le_bytes());
        out.extend([0; 10]);
        out.extend(start.to_le_bytes());
        out.extend(name.as_bytes());
    }
    let size = out.len() as u32;
    out.extend(b"PK\x05\x06\0\0\0\0");
    out.extend([(entries.len() as u16).to_le_bytes(); 2].concat());
    out.extend([size, at as u32].map(u32::to_le_bytes).concat());
    out.extend([0; 2]);
    out
}

/// An archive without its directory, and the entries of that.
fn taken_apart(archive: &[u8]) -> (Vec<u8>, Vec<Entry>) {
    let number = |at: usize| u32::from_le_bytes(archive[at..at + 4].try_into().unwrap());
    let starts: Vec<usize> =
        archive.windows(4).enumerate().filter(|(_, four)| four == b"PK\x01\x02").map(|(at, _)| at).collect();
    let entries = starts.iter().map(|at| {
        let name = &archive[at + 46..at + 46 + (number(at + 28) & 0xffff) as usize];
        (
            String::from_utf8(name.to_vec()).unwrap(),
            number(at + 42),
            [number(at + 16), number(at + 20), number(at + 24)],
        )
    });
    (archive[..starts[0]].to_vec(), entries.collect())
}

#[test]
fn pages_that_share_their_bytes_are_refused() {
    let page = b"<p>".iter().chain(b"night ".repeat(100_000).iter()).copied().collect::<Vec<u8>>();
    let (files, mut entries) = taken_apart(&epub(&[&page]));
    let whole = |entries: &[Entry]| [&files[..], &directory(entries, files.len())].concat();
    assert_eq!(read(Kind::Epub, whole(&entries)).unwrap().text().len(), 599_999);
    let (_, start, said) = entries.pop().unwrap();
    let frame = frame(230);
    let (files, mut entries) = {
        let parts: Vec<(&str, &[u8])> =
            frame.iter().map(|(name, text)| (*name, text.as_bytes())).chain([("p0", &page[..])]).collect();
        taken_apart(&archive(&parts))
    };
    assert_eq!(entries[2].2, said);
    assert!(entries[2].1 > start);
    let shared = entries[2].clone();
    entries.extend((1..230).map(|n| (format!("p{n}"), shared.1, shared.2)));
    let bomb = [&files[..], &directory(&entries, files.len())].concat();
    assert!(bomb.len() < 30_000);
    assert_eq!(refusal(Kind::Epub, bomb), format!("is damaged (the files in it overlap{DAMAGED}"));
}

#[test]
fn directories_without_end_are_refused_unread() {
    let entries: Vec<Entry> = (0..100_000).map(|n| (n.to_string(), 0, [0; 3])).collect();
    let bytes = [b"PK\x03\x04", &directory(&entries, 4)[..]].concat();
    for kind in [Kind::Epub, Kind::Docx, Kind::Odt] {
        assert_eq!(
            refusal(kind, bytes.clone()),
            format!("was not read: it has more than 10,000 files inside{TOO_MUCH}")
        );
    }
    // At each of many ends, a directory of many entries that turns out to be none.
    let entries: Vec<Entry> = (0..9_000).map(|n| (n.to_string(), 0, [0; 3])).collect();
    let whole = directory(&entries, 4);
    let (entries, end) = whole.split_at(whole.len() - 22);
    let bytes = [b"PK\x03\x04", &entries[..entries.len() - 10], &end.repeat(20_000)[..]].concat();
    assert_eq!(refusal(Kind::Docx, bytes), format!("is damaged (it has more than one directory{DAMAGED}"));
}

#[test]
fn archives_unpack_to_little_more_than_they_are() {
    let page = [b"<p>", &b"night ".repeat(170_000)[..]].concat();
    let pages: Vec<&[u8]> = vec![&page; 200];
    let said = refusal(Kind::Epub, epub(&pages));
    assert!(said.starts_with("was not read: it unpacks to more than ") && said.ends_with(TOO_MUCH), "{said}");
    let most: u32 = said.split(' ').nth(8).unwrap().parse().unwrap();
    assert!(most < 20, "{said}");
    let zeros = docx(&"\0".repeat(30 << 20));
    assert!(zeros.len() < 40_000);
    assert!(refusal(Kind::Docx, zeros).starts_with("was not read: it unpacks to more than "), "zeros");
    // A book of five hundred pages is nothing out of the ordinary.
    let page = [b"<p>", &b"The goat sat on the mat and the sun was hot. ".repeat(40)[..]].concat();
    assert_eq!(read(Kind::Epub, epub(&vec![&page[..]; 500])).unwrap().text().lines().count(), 500);
}

#[test]
fn markup_without_end_is_refused_or_read() {
    let deep = "<w:p>".repeat(100_000);
    assert_eq!(refusal(Kind::Docx, docx(&body(&deep))), format!("was not read: it is nested too deeply{TOO_MUCH}"));
    let spaces: String = (0..10_000).map(|n| format!(" xmlns:n{n}='u{n}'")).collect();
    let said = refusal(Kind::Docx, docx(&body(&format!("<w:p{spaces}/>"))));
    assert_eq!(said, format!("is damaged (its namespaces are ambiguous{DAMAGED}"));
    let entities: String =
        (1..20).map(|n| format!("<!ENTITY e{n} '{}'>", format!("&e{};", n - 1).repeat(10))).collect();
    let bomb = format!("<!DOCTYPE a [<!ENTITY e0 'ha'>{entities}]>{}", body("<w:p><w:r><w:t>&e19;</w:t></w:r></w:p>"));
    let said = refusal(Kind::Docx, docx(&bomb));
    assert_eq!(said, format!("is damaged (it defines its own entities, which are not decoded{DAMAGED}"));
    let attributes: String = (0..100_000).map(|n| format!(" a{n}='1'")).collect();
    let flood = body(&format!("<w:p{attributes}><w:r><w:t>Sam</w:t></w:r></w:p>"));
    assert_eq!(read(Kind::Docx, docx(&flood)).unwrap().text(), "Sam");
    for unit in ["<div>", "<b>", "<table><tr><td>", "<p a=b>", "&amp;", "<!--", "<", "</p>", "<svg>"] {
        let page = format!("<p>Sam</p>{}", unit.repeat((1 << 20) / unit.len()));
        assert!(read(Kind::Html, page.into_bytes()).unwrap().text().starts_with("Sam"), "{unit}");
    }
    for unit in [">", "- ", "[", "![", "*", "`", "<a ", "|a|\n|-|\n", "[a]: b\n"] {
        let page = format!("Sam\n\n{}", unit.repeat((1 << 20) / unit.len()));
        assert!(read(Kind::Markdown, page.into_bytes()).unwrap().text().starts_with("Sam"), "{unit}");
    }
}
