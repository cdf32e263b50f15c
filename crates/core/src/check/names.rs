//! What looks like a name: a word that is always written with a capital, and not only where a sentence begins.

use std::ops::Range;

use crate::fold_word;

/// Before a name: *Mr Bodger*.
const TITLES: [&str; 22] = [
    "aunt",
    "auntie",
    "aunty",
    "captain",
    "doctor",
    "dr",
    "king",
    "lady",
    "lord",
    "miss",
    "mister",
    "mr",
    "mrs",
    "ms",
    "prince",
    "princess",
    "prof",
    "professor",
    "queen",
    "sir",
    "sister",
    "uncle",
];

/// What a letter or a call begins or ends with, before a name: *Dear Priya*, *Love, Priya*.
const GREETINGS: [&str; 8] = ["dear", "from", "hello", "hey", "hi", "love", "ps", "yours"];

/// Words with a capital that name nobody: days, months and holidays.
const CALENDAR: [&str; 30] = [
    "april",
    "august",
    "christmas",
    "december",
    "diwali",
    "easter",
    "eid",
    "february",
    "friday",
    "halloween",
    "hanukkah",
    "january",
    "july",
    "june",
    "lent",
    "march",
    "may",
    "monday",
    "november",
    "october",
    "passover",
    "ramadan",
    "saturday",
    "september",
    "sunday",
    "thanksgiving",
    "thursday",
    "tuesday",
    "wednesday",
    "xmas",
];

/// Whether a word in a text is a title, before which a name is expected.
pub(super) fn is_title(written: &str) -> bool {
    written.len() <= 9 && written.starts_with(char::is_uppercase) && is_a_title(&fold_word(written))
}

/// Whether a word in a text is a greeting, after which a name is expected.
pub(super) fn is_greeting(written: &str) -> bool {
    written.len() <= 5 && GREETINGS.binary_search(&fold_word(written).as_str()).is_ok()
}

/// Whether what is between a greeting and the next word leaves them together: *Hello, Otis!*
pub(super) fn follows_greeting(between: &[u8]) -> bool {
    matches!(between, [b' '] | [b',', b' ' | b'\n'] | [b'.', b' '])
}

/// Whether a word stands in a line that is written like a title, where capitals say nothing: *Bertie and the Snowman*. Cost: a look at the
/// line, if it is short.
pub(super) fn is_in_title(story: &str, word: &Range<usize>) -> bool {
    const LONGEST: usize = 80;
    let bytes = story.as_bytes();
    let start = bytes[..word.start].iter().rev().take(LONGEST).position(|b| *b == b'\n');
    let end = bytes[word.end..].iter().take(LONGEST).position(|b| *b == b'\n');
    let start = start.map_or(word.start.saturating_sub(LONGEST), |back| word.start - back);
    let whole = start == 0 || bytes.get(start - 1) == Some(&b'\n');
    let end = end.map_or((word.end + LONGEST).min(story.len()), |on| word.end + on);
    let ends = end == story.len() || bytes.get(end) == Some(&b'\n');
    let Some(line) = story.get(start..end).filter(|_| whole && ends) else { return false };
    // A heading in Markdown.
    if line.starts_with('#') && line.trim_start_matches('#').starts_with(' ') {
        return true;
    }
    let line = line.trim();
    let words = || line.split(' ').filter(|word| word.chars().count() > 3);
    line.ends_with(char::is_alphanumeric)
        && words().count() > 1
        && words().all(|word| word.starts_with(|c: char| c.is_uppercase() || !c.is_alphabetic()))
}

/// The same of a folded word.
pub(super) fn is_a_title(word: &str) -> bool {
    TITLES.binary_search(&word).is_ok()
}

/// Whether what is between a title and the next word leaves them together: *Mr. Bodger*.
pub(super) fn follows_title(between: &[u8]) -> bool {
    matches!(between, [b' ' | b'\n'] | [b'.', b' ' | b'\n'])
}

/// Whether a folded word is of the calendar: *Monday*, *Christmas*, also of several or as an owner.
pub(super) fn is_of_calendar(word: &str) -> bool {
    let stem = word.strip_suffix("'s").or_else(|| word.strip_suffix('s')).unwrap_or(word);
    [word, stem].iter().any(|word| CALENDAR.binary_search(word).is_ok())
}

/// Whether a capitalised word may be a name: not *I* or *I'm*, and not a word in all capitals.
pub(super) fn may_be_name(word: &str) -> bool {
    !matches!(word.as_bytes(), [b'I'] | [b'I', b'\'', ..])
        && !word.starts_with("I\u{2019}")
        && word.chars().any(char::is_lowercase)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn titles_and_the_calendar_are_known() {
        assert!(TITLES.is_sorted() && CALENDAR.is_sorted());
        assert!(is_title("Mr") && is_title("Mrs") && !is_title("mr") && !is_title("Mat"));
        assert!(follows_title(b" ") && follows_title(b". ") && !follows_title(b", "));
        assert!(GREETINGS.is_sorted() && is_greeting("Dear") && !is_greeting("Deer") && follows_greeting(b", "));
        let title = |story: &str, word: &str| {
            let at = story.find(word).unwrap();
            is_in_title(story, &(at..at + word.len()))
        };
        assert!(title("Bertie and the Snowman\n\nBertie ran.", "Snowman"));
        assert!(title("# The Big Red Kite\nIt went up.", "Kite"));
        assert!(!title("Then Bertie saw the Snowman.\n", "Snowman"));
        assert!(!title("Bertie met some Snowmen and\n", "Snowmen"));
        assert!(!title("I saw Otis", "Otis"));
        for (word, is) in
            [("monday", true), ("mondays", true), ("christmas's", true), ("christmas", true), ("tam", false)]
        {
            assert_eq!(is_of_calendar(word), is, "{word}");
        }
    }
}
