//! The report of a check.

use std::ops::Range;

use serde::Serialize;

use super::{ErrorReport, FORMAT, NeedReport, id};
use crate::messages::rounded;
use crate::{
    Counts, Finding, FocusCount, Lines, Measure, MendingPlan, MendingStep, Position, Report, Scope, Status,
    TwoReadings, WordAt, measures, percent,
};

/// The report on one or more texts.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct CheckReport<'a> {
    /// [`FORMAT`].
    pub format: u32,
    /// The texts, in the order in which they were checked.
    pub texts: Vec<TextReport<'a>>,
    /// The files and folders that could not be checked.
    pub errors: Vec<ErrorReport>,
}

impl<'a> CheckReport<'a> {
    /// Creates a report on texts without errors.
    #[must_use]
    pub fn new(texts: Vec<TextReport<'a>>) -> CheckReport<'a> {
        CheckReport { format: FORMAT, texts, errors: Vec::new() }
    }
}

/// The report on one text.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct TextReport<'a> {
    /// The name of its file; `-` if there is no file.
    pub file: &'a str,
    /// The title of the scope.
    pub scope: &'a str,
    /// The accent in which words are read, as named in scope files.
    pub accent: &'static str,
    /// The id of the lesson.
    pub lesson: &'a str,
    /// The unit that positions count as lines: `line` or `paragraph`.
    pub unit: &'static str,
    /// Whether the text meets its thresholds.
    pub met: bool,
    /// Running words by status.
    pub counts: Counts,
    /// Percentages of running words.
    pub percent: Percents,
    /// Counts and percentages of distinct words.
    pub types: TypesReport,
    /// Every running word in order, if requested.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub words: Option<Vec<WordReport<'a>>>,
    /// The untaught words, each listed once, in order of first appearance.
    pub findings: Vec<FindingReport<'a>>,
    /// Words that can be read in one reading but not yet in another.
    pub two_readings: Vec<TwoReadingsReport<'a>>,
    /// How often the text practises its focus patterns.
    pub focus: PracticeReport<'a>,
    /// How often it practises the patterns that its lesson reviews.
    pub review: PracticeReport<'a>,
    /// Published measures of decodability.
    pub measures: Vec<MeasureReport>,
    /// The first tokens that are not words, each listed once.
    pub uncounted: &'a [String],
    /// Declared words that the text does not contain.
    pub not_in_text: &'a [String],
    /// What would bring the text to the required percentage, if requested.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub plan: Option<PlanReport<'a>>,
}

/// What would bring a text to the required percentage.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct PlanReport<'a> {
    /// The percentage of readable words to reach; `None` if the text reaches it.
    pub goal: Option<f64>,
    /// The words to pre-teach or change, in order.
    pub steps: &'a [MendingStep],
    /// The id of the earliest later lesson at which the text reaches the goal unchanged.
    pub lesson: Option<&'a str>,
    /// The same if the names and the words that no lesson teaches are pre-taught.
    pub lesson_if_pretaught: Option<&'a str>,
    /// Readable words that practise the patterns, if the text hardly does.
    pub practise: &'a [String],
}

impl<'a> PlanReport<'a> {
    fn new(details: PlanDetails<'a>, scope: &'a Scope) -> PlanReport<'a> {
        let PlanDetails { plan, practise } = details;
        PlanReport {
            goal: plan.map(|plan| plan.goal),
            steps: plan.map_or(&[], |plan| &plan.steps),
            lesson: id(scope, plan.and_then(|plan| plan.lesson)),
            lesson_if_pretaught: id(scope, plan.and_then(|plan| plan.lesson_if_pretaught)),
            practise,
        }
    }
}

/// Percentages, rounded to two decimals; `None` for a text without words.
#[derive(Clone, Copy, PartialEq, Debug, Serialize)]
pub struct Percents {
    /// Percentage of words that are decodable.
    pub decodable: Option<f64>,
    /// Percentage of words that are decodable, sight words or story words.
    pub readable: Option<f64>,
}

impl From<&Counts> for Percents {
    fn from(counts: &Counts) -> Percents {
        Percents { decodable: rounded(counts.percent_decodable()), readable: rounded(counts.percent_readable()) }
    }
}

