//! Bytes to text.

use std::borrow::Cow;

use encoding_rs::WINDOWS_1252;

use crate::Problem;

/// A text, and its encoding if that had to be guessed.
pub(crate) type Decoded = (String, Option<&'static str>);

/// Bytes to text: UTF-8, UTF-16 with or without its mark, else the usual encoding of old files. A mark of UTF-8 stays, so that
/// nothing is copied.
pub(crate) fn decode(bytes: Vec<u8>) -> Result<Decoded, Problem> {
    if let Some(big) = utf16_order(&bytes) {
        return as_text(utf16(&bytes, big)?).map(|text| (text, None));
    }
    match String::from_utf8(bytes) {
        Ok(text) => as_text(text).map(|text| (text, None)),
        Err(error) => {
            let at = error.utf8_error().valid_up_to();
            old_encoding(error.as_bytes())
                .map(|text| (text, Some("Windows-1252")))
                .ok_or_else(|| not_text(error.as_bytes(), at))
        }
    }
}

fn utf16(bytes: &[u8], big: bool) -> Result<String, Problem> {
    let skip = if matches!(bytes[..2], [0xff, 0xfe] | [0xfe, 0xff]) { 2 } else { 0 };
    let units = bytes[skip..].chunks(2).map(|pair| match *pair {
        [a, b] if big => u16::from_be_bytes([a, b]),
        [a, b] => u16::from_le_bytes([a, b]),
        // Half a unit at the end: an unpaired surrogate, so that it is an error.
        _ => 0xdfff,
    });
    let mut text = String::with_capacity(bytes.len() / 2);
    let mut at = skip;
    for c in char::decode_utf16(units) {
        let c = c.map_err(|_| Problem::new(format!("is not well-formed UTF-16 near byte {at}; save it as UTF-8")))?;
        text.push(c);
        at += 2 * c.len_utf16();
    }
    Ok(text)
}

/// Windows-1252, where the bytes look like text in it: no controls but those of text, no bytes that it has no letter for.
fn old_encoding(bytes: &[u8]) -> Option<String> {
    let marked = bytes.starts_with(b"\xef\xbb\xbf");
    let strange =
        |byte: &u8| matches!(byte, 0x00..=0x08 | 0x0b | 0x0e..=0x1f | 0x7f | 0x81 | 0x8d | 0x8f | 0x90 | 0x9d);
    if marked || bytes.iter().any(strange) {
        return None;
    }
    WINDOWS_1252.decode_without_bom_handling_and_without_replacement(bytes).map(Cow::into_owned)
}

fn not_text(bytes: &[u8], at: usize) -> Problem {
    if memchr::memchr(0, bytes).is_some() {
        return Problem::new(format!("is not a text file (byte {at}, counted from 0, is not UTF-8)"));
    }
    let line = memchr::memchr_iter(b'\n', &bytes[..at]).count() + 1;
    Problem::new(format!("is not UTF-8: byte {at}, counted from 0, on line {line}; save it as UTF-8 and try again"))
}

/// Refuses what only looks like text: a story has no zero bytes.
pub(crate) fn as_text(text: String) -> Result<String, Problem> {
    match memchr::memchr(0, text.as_bytes()) {
        Some(at) => {
            Err(Problem::new(format!("is not a text file: it has a zero byte, the first at byte {at}, counted from 0")))
        }
        None => Ok(text),
    }
}

/// Whether the bytes are UTF-16, and then whether the high byte comes first.
pub(crate) fn utf16_order(bytes: &[u8]) -> Option<bool> {
    match bytes {
        [0xff, 0xfe, ..] => return Some(false),
        [0xfe, 0xff, ..] => return Some(true),
        _ => {}
    }
    // Without a mark: English in UTF-16 has a zero in nearly every other byte.
    let sample = &bytes[..bytes.len().min(1024) & !1];
    if !sample.contains(&0) {
        return None;
    }
    let zeros = |offset: usize| sample.iter().skip(offset).step_by(2).filter(|b| **b == 0).count();
    let (even, odd) = (zeros(0), zeros(1));
    let half = sample.len() / 2;
    match half {
        0 | 1 => None,
        _ if even * 10 >= half * 9 && odd * 10 <= half => Some(true),
        _ if odd * 10 >= half * 9 && even * 10 <= half => Some(false),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn problem(bytes: &[u8]) -> String {
        decode(bytes.to_vec()).unwrap_err().to_string()
    }

    #[test]
    fn text_is_decoded_or_refused_with_the_place() {
        let utf16 = |text: &str, big: bool| -> Vec<u8> {
            text.encode_utf16().flat_map(|u| if big { u.to_be_bytes() } else { u.to_le_bytes() }).collect()
        };
        let text = |bytes: Vec<u8>| decode(bytes).unwrap();
        assert_eq!(text(utf16("\u{feff}Tam sat.", true)), ("Tam sat.".to_owned(), None));
        assert_eq!(text(utf16("Tam sat é.", false)).0, "Tam sat é.");
        assert_eq!(text(utf16("Tam sat.", true)).0, "Tam sat.");
        assert_eq!(text(Vec::new()).0, "");
        assert_eq!(text(b"a".to_vec()), ("a".to_owned(), None));
        assert_eq!(text("\u{feff}é".as_bytes().to_vec()), ("\u{feff}é".to_owned(), None));
        assert!(problem(b"\x7fELF\x00\x00\xff").contains("not a text file"));
        assert!(problem(b"Tam\0sat").contains("zero byte, the first at byte 3"));
        let mut odd = utf16("\u{feff}Tam", false);
        odd.push(0);
        assert!(problem(&odd).contains("UTF-16"));
        let lone = [utf16("\u{feff}ab", false), vec![0x00, 0xd8, 0x41, 0x00]].concat();
        assert!(problem(&lone).contains("near byte 6"), "{}", problem(&lone));
    }

    #[test]
    fn old_files_are_read_as_windows_1252() {
        let (text, guessed) = decode(b"\x93Tam\x94 sat \x96 in the caf\xe9.\r\n\t".to_vec()).unwrap();
        assert_eq!(text, "“Tam” sat – in the café.\r\n\t");
        assert_eq!(guessed, Some("Windows-1252"));
        for strange in [&b"caf\xe9\x01"[..], b"caf\xe9\x81", b"\xe9\x7f", b"\xef\xbb\xbfcaf\xe9 "] {
            assert!(problem(strange).contains("save it as UTF-8"), "{strange:?}");
        }
        assert!(problem(b"Tam\nsat \xe9\x9d.").contains("byte 8, counted from 0, on line 2"));
    }
}
