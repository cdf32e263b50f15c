//! What children call their mother: *mum* in Britain, *mom* in America.
//!
//! Both are short words of the first lessons, so sentences and lists use one of them often. The sentences are written with the British
//! word. Spellings (*colour*) are the lexicon's business.

use std::borrow::Cow;

use untaught::Accent;

/// The British word and the American.
const MOTHER: [(&str, &str); 4] = [("Mum", "Mom"), ("Mum's", "Mom's"), ("mum", "mom"), ("mums", "moms")];

/// What is said in only one of the two countries and has no line above.
const ONLY_AMERICAN: [&str; 2] = ["mommy", "mommies"];

/// The word of a sentence that children with this accent use.
pub(crate) fn word(written: &str, accent: Accent) -> &str {
    let american = MOTHER.iter().find(|(british, _)| !accent.is_british() && *british == written);
    american.map_or(written, |(_, american)| american)
}

/// A sentence with the words that children with this accent use.
pub(crate) fn sentence(written: &'static str, accent: Accent) -> Cow<'static, str> {
    if accent.is_british() || !written.contains("um") {
        return Cow::Borrowed(written);
    }
    let words: Vec<&str> = written.split_inclusive(|c: char| !c.is_alphanumeric()).collect();
    let changed = words.iter().map(|piece| {
        let bare = piece.trim_end_matches(|c: char| !c.is_alphanumeric());
        format!("{}{}", word(bare, accent), &piece[bare.len()..])
    });
    Cow::Owned(changed.collect())
}

/// Whether children with this accent say a word (in small letters) for their mother, or it is no such word.
pub(crate) fn is_said(word: &str, accent: Accent) -> bool {
    if accent.is_british() {
        !MOTHER.iter().any(|(_, american)| *american == word) && !ONLY_AMERICAN.contains(&word)
    } else {
        !MOTHER.iter().any(|(british, _)| *british == word)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_american_child_has_a_mom() {
        let written = "\"Hum, Mum,\" said Tim to his mum. Mum's drum is in Mumbai!";
        let american = "\"Hum, Mom,\" said Tim to his mom. Mom's drum is in Mumbai!";
        assert_eq!(sentence(written, Accent::GeneralAmerican), american);
        assert_eq!(sentence(written, Accent::SouthernBritish), written);
        assert!(is_said("mom", Accent::GeneralAmerican) && !is_said("mum", Accent::GeneralAmerican));
        assert!(is_said("mum", Accent::NorthernEnglish) && !is_said("moms", Accent::NorthernEnglish));
        assert!(is_said("gum", Accent::GeneralAmerican));
    }
}
