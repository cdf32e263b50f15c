//! One text as it was checked: what every format is made from.

use std::ops::Range;

use untaught::{Finding, Focus, Lines, Options, PLACES, Report, percent};
use untaught_documents::Unit;

use crate::texts::{Plan, Settings, Source, Worker};

pub(crate) struct Checked {
    pub(crate) source: Source,
    pub(crate) plan: Plan,
    pub(crate) report: Report,
    /// The thresholds it does not reach.
    pub(crate) shortfalls: Vec<Shortfall>,
    /// For each finding, words that may stand in its place, if they were asked for.
    pub(crate) suggestions: Option<Vec<Vec<String>>>,
}

/// A threshold that a text does not reach.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Shortfall {
    /// `decodable`, `readable`, or what practises the focus.
    pub(crate) what: &'static str,
    pub(crate) percent: f64,
    pub(crate) least: f64,
}

/// Where a word stands in the file: lines and columns from 1, columns in Unicode scalar values; the end is the column after it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Spot {
    pub(crate) line: usize,
    pub(crate) column: usize,
    pub(crate) end_line: usize,
    pub(crate) end_column: usize,
}

/// How much of a text a format wants to know.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Wanted {
    pub(crate) every_word: bool,
    /// Words of like meaning that can be read, for each untaught word.
    pub(crate) suggestions: bool,
    /// Places of each untaught word, at most.
    pub(crate) places: usize,
}

impl Default for Wanted {
    fn default() -> Wanted {
        Wanted { every_word: false, suggestions: false, places: PLACES }
    }
}

impl Wanted {
    /// The words and their counts alone.
    pub(crate) const COUNTS: Wanted = Wanted { every_word: false, suggestions: false, places: 0 };
}

/// Checks a text as its plan says.
pub(crate) fn check(
    source: Source,
    plan: Plan,
    wanted: Wanted,
    worker: &mut Worker,
    settings: &Settings,
) -> Result<Checked, String> {
    let patterns = plan.patterns(settings.reader);
    let patterns = patterns.map_err(|problem| format!("{}: its focus cannot be read: {problem}", source.name))?;
    let options = Options {
        lesson: plan.lesson,
        declared: plan.declared(),
        every_word: wanted.every_word,
        places: wanted.places,
        allow_names: plan.allow_names,
        focus: (!patterns.is_empty()).then(|| Focus::of(plan.scope, &patterns)),
        start: plan.start,
    };
    let mut report = worker.checker(plan.scope, settings).check(source.document.text(), &options);
    let here = plan.declared_here();
    report.not_in_text.retain(|word| here.contains(word));
    let counts = &report.tokens;
    // What has nothing to practise cannot practise too little.
    let least_focus = plan.thresholds.focus.filter(|_| !report.focus.labels.is_empty());
    let reached = [
        ("decodable", counts.percent_decodable(), plan.thresholds.decodable),
        ("readable", counts.percent_readable(), Some(plan.thresholds.readable)),
        ("practise its focus", percent(report.focus.tokens, counts.words), least_focus),
    ];
    let shortfalls = reached.into_iter().filter_map(|(what, percent, least)| {
        let (percent, least) = (percent?, least?);
        (percent + 1e-9 < least).then_some(Shortfall { what, percent, least })
    });
    let shortfalls = shortfalls.collect();
    let judge = &worker.checker(plan.scope, settings).judge;
    let suggestions = wanted.suggestions.then(|| {
        // Another name is another child.
        let swaps = |finding: &Finding| match finding.likely_name {
            true => Vec::new(),
            false => {
                // Where it stands first.
                let before = finding.places.first().and_then(|place| source.document.text().get(..place.start));
                untaught_thesaurus::swaps(finding.word(), before.unwrap_or_default(), judge, plan.lesson)
            }
        };
        report.findings.iter().map(swaps).collect()
    });
    Ok(Checked { source, plan, report, shortfalls, suggestions })
}

impl Checked {
    pub(crate) fn met(&self) -> bool {
        self.shortfalls.is_empty()
    }

    pub(crate) fn lesson_id(&self) -> &str {
        lesson_id(self, Some(self.report.lesson)).unwrap_or_default()
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

    /// Where words stand in the file, list by list. Cost: one pass over the file for all of them.
    pub(crate) fn spots<'r>(&self, lists: impl Iterator<Item = &'r [Range<usize>]> + Clone) -> Vec<Vec<Spot>> {
        let document = &self.source.document;
        let offsets = lists.clone().flatten().flat_map(|span| [span.start, span.end.max(span.start + 1) - 1]);
        // The end of a word lies after its last letter, not at the beginning of what follows it, which may be far away.
        let text = document.text();
        let last = |at: usize| (0..=at).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0);
        let offsets: Vec<usize> = offsets.map(|offset| document.to_source(last(offset))).collect();
        let positions = Lines::new(document.source()).positions(&offsets);
        let mut pairs = positions.chunks_exact(2);
        let spot = |pair: &[(usize, usize)]| Spot {
            line: pair[0].0,
            column: pair[0].1,
            end_line: pair[1].0,
            end_column: pair[1].1 + 1,
        };
        lists.map(|list| pairs.by_ref().take(list.len()).map(spot).collect()).collect()
    }
}

/// The id of a lesson of the text's scope.
pub(crate) fn lesson_id(checked: &Checked, place: Option<untaught::Place>) -> Option<&'static str> {
    checked.plan.scope.lesson(place?).map(|lesson| lesson.id.as_str())
}