/// Distinct words by status.
#[derive(Clone, Copy, PartialEq, Debug, Serialize)]
pub struct TypesReport {
    /// Number of distinct words with each status.
    pub counts: Counts,
    /// Percentages of distinct words.
    pub percent: Percents,
}

/// A running word.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct WordReport<'a> {
    /// The word as written in the text.
    pub word: &'a str,
    /// Its status at the lesson.
    pub status: Status,
    /// The line on which it begins.
    pub line: usize,
    /// The column at which it begins.
    pub column: usize,
    /// What it needs; empty unless it is untaught.
    pub needs: Vec<NeedReport<'a>>,
}

/// An untaught word.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct FindingReport<'a> {
    /// The word, folded.
    pub word: &'a str,
    /// Always [`Status::Untaught`].
    pub status: Status,
    /// How often the text contains it.
    pub count: usize,
    /// Where it occurs: the first positions, as many as the check kept.
    pub places: Vec<Position>,
    /// What it needs.
    pub needs: Vec<NeedReport<'a>>,
    /// The id of the first lesson at which it can be read.
    pub first_readable: Option<&'a str>,
    /// Whether its capitals look like those of a name.
    pub likely_name: bool,
    /// Whether it was read by its letters because it is not in the dictionary.
    pub by_letters: bool,
    /// What could replace it, if requested.
    #[serde(flatten)]
    pub replacements: Option<&'a Replacements>,
}

/// What could replace a word.
#[derive(Clone, PartialEq, Eq, Debug, Default, Serialize)]
pub struct Replacements {
    /// Words and phrases of the same meaning.
    pub suggestions: Vec<String>,
    /// Other things of the same kind.
    pub of_the_kind: Vec<String>,
    /// The word and some of its neighbours said in another way.
    pub rewordings: Vec<RewordingReport>,
    /// Whether the word may simply go.
    pub can_be_left_out: bool,
    /// For which of the places of the word all this is, counted from 0: the first one for which there is anything.
    pub for_place: usize,
}

/// Some words that stand together, and what may be written for them.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct RewordingReport {
    /// The words to replace, as the text has them.
    pub old: String,
    /// What to write for them; empty if they may simply go.
    pub new: String,
}

/// A word that can be read in one reading but not yet in another.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct TwoReadingsReport<'a> {
    /// The word, folded.
    pub word: &'a str,
    /// How often the text contains it.
    pub count: usize,
    /// Where it occurs: the first positions, as many as the check kept.
    pub places: Vec<Position>,
    /// The reading that the status is based on, in IPA.
    pub counted: &'a str,
    /// The other reading, in IPA.
    pub other: &'a str,
    /// The first patterns in which the two differ.
    pub patterns: [String; 2],
}

/// How often a text practises some patterns.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct PracticeReport<'a> {
    /// The patterns, for people.
    pub patterns: &'a [String],
    /// Running words that practise one of them.
    pub words: usize,
    /// `words` as a percentage of all running words.
    pub percent: Option<f64>,
    /// The distinct words that practise one of them.
    pub types: Vec<PractisedWord<'a>>,
}

/// A word that practises a pattern.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct PractisedWord<'a> {
    /// The word, folded.
    pub word: &'a str,
    /// How often the text contains it.
    pub count: usize,
}

/// A published measure of decodability.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct MeasureReport {
    /// Its published name.
    pub name: &'static str,
    /// Where it is defined.
    pub source: &'static str,
    /// Number of running words that it counts.
    pub part: usize,
    /// Number of running words.
    pub whole: usize,
    /// `part` as a percentage of `whole`.
    pub percent: Option<f64>,
}

/// Finds lines and columns of a text. [`Lines`] finds those of a plain text; a document finds those of its file.
pub trait Positions {
    /// Returns the position of each byte offset, in the order given.
    fn positions(&self, offsets: &[usize]) -> Vec<Position>;

    /// The name of the unit that positions count as lines: `line` or `paragraph`.
    fn unit(&self) -> &'static str {
        "line"
    }
}

