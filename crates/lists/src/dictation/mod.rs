//! Dictation: words and short sentences to spell at a lesson, new ones and review mixed.

mod sentences;
mod written;

use std::collections::HashSet;

use fastrand::Rng;
use serde::Serialize;
use untaught::{Focus, fold_word, tokens};

use crate::fitness::{Purpose, is_fit};
use crate::random::shuffle;
use crate::{Bank, BankWord, CannotMake, WordFilter};

/// Words and sentences to spell.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct Dictation {
    /// Words that practise what the lesson teaches.
    pub new: Vec<String>,
    /// Words that practise what was taught before.
    pub review: Vec<String>,
    /// Words taught whole, the latest first.
    pub sight: Vec<String>,
    /// Sentences.
    pub sentences: Vec<String>,
}

impl Dictation {
    /// The lists of words that are not empty, each with its heading.
    pub fn lists(&self) -> impl Iterator<Item = (&'static str, &[String])> {
        let lists = [("New", &self.new), ("Review", &self.review), ("Sight words", &self.sight)];
        lists.into_iter().filter(|(_, words)| !words.is_empty()).map(|(heading, words)| (heading, words.as_slice()))
    }
}

/// Makes a dictation of so many words of each kind and so many sentences.
///
/// # Errors
/// A sentence, if the lesson has too few words for any of it.
pub fn dictation(
    bank: &Bank<'_>,
    focus: &Focus,
    words: usize,
    sentences: usize,
    seed: u64,
) -> Result<Dictation, CannotMake> {
    let mut rng = Rng::with_seed(seed);
    let short = WordFilter { sounds: 2..=5, ..WordFilter::default() };
    let practise = WordFilter { focus: Some(focus.clone()).filter(|focus| !focus.is_empty()), ..short.clone() };
    let new = draw(&bank.select(&practise), words, &mut rng, &HashSet::new());
    let used: HashSet<String> = new.iter().cloned().collect();
    let before: Vec<&BankWord> =
        bank.select(&short).into_iter().filter(|word| word.first < bank.lesson && word.sounds.len() > 2).collect();
    let review = draw(&before, words, &mut rng, &used);
    let scope = bank.judge.scope();
    let taught =
        scope.indexed_lessons().rev().filter(|(index, _)| *index <= bank.lesson).flat_map(|(_, lesson)| &lesson.sight);
    let sight = taught.filter(|word| is_fit(&fold_word(word), Purpose::Listed)).take(words / 2).cloned().collect();
    let sentences = written_or_made(bank, focus, sentences, &mut rng);
    if new.is_empty() && review.is_empty() && sentences.is_empty() {
        return Err(CannotMake("too few words can be sounded out at this lesson for a dictation".to_owned()));
    }
    Ok(Dictation { new, review, sight, sentences })
}

/// The best sentences of the bank with few words in common; made ones only where the bank has none for the lesson.
fn written_or_made(bank: &Bank<'_>, focus: &Focus, count: usize, rng: &mut Rng) -> Vec<String> {
    let found = written::readable(&bank.judge, bank.lesson, focus, rng);
    let practising = found.iter().any(|one| one.practised > 0 || focus.is_empty());
    if !practising {
        return sentences::sentences(&bank.judge, bank.lesson, focus, count, rng);
    }
    let (mut chosen, mut used): (Vec<String>, HashSet<String>) = Default::default();
    // First such as repeat no word, then such as repeat half of theirs; those without a word that practises the lesson last.
    let (best, rest) = found.split_at(found.partition_point(|one| one.practised > 0));
    for (strict, those) in [(true, best), (false, best), (true, rest), (false, rest)] {
        for one in those {
            let content: Vec<String> = tokens(&one.text)
                .map(|token| fold_word(&one.text[token.span]))
                .filter(|word| word.len() > 2 && word != "the")
                .collect();
            let again = content.iter().filter(|word| used.contains(*word)).count();
            let fresh = if strict { again == 0 } else { again * 2 <= content.len() };
            if chosen.len() < count && fresh && !chosen.iter().any(|known| *known == one.text) {
                used.extend(content);
                chosen.push(one.text.clone().into_owned());
            }
        }
    }
    chosen
}

/// A random choice of the words, the commonest likelier; inflected ones only if there are too few others.
pub(crate) fn draw(words: &[&BankWord], count: usize, rng: &mut Rng, not: &HashSet<String>) -> Vec<String> {
    let mut left: Vec<&&BankWord> = words.iter().filter(|word| !not.contains(&word.word)).collect();
    if left.iter().filter(|word| !word.inflected).count() >= count {
        left.retain(|word| !word.inflected);
    }
    shuffle(&mut left, rng);
    left.sort_by_key(|word| (word.inflected, word.age, word.class));
    // Of the commonest, not always the same.
    left.truncate(count * 3);
    shuffle(&mut left, rng);
    left.into_iter().take(count).map(|word| word.word.clone()).collect()
}
