//! Where one text fits in a scope: the earliest lesson at which it can be read, and what keeps it from being read sooner.

use untaught::{Curve, LessonIndex, NeverReadable, Obstacle, all_obstacles, curve, never_readable, obstacles};

use super::checked::CheckedText;
use crate::settings::RunSettings;
use crate::texts::Worker;

/// Obstacles that are named, unless all are asked for.
const OBSTACLES: usize = 3;

/// Where a text fits.
pub(crate) struct Placement {
    pub(crate) checked: CheckedText,
    pub(crate) curve: Curve,
    /// The earliest lesson at which enough of it can be read.
    pub(crate) first: Option<LessonIndex>,
    /// The earliest lesson at which enough can be sounded out; the first of all if nothing is required.
    pub(crate) decodable: Option<LessonIndex>,
    /// The lesson of the obstacles: its own if it names one; else the one before it can be read, or the last.
    pub(crate) at: LessonIndex,
    /// What would make most words readable at that lesson.
    pub(crate) obstacles: Vec<Obstacle>,
    /// The words that no lesson makes readable.
    pub(crate) never: Option<NeverReadable>,
}

/// Finds where a checked text fits.
pub(crate) fn place(checked: CheckedText, all: bool, worker: &mut Worker, settings: &RunSettings) -> Placement {
    let plan = &checked.plan;
    let curve = curve(&checked.report, plan.scope);
    let first = plan.first_readable(&curve);
    let decodable = plan.first_decodable(&curve);
    let at = match (plan.set_lesson(), first) {
        (Some(set), _) => set,
        (None, Some(first)) => first.back(1).unwrap_or(first),
        (None, None) => plan.scope.last(),
    };
    let judge = worker.checker(plan.scope, settings).judge();
    let obstacles = if all {
        all_obstacles(&checked.report, &judge, at)
    } else {
        let mut obstacles = obstacles(&checked.report, &judge, at);
        obstacles.truncate(OBSTACLES);
        obstacles
    };
    let never = never_readable(&checked.report);
    Placement { checked, curve, first, decodable, at, obstacles, never }
}

impl Placement {
    /// Whether too little of it can be read or sounded out at the lesson that it is meant for; if it names none, at every lesson.
    pub(crate) fn is_late(&self) -> bool {
        match self.meant_for() {
            None => self.first.is_none() || self.decodable.is_none(),
            Some(meant) => [self.first, self.decodable].iter().any(|first| first.is_none_or(|first| first > meant)),
        }
    }

    /// The lesson that it is meant for, if it or its folder names one.
    pub(crate) fn meant_for(&self) -> Option<LessonIndex> {
        self.checked.plan.set_lesson()
    }
}
