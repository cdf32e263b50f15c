//! Where one text fits in a scope: the earliest lesson at which it can be read, and what keeps it from being read sooner.

use untaught::{Curve, LessonIndex, Obstacle, curve, obstacles};

use super::checked::Checked;
use crate::texts::{Said, Settings, Worker};

/// Obstacles that are named.
const OBSTACLES: usize = 3;

/// Where a text fits.
pub(crate) struct Placement {
    pub(crate) checked: Checked,
    pub(crate) curve: Curve,
    /// The earliest lesson at which it meets its thresholds.
    pub(crate) first: Option<LessonIndex>,
    /// The lesson of the obstacles: its own if it names one; else the one before it can be read, or the last.
    pub(crate) at: LessonIndex,
    /// What would make most words readable at that lesson.
    pub(crate) obstacles: Vec<Obstacle>,
}

/// Finds where a checked text fits.
pub(crate) fn place(checked: Checked, worker: &mut Worker, settings: &Settings) -> Placement {
    let plan = &checked.plan;
    let curve = curve(&checked.report, plan.scope);
    let first = curve.first(plan.thresholds.decodable.unwrap_or(0.0), plan.thresholds.readable);
    let at = match (plan.lesson_said == Said::Default, first) {
        (false, _) => plan.lesson,
        (true, Some(first)) => first.back(1).unwrap_or(first),
        (true, None) => plan.scope.last(),
    };
    let judge = worker.checker(plan.scope, settings).judge();
    let mut obstacles = obstacles(&checked.report, &judge, at);
    obstacles.truncate(OBSTACLES);
    Placement { checked, curve, first, at, obstacles }
}

impl Placement {
    /// Whether it cannot be read at the lesson that it is meant for; if it names none, whether it cannot be read at any.
    pub(crate) fn is_late(&self) -> bool {
        match self.meant_for() {
            None => self.first.is_none(),
            Some(meant) => self.first.is_none_or(|first| first > meant),
        }
    }

    /// The lesson that it is meant for, if it or its folder names one.
    pub(crate) fn meant_for(&self) -> Option<LessonIndex> {
        let plan = &self.checked.plan;
        (plan.lesson_said != Said::Default).then_some(plan.lesson)
    }
}
