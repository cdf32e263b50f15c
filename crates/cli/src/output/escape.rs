//! Text that cannot act on a terminal.

use std::borrow::Cow;
use std::fmt::Display;
use std::path::Path;

/// Text without control characters: each is shown as its code. The ends of its lines stay, so that it must not stand within a line.
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

/// The same in one line: for names and other things of a text that stand within a sentence, or at its beginning.
pub(crate) fn one_line(text: &str) -> Cow<'_, str> {
    let mut text = match is_plain(text) || !text.contains(is_unsafe) {
        true => Cow::Borrowed(text),
        false => Cow::Owned(safe(text).to_string().replace('\n', "\\u{a}").replace('\t', "\\u{9}")),
    };
    // What commands a log: `::error::` at the beginning of a line, `##[error]` and `##vso[task.complete]` anywhere.
    if text.trim_start().starts_with("::") {
        text = Cow::Owned(text.replacen(':', "\\u{3a}", 1));
    }
    if text.contains("##") {
        let mut shown = String::new();
        for (at, c) in text.char_indices() {
            let rest = text[at..].strip_prefix('#').filter(|_| text[..at].ends_with('#'));
            match rest.is_some_and(|rest| rest.trim_start_matches(char::is_alphanumeric).starts_with('[')) {
                true => shown += "\\u{23}",
                false => shown.push(c),
            }
        }
        text = Cow::Owned(shown);
    }
    text
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

    #[test]
    fn nothing_commands_a_log() {
        for (text, shown) in [
            ("::error::x", "\\u{3a}:error::x"),
            (" \u{a0}::error::x", " \u{a0}\\u{3a}:error::x"),
            ("a::error::x", "a::error::x"),
            ("a ##[error]x", "a #\\u{23}[error]x"),
            ("##vso[task.complete]", "#\\u{23}vso[task.complete]"),
            ("###[a] ## b [c] ##", "##\\u{23}[a] ## b [c] ##"),
        ] {
            assert_eq!(one_line(text), shown);
        }
    }
}
