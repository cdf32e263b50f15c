//! Words for a story that hardly practises what its lesson teaches.

use untaught::{Focus, Judge, Report, percent};

use crate::{Bank, Vocabulary, WordFilter};

/// Words offered.
const OFFERED: usize = 10;

/// A story hardly practises its lesson if fewer than this percentage of its words do.
const HARDLY: f64 = 5.0;

/// The commonest readable words that practise the lesson of a checked text and are not in it, if it hardly practises the lesson; none
/// otherwise, or if it was checked for other patterns. Cost: as [`Bank::practising`].
#[must_use]
pub fn practice_words(report: &Report, judge: &Judge<'_>) -> Vec<String> {
    let share = percent(report.focus.tokens, report.tokens.words);
    let focus = Focus::of_lesson(judge.scope(), report.lesson);
    if focus.is_empty() || focus.labels != report.focus.labels || share.is_none_or(|share| share >= HARDLY) {
        return Vec::new();
    }
    let filter = WordFilter { focus: Some(focus), ..WordFilter::default() };
    let bank = Bank::practising(*judge, report.lesson, Vocabulary::default(), 1..=usize::MAX, filter.focus.as_ref());
    let known = |word: &str| report.distinct.iter().any(|one| one.verdict.word.text == word);
    let words = bank.select(&filter).into_iter().map(|word| word.word.clone()).filter(|word| !known(word));
    words.take(OFFERED).collect()
}
