//! The report for programs. Its shape is published in `scope-files/check.schema.json`.

use std::io;

use serde::Serialize;
use untaught::{Counts, FocusCount, Measure, Need, Status, measures, messages, percent};

use super::format::{Format, Whole};
use super::{Checked, Wanted, lesson_id, rounded};
use crate::output;

/// One object.
pub(super) struct Json {
    pub(super) every_word: bool,
    pub(super) suggest: bool,
}

impl Format for Json {
    fn wanted(&self) -> Wanted {
        Wanted { every_word: self.every_word, suggestions: self.suggest, ..Wanted::default() }
    }

    fn head(&self) -> String {
        "{\"format\":1,\"texts\":[".to_owned()
    }

    fn between(&self) -> &'static str {
        ","
    }

    fn piece(&self, checked: &Checked) -> io::Result<Vec<u8>> {
        output::json_bytes(&text(checked, self.every_word))
    }

    fn tail(&self, whole: &Whole) -> io::Result<Vec<u8>> {
        let mut out = b"],\"errors\":".to_vec();
        out.extend(output::json_bytes(&whole.failures)?);
        out.extend(b"}\n");
        Ok(out)
    }
}

#[derive(Serialize)]
pub(super) struct Text<'a> {
    file: &'a str,
    scope: &'a str,
    lesson: &'a str,
    /// What a line of the places is: `line` or `paragraph`.
    unit: &'static str,
    met: bool,
    counts: Counts,
    percent: Percents,
    types: Types,
    #[serde(skip_serializing_if = "Option::is_none")]
    words: Option<Vec<Word<'a>>>,
    findings: Vec<Finding<'a>>,
    two_readings: Vec<Depends<'a>>,
    focus: Focus<'a>,
    review: Focus<'a>,
    measures: Vec<MeasureOut>,
    uncounted: &'a [String],
    not_in_text: &'a [String],
}

#[derive(Serialize)]
struct MeasureOut {
    name: &'static str,
    source: &'static str,
    part: usize,
    whole: usize,
    percent: Option<f64>,
}

#[derive(Serialize)]
struct Depends<'a> {
    word: &'a str,
    count: usize,
    places: Vec<Place>,
    counted: &'a str,
    other: &'a str,
    patterns: [String; 2],
}

#[derive(Serialize)]
struct Focus<'a> {
    patterns: &'a [String],
    words: usize,
    percent: Option<f64>,
    types: Vec<Practised<'a>>,
}

#[derive(Serialize)]
struct Practised<'a> {
    word: &'a str,
    count: usize,
}

#[derive(Serialize)]
struct Types {
    counts: Counts,
    percent: Percents,
}

#[derive(Serialize)]
struct Percents {
    decodable: Option<f64>,
    readable: Option<f64>,
}

#[derive(Serialize)]
struct Word<'a> {
    word: String,
    status: &'static str,
    line: usize,
    column: usize,
    needs: Vec<Needed<'a>>,
}

#[derive(Serialize, Clone)]
struct Needed<'a> {
    pattern: String,
    /// `pattern`, `skill`, `sight-word`, `irregular` or `abbreviation`.
    kind: &'static str,
    lesson: Option<&'a str>,
}

#[derive(Serialize)]
struct Finding<'a> {
    word: &'a str,
    status: &'static str,
    count: usize,
    places: Vec<Place>,
    needs: Vec<Needed<'a>>,
    first_readable: Option<&'a str>,
    likely_name: bool,
    by_letters: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    suggestions: Option<&'a [String]>,
}

#[derive(Serialize)]
struct Place {
    line: usize,
    column: usize,
}

fn tally(counts: &Counts) -> (Counts, Percents) {
    let percents =
        Percents { decodable: rounded(counts.percent_decodable()), readable: rounded(counts.percent_readable()) };
    (*counts, percents)
}

