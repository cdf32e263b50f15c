//! Paths to URIs, which are what the protocol calls files, and back.

use std::path::{Path, PathBuf};
use std::str::FromStr as _;

use lsp_types::Uri;
use percent_encoding::percent_decode_str;
use untaught_config::{clean, escaped};

/// The path of a `file:` URI; none of any other.
pub(crate) fn to_path(uri: &Uri) -> Option<PathBuf> {
    let rest = uri.as_str().strip_prefix("file:")?;
    let rest = rest.strip_prefix("//").map_or(rest, |rest| &rest[rest.find('/').unwrap_or(rest.len())..]);
    let rest = rest.split(['?', '#']).next().unwrap_or(rest);
    let text = percent_decode_str(rest).decode_utf8().ok()?;
    // `/c:/stories` is a path of Windows.
    let drive = text.as_bytes().get(2) == Some(&b':') && cfg!(windows);
    Some(clean(Path::new(if drive { &text[1..] } else { &*text })))
}

/// The URI of a path.
pub(crate) fn from_path(path: &Path) -> Option<Uri> {
    let text = path.to_str()?;
    let before = if text.starts_with('/') { "file://" } else { "file:///" };
    Uri::from_str(&format!("{before}{}", escaped(&text.replace('\\', "/")))).ok()
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
