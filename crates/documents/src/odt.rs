//! Documents of LibreOffice Writer and others (.odt).

use std::collections::BTreeSet;

use crate::archive::{self, Archive};
use crate::paragraphs::Paragraphs;
use crate::xml::{self, Attributes, Name, Visitor};
use crate::{Document, Problem};

/// How many spaces one element may stand for: no more are needed to part words.
const MAX_SPACES: usize = 10;

/// The text of a document as it is shown, its changes accepted. Headers, footers, notes and comments are left out.
pub(crate) fn read(bytes: Vec<u8>) -> Result<Document, Problem> {
    let mut archive = Archive::open(bytes)?;
    if let Some(manifest) = archive.read("META-INF/manifest.xml")? {
        let mut locks = OdtLocks::default();
        xml::walk(manifest, &mut locks)?;
        if locks.found {
            return Err(archive::locked());
        }
    }
    let content = archive.read("content.xml")?.ok_or_else(not_a_text)?;
    text(content).map(|text| Document::paragraphs(text, None))
}

/// The text of the content.
pub(crate) fn text(content: Vec<u8>) -> Result<String, Problem> {
    let mut story = OdtStory::default();
    xml::walk(content, &mut story)?;
    if story.is_text { Ok(story.paragraphs.finish()) } else { Err(not_a_text()) }
}

fn not_a_text() -> Problem {
    Problem::new("has no text document inside: open it, save it as .odt and try again")
}

/// Looks whether anything is encrypted.
#[derive(Default)]
struct OdtLocks {
    found: bool,
}

impl Visitor for OdtLocks {
    fn start(&mut self, name: Name<'_>, _: &Attributes<'_>) -> bool {
        self.found |= name == ("manifest", "encryption-data");
        true
    }
}

/// Collects what is shown.
#[derive(Default)]
struct OdtStory {
    paragraphs: Paragraphs,
    is_text: bool,
    /// The style that is being read: what it is for, and its name.
    style: (String, String),
    /// The styles that hide what they are used for.
    hiding: BTreeSet<(String, String)>,
}

impl OdtStory {
    /// Whether the style of an element hides it.
    fn hides(&self, family: &str, attributes: &Attributes<'_>) -> bool {
        !self.hiding.is_empty()
            && attributes.get("style-name").is_some_and(|name| self.hiding.contains(&(family.to_owned(), name)))
    }
}

impl Visitor for OdtStory {
    fn start(&mut self, name: Name<'_>, attributes: &Attributes<'_>) -> bool {
        match name {
            ("office", "text") => self.is_text = true,
            ("style", "style") => {
                let get = |name| attributes.get(name).unwrap_or_default();
                self.style = (get("family"), get("name"));
            }
            ("style", "text-properties") => {
                let struck = attributes.get("text-line-through-style").is_some_and(|line| line != "none")
                    || attributes.get("text-line-through-type").is_some_and(|line| line != "none");
                if struck || attributes.is("display", "none") {
                    self.hiding.insert(self.style.clone());
                }
            }
            ("text", "p" | "h") => {
                self.paragraphs.begin();
                if self.hides("paragraph", attributes) {
                    // It is counted all the same.
                    self.paragraphs.end(false);
                    return false;
                }
            }
            ("text", "span") => return !self.hides("text", attributes),
            ("text", "section") => return !attributes.is("display", "none"),
            ("text", "s") => {
                let count = attributes.get("c").map_or(1, |count| count.parse().unwrap_or(1_usize));
                self.paragraphs.push(&" ".repeat(count.min(MAX_SPACES)));
            }
            ("text", "tab") => self.paragraphs.push("\t"),
            ("text", "line-break") => self.paragraphs.push(" "),
            // What was deleted, notes, the sounds above a word, what is hidden, and the numbers of lists.
            ("text", "tracked-changes" | "note" | "ruby-text" | "hidden-text" | "hidden-paragraph" | "number")
            | ("office", "annotation" | "forms" | "scripts")
            // Texts that describe pictures, and cells under a wider one.
            | ("svg", "title" | "desc")
            | ("table", "covered-table-cell") => return false,
            _ => {}
        }
        true
    }

    fn end(&mut self, name: Name<'_>) {
        if let ("text", "p" | "h") = name {
            self.paragraphs.end(false);
        }
    }

