//! A plan for a story: what to pre-teach or change, and words that practise its lesson.

use untaught::{Judge, MendingPlan, Report, mending_plan};
use untaught_lists::practice_words;

/// What would bring a story to the required percentage, and what would make it practise more.
pub(crate) struct Mending {
    /// `None` if it reaches the percentage.
    pub(crate) plan: Option<MendingPlan>,
    /// Readable words that practise its lesson, if it hardly does.
    pub(crate) practise: Vec<String>,
}

impl Mending {
    pub(crate) fn of(report: &Report, judge: &Judge<'_>, goal: f64) -> Mending {
        Mending { plan: mending_plan(report, judge.scope(), goal), practise: practice_words(report, judge) }
    }
}
