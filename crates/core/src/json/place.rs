//! The report on where a text fits in a scope.

use serde::Serialize;

use super::id;
use crate::messages::rounded;
use crate::{Curve, Lesson, LessonIndex, Obstacle, Scope};

/// Where one text fits in a scope.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct PlaceReport<'a> {
    /// The name of its file; `-` if there is no file.
    pub file: &'a str,
    /// The title of the scope.
    pub scope: &'a str,
    /// The id of the first lesson at which it meets its thresholds.
    pub lesson: Option<&'a str>,
    /// The id of the lesson that the text itself names.
    pub meant_for: Option<&'a str>,
    /// Running words.
    pub words: usize,
    /// Its percentages at every lesson.
    pub curve: Vec<CurvePoint<'a>>,
    /// The lessons at which 90, 95, 98 and 100 percent are readable.
    pub reaches: Vec<MilestoneReport<'a>>,
    /// The words that no lesson makes readable.
    pub never_readable: Vec<String>,
    /// The id of the lesson from which all can be read if those words are pre-taught; null if there are none.
    pub if_pretaught: Option<&'a str>,
    /// The id of the lesson that the obstacles apply to.
    pub obstacles_at: Option<&'a str>,
    /// What would make the most words readable at that lesson, most words first.
    pub obstacles: Vec<ObstacleReport<'a>>,
}

/// The percentages of a text at a lesson, rounded to two decimals; `None` for a text without words.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct CurvePoint<'a> {
    /// The id of the lesson.
    pub lesson: &'a str,
    /// Percent decodable.
    pub decodable: Option<f64>,
    /// Percent readable.
    pub readable: Option<f64>,
}

/// The lesson at which a percentage of the words is readable.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct MilestoneReport<'a> {
    /// The percentage.
    pub percent: f64,
    /// The id of the lesson; `None` if no lesson reaches it.
    pub lesson: Option<&'a str>,
}

impl<'a> MilestoneReport<'a> {
    /// The percentages that a report names.
    pub const PERCENTAGES: [f64; 4] = [90.0, 95.0, 98.0, 100.0];

    /// Returns the milestones of a curve.
    #[must_use]
    pub fn all(curve: &Curve, scope: &'a Scope) -> Vec<MilestoneReport<'a>> {
        let milestone = |percent| MilestoneReport { percent, lesson: id(scope, curve.reaches(percent)) };
        Self::PERCENTAGES.map(milestone).to_vec()
    }
}

/// Something that must be taught before some words can be read.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct ObstacleReport<'a> {
    /// What must be taught, for people.
    pub pattern: String,
    /// The id of the lesson that teaches it.
    pub lesson: Option<&'a str>,
    /// Running words that need only this.
    pub words: usize,
    /// The distinct words among them.
    pub types: &'a [String],
}

impl<'a> CurvePoint<'a> {
    /// Returns the points of a curve, one for each lesson of its scope.
    #[must_use]
    pub fn all(curve: &Curve, scope: &'a Scope) -> Vec<CurvePoint<'a>> {
        let point = |(index, lesson): (LessonIndex, &'a Lesson)| CurvePoint {
            lesson: &lesson.id,
            decodable: rounded(curve.percent_decodable(index)),
            readable: rounded(curve.percent_readable(index)),
        };
        scope.indexed_lessons().map(point).collect()
    }
}

impl<'a> ObstacleReport<'a> {
    /// Describes an obstacle in the terms of a scope.
    #[must_use]
    pub fn new(obstacle: &'a Obstacle, scope: &'a Scope) -> ObstacleReport<'a> {
        ObstacleReport {
            pattern: obstacle.label(scope),
            lesson: id(scope, obstacle.need.lesson()),
            words: obstacle.words,
            types: &obstacle.types,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Judge, Options, Reader, check, curve, obstacles};

    #[test]
    fn a_curve_has_a_point_for_each_lesson() {
        let reader = Reader::default();
        let scope = Scope::parse("format: 1\nlessons:\n- teach: [s, a, t, m]\n- teach: [sh]\n", &reader).unwrap();
        let report = check("Tam sat. Mash! Mat!", &scope, &reader, &Options::at(LessonIndex::FIRST));
        let found = obstacles(&report, &Judge::new(&reader, &scope), LessonIndex::FIRST);
        let points = CurvePoint::all(&curve(&report, &scope), &scope);
        let point = |lesson, percent| CurvePoint { lesson, decodable: Some(percent), readable: Some(percent) };
        assert_eq!(points, [point("1", 75.0), point("2", 100.0)]);
        let types = ["mash".to_owned()];
        let pattern = "sh as in ship".to_owned();
        let made: Vec<ObstacleReport<'_>> =
            found.iter().map(|obstacle| ObstacleReport::new(obstacle, &scope)).collect();
        assert_eq!(made, [ObstacleReport { pattern, lesson: Some("2"), words: 1, types: &types }]);
    }
}
