//! Reports for programs. Serialised, they are the output of `untaught check --format json` and `untaught place --format
//! json`. Their schemas are `scope-files/check.schema.json` and `scope-files/place.schema.json`; keys may be added but never
//! changed.

mod check;
mod place;

use crate::{LessonIndex, Need, Scope, messages};
use serde::Serialize;

pub use check::{
    CheckReport, FindingReport, MeasureReport, Percents, PlanDetails, PlanReport, Positions, PracticeReport,
    PractisedWord, Replacements, RewordingReport, TextDetails, TextReport, TwoReadingsReport, TypesReport, WordReport,
};
pub use place::{CurvePoint, MilestoneReport, ObstacleReport, PlaceReport};

/// The value of the key `format`: the version of the reports. Within a version, keys are only added.
pub const FORMAT: u32 = 1;

/// Something that an untaught word needs.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct NeedReport<'a> {
    /// What it is, for people: `igh as in night`, `two syllables`, `a sight word`.
    pub pattern: String,
    /// `pattern`, `skill`, `sight-word`, `irregular` or `abbreviation`: see [`Need::kind`].
    pub kind: &'static str,
    /// The id of the lesson that teaches it; `None` if the scope never does.
    pub lesson: Option<&'a str>,
}

impl<'a> NeedReport<'a> {
    /// Describes a need in the terms of a scope.
    #[must_use]
    pub fn new(need: &Need, scope: &'a Scope) -> NeedReport<'a> {
        NeedReport { pattern: messages::need(need, scope), kind: need.kind(), lesson: id(scope, need.lesson()) }
    }
}

/// A file or folder that could not be checked, and why.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct ErrorReport {
    /// The file or folder, as the caller named it.
    pub file: String,
    /// A sentence for people.
    pub message: String,
}

/// The id of a lesson; `None` if there is no lesson.
fn id(scope: &Scope, lesson: Option<LessonIndex>) -> Option<&str> {
    lesson.map(|lesson| scope.id(lesson))
}
