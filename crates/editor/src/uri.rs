//! Paths to URIs, which are what the protocol calls files, and back.

use std::path::{Path, PathBuf};
use std::str::FromStr as _;

use lsp_types::Uri;
use untaught_config::clean;

/// The path of a `file:` URI; none of any other.
pub(crate) fn to_path(uri: &Uri) -> Option<PathBuf> {
    let rest = uri.as_str().strip_prefix("file:")?;
    let rest = rest.strip_prefix("//").map_or(rest, |rest| &rest[rest.find('/').unwrap_or(rest.len())..]);
    let rest = rest.split(['?', '#']).next().unwrap_or(rest);
    let text = decode(rest)?;
    // `/c:/stories` is a path of Windows.
    let drive = text.as_bytes().get(2) == Some(&b':') && cfg!(windows);
    Some(clean(Path::new(if drive { &text[1..] } else { &text })))
}

/// The URI of a path.
pub(crate) fn from_path(path: &Path) -> Option<Uri> {
    let text = path.to_str()?;
    let mut out = String::from(if text.starts_with('/') { "file://" } else { "file:///" });
    for byte in text.replace('\\', "/").bytes() {
        match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'/' | b'-' | b'_' | b'.' | b'~' => out.push(char::from(byte)),
            byte => out.push_str(&format!("%{byte:02X}")),
        }
    }
    Uri::from_str(&out).ok()
}

fn decode(text: &str) -> Option<String> {
    let mut out = Vec::with_capacity(text.len());
    let mut bytes = text.bytes();
    while let Some(byte) = bytes.next() {
        if byte != b'%' {
            out.push(byte);
            continue;
        }
        let mut digit = || char::from(bytes.next()?).to_digit(16);
        out.push(u8::try_from(digit()? * 16 + digit()?).ok()?);
    }
    String::from_utf8(out).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_and_uris_turn_into_each_other() {
        for name in ["/stories/the kite.txt", "/stories/é%20+&.md", "/a#b?.txt"] {
            let made = from_path(Path::new(name)).unwrap();
            assert_eq!(to_path(&made).as_deref(), Some(Path::new(name)), "{}", made.as_str());
        }
        let of = |text: &str| to_path(&Uri::from_str(text).unwrap());
        assert_eq!(of("untitled:Untitled-1"), None);
        assert_eq!(of("file:///a/./b/../c.txt"), Some(PathBuf::from("/a/c.txt")));
        assert_eq!(of("file://host/a.txt"), Some(PathBuf::from("/a.txt")));
    }
}
