//! The plan of a story: the fewest words to pre-teach or change until enough of it can be read.

use serde::{Deserialize, Serialize};
use untaught::{Judge, LessonIndex, MendingStep, Reader, Remedy, mending_plan};
use untaught_lists::{practice_words, swaps_somewhere};

use crate::ask::StoryQuestion;
use crate::known_scope::KnownScope;
use crate::word::{RewordingAnswer, SwapAnswer, WithoutAnswer};

/// A story, and how much of it has to be readable.
#[derive(Debug, Deserialize)]
pub(crate) struct PlanQuestion {
    #[serde(flatten)]
    pub(crate) story: StoryQuestion,
    /// In percent.
    pub(crate) goal: f64,
}

#[derive(Serialize)]
pub(crate) struct PlanAnswer {
    steps: Vec<StepAnswer>,
    /// The earliest later lesson at which the story reaches the goal as it is.
    lesson: Option<LessonIndex>,
    /// The same if the names and the words that no lesson teaches are pre-taught.
    lesson_if_pretaught: Option<LessonIndex>,
    /// Readable words that practise the lesson, if the story hardly does.
    practise: Vec<String>,
}

#[derive(Serialize)]
struct StepAnswer {
    /// The number of the different word among those of the marks.
    number: usize,
    remedy: Remedy,
    count: usize,
    reason: String,
    /// The percent readable after this step.
    readable: String,
    swaps: Vec<SwapAnswer>,
    /// Of a word that stands once: what may be written for it and its neighbours, and what has to change if it goes.
    rewordings: Vec<RewordingAnswer>,
    without: Option<WithoutAnswer>,
}

/// Swaps offered for each step.
const SWAPS: usize = 4;

pub(crate) fn plan(reader: &Reader, known: &mut KnownScope, asked: &PlanQuestion) -> Result<PlanAnswer, String> {
    let report = known.check(reader, &asked.story)?;
    let judge = Judge::new(reader, &known.scope);
    let made = mending_plan(&report, &known.scope, asked.goal);
    let text = &asked.story.text;
    let step = |step: &MendingStep| {
        let finding = &report.findings[step.finding];
        let places = if step.remedy == Remedy::Name { &[][..] } else { &finding.places };
        let (_, found) = swaps_somewhere(text, places, &judge, report.lesson);
        let once = Some(&found).filter(|_| step.count == 1);
        StepAnswer {
            number: finding.type_number,
            remedy: step.remedy,
            count: step.count,
            reason: step.reason.clone(),
            readable: untaught::messages::percent(Some(step.readable)),
            rewordings: once.iter().flat_map(|found| &found.rewordings).take(2).map(RewordingAnswer::from).collect(),
            without: once.and_then(WithoutAnswer::of),
            swaps: found.same.into_iter().chain(found.of_the_kind).take(SWAPS).map(SwapAnswer::from).collect(),
        }
    };
    Ok(PlanAnswer {
        steps: made.iter().flat_map(|plan| &plan.steps).map(step).collect(),
        lesson: made.as_ref().and_then(|plan| plan.lesson),
        lesson_if_pretaught: made.as_ref().and_then(|plan| plan.lesson_if_pretaught),
        practise: practice_words(&report, &judge),
    })
}