impl Positions for Lines<'_> {
    fn positions(&self, offsets: &[usize]) -> Vec<Position> {
        Lines::positions(self, offsets)
    }
}

/// What a report says about a text in addition to the results of the check.
#[derive(Clone, Copy)]
pub struct TextDetails<'a> {
    /// The name of its file; `-` if there is no file.
    pub file: &'a str,
    /// The text that was checked.
    pub text: &'a str,
    /// Finds its lines and columns.
    pub positions: &'a dyn Positions,
    /// Whether it meets its thresholds; `None` if there are no thresholds: the report then says whether every word can be read.
    pub met: Option<bool>,
    /// Whether to report every running word. Requires a check with [`Options::every_word`](crate::Options).
    pub every_word: bool,
    /// For each finding, what could replace it.
    pub replacements: Option<&'a [Replacements]>,
    /// The plan to report, if requested.
    pub plan: Option<PlanDetails<'a>>,
}

/// What a plan is reported from.
#[derive(Clone, Copy, Debug)]
pub struct PlanDetails<'a> {
    /// The plan; `None` if the text reaches the required percentage.
    pub plan: Option<&'a MendingPlan>,
    /// Readable words that practise the patterns, if the text hardly does.
    pub practise: &'a [String],
}

impl<'a> TextDetails<'a> {
    /// Describes a text without a file, thresholds or suggestions.
    #[must_use]
    pub fn new(text: &'a str, positions: &'a dyn Positions) -> TextDetails<'a> {
        TextDetails { file: "-", text, positions, met: None, every_word: false, replacements: None, plan: None }
    }
}

impl<'a> TextReport<'a> {
    /// Creates the report on a checked text. Cost: a pass over the text for positions, and a second one if every word is
    /// reported.
    #[must_use]
    pub fn new(report: &'a Report, scope: &'a Scope, details: TextDetails<'a>) -> TextReport<'a> {
        let mut places = positions_of_lists(report, details.positions).into_iter();
        let findings: Vec<FindingReport<'a>> = report
            .findings
            .iter()
            .enumerate()
            .map(|(number, finding)| {
                let replacements = details.replacements.and_then(|all| all.get(number));
                finding_report(report, finding, scope, places.next().unwrap_or_default(), replacements)
            })
            .collect();
        let two_readings = report.two_readings.iter();
        let two_readings =
            two_readings.map(|two| two_readings_report(two, scope, places.next().unwrap_or_default())).collect();
        TextReport {
            file: details.file,
            scope: scope.title(),
            accent: scope.accent().name(),
            lesson: scope.id(report.lesson),
            unit: details.positions.unit(),
            met: details.met.unwrap_or(report.tokens.untaught == 0),
            counts: report.tokens,
            percent: Percents::from(&report.tokens),
            types: TypesReport { counts: report.types, percent: Percents::from(&report.types) },
            words: details.every_word.then(|| every_word(report, &findings, details)),
            findings,
            two_readings,
            focus: practice_report(report, &report.focus),
            review: practice_report(report, &report.review),
            measures: measures(report).into_iter().map(MeasureReport::from).collect(),
            uncounted: &report.uncounted,
            not_in_text: &report.not_in_text,
            plan: details.plan.map(|plan| PlanReport::new(plan, scope)),
        }
    }
}

/// The positions of the untaught words, followed by those of the words with two readings.
fn positions_of_lists(report: &Report, positions: &dyn Positions) -> Vec<Vec<Position>> {
    let of_findings = report.findings.iter().map(|finding| &finding.places);
    let lists = of_findings.chain(report.two_readings.iter().map(|two| &two.places));
    let offsets: Vec<usize> = lists.clone().flatten().map(|span: &Range<usize>| span.start).collect();
    let mut found = positions.positions(&offsets).into_iter();
    lists.map(|list| found.by_ref().take(list.len()).collect()).collect()
}

fn finding_report<'a>(
    report: &'a Report,
    finding: &'a Finding,
    scope: &'a Scope,
    places: Vec<Position>,
    replacements: Option<&'a Replacements>,
) -> FindingReport<'a> {
    FindingReport {
        word: finding.word(),
        status: Status::Untaught,
        count: finding.count,
        places,
        needs: finding.needs.iter().map(|need| NeedReport::new(need, scope)).collect(),
        first_readable: id(scope, report.distinct[finding.type_number].verdict.first_readable()),
        likely_name: finding.likely_name,
        by_letters: finding.by_letters,
        replacements,
    }
}

