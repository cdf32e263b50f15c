//! Text that cannot act on a terminal.

use std::borrow::Cow;
use std::fmt::Display;
use std::path::Path;

/// Text without control characters: each is shown as its code.
pub(crate) fn safe(text: &str) -> impl Display + '_ {
    struct Safe<'t>(&'t str);
    impl Display for Safe<'_> {
        fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
            for c in self.0.chars() {
                match c {
                    '\n' | '\t' => write!(f, "{c}")?,
                    _ if is_unsafe(c) => write!(f, "{}", c.escape_unicode())?,
                    _ => write!(f, "{c}")?,
                }
            }
            Ok(())
        }
    }
    Safe(text)
}

/// The same in one line: for names and other things of a text that stand within a sentence.
pub(crate) fn one_line(text: &str) -> Cow<'_, str> {
    match is_plain(text) || !text.contains(is_unsafe) {
        true => Cow::Borrowed(text),
        false => Cow::Owned(safe(text).to_string().replace('\n', "\\u{a}").replace('\t', "\\u{9}")),
    }
}

/// A path in one line.
pub(crate) fn path_line(path: &Path) -> String {
    one_line(&path.display().to_string()).into_owned()
}

/// Control characters, and the marks that change the direction of writing, which can make a terminal lie.
pub(crate) fn is_unsafe(c: char) -> bool {
    let turns = matches!(c, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    c.is_control() || turns
}

/// Whether there is nothing but what ASCII prints: nearly always, and soon seen.
pub(super) fn is_plain(text: &str) -> bool {
    text.bytes().fold(true, |plain, b| plain & (b' '..0x7f).contains(&b))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn control_characters_are_shown_not_sent() {
        assert_eq!(safe("a\u{1b}[31mb\u{7}\u{202e}c\n").to_string(), "a\\u{1b}[31mb\\u{7}\\u{202e}c\n");
        assert_eq!(one_line("a\u{1b}\n\tb\r"), "a\\u{1b}\\u{a}\\u{9}b\\u{d}");
    }
}
