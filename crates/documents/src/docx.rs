//! Documents of Microsoft Word (.docx).

use crate::archive::Archive;
use crate::paragraphs::Paragraphs;
use crate::xml::{self, Attributes, Name, Visitor};
use crate::{Document, Problem};

/// The text of a document as it is shown, its changes accepted. Headers, footers, notes and comments are left out.
pub(crate) fn read(bytes: Vec<u8>) -> Result<Document, Problem> {
    let mut archive = Archive::open(bytes)?;
    let mut start = Start::default();
    if let Some(relationships) = archive.read("_rels/.rels")? {
        xml::walk(relationships, &mut start)?;
    }
    let main = match start.main {
        Some(target) => archive.need(target.trim_start_matches('/'))?,
        None => archive.read("word/document.xml")?.ok_or_else(not_word)?,
    };
    text(main).map(|text| Document::paragraphs(text, None))
}

/// The text of the main part.
pub(crate) fn text(main: Vec<u8>) -> Result<String, Problem> {
    let mut story = DocxStory::default();
    xml::walk(main, &mut story)?;
    if story.is_word { Ok(story.paragraphs.finish()) } else { Err(not_word()) }
}

fn not_word() -> Problem {
    Problem::new("has no text of a Word document inside: open it, save it as .docx and try again")
}

/// Finds the name of the main part.
#[derive(Default)]
struct Start {
    main: Option<String>,
}

impl Visitor for Start {
    fn start(&mut self, name: Name<'_>, attributes: &Attributes<'_>) -> bool {
        if name == ("rel", "Relationship")
            && self.main.is_none()
            && attributes.get("Type").is_some_and(|kind| kind.ends_with("/officeDocument"))
        {
            self.main = attributes.get("Target");
        }
        true
    }
}

/// Collects what is shown.
#[derive(Default)]
struct DocxStory {
    paragraphs: Paragraphs,
    is_word: bool,
    /// For each open paragraph, whether its end was deleted.
    ends: Vec<bool>,
    /// For each open run, whether it is hidden. A text box has runs within a run.
    runs: Vec<bool>,
    /// For each open choice, whether one was taken.
    choices: Vec<bool>,
    in_text: bool,
    in_paragraph_properties: bool,
}

impl DocxStory {
    fn shown(&mut self, text: &str) {
        if !self.runs.last().is_some_and(|hidden| *hidden) && !self.in_paragraph_properties {
            self.paragraphs.push(text);
        }
    }
}

impl Visitor for DocxStory {
    fn start(&mut self, name: Name<'_>, attributes: &Attributes<'_>) -> bool {
        match name {
            ("w", "document") => self.is_word = true,
            ("w", "p") => {
                self.paragraphs.begin();
                self.ends.push(false);
            }
            ("w", "pPr") => self.in_paragraph_properties = true,
            ("w", "r") => self.runs.push(self.runs.last().copied().unwrap_or(false)),
            // Among the properties of a paragraph these are about its end.
            ("w", "del" | "moveFrom") => {
                if let Some(end) = self.ends.last_mut().filter(|_| self.in_paragraph_properties) {
                    *end = true;
                }
                return false;
            }
            // What was, what is computed, the sounds above a word, and settings that may hold texts.
            ("w", "delText" | "instrText" | "delInstrText" | "rt" | "rPrChange" | "pPrChange" | "sdtPr" | "sectPr") => {
                return false;
            }
            ("w", "vanish" | "strike" | "dstrike") => {
                let off = attributes.get("val").is_some_and(|value| matches!(value.as_str(), "0" | "false" | "off"));
                if let Some(hidden) = self.runs.last_mut().filter(|_| !off && !self.in_paragraph_properties) {
                    *hidden = true;
                }
            }
            ("w", "t") => self.in_text = true,
            ("w", "tab" | "ptab") => self.shown("\t"),
            ("w", "br" | "cr") => self.shown(" "),
            ("w", "noBreakHyphen") => self.shown("-"),
            ("w", "softHyphen") => self.shown("\u{ad}"),
            // The same thing in several ways, the best first.
            ("mc", "AlternateContent") => self.choices.push(false),
            ("mc", "Choice" | "Fallback") => {
                return self.choices.last_mut().is_none_or(|taken| !std::mem::replace(taken, true));
            }
            _ => {}
        }
        true
    }

