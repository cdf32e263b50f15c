//! Folding: reduces different ways of writing a word to one.

use unicode_normalization::UnicodeNormalization as _;

/// Whether a character is invisible and does not separate words: soft hyphen, zero-width space and joiners, word joiner,
/// byte order mark.
pub(super) fn is_invisible(c: char) -> bool {
    matches!(c, '\u{ad}' | '\u{200b}'..='\u{200d}' | '\u{2060}' | '\u{feff}')
}

/// Converts a word to the dictionary's form: lower case, straight apostrophes, no accents, no ligatures (ﬁ), no full-width
/// letters, no invisible characters. Cost: one pass.
#[must_use]
pub fn fold_word(word: &str) -> String {
    if word.is_ascii() {
        return word.trim().to_ascii_lowercase();
    }
    let mut folded = String::with_capacity(word.len());
    for c in word.trim().nfkd().filter(|c| !is_invisible(*c) && !unicode_normalization::char::is_combining_mark(*c)) {
        match c {
            '\u{2019}' | '\u{2018}' | '\u{2bc}' | '\u{ff07}' => folded.push('\''),
            'æ' | 'Æ' => folded.push_str("ae"),
            'œ' | 'Œ' => folded.push_str("oe"),
            'ø' | 'Ø' => folded.push('o'),
            'ß' => folded.push_str("ss"),
            _ => folded.extend(c.to_lowercase()),
        }
    }
    folded
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_ways_to_write_a_word_fold_to_one() {
        for (written, folded) in [
            ("Don\u{2019}t", "don't"),
            ("\u{fb01}sh", "fish"),
            ("ﬆop", "stop"),
            ("ｄｏｇ", "dog"),
            ("ra\u{ad}bbit", "rabbit"),
            ("ca\u{200b}t", "cat"),
            ("café", "cafe"),
            ("cafe\u{301}", "cafe"),
            ("na\u{ef}ve", "naive"),
            ("ŒUVRE", "oeuvre"),
            (" Cat ", "cat"),
        ] {
            assert_eq!(fold_word(written), folded, "{written}");
        }
    }
}
