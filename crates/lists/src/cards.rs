//! Cards of sight words: the letters that say what they should, and those that have to be learnt by heart.

use serde::Serialize;
use untaught::{Judge, LessonIndex, fold_word};

/// Some letters of a word.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct CardPart {
    /// The letters.
    pub letters: String,
    /// Whether they do not say what the children have been taught: the part to learn by heart.
    pub by_heart: bool,
}

/// A card.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct SightCard {
    /// The word.
    pub word: String,
    /// Its letters in order.
    pub parts: Vec<CardPart>,
}

/// The cards of words at a lesson.
#[must_use]
pub fn cards(judge: &Judge<'_>, lesson: LessonIndex, words: &[String]) -> Vec<SightCard> {
    words.iter().map(|word| card(judge, lesson, word)).collect()
}

fn card(judge: &Judge<'_>, lesson: LessonIndex, word: &str) -> SightCard {
    let verdict = judge.judge(&fold_word(word));
    let mut parts: Vec<CardPart> = Vec::new();
    if let Some(reading) = verdict.word.readings.first() {
        let explained = judge.explain_reading(&verdict, reading);
        for (part, explained) in reading.parts.iter().zip(explained.parts) {
            let by_heart = explained.need.lesson().is_none_or(|taught| taught > lesson);
            let letters = part.letters().to_owned();
            match parts.last_mut() {
                Some(last) if last.by_heart == by_heart => last.letters += &letters,
                _ => parts.push(CardPart { letters, by_heart }),
            }
        }
    }
    // The e of a split spelling stands elsewhere, an apostrophe in no part, a capital in the word alone: such a word is shown whole.
    let spelled: String = parts.iter().map(|part| part.letters.as_str()).collect();
    if spelled == word {
        return SightCard { word: word.to_owned(), parts };
    }
    let by_heart = parts.iter().any(|part| part.by_heart);
    SightCard { word: word.to_owned(), parts: vec![CardPart { letters: word.to_owned(), by_heart }] }
}
