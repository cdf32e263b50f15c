//! One text as it was checked: the model that every format is made from.

use std::ops::Range;

use untaught::json::{Positions, Replacements, RewordingReport};
use untaught::{Finding, Focus, LessonIndex, Lines, Options, PLACES, Position, Report, percent};
use untaught_documents::Unit;
use untaught_lists::{Rewording, Swap, Swaps, swaps_somewhere};

use super::mending::Mending;
use crate::output::Message;
use crate::settings::{Plan, RunSettings};
use crate::texts::{Source, Worker};

pub(crate) struct CheckedText {
    pub(crate) source: Source,
    pub(crate) plan: Plan,
    pub(crate) report: Report,
    /// The thresholds it does not reach.
    pub(crate) shortfalls: Vec<Shortfall>,
    /// For each finding, suggested replacements, if requested.
    pub(crate) suggestions: Option<Vec<Offers>>,
    /// The same, as it is reported to programs.
    pub(crate) replacements: Option<Vec<Replacements>>,
    /// What would bring it to the required percentage, if requested.
    pub(crate) mending: Option<Mending>,
}

/// What may take the place of a word.
pub(crate) struct Offers {
    pub(crate) swaps: Swaps,
    /// For which of the places of its finding.
    pub(crate) place: usize,
}

/// A threshold that a text does not reach.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Shortfall {
    pub(crate) what: Threshold,
    pub(crate) percent: f64,
    pub(crate) least: f64,
}

/// What a threshold applies to.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Threshold {
    Decodable,
    Readable,
    Focus,
}

impl Threshold {
    /// What the words that count towards it do: "60 % of words …".
    pub(crate) fn predicate(self) -> &'static str {
        match self {
            Threshold::Decodable => "are decodable",
            Threshold::Readable => "are readable",
            Threshold::Focus => "practise the focus patterns",
        }
    }

    /// Its name as a test case.
    pub(crate) fn name(self) -> &'static str {
        match self {
            Threshold::Decodable => "percent decodable",
            Threshold::Readable => "percent readable",
            Threshold::Focus => "percent that practise the focus patterns",
        }
    }
}

/// Where a word is in the file; the end is one column after its last letter.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Extent {
    pub(crate) start: Position,
    pub(crate) end: Position,
}

/// How much of a text a format asks for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Detail {
    pub(crate) every_word: bool,
    /// Words of like meaning that can be read, for each untaught word.
    pub(crate) suggestions: bool,
    /// What would bring the text to the required percentage.
    pub(crate) mending: bool,
    /// Places of each untaught word, at most.
    pub(crate) places: usize,
}

impl Default for Detail {
    fn default() -> Detail {
        Detail { every_word: false, suggestions: false, mending: false, places: PLACES }
    }
}

impl Detail {
    /// The words and their counts alone.
    pub(crate) const COUNTS: Detail = Detail { every_word: false, suggestions: false, mending: false, places: 0 };
}

/// Checks a text as its plan says.
pub(crate) fn check(
    source: Source,
    plan: Plan,
    detail: Detail,
    worker: &mut Worker,
    settings: &RunSettings,
) -> Result<CheckedText, Message> {
    let patterns = plan.patterns(settings.reader.for_scope(plan.scope), &source.name)?;
    let options = Options {
        lesson: plan.lesson,
        declared: plan.settings.declared(),
        every_word: detail.every_word,
        places: detail.places,
        allow_names: plan.settings.allow_names.value,
        focus: (!patterns.is_empty()).then(|| Focus::of(plan.scope, &patterns)),
        start: Some(plan.start),
    };
    let mut report = worker.checker(plan.scope, settings).check(source.document.text(), &options);
    let here = plan.settings.declared_for_text();
    report.not_in_text.retain(|word| here.contains(word));
    let counts = &report.tokens;
    // What has nothing to practise cannot practise too little.
    let least_focus =
        plan.settings.min_focus.as_ref().map(|least| least.value).filter(|_| !report.focus.labels.is_empty());
    let reached = [
        (Threshold::Decodable, counts.percent_decodable(), plan.min_decodable()),
        (Threshold::Readable, counts.percent_readable(), Some(plan.settings.min_readable.value)),
        (Threshold::Focus, percent(report.focus.tokens, counts.words), least_focus),
    ];
    let shortfalls = reached.into_iter().filter_map(|(what, percent, least)| {
        let (percent, least) = (percent?, least?);
        (percent + 1e-9 < least).then_some(Shortfall { what, percent, least })
    });
    let shortfalls = shortfalls.collect();
    let judge = worker.checker(plan.scope, settings).judge();
    let suggestions = detail.suggestions.then(|| {
        // Another name is another child.
        let offers = |finding: &Finding| {
            let places = if finding.likely_name { &[][..] } else { &finding.places };
            let (place, swaps) = swaps_somewhere(source.document.text(), places, &judge, plan.lesson);
            Offers { place, swaps }
        };
        report.findings.iter().map(offers).collect()
    });
    let mending = detail.mending.then(|| Mending::of(&report, &judge, plan.settings.min_readable.value));
    let replacements = suggestions.as_ref().map(|all: &Vec<Offers>| all.iter().map(reported).collect());
    Ok(CheckedText { source, plan, report, shortfalls, suggestions, replacements, mending })
}

