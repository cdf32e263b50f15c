//! The encoding of an HTML file.

use encoding_rs::{Encoding, UTF_8, UTF_16BE, UTF_16LE};
use memchr::memmem;

use crate::Problem;
use crate::decode::{self, Decoded};

/// How far into a file its encoding may be named.
const NAMED_WITHIN: usize = 1024;

/// Bytes to text: by the byte order mark, else by the encoding that the file names, else as any text.
pub(crate) fn decode(bytes: Vec<u8>) -> Result<Decoded, Problem> {
    let marked = bytes.starts_with(b"\xef\xbb\xbf") || decode::utf16_order(&bytes).is_some();
    let named = if marked { None } else { named(&bytes[..bytes.len().min(NAMED_WITHIN)]) };
    let text = match named {
        // Whoever reads the name reads bytes: it cannot be UTF-16.
        Some(encoding) if ![UTF_8, UTF_16BE, UTF_16LE].contains(&encoding) => {
            encoding.decode_without_bom_handling_and_without_replacement(&bytes)
        }
        _ => None,
    };
    match text {
        Some(text) => decode::as_text(text.into_owned()).map(|text| (text, None)),
        None => decode::decode(bytes),
    }
}

/// The encoding that a file names: `charset` in a `meta` element, or `encoding` in an XML declaration.
fn named(head: &[u8]) -> Option<&'static Encoding> {
    let head = head.to_ascii_lowercase();
    if head.starts_with(b"<?xml") {
        let declaration = &head[..memchr::memchr(b'>', &head).unwrap_or(head.len())];
        if let Some(at) = memmem::find(declaration, b"encoding") {
            return label(&declaration[at + b"encoding".len()..]);
        }
    }
    let mut from = 0;
    while let Some(at) = memmem::find(&head[from..], b"<meta") {
        let tag = &head[from + at..];
        let tag = &tag[..memchr::memchr(b'>', tag).unwrap_or(tag.len())];
        if let Some(encoding) = memmem::find(tag, b"charset").and_then(|at| label(&tag[at + b"charset".len()..])) {
            return Some(encoding);
        }
        from += at + 1;
    }
    None
}

/// The encoding in `="label"`.
fn label(value: &[u8]) -> Option<&'static Encoding> {
    let value = value.trim_ascii_start().strip_prefix(b"=")?.trim_ascii_start();
    let value = value.strip_prefix(b"\"").or(value.strip_prefix(b"'")).unwrap_or(value);
    let end = value.iter().position(|byte| b"\"';/? \t\r\n".contains(byte)).unwrap_or(value.len());
    Encoding::for_label(&value[..end])
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(bytes: &[u8]) -> (String, Option<&'static str>) {
        let (text, guessed) = decode(bytes.to_vec()).unwrap();
        (text.rsplit('>').next().unwrap().to_owned(), guessed)
    }

    #[test]
    fn the_named_encoding_counts() {
        for (bytes, shown) in [
            (&b"<meta charset=iso-8859-2>\xb3"[..], "ł"),
            (b"<META name=a><meta http-equiv=x content='text/html; CharSet=windows-1250'>\xb3", "ł"),
            (b"<?xml version='1.0' encoding='koi8-r'?>\xc1", "а"),
            (b"<meta charset = \"utf-8\">\xc3\xa9", "é"),
            (b"<meta charset=utf-16>\xc3\xa9", "é"),
            (b"<meta charset=shift_jis>\x82\xa0", "あ"),
            ("\u{feff}<meta charset=iso-8859-2>é".as_bytes(), "é"),
            ("<p>é".as_bytes(), "é"),
        ] {
            assert_eq!(text(bytes), (shown.to_owned(), None));
        }
    }

    #[test]
    fn without_a_name_old_bytes_are_guessed() {
        assert_eq!(text(b"<p>caf\xe9"), ("café".to_owned(), Some("Windows-1252")));
        assert_eq!(text(b"<meta charset=utf-8>caf\xe9"), ("café".to_owned(), Some("Windows-1252")));
        assert_eq!(text(b"<meta charset=nonsense>caf\xe9"), ("café".to_owned(), Some("Windows-1252")));
        assert!(decode(b"<meta charset=iso-8859-2>\0".to_vec()).unwrap_err().to_string().contains("zero byte"));
    }
}
