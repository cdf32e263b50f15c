//! Words to blend and to take apart by ear, before any letter is seen: the teacher says /sh/ /i/ /p/, the children say *ship*; then the
//! other way round.

use fastrand::Rng;
use serde::Serialize;
use untaught::Focus;

use crate::dictation::draw;
use crate::{Bank, BankWord, WordFilter};

/// A word and its sounds.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct OralWord {
    /// The word.
    pub word: String,
    /// Its sounds as the word spells them, for the teacher to say: `sh`, `i`, `p`.
    pub sounds: Vec<String>,
}

/// The words of a lesson.
#[derive(Clone, PartialEq, Eq, Default, Debug, Serialize)]
pub struct Oral {
    /// To be put together from their sounds.
    pub blend: Vec<OralWord>,
    /// To be taken apart.
    pub segment: Vec<OralWord>,
}

/// Words of each kind.
const WORDS: usize = 6;

/// Makes the lists: words that practise the lesson as far as there are enough, else any that the children can read.
#[must_use]
pub fn oral(bank: &Bank<'_>, focus: &Focus, rng: &mut Rng) -> Oral {
    let short = WordFilter { sounds: 2..=5, ..WordFilter::default() };
    let practise = WordFilter { focus: Some(focus.clone()).filter(|focus| !focus.is_empty()), ..short.clone() };
    let mut words = bank.select(&practise);
    if words.len() < 2 * WORDS {
        words = bank.select(&short);
    }
    let drawn = draw(&words, 2 * WORDS, rng, &Default::default());
    let mut chosen: Vec<&BankWord> =
        drawn.iter().filter_map(|word| words.iter().find(|known| known.word == *word).copied()).collect();
    // Few sounds first.
    chosen.sort_by_key(|word| word.sounds.len());
    let (mut blend, mut segment) = (Vec::new(), Vec::new());
    for (number, word) in chosen.into_iter().enumerate() {
        let list: &mut Vec<OralWord> = if number % 2 == 0 { &mut blend } else { &mut segment };
        let sounds = word.reading.parts.iter().map(|part| part.spelling().to_owned());
        list.push(OralWord { word: word.word.clone(), sounds: sounds.collect() });
    }
    Oral { blend, segment }
}
