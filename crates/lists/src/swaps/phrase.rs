//! Words and short phrases in the form of the word that they replace: *say to* in the past is *said to*.

use super::forms::{FormKind, spellings};
use super::table::PartOfSpeech;

/// A word or phrase of the table in a form, if `is_word` knows every word of it; none where the form would be no word.
pub(crate) fn in_form(
    phrase: &str,
    part_of_speech: PartOfSpeech,
    form: FormKind,
    is_word: impl Fn(&str) -> bool,
) -> Option<String> {
    let words: Vec<&str> = phrase.split(' ').collect();
    let marked = words.iter().position(|word| word.ends_with('*'));
    // Of a verb phrase the first word has the form, of others the last: *look at*, *big cat*.
    let usual = if part_of_speech == PartOfSpeech::Verb { 0 } else { words.len() - 1 };
    let changing = marked.unwrap_or(usual);
    // *more glad* is not what *gladder* means to a child.
    if matches!(form, FormKind::Er | FormKind::Est) && words.len() > 1 {
        return None;
    }
    let mut made = Vec::with_capacity(words.len());
    for (at, word) in words.iter().enumerate() {
        let word = word.strip_suffix('*').unwrap_or(word);
        let formed = if at == changing && form != FormKind::Base {
            spellings(word, form).into_iter().find(|spelling| is_word(spelling))?
        } else {
            word.to_owned()
        };
        if !is_word(&formed) {
            return None;
        }
        made.push(formed);
    }
    Some(made.join(" "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_right_word_of_a_phrase_changes() {
        for (phrase, part_of_speech, form, made) in [
            ("say to", PartOfSpeech::Verb, FormKind::Past, Some("said to")),
            ("run", PartOfSpeech::Verb, FormKind::Ing, Some("running")),
            ("get going", PartOfSpeech::Verb, FormKind::S, Some("gets going")),
            ("big cat", PartOfSpeech::Noun, FormKind::Plural, Some("big cats")),
            ("cup* of milk", PartOfSpeech::Noun, FormKind::Plural, Some("cups of milk")),
            ("sheep", PartOfSpeech::Noun, FormKind::Plural, Some("sheep")),
            ("big", PartOfSpeech::Adjective, FormKind::Est, Some("biggest")),
            ("very big", PartOfSpeech::Adjective, FormKind::Er, None),
            ("very big", PartOfSpeech::Adjective, FormKind::Base, Some("very big")),
        ] {
            assert_eq!(in_form(phrase, part_of_speech, form, |_| true).as_deref(), made, "{phrase}");
        }
        assert_eq!(in_form("vast", PartOfSpeech::Adjective, FormKind::Er, |word| word == "vast"), None);
    }
}
