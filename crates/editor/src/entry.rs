//! What stands at a place in a scope file: found by looking back over the text, so that it is found while the file is being written
//! and cannot be read yet.

use std::ops::Range;

/// The lists of a lesson, and the other keys of a scope file.
const KEYS: [&str; 12] =
    ["format", "title", "about", "source", "lessons", "id", "teach", "sight", "skills", "review", "names", "scope"];

/// What an entry is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum EntryKind {
    /// A pattern.
    Pattern,
    /// A skill.
    Skill,
    /// A key of a lesson.
    Key,
    /// Free text.
    Other,
}

/// An entry of a list, or what has been written of it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct ScopeEntry {
    pub(crate) kind: EntryKind,
    /// Where it stands, without quotes: from its beginning to its end.
    pub(crate) span: Range<usize>,
    /// The quote it stands in.
    pub(crate) quote: Option<char>,
}

/// The entry at an offset. Cost: a look back to the last key.
pub(crate) fn entry(text: &str, offset: usize) -> ScopeEntry {
    let line_start = text[..offset].rfind('\n').map_or(0, |at| at + 1);
    let before = &text[line_start..offset];
    let other = |kind| ScopeEntry { kind, span: offset..offset, quote: None };
    if before.trim_start().starts_with('#') || before.contains(" #") {
        return other(EntryKind::Other);
    }
    let kind = match last_key(&text[..offset]) {
        Some("teach" | "review") => EntryKind::Pattern,
        Some("skills") => EntryKind::Skill,
        _ => EntryKind::Other,
    };
    let is_edge = |c: char| matches!(c, '[' | ']' | ',' | '{' | '}' | '\n' | '\r');
    let mut start = text[..offset].rfind(is_edge).map_or(0, |at| at + 1);
    // The dash of a list and the colon of a key begin an entry too.
    for mark in ["- ", ": "] {
        if let Some(at) = text[start..offset].rfind(mark) {
            start += at + mark.len();
        }
    }
    let blank = |text: &str| text.len() - text.trim_start().len();
    start += blank(&text[start..offset]);
    let quote = text[start..offset].chars().next().filter(|c| matches!(c, '"' | '\''));
    start += quote.map_or(0, char::len_utf8);
    let is_end = |c: char| is_edge(c) || matches!(c, '"' | '\'') && quote == Some(c) || c == '#';
    let end = text[offset..].find(is_end).map_or(text.len(), |at| offset + at);
    let end = start + text[start..end.max(start)].trim_end().len();
    let span = start..end.max(offset.min(end)).max(start);
    // A line on its own within the lessons may begin a key.
    let fresh = before.trim_start_matches([' ', '-']).chars().all(char::is_alphabetic) && !before.trim().is_empty();
    let in_list = text[..offset].rfind(['[', ']']).is_some_and(|at| text[at..].starts_with('['));
    if fresh && !in_list && !before.contains("- ") && text[..line_start].contains("lessons:") {
        return ScopeEntry { kind: EntryKind::Key, span, quote: None };
    }
    ScopeEntry { kind, span, quote }
}

/// The key whose value comes last in a text.
fn last_key(text: &str) -> Option<&'static str> {
    let mut rest = text;
    while let Some(at) = rest.rfind(':') {
        let word = rest[..at].rfind(|c: char| !c.is_ascii_alphabetic()).map_or(0, |at| at + 1);
        let word = rest.get(word..at).unwrap_or_default();
        let ended = text[at + 1..].chars().next().is_none_or(char::is_whitespace);
        if let Some(key) = KEYS.into_iter().find(|key| ended && *key == word) {
            return Some(key);
        }
        rest = &rest[..at];
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What stands at the mark `|`.
    fn at(text: &str) -> (EntryKind, String) {
        let offset = text.find('|').unwrap();
        let text = text.replacen('|', "", 1);
        let found = entry(&text, offset);
        (found.kind, text[found.span].to_owned())
    }

    #[test]
    fn entries_are_found_as_they_are_written() {
        for (text, kind, written) in [
            ("lessons:\n- teach: [s, a|", EntryKind::Pattern, "a"),
            ("lessons:\n- teach: [s, ea as in br|ead, t]", EntryKind::Pattern, "ea as in bread"),
            ("lessons:\n- teach: [|]", EntryKind::Pattern, ""),
            ("lessons:\n- teach: [\"n|\", x]", EntryKind::Pattern, "n"),
            ("lessons:\n  - teach:\n      - s\n      - sh|\n", EntryKind::Pattern, "sh"),
            ("lessons:\n- review: [s]\n  sight: [th|e]", EntryKind::Other, "the"),
            ("lessons:\n- {teach: [s], skills: [init|]}", EntryKind::Skill, "init"),
            ("lessons:\n- teach: [s,\n    a,\n    c|k]", EntryKind::Pattern, "ck"),
            ("lessons:\n- teach: [s]\n  sk|", EntryKind::Key, "sk"),
            ("lessons:\n- teach: [s] # sh|", EntryKind::Other, ""),
            ("title: a|", EntryKind::Other, "a"),
            ("|", EntryKind::Other, ""),
        ] {
            assert_eq!(at(text), (kind, written.to_owned()), "{text:?}");
        }
    }
}
