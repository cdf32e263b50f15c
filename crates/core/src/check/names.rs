//! What looks like a name: a word that is always written with a capital, and not only where a sentence begins.

use crate::fold_word;

/// Before a name: *Mr Bodger*.
const TITLES: [&str; 8] = ["dr", "miss", "mister", "mr", "mrs", "ms", "prof", "sir"];

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
    written.len() <= 6 && written.starts_with(char::is_uppercase) && is_a_title(&fold_word(written))
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
        for (word, is) in
            [("monday", true), ("mondays", true), ("christmas's", true), ("christmas", true), ("tam", false)]
        {
            assert_eq!(is_of_calendar(word), is, "{word}");
        }
    }
}
