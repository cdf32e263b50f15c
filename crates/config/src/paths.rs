//! Paths by which files are compared. Nothing here follows links.

use std::path::{Component, Path, PathBuf};

use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};

/// What is escaped in a URI: all but the unreserved characters of RFC 3986 and the separator of folders.
const ESCAPED: &AsciiSet = &NON_ALPHANUMERIC.remove(b'-').remove(b'.').remove(b'_').remove(b'~').remove(b'/');

/// A path with `/` between its folders, as it stands in a URI.
#[must_use]
pub fn escaped(path: &str) -> String {
    utf8_percent_encode(path, ESCAPED).to_string()
}

/// A path from the root. A relative one counts from the current folder, and an empty one is that folder.
#[must_use]
pub fn absolute(path: &Path) -> PathBuf {
    let path = if path.as_os_str().is_empty() { Path::new(".") } else { path };
    std::path::absolute(path).unwrap_or_else(|_| path.to_owned())
}

/// A path without `.` and `..`, so that one file has one name.
#[must_use]
pub fn clean(path: &Path) -> PathBuf {
    let mut out = PathBuf::new();
    for part in path.components() {
        match part {
            Component::CurDir => {}
            Component::ParentDir if out.file_name().is_some() => {
                out.pop();
            }
            part => out.push(part),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_has_one_name() {
        for (path, made) in [("/a/./b/../c.txt", "/a/c.txt"), ("a/../../b", "../b"), ("/a/b", "/a/b")] {
            assert_eq!(clean(Path::new(path)), Path::new(made), "{path}");
        }
        assert_eq!(absolute(Path::new("/a/b")), Path::new("/a/b"));
        assert!(absolute(Path::new("a")).is_absolute());
        assert_eq!(absolute(Path::new("")), std::env::current_dir().unwrap());
    }
}
