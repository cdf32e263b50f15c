//! The shelf for programs. The shape is published in `scope-files/shelf.schema.json`.

use std::io;

use serde::Serialize;
use untaught::json::{ErrorReport, FORMAT};
use untaught::messages;

use crate::analysis::{Book, LessonSeries, Shelf, Trace, new_words};
use crate::output::json_bytes;

#[derive(Serialize)]
struct ShelfReport<'a> {
    format: u32,
    scope: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    against: Option<&'a str>,
    patterns: Vec<PatternReport<'a>>,
    readers: Vec<BookReport<'a>>,
    /// Patterns practised fewer times than this are listed.
    enough: usize,
    practised_too_little: Vec<&'a str>,
    words: Vec<WordReport<'a>>,
    lessons: Vec<LessonReport<'a>>,
    lacks: LacksReport<'a>,
    #[serde(skip_serializing_if = "Option::is_none")]
    order: Option<Vec<&'a str>>,
    errors: &'a [ErrorReport],
}

#[derive(Serialize)]
struct PatternReport<'a> {
    pattern: &'a str,
    lesson: Option<&'a str>,
    words: usize,
    readers: usize,
    before: usize,
    at: usize,
    after: usize,
    #[serde(flatten)]
    met: MetReport<'a>,
}

/// When something is met.
#[derive(Serialize)]
struct MetReport<'a> {
    first_reader: Option<&'a str>,
    last_reader: Option<&'a str>,
    longest_gap: Option<usize>,
    readers_since: Option<usize>,
}

#[derive(Serialize)]
struct WordReport<'a> {
    word: &'a str,
    /// The lesson that teaches it whole.
    sight_word: Option<&'a str>,
    first_decodable: Option<&'a str>,
    first_readable: Option<&'a str>,
    times: usize,
    readers: usize,
    #[serde(flatten)]
    met: MetReport<'a>,
}

#[derive(Serialize)]
struct LessonReport<'a> {
    lesson: &'a str,
    readers: usize,
    words: usize,
    new_words: usize,
}

/// What the scope teaches and the shelf does not have, or too little of.
#[derive(Serialize)]
struct LacksReport<'a> {
    /// Lessons without a reader, up to that of the last reader; and those after it.
    lessons: Vec<&'a str>,
    lessons_to_come: Vec<&'a str>,
    sight_words: Vec<&'a str>,
}

#[derive(Serialize)]
struct BookReport<'a> {
    file: &'a str,
    title: Option<&'a str>,
    lesson: Option<&'a str>,
    readable_from: Option<&'a str>,
    sits: &'static str,
    words: usize,
    percent_readable: Option<f64>,
    practises: Vec<PatternUse<'a>>,
    new_words: Vec<&'a str>,
    percent_decodable: Option<f64>,
    different_words: usize,
    percent_different_words_decodable: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    against: Option<AgainstReport<'a>>,
}

/// How a reader fits the scope that the shelf is compared with.
#[derive(Serialize)]
struct AgainstReport<'a> {
    lesson: Option<&'a str>,
    /// Whether the lesson that the reader names has no counterpart there.
    no_lesson: bool,
    readable_from: Option<&'a str>,
    sits: &'static str,
    percent_readable: Option<f64>,
    untaught_there: &'a [String],
    untaught_here: &'a [String],
}

#[derive(Serialize)]
struct PatternUse<'a> {
    pattern: &'a str,
    words: usize,
}

