//! Doubled consonants before endings.

/// Whether a word doubles its last letter before an ending that begins with a vowel: one syllable with one vowel letter and one
/// consonant, *hop*, but not *jump*, *rain*, *box*.
#[must_use]
pub fn doubles(word: &str) -> bool {
    let vowel = |b: &u8| b"aeiouy".contains(b);
    matches!(word.as_bytes(), [head @ .., before, last]
        if !head.iter().any(vowel) && vowel(before) && !vowel(last) && !b"wx".contains(last))
}

#[cfg(test)]
mod tests {
    use super::doubles;

    #[test]
    fn one_vowel_and_one_consonant_double() {
        assert!(["hop", "star", "strip", "up"].into_iter().all(doubles));
        assert!(!["jump", "rain", "box", "row", "hope", "open", "a", "", "day"].into_iter().any(doubles));
    }
}
