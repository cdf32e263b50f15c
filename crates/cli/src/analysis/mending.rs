//! A plan for a story: what to pre-teach or change, and words that practise its pattern.

use untaught::{Focus, Judge, MendingPlan, Report, mending_plan, percent};
use untaught_lists::{Bank, USUAL_CLASS, WordFilter};

/// Words offered for a pattern that a story hardly practises.
const OFFERED: usize = 10;

/// A story hardly practises its patterns if fewer than this percentage of its words do.
const HARDLY: f64 = 5.0;

/// What would bring a story to the required percentage, and what would make it practise more.
pub(crate) struct Mending {
    /// `None` if it reaches the percentage.
    pub(crate) plan: Option<MendingPlan>,
    /// Readable words that practise its patterns, if it hardly does.
    pub(crate) practise: Vec<String>,
}

impl Mending {
    pub(crate) fn of(report: &Report, judge: &Judge<'_>, goal: f64) -> Mending {
        let share = percent(report.focus.tokens, report.tokens.words);
        let hardly = !report.focus.labels.is_empty() && share.is_some_and(|share| share < HARDLY);
        Mending {
            plan: mending_plan(report, judge.scope(), goal),
            practise: if hardly { practise(report, judge) } else { Vec::new() },
        }
    }
}

/// The commonest words that practise the patterns of the report's lesson and are not in the text.
fn practise(report: &Report, judge: &Judge<'_>) -> Vec<String> {
    let focus = Focus::of_lesson(judge.scope(), report.lesson);
    if focus.labels != report.focus.labels {
        return Vec::new();
    }
    let filter = WordFilter { focus: Some(focus), ..WordFilter::default() };
    let bank = Bank::practising(*judge, report.lesson, USUAL_CLASS, 1..=usize::MAX, filter.focus.as_ref());
    let known = |word: &str| report.distinct.iter().any(|one| one.verdict.word.text == word);
    let words = bank.select(&filter).into_iter().map(|word| word.word.clone()).filter(|word| !known(word));
    words.take(OFFERED).collect()
}