fn reported(Offers { place, swaps }: &Offers) -> Replacements {
    let texts = |swaps: &[Swap]| swaps.iter().map(|swap| swap.text.clone()).collect();
    Replacements {
        suggestions: texts(&swaps.same),
        of_the_kind: texts(&swaps.of_the_kind),
        rewordings: swaps.rewordings.iter().map(reworded).collect(),
        can_be_left_out: swaps.leave_out,
        for_place: *place,
    }
}

fn reworded(made: &Rewording) -> RewordingReport {
    RewordingReport { old: made.old.clone(), new: made.new.clone() }
}

impl CheckedText {
    pub(crate) fn met(&self) -> bool {
        self.shortfalls.is_empty()
    }

    pub(crate) fn lesson_id(&self) -> &'static str {
        self.plan.scope.id(self.report.lesson)
    }

    /// The id of a lesson of the text's scope; none for none.
    pub(crate) fn id(&self, lesson: Option<LessonIndex>) -> Option<&'static str> {
        lesson.map(|lesson| self.plan.scope.id(lesson))
    }

    pub(crate) fn text(&self) -> &str {
        self.source.document.text()
    }

    /// What a line of the text is called.
    pub(crate) fn unit(&self) -> &'static str {
        match self.source.document.unit() {
            Unit::Line => "line",
            Unit::Paragraph => "paragraph",
        }
    }

    /// Where words are in the file, list by list. Cost: one pass over the file for all of them.
    pub(crate) fn extents<'r>(&self, lists: impl Iterator<Item = &'r [Range<usize>]> + Clone) -> Vec<Vec<Extent>> {
        // The end of a word is after its last letter, not at the beginning of what follows it, which may be far away.
        let text = self.text();
        let last = |at: usize| (0..=at).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0);
        let both_ends = |span: &Range<usize>| [span.start, last(span.end.max(span.start + 1) - 1)];
        let offsets: Vec<usize> = lists.clone().flatten().flat_map(both_ends).collect();
        let positions = self.positions(&offsets);
        let mut extents = positions
            .chunks_exact(2)
            .map(|ends| Extent { start: ends[0], end: Position { column: ends[1].column + 1, ..ends[1] } });
        lists.map(|list| extents.by_ref().take(list.len()).collect()).collect()
    }

    /// The lines of words, list by list. Cost: as for [`CheckedText::extents`].
    pub(crate) fn lines<'r>(&self, lists: impl Iterator<Item = &'r [Range<usize>]> + Clone) -> Vec<Vec<usize>> {
        let offsets: Vec<usize> = lists.clone().flatten().map(|span| span.start).collect();
        let mut lines = self.positions(&offsets).into_iter().map(|position| position.line);
        lists.map(|list| lines.by_ref().take(list.len()).collect()).collect()
    }
}

impl Positions for CheckedText {
    fn positions(&self, offsets: &[usize]) -> Vec<Position> {
        let document = &self.source.document;
        let offsets: Vec<usize> = offsets.iter().map(|offset| document.to_source(*offset)).collect();
        Lines::new(document.source()).positions(&offsets)
    }

    fn unit(&self) -> &'static str {
        CheckedText::unit(self)
    }
}