fn needed<'a>(needs: &[Need], checked: &'a Checked) -> Vec<Needed<'a>> {
    let needed = |need: &Need| Needed {
        pattern: messages::need(need, checked.plan.scope),
        kind: need.kind(),
        lesson: lesson_id(checked, need.lesson()),
    };
    needs.iter().map(needed).collect()
}

fn places(spots: Vec<super::found::Spot>) -> Vec<Place> {
    spots.into_iter().map(|spot| Place { line: spot.line, column: spot.column }).collect()
}

pub(super) fn text(checked: &Checked, every_word: bool) -> Text<'_> {
    let report = &checked.report;
    let of_findings = report.findings.iter().map(|finding| &finding.places[..]);
    let of_readings = report.two_readings.iter().map(|two| &two.places[..]);
    let mut spots = checked.spots(of_findings.chain(of_readings)).into_iter().map(places);
    let mut findings: Vec<Finding<'_>> = Vec::with_capacity(report.findings.len());
    let mut by_type: Vec<Option<usize>> = vec![None; report.distinct.len()];
    for (number, finding) in report.findings.iter().enumerate() {
        by_type[finding.type_number] = Some(number);
        findings.push(Finding {
            word: finding.word(),
            status: Status::Untaught.name(),
            count: finding.count,
            places: spots.next().unwrap_or_default(),
            needs: needed(&finding.needs, checked),
            first_readable: lesson_id(checked, report.distinct[finding.type_number].verdict.first_readable()),
            likely_name: finding.likely_name,
            by_letters: finding.by_letters,
            suggestions: checked.suggestions.as_ref().map(|suggestions| &suggestions[number][..]),
        });
    }
    let two_readings = report.two_readings.iter().map(|two| Depends {
        word: two.word(),
        count: two.count,
        places: spots.next().unwrap_or_default(),
        counted: &two.counted,
        other: &two.other,
        patterns: two.differ_in(checked.plan.scope),
    });
    let two_readings = two_readings.collect();
    fn practised<'a>(counted: &'a FocusCount, report: &'a untaught::Report) -> Focus<'a> {
        let types = counted.types.iter().map(|number| &report.distinct[*number]);
        Focus {
            patterns: &counted.labels,
            words: counted.tokens,
            percent: rounded(percent(counted.tokens, report.tokens.words)),
            types: types.map(|word| Practised { word: &word.verdict.word.text, count: word.count }).collect(),
        }
    }
    let measure = |measure: Measure| MeasureOut {
        name: measure.name,
        source: measure.source,
        part: measure.part,
        whole: measure.whole,
        percent: rounded(measure.percent()),
    };
    let words = every_word.then(|| {
        let spans: Vec<std::ops::Range<usize>> = report.words.iter().map(|word| word.span.clone()).collect();
        let spots = checked.spots(std::iter::once(&spans[..])).pop().unwrap_or_default();
        let word = |(word, spot): (&untaught::WordAt, super::found::Spot)| Word {
            word: checked.text()[word.span.clone()].to_owned(),
            status: report.distinct[word.type_number].status.name(),
            line: spot.line,
            column: spot.column,
            needs: by_type[word.type_number].map_or_else(Vec::new, |finding| findings[finding].needs.clone()),
        };
        report.words.iter().zip(spots).map(word).collect()
    });
    let (counts, percents) = tally(&report.tokens);
    let (type_counts, type_percent) = tally(&report.types);
    Text {
        file: &checked.source.name,
        scope: checked.plan.scope.title(),
        lesson: checked.lesson_id(),
        unit: checked.unit(),
        met: checked.met(),
        counts,
        percent: percents,
        types: Types { counts: type_counts, percent: type_percent },
        words,
        findings,
        two_readings,
        focus: practised(&report.focus, report),
        review: practised(&report.review, report),
        measures: measures(report).into_iter().map(measure).collect(),
        uncounted: &report.uncounted,
        not_in_text: &report.not_in_text,
    }
}
