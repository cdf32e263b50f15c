//! The report for programs. Its shape is published in `scope-files/check.schema.json`.

use serde::Serialize;
use untaught::{Counts, FocusCount, Lines, Measure, Need, Scope, Status, measures, percent};

use super::Checked;
use crate::args::Check;

#[derive(Serialize)]
pub(super) struct Root<'a> {
    format: u32,
    texts: Vec<Text<'a>>,
}

#[derive(Serialize)]
struct Text<'a> {
    file: &'a str,
    scope: &'a str,
    lesson: &'a str,
    met: bool,
    counts: Tally,
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
    patterns: [&'a str; 2],
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
    counts: Tally,
    percent: Percents,
}

#[derive(Serialize)]
struct Tally {
    words: usize,
    decodable: usize,
    sight: usize,
    story: usize,
    untaught: usize,
    uncounted: usize,
}

#[derive(Serialize)]
struct Percents {
    decodable: Option<f64>,
    readable: Option<f64>,
}

#[derive(Serialize)]
struct Word<'a> {
    word: &'a str,
    status: &'static str,
    line: usize,
    column: usize,
    needs: Vec<Needed<'a>>,
}

#[derive(Serialize, Clone)]
struct Needed<'a> {
    pattern: String,
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
}

#[derive(Serialize)]
struct Place {
    line: usize,
    column: usize,
}

/// To two decimals.
fn rounded(percent: Option<f64>) -> Option<f64> {
    // Nothing is rounded up to 100.
    percent.map(|percent| if percent < 100.0 { ((percent * 100.0).round() / 100.0).min(99.99) } else { percent })
}

fn tally(counts: &Counts) -> (Tally, Percents) {
    let Counts { words, decodable, sight, story, untaught, uncounted } = *counts;
    (
        Tally { words, decodable, sight, story, untaught, uncounted },
        Percents { decodable: rounded(percent(decodable, words)), readable: rounded(percent(words - untaught, words)) },
    )
}

pub(crate) fn lesson_id(scope: &Scope, place: Option<untaught::Place>) -> Option<&str> {
    scope.lesson(place?).map(|lesson| lesson.id.as_str())
}

fn needed<'a>(needs: &[Need], scope: &'a Scope) -> Vec<Needed<'a>> {
    let needed = |need: &Need| Needed { pattern: need.label.clone(), lesson: lesson_id(scope, need.lesson) };
    needs.iter().map(needed).collect()
}

pub(super) fn root<'a>(texts: &'a [Checked], args: &Check) -> Root<'a> {
    let texts = texts.iter().map(|checked| text(checked, &checked.scope, args.every_word)).collect();
    Root { format: 1, texts }
}

fn text<'a>(checked: &'a Checked, scope: &'a Scope, every_word: bool) -> Text<'a> {
    let report = &checked.report;
    let lines = Lines::new(&checked.text);
    let offsets: Vec<usize> = report.findings.iter().flat_map(|f| f.places.iter().map(|span| span.start)).collect();
    let mut positions = lines.positions(&offsets).into_iter();
    let mut findings: Vec<Finding<'_>> = Vec::with_capacity(report.findings.len());
    let mut by_type: Vec<Option<usize>> = vec![None; report.distinct.len()];
    for (number, finding) in report.findings.iter().enumerate() {
        by_type[finding.type_number] = Some(number);
        let places = positions.by_ref().take(finding.places.len()).map(|(line, column)| Place { line, column });
        findings.push(Finding {
            word: &finding.word,
            status: Status::Untaught.name(),
            count: finding.count,
            places: places.collect(),
            needs: needed(&finding.needs, scope),
            first_readable: lesson_id(scope, report.distinct[finding.type_number].verdict.first_readable()),
            likely_name: finding.likely_name,
            by_letters: finding.by_letters,
        });
    }
    let two_readings = report.two_readings.iter().map(|two| {
        let offsets: Vec<usize> = two.places.iter().map(|span| span.start).collect();
        let places = lines.positions(&offsets).into_iter().map(|(line, column)| Place { line, column });
        Depends {
            word: &two.word,
            count: two.count,
            places: places.collect(),
            counted: &two.counted,
            other: &two.other,
            patterns: [&two.patterns.0, &two.patterns.1],
        }
    });
    let practised = |counted: &'a FocusCount| {
        let types = counted.types.iter().map(|number| &report.distinct[*number]);
        Focus {
            patterns: &counted.labels,
            words: counted.tokens,
            percent: rounded(percent(counted.tokens, report.tokens.words)),
            types: types.map(|word| Practised { word: &word.verdict.word.text, count: word.count }).collect(),
        }
    };
    let measure = |measure: Measure| MeasureOut {
        name: measure.name,
        source: measure.source,
        part: measure.part,
        whole: measure.whole,
        percent: rounded(measure.percent()),
    };
    let words = every_word.then(|| {
        let offsets: Vec<usize> = report.words.iter().map(|word| word.span.start).collect();
        let positions = lines.positions(&offsets);
        let word = |(word, (line, column)): (&'a untaught::WordAt, (usize, usize))| Word {
            word: &checked.text[word.span.clone()],
            status: report.distinct[word.type_number].status.name(),
            line,
            column,
            needs: by_type[word.type_number].map_or_else(Vec::new, |finding| findings[finding].needs.clone()),
        };
        report.words.iter().zip(positions).map(word).collect()
    });
    let (counts, percents) = tally(&report.tokens);
    let (type_counts, type_percent) = tally(&report.types);
    Text {
        file: &checked.name,
        scope: &scope.title,
        lesson: lesson_id(scope, Some(report.lesson)).unwrap_or_default(),
        met: checked.met,
        counts,
        percent: percents,
        types: Types { counts: type_counts, percent: type_percent },
        words,
        findings,
        two_readings: two_readings.collect(),
        focus: practised(&report.focus),
        review: practised(&report.review),
        measures: measures(report).into_iter().map(measure).collect(),
        uncounted: &report.uncounted,
        not_in_text: &report.not_in_text,
    }
}