fn two_readings_report<'a>(two: &'a TwoReadings, scope: &Scope, places: Vec<Position>) -> TwoReadingsReport<'a> {
    TwoReadingsReport {
        word: two.word(),
        count: two.count,
        places,
        counted: &two.counted,
        other: &two.other,
        patterns: two.differ_in(scope),
    }
}

fn practice_report<'a>(report: &'a Report, practice: &'a FocusCount) -> PracticeReport<'a> {
    let types = practice.types.iter().map(|number| &report.distinct[*number]);
    PracticeReport {
        patterns: &practice.labels,
        words: practice.tokens,
        percent: rounded(percent(practice.tokens, report.tokens.words)),
        types: types.map(|word| PractisedWord { word: &word.verdict.word.text, count: word.count }).collect(),
    }
}

impl From<Measure> for MeasureReport {
    fn from(measure: Measure) -> MeasureReport {
        let percent = rounded(measure.percent());
        let Measure { name, source, part, whole } = measure;
        MeasureReport { name, source, part, whole, percent }
    }
}

fn every_word<'a>(report: &Report, findings: &[FindingReport<'a>], details: TextDetails<'a>) -> Vec<WordReport<'a>> {
    let mut finding_of: Vec<Option<usize>> = vec![None; report.distinct.len()];
    for (number, finding) in report.findings.iter().enumerate() {
        finding_of[finding.type_number] = Some(number);
    }
    let starts: Vec<usize> = report.words.iter().map(|word| word.span.start).collect();
    let word = |(word, position): (&WordAt, Position)| WordReport {
        word: details.text.get(word.span.clone()).unwrap_or_default(),
        status: report.distinct[word.type_number].status,
        line: position.line,
        column: position.column,
        needs: finding_of[word.type_number].map_or_else(Vec::new, |number| findings[number].needs.clone()),
    };
    report.words.iter().zip(details.positions.positions(&starts)).map(word).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{LessonIndex, Options, Reader, check};

    #[test]
    fn a_report_contains_the_results_of_the_check() {
        let reader = Reader::default();
        let scope = Scope::parse("format: 1\ntitle: Two\nlessons:\n- teach: [s, a, t, m]\n- teach: [sh]\n", &reader);
        let scope = scope.unwrap();
        let text = "Tam sat.\nMat mash? Mash!";
        let options = Options { every_word: true, ..Options::at(LessonIndex::FIRST) };
        let report = check(text, &scope, &reader, &options);
        let lines = Lines::new(text);
        let details = TextDetails { every_word: true, ..TextDetails::new(text, &lines) };
        let made = CheckReport::new(vec![TextReport::new(&report, &scope, details)]);
        let json: serde_json::Value = serde_json::to_value(&made).unwrap();
        assert_eq!((&json["format"], &json["errors"]), (&1.into(), &serde_json::json!([])));
        let json = &json["texts"][0];
        let need = serde_json::json!([{"pattern": "sh as in ship", "kind": "pattern", "lesson": "2"}]);
        assert_eq!(json["met"], false);
        assert_eq!(json["percent"], serde_json::json!({"decodable": 60.0, "readable": 60.0}));
        assert_eq!(
            json["findings"],
            serde_json::json!([{
                "word": "mash", "status": "untaught", "count": 2,
                "places": [{"line": 2, "column": 5}, {"line": 2, "column": 11}],
                "needs": need, "first_readable": "2", "likely_name": false, "by_letters": false,
            }])
        );
        let last = serde_json::json!({"word": "Mash", "status": "untaught", "line": 2, "column": 11, "needs": need});
        assert_eq!(json["words"][4], last);
        // Both are left out unless requested.
        let made = serde_json::to_value(TextReport::new(&report, &scope, TextDetails::new(text, &lines))).unwrap();
        assert!(made.get("words").is_none() && made["findings"][0].get("suggestions").is_none());
    }
}