/// The report on a shelf.
pub(super) fn report(shelf: &Shelf, errors: &[ErrorReport]) -> io::Result<Vec<u8>> {
    let patterns = &shelf.series.patterns;
    let report = ShelfReport {
        format: FORMAT,
        scope: shelf.scope.map(|scope| scope.title()),
        against: shelf.other.as_ref().map(|(other, _)| other.title()),
        patterns: patterns
            .iter()
            .map(|row| PatternReport {
                pattern: &row.label,
                lesson: shelf.id(Some(row.lesson)),
                words: row.practice.times,
                readers: row.practice.readers,
                before: row.before,
                at: row.at,
                after: row.after,
                met: met(shelf, &row.practice),
            })
            .collect(),
        readers: new_words(&shelf.books, 0..shelf.books.len())
            .into_iter()
            .map(|(number, new)| book(shelf, &shelf.books[number], &new))
            .collect(),
        enough: shelf.enough,
        practised_too_little: shelf.lacks.patterns.iter().map(|number| patterns[*number].label.as_str()).collect(),
        words: words(shelf),
        lessons: lessons(shelf),
        lacks: LacksReport {
            lessons: shelf.lacks.lessons.iter().filter_map(|lesson| shelf.id(Some(*lesson))).collect(),
            lessons_to_come: shelf.lacks.lessons_to_come.iter().filter_map(|lesson| shelf.id(Some(*lesson))).collect(),
            sight_words: shelf.lacks.sight.iter().map(|number| shelf.series.sight[*number].word.as_str()).collect(),
        },
        order: shelf
            .order
            .as_ref()
            .map(|order| order.iter().map(|number| shelf.books[*number].name.as_str()).collect()),
        errors,
    };
    let mut out = json_bytes(&report)?;
    out.push(b'\n');
    Ok(out)
}

fn book<'a>(shelf: &'a Shelf, book: &'a Book, new: &[u32]) -> BookReport<'a> {
    let practised = shelf.practised(book).into_iter().enumerate().filter(|(_, words)| *words > 0);
    BookReport {
        file: &book.name,
        title: book.title.as_deref(),
        lesson: shelf.id(book.fit.meant_for),
        readable_from: shelf.id(book.fit.first),
        sits: book.fit.timing().name(),
        words: book.words,
        percent_readable: messages::rounded(book.fit.percent_readable),
        practises: practised
            .map(|(number, words)| PatternUse { pattern: &shelf.series.patterns[number].label, words })
            .collect(),
        new_words: new.iter().map(|word| shelf.word(*word)).collect(),
        percent_decodable: messages::rounded(book.fit.percent_decodable),
        different_words: book.uses.len(),
        percent_different_words_decodable: messages::rounded(book.percent_types_decodable()),
        against: book.refit.as_ref().map(|refit| AgainstReport {
            lesson: shelf.other_id(refit.fit.meant_for),
            no_lesson: refit.no_lesson,
            readable_from: shelf.other_id(refit.fit.first),
            sits: refit.fit.timing().name(),
            percent_readable: messages::rounded(refit.fit.percent_readable),
            untaught_there: &refit.untaught_there,
            untaught_here: &refit.untaught_here,
        }),
    }
}

/// The words that readers have; then the sight words that none has.
fn words(shelf: &Shelf) -> Vec<WordReport<'_>> {
    let mut all: Vec<WordReport<'_>> = Vec::new();
    for (number, word) in shelf.words() {
        let trace = shelf.trace(number);
        all.push(WordReport {
            word: &word.text,
            sight_word: shelf.id(word.taught_whole),
            first_decodable: shelf.id(word.decodable),
            first_readable: shelf.id(word.readable),
            times: trace.times,
            readers: trace.readers,
            met: met(shelf, &trace),
        });
    }
    for sight in shelf.series.sight.iter().filter(|sight| sight.number.is_none()) {
        let id = shelf.id(Some(sight.lesson));
        all.push(WordReport {
            word: &sight.word,
            sight_word: id,
            first_decodable: None,
            first_readable: id,
            times: 0,
            readers: 0,
            met: met(shelf, &Trace::default()),
        });
    }
    all
}

fn lessons(shelf: &Shelf) -> Vec<LessonReport<'_>> {
    let ids = shelf.scope.into_iter().flat_map(|scope| scope.lessons()).map(|lesson| lesson.id.as_str());
    let one = |(lesson, of): (_, &LessonSeries)| LessonReport {
        lesson,
        readers: of.readers,
        words: of.words,
        new_words: of.new_words,
    };
    ids.zip(&shelf.series.lessons).map(one).collect()
}

fn met<'a>(shelf: &'a Shelf, trace: &Trace) -> MetReport<'a> {
    let met = trace.readers > 0;
    let reader = |number: usize| met.then(|| shelf.books[number].name.as_str());
    MetReport {
        first_reader: reader(trace.first),
        last_reader: reader(trace.last),
        longest_gap: met.then_some(trace.longest_gap),
        readers_since: trace.since(shelf.books.len()),
    }
}
