//! What would bring a text to the required percentage: words to pre-teach or to change, or a later lesson.

use serde::Serialize;

use crate::messages;
use crate::{Finding, LessonIndex, Report, Scope, curve, percent};

/// What to do about a word.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Remedy {
    /// It is probably a name, which the children may know.
    Name,
    /// No lesson makes it readable: pre-teach it as a whole word, or change it.
    Whole,
    /// A later lesson makes it readable: pre-teach it or change it.
    Later,
}

/// One step of a plan.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct MendingStep {
    /// The word, folded.
    pub word: String,
    /// What to do about it.
    pub remedy: Remedy,
    /// Its number of occurrences.
    pub count: usize,
    /// Why it is untaught: `needs igh as in night (lesson 48)`.
    pub reason: String,
    /// The percentage of readable words after this step and those before it.
    pub readable: f64,
    /// The number of its finding in the report.
    #[serde(skip)]
    pub finding: usize,
}

/// The fewest words to pre-teach or change so that enough of a text is readable.
#[derive(Clone, PartialEq, Debug)]
pub struct MendingPlan {
    /// The percentage of readable words to reach.
    pub goal: f64,
    /// The percentage now.
    pub now: f64,
    /// The steps, the one that gains most words first; of equal ones names first, then words that no lesson teaches.
    pub steps: Vec<MendingStep>,
    /// The earliest later lesson at which the text reaches the goal unchanged.
    pub lesson: Option<LessonIndex>,
    /// The same if the names and the words that no lesson teaches are pre-taught.
    pub lesson_if_pretaught: Option<LessonIndex>,
}

/// Plans how a checked text reaches a percentage of readable words. `None` if it does already, or has no words. Cost: a sort of its
/// findings.
#[must_use]
pub fn mending_plan(report: &Report, scope: &Scope, goal: f64) -> Option<MendingPlan> {
    let words = report.tokens.words;
    let reaches = |readable: usize| percent(readable, words).is_none_or(|percent| percent + 1e-9 >= goal);
    let mut readable = words - report.tokens.untaught;
    let now = percent(readable, words).filter(|_| !reaches(readable))?;
    let mut order: Vec<(usize, &Finding)> = report.findings.iter().enumerate().collect();
    order.sort_by_key(|(number, finding)| (std::cmp::Reverse(finding.count), remedy(finding), *number));
    let mut steps = Vec::new();
    for (number, finding) in order {
        if reaches(readable) {
            break;
        }
        readable += finding.count;
        steps.push(MendingStep {
            word: finding.word().to_owned(),
            remedy: remedy(finding),
            count: finding.count,
            reason: messages::needs(&finding.needs, scope),
            readable: messages::rounded(percent(readable, words)).unwrap_or(100.0),
            finding: number,
        });
    }
    let curve = curve(report, scope);
    let later = |lesson: LessonIndex| lesson > report.lesson;
    // Each of these words counts as readable from the first lesson.
    let known: usize = report.findings.iter().filter(|f| remedy(f) != Remedy::Later).map(|f| f.count).sum();
    let with_known = |lesson: &LessonIndex| {
        let never = report.findings.iter().filter(|f| remedy(f) != Remedy::Later);
        let taught: usize =
            never.filter(|f| f.verdict.first_readable().is_some_and(|first| first <= *lesson)).map(|f| f.count).sum();
        reaches(curve.readable.get(lesson.get()).copied().unwrap_or(0) + known - taught)
    };
    Some(MendingPlan {
        goal,
        now,
        steps,
        lesson: curve.reaches(goal).filter(|lesson| later(*lesson)),
        lesson_if_pretaught: scope.indexed_lessons().map(|(index, _)| index).find(with_known).filter(|l| later(*l)),
    })
}

fn remedy(finding: &Finding) -> Remedy {
    if finding.likely_name {
        Remedy::Name
    } else if finding.verdict.first_readable().is_none() {
        Remedy::Whole
    } else {
        Remedy::Later
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Options, Reader, check};

    fn plan(text: &str, goal: f64) -> Option<MendingPlan> {
        let reader = Reader::default();
        let lessons = "format: 1\nlessons:\n- teach: [s, a, t, m]\n- teach: [i]\n- teach: [n, igh]\n";
        let scope = Scope::parse(lessons, &reader).unwrap();
        mending_plan(&check(text, &scope, &reader, &Options::at(LessonIndex::FIRST)), &scope, goal)
    }

    #[test]
    fn the_fewest_words_come_first_and_the_goal_is_reached() {
        let made = plan("Sam sat. Night at night. Tim at Zog, Sam sat at mats.", 90.0).unwrap();
        let steps: Vec<(&str, Remedy, usize)> =
            made.steps.iter().map(|s| (s.word.as_str(), s.remedy, s.count)).collect();
        assert_eq!(steps, [("night", Remedy::Later, 2), ("zog", Remedy::Name, 1)]);
        assert!(made.steps[0].readable < 90.0 && made.steps[1].readable >= 90.0, "{made:?}");
        assert_eq!(made.steps[0].reason, "needs n as in net (lesson 3) and igh as in night (lesson 3)");
        assert_eq!(made.lesson.map(LessonIndex::get), Some(2));
    }

    #[test]
    fn a_word_that_no_lesson_teaches_is_counted_apart() {
        let made = plan("Sam sat at night, zip zip.", 100.0).unwrap();
        assert_eq!((made.lesson, made.lesson_if_pretaught.map(LessonIndex::get)), (None, Some(2)));
        assert_eq!(made.steps[0].remedy, Remedy::Whole);
    }

    #[test]
    fn a_text_that_can_be_read_needs_no_plan() {
        assert_eq!(plan("Sam sat at mats.", 100.0), None);
        assert_eq!(plan("", 100.0), None);
        assert_eq!(plan("Sam sat at night.", 75.0), None);
    }
}
