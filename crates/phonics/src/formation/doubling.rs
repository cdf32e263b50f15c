//! Doubled consonants before suffixes.

/// Whether a word doubles its last letter before a suffix that begins with a vowel. It has one syllable with one vowel letter and
/// one final consonant: *hop*, *quit*, but not *jump*, *rain*, *box*.
#[must_use]
pub fn doubles(word: &str) -> bool {
    before_single(word).is_some_and(|head| !head.iter().any(is_vowel))
}

/// Whether a word of any length may double its last letter. Letters alone do not decide: *begin* doubles it; *enter* does not,
/// because its last syllable is weak.
#[must_use]
pub(super) fn may_double(word: &str) -> bool {
    before_single(word).is_some_and(|head| !head.last().is_some_and(is_vowel))
}

/// The letters before a word's final single vowel letter and consonant; `None` if the word does not end in these. The u of `qu`
/// does not count as a vowel.
fn before_single(word: &str) -> Option<&[u8]> {
    let [head @ .., before, last] = word.as_bytes() else { return None };
    let single = is_vowel(before) && last.is_ascii_lowercase() && !is_vowel(last) && !b"wx".contains(last);
    let u = usize::from(head.ends_with(b"qu"));
    single.then_some(&head[..head.len() - u])
}

fn is_vowel(letter: &u8) -> bool {
    b"aeiouy".contains(letter)
}

#[cfg(test)]
mod tests {
    use super::{doubles, may_double};

    #[test]
    fn one_vowel_and_one_consonant_double() {
        assert!(["hop", "star", "strip", "up", "quit", "gym"].into_iter().all(doubles));
        assert!(!["jump", "rain", "box", "row", "hope", "open", "a", "", "day", "quiet", "é"].into_iter().any(doubles));
    }

    #[test]
    fn longer_words_may_double() {
        assert!(["hop", "begin", "enter", "equip"].into_iter().all(may_double));
        assert!(!["rain", "complain", "follow", "relax", "carry", "open up?"].into_iter().any(may_double));
    }
}
