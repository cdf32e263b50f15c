//! E-books (.epub).

mod package;

use crate::archive::Archive;
use crate::xml::{self, Attributes, Name, Visitor};
use crate::{Document, Problem, html};

/// The text of a book: its pages in reading order, a paragraph a line. Pages beside the order and the table of contents are left out.
pub(crate) fn read(bytes: Vec<u8>) -> Result<Document, Problem> {
    let mut archive = Archive::open(bytes)?;
    if archive.has("META-INF/encryption.xml") {
        let mut locks = Locks::default();
        xml::walk(archive.need("META-INF/encryption.xml")?, &mut locks)?;
        if locks.found {
            return Err(Problem::new(
                "is an e-book with copy protection: ask the seller for an unprotected copy, or copy the story into a text file",
            ));
        }
    }
    let mut container = Container::default();
    xml::walk(archive.read("META-INF/container.xml")?.ok_or_else(not_a_book)?, &mut container)?;
    let path = container.package.ok_or_else(not_a_book)?;
    let pages = package::pages(archive.need(&path)?, &path)?;
    let mut text = String::new();
    let mut guessed = None;
    for page in pages {
        let (page, encoding) = page_text(archive.need(&page)?)?;
        guessed = guessed.or(encoding);
        for paragraph in page.lines().filter(|line| !line.trim().is_empty()) {
            if !text.is_empty() {
                text.push('\n');
            }
            text.push_str(paragraph);
        }
    }
    Ok(Document::paragraphs(text, guessed))
}

/// The names of the pages that a package lists, for `fuzzing`.
pub(crate) fn page_names(package: Vec<u8>) -> Result<Vec<String>, Problem> {
    package::pages(package, "")
}

/// The text of a page, and its encoding if that had to be guessed.
pub(crate) fn page_text(bytes: Vec<u8>) -> Result<(String, Option<&'static str>), Problem> {
    let (page, guessed) = html::decode(bytes)?;
    Ok((html::extract(&page, ' ').finish().0, guessed))
}

fn not_a_book() -> Problem {
    Problem::new("has no e-book inside: export it as .epub again and try again")
}

/// Finds the name of the package, which says what the book is made of.
#[derive(Default)]
struct Container {
    package: Option<String>,
}

impl Visitor for Container {
    fn start(&mut self, name: Name<'_>, attributes: &Attributes<'_>) -> bool {
        if name == ("container", "rootfile") && self.package.is_none() {
            self.package = attributes.get("full-path");
        }
        true
    }
}

/// Looks whether anything is encrypted. Fonts that are only made hard to copy do not matter.
#[derive(Default)]
struct Locks {
    found: bool,
}

impl Visitor for Locks {
    fn start(&mut self, name: Name<'_>, attributes: &Attributes<'_>) -> bool {
        // The key itself may be encrypted, too: only the method of the data counts, and it comes first.
        match name {
            ("enc", "EncryptedKey") => return false,
            ("enc", "EncryptionMethod") => {
                let method = attributes.get("Algorithm").unwrap_or_default();
                self.found |=
                    !matches!(method.as_str(), "http://www.idpf.org/2008/embedding" | "http://ns.adobe.com/pdf/enc#RC");
            }
            _ => {}
        }
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Unit;
    use crate::archive::made::archive;

    const CONTAINER: &[u8] = b"<container xmlns='urn:oasis:names:tc:opendocument:xmlns:container'><rootfiles>\
        <rootfile full-path='OEBPS/book.opf' media-type='application/oebps-package+xml'/></rootfiles></container>";
    const PACKAGE: &[u8] = b"<package xmlns='http://www.idpf.org/2007/opf'><manifest>\
        <item id='one' href='pages/one%20one.xhtml#x' media-type='application/xhtml+xml'/>\
        <item id='two' href='./pages/../two.xhtml' media-type='application/xhtml+xml'/>\
        <item id='beside' href='beside.xhtml' media-type='application/xhtml+xml'/>\
        <item id='contents' href='nav.xhtml' media-type='application/xhtml+xml' properties='scripted nav'/>\
        <item id='cover' href='cover.svg' media-type='image/svg+xml'/></manifest>\
        <spine><itemref idref='contents'/><itemref idref='cover'/><itemref idref='two'/><itemref idref='beside' linear='no'/>\
        <itemref idref='one'/><itemref idref='unknown'/><itemref idref='two'/></spine></package>";
    const ONE: &[u8] = b"<?xml version='1.0'?><html><head><title/></head><body><p>three<br/>three</p><p> </p><p>f<b>our</b></p></body></html>";
    const TWO: &[u8] = b"<html><head><title>no</title></head><body><h1>one</h1><p>caf\xc3\xa9&nbsp;</p></body></html>";

    fn book<'b>(more: &[(&'b str, &'b [u8])]) -> Vec<u8> {
        let mut files = vec![
            ("mimetype", &b"application/epub+zip"[..]),
            ("META-INF/container.xml", CONTAINER),
            ("OEBPS/book.opf", PACKAGE),
            ("OEBPS/pages/one one.xhtml", ONE),
            ("OEBPS/two.xhtml", TWO),
        ];
        files.extend(more);
        archive(&files)
    }

    #[test]
    fn pages_come_in_reading_order() {
        let document = read(book(&[])).unwrap();
        assert_eq!(document.text(), "one\ncafé\u{a0}\nthree three\nfour");
        assert_eq!((document.unit(), document.decoded_from()), (Unit::Paragraph, None));
        assert_eq!(document.to_source(9), 9);
    }

    #[test]
    fn protected_books_are_refused() {
        let encryption = |method: &str| {
            format!(
                "<encryption xmlns='urn:oasis:names:tc:opendocument:xmlns:container' xmlns:e='http://www.w3.org/2001/04/xmlenc#'>\
                 <e:EncryptedData><e:EncryptionMethod Algorithm='{method}'/></e:EncryptedData></encryption>"
            )
        };
        let with = |method| read(book(&[("META-INF/encryption.xml", encryption(method).as_bytes())]));
        assert!(with("http://www.idpf.org/2008/embedding").is_ok());
        assert!(
            with("http://www.w3.org/2001/04/xmlenc#aes128-cbc").unwrap_err().to_string().contains("copy protection")
        );
    }

    #[test]
    fn damaged_books_are_refused() {
        let problem = |files: &[(&str, &[u8])]| read(archive(files)).unwrap_err().to_string();
        assert!(problem(&[("a", b"")]).contains("no e-book"));
        assert!(problem(&[("META-INF/container.xml", b"<a/>")]).contains("no e-book"));
        assert!(problem(&[("META-INF/container.xml", CONTAINER)]).contains("missing: OEBPS/book.opf"));
        let pages = [("META-INF/container.xml", CONTAINER), ("OEBPS/book.opf", PACKAGE), ("OEBPS/two.xhtml", TWO)];
        assert!(problem(&pages).contains("missing: OEBPS/pages/one one.xhtml"));
    }
}