    fn text(&mut self, text: &str) {
        self.paragraphs.push_collapsed(text);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Unit;
    use crate::archive::made::archive;

    fn content(styles: &str, body: &str) -> Vec<u8> {
        let namespaces: String = ["office", "text", "style", "table"]
            .iter()
            .map(|name| format!(" xmlns:{name}='urn:oasis:names:tc:opendocument:xmlns:{name}:1.0'"))
            .collect();
        format!(
            "<office:document-content{namespaces} xmlns:draw='urn:d' xmlns:svg='urn:oasis:names:tc:opendocument:xmlns:svg-compatible:1.0'>\
             <office:automatic-styles>{styles}</office:automatic-styles>\
             <office:body><office:text>{body}</office:text></office:body></office:document-content>"
        )
        .into_bytes()
    }

    fn shown(body: &str) -> String {
        text(content("", body)).unwrap()
    }

    #[test]
    fn spans_join_and_white_space_collapses() {
        assert_eq!(
            shown(
                "\n<text:h>The <text:span>k</text:span>ite</text:h>\n<text:p/>\n<text:p>\n  a\n  b<text:s/><text:s text:c='3'/>c<text:tab/>d\
                 <text:line-break/>e <text:span> f</text:span></text:p>\
                 <text:list><text:list-item><text:number>1.</text:number><text:p>g</text:p></text:list-item></text:list>"
            ),
            "The kite\n\na b    c\td e f\ng"
        );
        assert_eq!(shown("<text:p>a<text:s text:c='999999999999'/>b<text:s text:c='x'/>c</text:p>").len(), 14);
    }

    #[test]
    fn what_is_not_shown_is_left_out() {
        assert_eq!(
            shown(
                "<text:tracked-changes><text:changed-region><text:deletion><text:p>no</text:p></text:deletion></text:changed-region>\
                 </text:tracked-changes><text:p>a<text:note><text:note-body><text:p>no</text:p></text:note-body></text:note>\
                 <office:annotation><text:p>no</text:p></office:annotation><text:hidden-text>no</text:hidden-text>b\
                 <text:ruby><text:ruby-base>c</text:ruby-base><text:ruby-text>no</text:ruby-text></text:ruby></text:p>\
                 <text:section text:display='none'><text:p>no</text:p></text:section><text:section><text:p>d</text:p></text:section>\
                 <text:p>e<draw:frame><draw:text-box><text:p>box</text:p></draw:text-box><svg:desc>no</svg:desc></draw:frame>f</text:p>"
            ),
            "abc\nd\nef\nbox"
        );
    }

    #[test]
    fn styles_may_hide() {
        let styles = "<style:style style:name='T1' style:family='text'><style:text-properties text:display='none'/></style:style>\
                      <style:style style:name='T2' style:family='text'><style:text-properties style:text-line-through-style='solid'/></style:style>\
                      <style:style style:name='T3' style:family='text'><style:text-properties style:text-line-through-style='none'/></style:style>\
                      <style:style style:name='P1' style:family='paragraph'><style:text-properties text:display='none'/></style:style>";
        let body = "<text:p text:style-name='T1'>a<text:span text:style-name='T1'>no<text:span>no</text:span></text:span>\
                    <text:span text:style-name='T2'>no</text:span><text:span text:style-name='T3'>b</text:span></text:p>\
                    <text:p text:style-name='P1'>no<draw:frame><text:p>no</text:p></draw:frame></text:p><text:p>c</text:p>";
        assert_eq!(text(content(styles, body)).unwrap(), "ab\n\nc");
    }

    #[test]
    fn documents_are_read_or_refused() {
        let document = read(archive(&[("content.xml", &content("", "<text:p>Tam</text:p>"))])).unwrap();
        assert_eq!((document.text(), document.unit()), ("Tam", Unit::Paragraph));
        let problem = |files: &[(&str, &[u8])]| read(archive(files)).unwrap_err().to_string();
        let manifest = b"<m:manifest xmlns:m='urn:oasis:names:tc:opendocument:xmlns:manifest:1.0'><m:encryption-data/></m:manifest>";
        assert!(problem(&[("content.xml", b"\x01\x02"), ("META-INF/manifest.xml", manifest)]).contains("password"));
        assert!(problem(&[("a", b"")]).contains("no text document"));
        assert!(problem(&[("content.xml", b"<a/>")]).contains("no text document"));
        assert!(problem(&[("content.xml", b"<a>")]).contains("breaks off"));
    }
}
