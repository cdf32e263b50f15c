//! Which reader a file is for.

use memchr::memmem;

use crate::Problem;

/// A kind of document.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Kind {
    /// Plain text.
    Text,
    /// Markdown (CommonMark with tables and footnotes).
    Markdown,
    /// HTML and XHTML.
    Html,
    /// The format of Microsoft Word since 2007.
    Docx,
    /// The format of LibreOffice Writer.
    Odt,
    /// An e-book.
    Epub,
}

const ENDINGS: [(&str, Kind); 9] = [
    ("txt", Kind::Text),
    ("md", Kind::Markdown),
    ("markdown", Kind::Markdown),
    ("html", Kind::Html),
    ("htm", Kind::Html),
    ("xhtml", Kind::Html),
    ("docx", Kind::Docx),
    ("odt", Kind::Odt),
    ("epub", Kind::Epub),
];

impl Kind {
    /// The kind that the ending of a name stands for; none where no reader is for it. For walking folders.
    #[must_use]
    pub fn of_name(name: &str) -> Option<Kind> {
        // A name that is all ending (`.md`) is a hidden file without one.
        let (stem, ending) = name.rsplit_once('.')?;
        if stem.is_empty() || stem.ends_with(['/', '\\']) {
            return None;
        }
        ENDINGS.iter().find(|(known, _)| known.eq_ignore_ascii_case(ending)).map(|(_, kind)| *kind)
    }

    /// The kind of a file: by the ending of its name, plain text where that says nothing. Archives that say what they are inside
    /// are believed.
    ///
    /// # Errors
    /// The bytes are of a kind that no reader is for, or not what the name says.
    pub fn of(name: &str, bytes: &[u8]) -> Result<Kind, Problem> {
        let kind = Kind::of_name(name).unwrap_or(Kind::Text);
        match (kind, Look::of(bytes)) {
            (_, Look::Pdf) => Err(Problem::new("is a PDF: save it as .docx, .odt or plain text and try again")),
            (_, Look::Locked) => {
                Err(Problem::new("is protected by a password: open it, save it without the password and try again"))
            }
            (_, Look::Ole) => Err(Problem::new(
                "is an old Word document (.doc) or another old office file: save it as .docx, .odt or plain text and try again",
            )),
            (_, Look::Rtf) => {
                Err(Problem::new("is rich text (RTF): save it as .docx, .odt or plain text and try again"))
            }
            (Kind::Docx | Kind::Odt | Kind::Epub, Look::Zip(inside)) => Ok(inside.unwrap_or(kind)),
            (Kind::Docx | Kind::Odt | Kind::Epub, Look::Nothing) => {
                Err(Problem::new("is empty: perhaps saving or copying it was interrupted"))
            }
            (Kind::Docx, Look::Other) => Err(not_a("a Word document (.docx)")),
            (Kind::Odt, Look::Other) => Err(not_a("a text document (.odt)")),
            (Kind::Epub, Look::Other) => Err(not_a("an e-book (.epub)")),
            (_, Look::Zip(_)) => Err(Problem::new(
                "is not a text file but an archive (zip): if it is a .docx, .odt or .epub, rename it with that extension",
            )),
            (_, Look::Nothing | Look::Other) => Ok(kind),
        }
    }
}

fn not_a(what: &str) -> Problem {
    Problem::new(format!("has the extension of {what} but is not one: open it, save it as one and try again"))
}

/// What bytes look like from outside.
enum Look {
    Nothing,
    Pdf,
    Rtf,
    /// An old office file.
    Ole,
    /// An office file behind a password: it is wrapped in an old one.
    Locked,
    /// An archive, with its kind if it says it in its first entry.
    Zip(Option<Kind>),
    Other,
}

impl Look {
    fn of(bytes: &[u8]) -> Look {
        /// The name of the stream that holds what is encrypted.
        const LOCKED: &[u8] = b"E\0n\0c\0r\0y\0p\0t\0e\0d\0P\0a\0c\0k\0a\0g\0e\0";
        match bytes {
            [] => Look::Nothing,
            [b'%', b'P', b'D', b'F', b'-', ..] => Look::Pdf,
            [b'{', b'\\', b'r', b't', b'f', ..] => Look::Rtf,
            [b'P', b'K', 3, 4, ..] => Look::Zip(declared(bytes)),
            // An archive without entries, or a part of one.
            [b'P', b'K', 5, 6, ..] | [b'P', b'K', 7, 8, ..] => Look::Zip(None),
            [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1, ..] if memmem::find(bytes, LOCKED).is_some() => {
                Look::Locked
            }
            [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1, ..] => Look::Ole,
            _ => Look::Other,
        }
    }
}

/// What an archive says it is: odt and epub have to begin with an entry of that name, unpacked.
fn declared(bytes: &[u8]) -> Option<Kind> {
    let rest = bytes.get(30..)?.strip_prefix(b"mimetype")?;
    if rest.starts_with(b"application/epub+zip") {
        Some(Kind::Epub)
    } else if rest.starts_with(b"application/vnd.oasis.opendocument.text") {
        Some(Kind::Odt)
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_tell_the_kind() {
        for (name, kind) in [
            ("a.txt", Some(Kind::Text)),
            ("A.TXT", Some(Kind::Text)),
            ("a.b/story.Md", Some(Kind::Markdown)),
            ("story.markdown", Some(Kind::Markdown)),
            ("story.xhtml", Some(Kind::Html)),
            ("story.docx", Some(Kind::Docx)),
            ("story.doc", None),
            ("story", None),
            (".md", None),
            ("folder/.md", None),
            ("folder.md/story", None),
            ("", None),
        ] {
            assert_eq!(Kind::of_name(name), kind, "{name}");
        }
        assert_eq!(Kind::of("story", b"Sam sat."), Ok(Kind::Text));
        assert_eq!(Kind::of("-", b""), Ok(Kind::Text));
    }

    #[test]
    fn bytes_that_are_something_else_are_refused() {
        let ole = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1 W\0o\0r\0d\0";
        let locked = [&ole[..], b"E\0n\0c\0r\0y\0p\0t\0e\0d\0P\0a\0c\0k\0a\0g\0e\0"].concat();
        for (name, bytes, part) in [
            ("a.txt", &b"%PDF-1.7"[..], "is a PDF: save it as"),
            ("a.docx", b"%PDF-1.7", "is a PDF"),
            ("a", b"PK\x03\x04....", "rename it with that extension"),
            ("a.html", b"PK\x05\x06", "archive"),
            ("a.doc", ole, "old Word document"),
            ("a.docx", &locked, "password"),
            ("a.rtf", b"{\\rtf1", "RTF"),
            ("a.docx", b"Sam sat.", "a Word document (.docx) but is not one"),
            ("a.odt", b"", "is empty"),
            ("a.epub", b"<html>", "but is not one"),
        ] {
            let problem = Kind::of(name, bytes).unwrap_err().to_string();
            assert!(problem.contains(part), "{name}: {problem}");
        }
    }

    #[test]
    fn an_archive_that_says_what_it_is_is_believed() {
        let head = b"PK\x03\x04--------------------------mimetype";
        let odt = [&head[..], b"application/vnd.oasis.opendocument.textPK"].concat();
        let epub = [&head[..], b"application/epub+zipPK"].concat();
        assert_eq!(Kind::of("a.docx", &odt), Ok(Kind::Odt));
        assert_eq!(Kind::of("a.odt", &epub), Ok(Kind::Epub));
        assert_eq!(Kind::of("a.odt", b"PK\x03\x04"), Ok(Kind::Odt));
    }
}