    fn end(&mut self, name: Name<'_>) {
        match name {
            ("w", "p") => {
                let joins = self.ends.pop().unwrap_or(false);
                self.paragraphs.end(joins);
            }
            ("w", "pPr") => self.in_paragraph_properties = false,
            ("w", "r") => {
                self.runs.pop();
            }
            ("w", "t") => self.in_text = false,
            ("mc", "AlternateContent") => {
                self.choices.pop();
            }
            _ => {}
        }
    }

    fn text(&mut self, text: &str) {
        if self.in_text {
            self.shown(text);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::archive::made::archive;
    use crate::{Kind, Unit};

    const NAMESPACES: &str = "xmlns:w='http://schemas.openxmlformats.org/wordprocessingml/2006/main' \
         xmlns:mc='http://schemas.openxmlformats.org/markup-compatibility/2006' xmlns:m='urn:m' xmlns:v='urn:v'";

    fn main_part(body: &str) -> Vec<u8> {
        format!("<?xml version='1.0'?><w:document {NAMESPACES}><w:body>{body}</w:body></w:document>").into_bytes()
    }

    fn shown(body: &str) -> String {
        text(main_part(body)).unwrap()
    }

    #[test]
    fn runs_join_and_paragraphs_are_lines() {
        assert_eq!(
            shown(
                "<w:p><w:pPr><w:tabs><w:tab/></w:tabs></w:pPr><w:r><w:rPr><w:b/></w:rPr><w:t>f</w:t></w:r><w:r><w:t>ish</w:t></w:r>\
                 <w:hyperlink><w:r><w:t xml:space='preserve'> and</w:t></w:r></w:hyperlink></w:p>\n<w:p><w:r><w:t>c</w:t></w:r></w:p>"
            ),
            "fish and\nc"
        );
    }

    #[test]
    fn white_space_and_hyphens() {
        assert_eq!(
            shown(
                "<w:p/><w:p><w:r><w:t>a</w:t><w:tab/><w:t>b</w:t><w:br/><w:t>c</w:t><w:cr/><w:t>d\ne</w:t></w:r></w:p>\
                 <w:p><w:r><w:t>f</w:t><w:noBreakHyphen/><w:t>g</w:t><w:softHyphen/><w:t>h &amp; &#233;</w:t></w:r></w:p>"
            ),
            "\na\tb c d e\nf-g\u{ad}h & é"
        );
    }

    #[test]
    fn what_is_not_shown_is_left_out() {
        assert_eq!(
            shown(
                "<w:p><w:del><w:r><w:delText>no</w:delText></w:r></w:del><w:moveFrom><w:r><w:t>no</w:t></w:r></w:moveFrom>\
                 <w:ins><w:r><w:t>a</w:t></w:r></w:ins><w:moveTo><w:r><w:t>b</w:t></w:r></w:moveTo>\
                 <w:r><w:rPr><w:vanish/></w:rPr><w:t>no</w:t></w:r><w:r><w:rPr><w:vanish w:val='0'/></w:rPr><w:t>c</w:t></w:r>\
                 <w:r><w:rPr><w:rPrChange><w:rPr><w:vanish/></w:rPr></w:rPrChange></w:rPr><w:t>d</w:t></w:r>\
                 <w:r><w:rPr><w:strike/></w:rPr><w:t>no</w:t></w:r>\
                 <w:r><w:instrText>no</w:instrText></w:r><w:r><w:footnoteReference w:id='1'/></w:r><m:oMath><m:t>no</m:t></m:oMath></w:p>\
                 <w:p><w:pPr><w:rPr><w:vanish/></w:rPr></w:pPr><w:r><w:t>e</w:t></w:r></w:p>"
            ),
            "abcd\ne"
        );
    }

    #[test]
    fn a_deleted_end_joins_paragraphs() {
        let deleted = "<w:pPr><w:rPr><w:del w:id='1'/></w:rPr></w:pPr>";
        assert_eq!(
            shown(&format!(
                "<w:p>{deleted}<w:r><w:t>f</w:t></w:r></w:p><w:p><w:r><w:t>ish</w:t></w:r></w:p><w:p><w:r><w:t>a</w:t></w:r></w:p>\
                 <w:p>{deleted}<w:del><w:r><w:delText>no</w:delText></w:r></w:del></w:p><w:p><w:r><w:t>b</w:t></w:r></w:p>"
            )),
            "fish\na\nb"
        );
    }

    #[test]
    fn text_boxes_count_once_and_cells_are_paragraphs() {
        let boxed = "<w:txbxContent><w:p><w:r><w:t>box</w:t></w:r></w:p></w:txbxContent>";
        assert_eq!(
            shown(&format!(
                "<w:p><w:r><w:t>be</w:t></w:r><w:r><mc:AlternateContent><mc:Choice>{boxed}</mc:Choice><mc:Choice>{boxed}</mc:Choice>\
                 <mc:Fallback><v:textbox>{boxed}</v:textbox></mc:Fallback></mc:AlternateContent></w:r><w:r><w:t>fore</w:t></w:r></w:p>\
                 <w:p><w:r><mc:AlternateContent><mc:Fallback>{boxed}</mc:Fallback></mc:AlternateContent></w:r></w:p>\
                 <w:p><w:r><w:rPr><w:vanish/></w:rPr>{boxed}</w:r></w:p>\
                 <w:tbl><w:tr><w:tc><w:p><w:r><w:t>cell</w:t></w:r></w:p></w:tc><w:tc><w:p/></w:tc></w:tr></w:tbl>\
                 <w:sdt><w:sdtPr><w:t>no</w:t></w:sdtPr><w:sdtContent><w:p><w:r><w:t>in</w:t></w:r></w:p></w:sdtContent></w:sdt>"
            )),
            "before\nbox\n\nbox\n\n\ncell\n\nin"
        );
    }

    #[test]
    fn the_main_part_is_found() {
        let relationships = |target: &str| {
            format!(
                "<Relationships xmlns='http://schemas.openxmlformats.org/package/2006/relationships'><Relationship Type='http://a/core' \
                 Target='no'/><Relationship Type='http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument' \
                 Target='{target}'/></Relationships>"
            )
        };
        let part = main_part("<w:p><w:r><w:t>Tam</w:t></w:r></w:p>");
        let moved = archive(&[("_rels/.rels", relationships("/text/main.xml").as_bytes()), ("text/main.xml", &part)]);
        let bare = archive(&[("word/document.xml", &part)]);
        for bytes in [moved, bare] {
            assert_eq!(Kind::of("a.docx", &bytes), Ok(Kind::Docx));
            let document = read(bytes).unwrap();
            assert_eq!((document.text(), document.unit()), ("Tam", Unit::Paragraph));
            assert_eq!(document.source(), document.text());
        }
        let problem = |bytes: Vec<u8>| read(bytes).unwrap_err().to_string();
        assert!(problem(archive(&[("_rels/.rels", relationships("x").as_bytes())])).contains("missing: x"));
        assert!(problem(archive(&[("a", b"")])).contains("no text of a Word document"));
        assert!(problem(archive(&[("word/document.xml", b"<a/>")])).contains("no text of a Word document"));
        assert!(problem(b"PK\x03\x04 garbage".to_vec()).contains("save it again"));
    }
}
