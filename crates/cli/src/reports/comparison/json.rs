//! The comparison for programs. The shape is published in `scope-files/compare.schema.json`.

use serde::Serialize;
use untaught::json::{ErrorReport, FORMAT};
use untaught::{Change, Move, messages};

use super::{ComparedReader, Comparison};

#[derive(Serialize)]
pub(crate) struct ComparisonReport<'a> {
    format: u32,
    scope: &'a str,
    against: &'a str,
    lessons: LessonsReport<'a>,
    patterns: Vec<MoveReport<'a>>,
    sight_words: Vec<MoveReport<'a>>,
    words: WordsReport<'a>,
    #[serde(skip_serializing_if = "Option::is_none")]
    readers: Option<Vec<ReaderReport<'a>>>,
    errors: &'a [ErrorReport],
}

#[derive(Serialize)]
struct LessonsReport<'a> {
    same_order: bool,
    only_in_scope: Vec<&'a str>,
    only_against: Vec<&'a str>,
}

#[derive(Serialize)]
struct MoveReport<'a> {
    name: &'a str,
    change: Change,
    old: Option<&'a str>,
    new: Option<&'a str>,
}

#[derive(Serialize)]
struct WordsReport<'a> {
    compared: usize,
    sooner: usize,
    later: usize,
    added: usize,
    gone: usize,
    examples: Vec<MoveReport<'a>>,
}

#[derive(Serialize)]
struct ReaderReport<'a> {
    file: &'a str,
    title: Option<&'a str>,
    change: &'static str,
    old: FitReport<'a>,
    new: Option<FitReport<'a>>,
    untaught_now: &'a [String],
    taught_now: &'a [String],
}

#[derive(Serialize)]
struct FitReport<'a> {
    lesson: Option<&'a str>,
    readable_from: Option<&'a str>,
    sits: &'static str,
    percent_readable: Option<f64>,
}

/// The report on a comparison.
pub(crate) fn json<'a>(comparison: &'a Comparison) -> ComparisonReport<'a> {
    let [gone, added] = comparison.map.without_counterpart();
    let list = |rows: &mut dyn Iterator<Item = &'a Move>| -> Vec<MoveReport<'a>> {
        let (old, new) = (|row: &Move| comparison.old_id(row.old), |row: &Move| comparison.new_id(row.new));
        rows.map(|row| MoveReport { name: &row.name, change: row.change, old: old(row), new: new(row) }).collect()
    };
    let all = [Change::Sooner, Change::Later, Change::Added, Change::Gone];
    let [sooner, later, added_words, gone_words] = all.map(|change| comparison.number_of_words(change));
    let mut words = all.into_iter().flat_map(|change| comparison.words(change));
    ComparisonReport {
        format: FORMAT,
        scope: comparison.new.title(),
        against: comparison.old.title(),
        lessons: LessonsReport {
            same_order: comparison.map.is_in_order(),
            only_in_scope: added.into_iter().map(|lesson| comparison.new.id(lesson)).collect(),
            only_against: gone.into_iter().map(|lesson| comparison.old.id(lesson)).collect(),
        },
        patterns: list(&mut comparison.found.patterns.iter()),
        sight_words: list(&mut comparison.found.sight.iter()),
        words: WordsReport {
            compared: comparison.found.compared,
            sooner,
            later,
            added: added_words,
            gone: gone_words,
            examples: list(&mut words),
        },
        readers: comparison
            .readers
            .as_ref()
            .map(|readers| readers.iter().map(|reader| self::reader(comparison, reader)).collect()),
        errors: &comparison.errors,
    }
}

fn reader<'a>(comparison: &Comparison, reader: &'a ComparedReader) -> ReaderReport<'a> {
    let (old, new) = (&reader.old, &reader.new.fit);
    ReaderReport {
        file: &reader.name,
        title: reader.title.as_deref(),
        change: match reader {
            reader if reader.new.no_lesson => "no lesson",
            reader if reader.falls_short() => "falls short",
            reader if reader.comes_right() => "comes right",
            _ => "same",
        },
        old: FitReport {
            lesson: comparison.old_id(old.meant_for),
            readable_from: comparison.old_id(old.first),
            sits: old.timing().name(),
            percent_readable: messages::rounded(old.percent_readable),
        },
        new: (!reader.new.no_lesson).then(|| FitReport {
            lesson: comparison.new_id(new.meant_for),
            readable_from: comparison.new_id(new.first),
            sits: new.timing().name(),
            percent_readable: messages::rounded(new.percent_readable),
        }),
        untaught_now: &reader.new.untaught_there,
        taught_now: &reader.new.untaught_here,
    }
}
