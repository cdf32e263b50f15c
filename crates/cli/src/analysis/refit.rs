//! One text under two scopes: that of its check, and another.

use std::collections::HashSet;

use untaught::{LessonMap, Options, Scope, Status, curve};

use super::CheckedText;
use super::shelf::Fit;
use crate::output::Message;
use crate::settings::RunSettings;
use crate::texts::Worker;

/// Another scope, and which of its lessons correspond to those of the scope of the texts.
pub(crate) struct OtherScope {
    pub(crate) scope: &'static Scope,
    /// From the scope of the texts to this one.
    pub(crate) map: LessonMap,
}

/// How a text fits another scope.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Refit {
    pub(crate) fit: Fit,
    /// Whether the lesson that the text names has no counterpart there: then nothing can be said of it.
    pub(crate) no_lesson: bool,
    /// Words that are untaught there only, and words that are untaught in the scope of the text only.
    pub(crate) untaught_there: Vec<String>,
    pub(crate) untaught_here: Vec<String>,
}

/// Which lessons of two scopes correspond: as typed (`OLD=NEW`, or `order`), else by id.
pub(crate) fn lesson_map(typed: &[String], old: &Scope, new: &Scope) -> Result<LessonMap, Message> {
    match typed {
        [] => return Ok(LessonMap::by_id(old, new)),
        [order] if order.trim() == "order" => return Ok(LessonMap::by_order(old, new)),
        _ => {}
    }
    let pair = |written: &String| match written.split_once('=') {
        Some((old, new)) => Ok((old.trim().to_owned(), new.trim().to_owned())),
        None => Err(format!("--map-lessons takes pairs of lessons such as 12=14, or order; not {written}")),
    };
    let pairs = typed.iter().map(pair).collect::<Result<Vec<_>, _>>()?;
    LessonMap::named(old, new, &pairs).map_err(|problem| format!("--map-lessons: {problem}").into())
}

/// Checks a checked text under another scope.
pub(crate) fn refit(checked: &CheckedText, other: &OtherScope, worker: &mut Worker, settings: &RunSettings) -> Refit {
    let plan = &checked.plan;
    let named = plan.set_lesson();
    let lesson = named.and_then(|lesson| other.map.to_new(lesson));
    let options = Options {
        lesson: lesson.unwrap_or(other.scope.last()),
        declared: plan.settings.declared(),
        every_word: false,
        places: 0,
        allow_names: plan.settings.allow_names.value,
        focus: None,
        start: Some(plan.start),
    };
    let report = worker.checker(other.scope, settings).check(checked.text(), &options);
    let first = plan.first_readable(&curve(&report, other.scope));
    let untaught = |report: &untaught::Report| -> Vec<String> {
        let untaught = report.distinct.iter().filter(|word| word.status == Status::Untaught);
        untaught.map(|word| word.verdict.word.text.clone()).collect()
    };
    let (here, there) = (untaught(&checked.report), untaught(&report));
    let only = |words: &[String], others: &[String]| -> Vec<String> {
        let others: HashSet<&String> = others.iter().collect();
        words.iter().filter(|word| !others.contains(word)).cloned().collect()
    };
    Refit {
        fit: Fit::of(&report, lesson, first),
        no_lesson: named.is_some() && lesson.is_none(),
        untaught_there: only(&there, &here),
        untaught_here: only(&here, &there),
    }
}
