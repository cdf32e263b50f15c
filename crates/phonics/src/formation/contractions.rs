//! Contractions: *it's*, *don't*, *we're*.

/// Whether a word is a contraction rather than a possessive.
#[must_use]
pub fn is_contraction(word: &str) -> bool {
    const WITH_S: [&str; 14] = [
        "it's", "he's", "she's", "that's", "what's", "there's", "here's", "who's", "let's", "where's", "how's",
        "when's", "why's", "one's",
    ];
    const ENDINGS: [&str; 6] = ["n't", "'m", "'re", "'ve", "'ll", "'d"];
    word.contains('\'') && (ENDINGS.iter().any(|ending| word.ends_with(ending)) || WITH_S.contains(&word))
}

/// Whether a word is a possessive: *Sam's*, *the dogs'*.
#[must_use]
pub fn is_possessive(word: &str) -> bool {
    (word.ends_with("'s") || word.ends_with("s'")) && !is_contraction(word)
}
