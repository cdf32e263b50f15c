//! Links in terminals that have them: a click on the name of a story opens it.

use std::path::Path;
use std::sync::OnceLock;

use untaught_config::{absolute, escaped};

/// A path as a URI: with `/`, everything but the unreserved letters of RFC 3986 escaped.
pub(crate) fn uri(name: &str) -> String {
    let name = name.replace(std::path::MAIN_SEPARATOR, "/");
    escaped(name.trim_start_matches("./"))
}

/// A text that is harmless already, as a link to a file if standard output is a terminal that shows links; the text alone otherwise.
pub(crate) fn link(shown: &str, path: Option<&Path>) -> String {
    static SUPPORTED: OnceLock<bool> = OnceLock::new();
    let supported = *SUPPORTED.get_or_init(|| supports_hyperlinks::on(supports_hyperlinks::Stream::Stdout));
    match path.filter(|_| supported) {
        Some(path) => linked(shown, &absolute(path)),
        None => shown.to_owned(),
    }
}

fn linked(shown: &str, path: &Path) -> String {
    format!("\u{1b}]8;;file://{}\u{1b}\\{shown}\u{1b}]8;;\u{1b}\\", uri(&path.display().to_string()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_become_uris() {
        assert_eq!(uri("./week 1/the café#2.txt"), "week%201/the%20caf%C3%A9%232.txt");
        assert_eq!(uri("/shelf/a.txt"), "/shelf/a.txt");
        assert_eq!(uri("-"), "-");
    }

    /// Nothing of a name can end the link, or be anything else to the terminal.
    #[test]
    fn a_link_has_only_its_own_escapes() {
        let made = linked("a", Path::new("/x/\u{1b}]8;;evil\u{7}.txt"));
        assert_eq!(made, "\u{1b}]8;;file:///x/%1B%5D8%3B%3Bevil%07.txt\u{1b}\\a\u{1b}]8;;\u{1b}\\");
    }
}
