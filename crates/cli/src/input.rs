//! Reading texts and scope files: bytes to text, with a sentence where that cannot be done.

use std::fs;
use std::io::{self, IsTerminal as _, Read as _, Write as _};
use std::path::Path;

use untaught::{Fault, Reader, Scope};

use crate::output::Failure;

/// Reads a text file, or standard input for `-`.
pub(crate) fn read(path: &Path, stdin_name: &str) -> Result<String, String> {
    let (name, bytes) = if path == Path::new("-") {
        let mut bytes = Vec::new();
        if io::stdin().is_terminal() {
            // Whoever cannot read this can still paste.
            let _ = writeln!(io::stderr(), "Paste the story, then press Ctrl-D on a line of its own.");
        }
        io::stdin().lock().read_to_end(&mut bytes).map_err(|e| format!("standard input cannot be read: {e}"))?;
        (stdin_name.to_owned(), bytes)
    } else {
        let name = path.display().to_string();
        if path.is_dir() {
            return Err(format!("{name} is a folder; name the stories in it, such as {name}/*.txt"));
        }
        let bytes = fs::read(path).map_err(|error| match error.kind() {
            io::ErrorKind::NotFound => format!("there is no file {name}"),
            io::ErrorKind::PermissionDenied => format!("{name} may not be read: permission denied"),
            _ => format!("{name} cannot be read: {error}"),
        })?;
        (name, bytes)
    };
    decode(bytes).map_err(|problem| format!("{name} {problem}"))
}

/// Bytes to text: UTF-8, or UTF-16 with or without its mark.
fn decode(bytes: Vec<u8>) -> Result<String, String> {
    if let Some(big) = utf16_order(&bytes) {
        let skip = if matches!(bytes[..2], [0xff, 0xfe] | [0xfe, 0xff]) { 2 } else { 0 };
        let units = bytes[skip..].chunks(2).map(|pair| match *pair {
            [a, b] if big => u16::from_be_bytes([a, b]),
            [a, b] => u16::from_le_bytes([a, b]),
            _ => 0xdfff,
        });
        let mut text = String::with_capacity(bytes.len() / 2);
        let mut at = skip;
        for c in char::decode_utf16(units) {
            text.push(c.map_err(|_| format!("is not well-formed UTF-16 near byte {at}; save it as UTF-8"))?);
            at += 2 * text.chars().next_back().map_or(1, char::len_utf16);
        }
        return as_text(text);
    }
    let text = String::from_utf8(bytes).map_err(|error| {
        let at = error.utf8_error().valid_up_to();
        let line = error.as_bytes()[..at].iter().filter(|b| **b == b'\n').count() + 1;
        if error.as_bytes().contains(&0) {
            format!("is not a text file (byte {at}, counted from 0, is not UTF-8)")
        } else {
            format!("is not UTF-8: byte {at}, counted from 0, on line {line}; save it as UTF-8 and try again")
        }
    })?;
    as_text(text)
}

/// Refuses what only looks like text: a story has no zero bytes.
fn as_text(text: String) -> Result<String, String> {
    match memchr::memchr(0, text.as_bytes()) {
        Some(at) => Err(format!("is not a text file: it has a zero byte, the first at byte {at}, counted from 0")),
        None => Ok(text),
    }
}

/// Whether the bytes are UTF-16, and then whether the high byte comes first.
fn utf16_order(bytes: &[u8]) -> Option<bool> {
    match bytes {
        [0xff, 0xfe, ..] => return Some(false),
        [0xfe, 0xff, ..] => return Some(true),
        _ => {}
    }
    // Without a mark: English in UTF-16 has a zero in nearly every other byte.
    let sample = &bytes[..bytes.len().min(1024) & !1];
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

/// The scope that counts where none is named.
pub(crate) const DEFAULT_SCOPE: &str = "starter";

/// Reads a scope by name or path; the default if none is given.
pub(crate) fn scope(given: Option<&str>, reader: &Reader) -> Result<Scope, Failure> {
    let given = given.unwrap_or(DEFAULT_SCOPE);
    if let Some(scope) = Scope::embedded(given, reader) {
        return Ok(scope);
    }
    let path = Path::new(given);
    if !path.exists() && !given.contains(['/', '\\', '.']) {
        let names: Vec<&str> = Scope::all_embedded().map(|(name, _)| name).collect();
        let message = format!(
            "there is no scope file {given}, and no scope of that name comes with the program (it has {})",
            names.join(", ")
        );
        return Err(Failure::Message(message));
    }
    if path.is_dir() {
        return Err(Failure::Message(format!("{given} is a folder, not a scope file")));
    }
    if !path.exists() && given != "-" {
        return Err(Failure::Message(format!("there is no scope file {given}")));
    }
    let text = read(path, "-").map_err(|problem| Failure::Message(format!("the scope file {problem}")))?;
    Scope::parse(&text, reader).map_err(|faults| Failure::Message(listed(given, &faults)))
}

/// All faults of a file, one a line: `file:line:column: what`.
fn listed(name: &str, faults: &[Fault]) -> String {
    let lines = faults
        .iter()
        .map(|fault| format!("{name}:{}:{}: {}", fault.position.line, fault.position.column, fault.message));
    format!("the scope file cannot be used\n{}", lines.collect::<Vec<_>>().join("\n"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_is_decoded_or_refused_with_the_place() {
        let utf16 = |text: &str, big: bool| -> Vec<u8> {
            text.encode_utf16().flat_map(|u| if big { u.to_be_bytes() } else { u.to_le_bytes() }).collect()
        };
        assert_eq!(decode(utf16("\u{feff}Sam sat.", true)).unwrap(), "Sam sat.");
        assert_eq!(decode(utf16("Sam sat é.", false)).unwrap(), "Sam sat é.");
        assert_eq!(decode(utf16("Sam sat.", true)).unwrap(), "Sam sat.");
        assert_eq!(decode(Vec::new()).unwrap(), "");
        assert_eq!(decode(b"a".to_vec()).unwrap(), "a");
        assert!(decode(b"Sam\nsat \xe9.".to_vec()).unwrap_err().contains("byte 8, counted from 0, on line 2"));
        assert!(decode(b"\x7fELF\x00\x00\xff".to_vec()).unwrap_err().contains("not a text file"));
        let mut odd = utf16("\u{feff}Sam", false);
        odd.push(0);
        assert!(decode(odd).unwrap_err().contains("UTF-16"));
    }
}
