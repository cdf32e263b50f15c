//! The shelf on one page: its readers in order, plots, what each practises, what is missing.

use serde::Serialize;
use untaught::json::ErrorReport;
use untaught::{LessonIndex, messages};

use super::plots::{self, Map, Plot};
use super::tables::called;
use crate::analysis::{Book, PatternSeries, Shelf, Timing, Trace, new_words};
use crate::output::{Failure, Sink, count};
use crate::pages;
use crate::reports::titles;

/// Patterns side by side on paper.
const ON_PAPER: usize = 15;

/// Readers up to which the page has a table of readers and patterns: more no browser shows.
const MATRIX: usize = 300;

/// Readers whose rows are made at once.
const ROWS: usize = 200;

/// Words named where readers sit otherwise under another scope.
const UNTAUGHT: usize = 12;

/// Words whose repetitions are listed.
const WORDS: usize = 1_000;

#[derive(Serialize)]
struct ShelfPage<'a> {
    title: String,
    scope: Option<&'static str>,
    sums: String,
    complaints: &'a [ErrorReport],
    /// Whether some sit too early, or too late.
    early: bool,
    late: bool,
    plots: Vec<Plot>,
    maps: Vec<Map>,
    /// The names of the readers in the table of readers and patterns; none if there are too many.
    names: Vec<ReaderName>,
    too_many: bool,
    /// The table of readers and patterns: shelf, and in strips for paper.
    whole: Strip,
    strips: Vec<Strip>,
    enough: usize,
    lessons: Vec<LessonName<'a>>,
    to_come: Vec<LessonName<'a>>,
    patterns: Vec<PatternRow<'a>>,
    sight: Vec<SightRow<'a>>,
    words: Vec<WordRow<'a>>,
    more_words: usize,
    order: Option<Vec<OrderEntry>>,
    against: Option<Against<'a>>,
}

/// The readers that sit otherwise under the scope that the shelf is compared with.
#[derive(Serialize)]
struct Against<'a> {
    scope: &'a str,
    rows: Vec<AgainstRow>,
    same: usize,
}

#[derive(Serialize)]
struct AgainstRow {
    number: usize,
    title: String,
    here: &'static str,
    there: &'static str,
    readable: String,
    readable_there: String,
    words: String,
}

#[derive(Serialize)]
struct ReaderName {
    title: String,
    meant_for: Option<&'static str>,
}

/// Rows of the table of readers.
#[derive(Serialize)]
struct ReaderRows {
    rows: Vec<ReaderRow>,
}

#[derive(Serialize)]
struct ReaderRow {
    number: usize,
    title: String,
    file: Option<String>,
    meant_for: Option<&'static str>,
    first: Option<&'static str>,
    sits: &'static str,
    /// Whether that is right, or wrong; none where no lesson is named.
    good: Option<bool>,
    words: usize,
    readable: String,
    decodable: String,
    new: usize,
    so_far: usize,
}

/// New words, reader by reader.
#[derive(Serialize)]
struct NewWords<'a> {
    readers: Vec<NewIn<'a>>,
}

#[derive(Serialize)]
struct NewIn<'a> {
    number: usize,
    title: String,
    words: Vec<&'a str>,
}

/// Some of the patterns with what every reader has of them.
#[derive(Serialize)]
struct Strip {
    patterns: Vec<PatternColumn>,
    rows: Vec<Vec<Cell>>,
    sums: Vec<usize>,
}

#[derive(Serialize)]
struct PatternColumn {
    label: String,
    lesson: &'static str,
}

#[derive(Serialize)]
struct Cell {
    n: usize,
    /// How dark it is.
    shade: usize,
    /// Whether the reader's own lesson teaches the pattern.
    own: bool,
}

#[derive(Serialize)]
struct LessonName<'a> {
    id: &'a str,
    title: &'a str,
}

#[derive(Serialize)]
struct PatternRow<'a> {
    label: &'a str,
    lesson: &'static str,
    before: usize,
    at: usize,
    after: usize,
    readers: usize,
    gap: Option<usize>,
    since: Option<usize>,
    little: bool,
}

#[derive(Serialize)]
struct SightRow<'a> {
    word: &'a str,
    lesson: &'static str,
    early: usize,
    trace: WordTrace,
    little: bool,
}

#[derive(Serialize)]
struct WordRow<'a> {
    word: &'a str,
    from: &'static str,
    trace: WordTrace,
}

#[derive(Serialize)]
struct WordTrace {
    times: usize,
    readers: usize,
    first: Option<String>,
    last: Option<String>,
    gap: Option<usize>,
    since: Option<usize>,
}

/// A reader in the proposed order.
#[derive(Serialize)]
struct OrderEntry {
    number: usize,
    title: String,
    first: Option<&'static str>,
}

/// Writes the page. What has a row for each reader is made and written in parts, because there may be many.
pub(super) fn write(sink: &mut Sink, shelf: &Shelf, errors: &[ErrorReport]) -> Result<(), Failure> {
    let page = pages::render("shelf.html", page(shelf, errors))?;
    let mut parts = pages::between_pieces(page.as_bytes());
    sink.write(parts.next().unwrap_or_default())?;
    let new = new_words(&shelf.books, 0..shelf.books.len());
    let mut so_far = 0;
    for chunk in new.chunks(ROWS) {
        let row = |(number, new): &(usize, Vec<u32>)| {
            so_far += new.len();
            reader(shelf, *number, new.len(), so_far)
        };
        let rows = ReaderRows { rows: chunk.iter().map(row).collect() };
        sink.write(pages::render("shelf-readers.html", rows)?.as_bytes())?;
    }
    sink.write(parts.next().unwrap_or_default())?;
    for chunk in new.chunks(ROWS) {
        let one = |(number, new): &(usize, Vec<u32>)| NewIn {
            number: number + 1,
            title: called(&shelf.books[*number]),
            words: new.iter().map(|word| shelf.word(*word)).collect(),
        };
        let readers = NewWords { readers: chunk.iter().map(one).collect() };
        sink.write(pages::render("shelf-new.html", readers)?.as_bytes())?;
    }
    sink.write(parts.next().unwrap_or_default())
}

fn page<'a>(shelf: &'a Shelf, errors: &'a [ErrorReport]) -> ShelfPage<'a> {
    let amiss = shelf.misplaced().count();
    let mut title = count(shelf.books.len(), "reader");
    title += &match amiss {
        0 => ", none out of place".to_owned(),
        amiss => format!(", {amiss} out of place"),
    };
    if !errors.is_empty() {
        title += &format!(", {} could not be checked", errors.len());
    }
    let too_many = shelf.books.len() > MATRIX;
    let columns = if too_many { Vec::new() } else { columns(shelf) };
    let has = |timing: Timing| shelf.books.iter().any(|book| book.fit.timing() == timing);
    let name = |book: &Book| ReaderName { title: called(book), meant_for: shelf.id(book.fit.meant_for) };
    let by_last = |lesson: LessonIndex| shelf.lacks.last.is_some_and(|last| lesson <= last);
    let patterns = shelf.series.patterns.iter().filter(|row| by_last(row.lesson));
    let lessons =
        |lessons: &'a [LessonIndex]| lessons.iter().filter_map(|lesson| lesson_name(shelf, *lesson)).collect();
    let again = shelf.words().filter(|(_, word)| word.taught_whole.is_none());
    let mut again: Vec<WordRow<'_>> =
        again.map(|(number, word)| word_row(shelf, &word.text, word.readable, number)).collect();
    again.sort_by_key(|row| (row.trace.times, std::cmp::Reverse(row.trace.since)));
    let more_words = again.len().saturating_sub(WORDS);
    again.truncate(WORDS);
    ShelfPage {
        title,
        scope: shelf.scope.map(|scope| scope.title()),
        sums: format!("{}, {} different", count(shelf.running_words(), "word"), shelf.series.words.len()),
        complaints: errors,
        early: has(Timing::Early),
        late: has(Timing::Late),
        plots: if shelf.books.len() > 1 { plots::growth(shelf) } else { Vec::new() },
        maps: if shelf.books.len() > 1 {
            [plots::patterns(shelf), plots::sight_words(shelf)].into_iter().flatten().collect()
        } else {
            Vec::new()
        },
        names: if too_many { Vec::new() } else { shelf.books.iter().map(name).collect() },
        too_many,
        strips: columns.chunks(ON_PAPER).map(|columns| strip(shelf, columns)).collect(),
        whole: strip(shelf, &columns),
        enough: shelf.enough,
        lessons: lessons(&shelf.lacks.lessons),
        to_come: lessons(&shelf.lacks.lessons_to_come),
        patterns: patterns.map(|row| pattern_row(shelf, row)).collect(),
        sight: shelf.series.sight.iter().filter(|row| by_last(row.lesson)).map(|row| sight_row(shelf, row)).collect(),
        words: again,
        more_words,
        against: shelf.other.as_ref().map(|(_, name)| against(shelf, name)),
        order: shelf.order.as_ref().map(|order| order.iter().map(|number| order_entry(shelf, *number)).collect()),
    }
}

fn reader(shelf: &Shelf, number: usize, new: usize, so_far: usize) -> ReaderRow {
    let book = &shelf.books[number];
    let (title, file) = titles::of_named(book.title.as_deref(), &book.name);
    let sits = book.fit.timing();
    ReaderRow {
        number: number + 1,
        title,
        file,
        meant_for: shelf.id(book.fit.meant_for),
        first: shelf.id(book.fit.first),
        sits: sits.name(),
        good: match sits {
            Timing::Right => Some(true),
            Timing::Early | Timing::Late => Some(false),
            Timing::Unknown => None,
        },
        words: book.words,
        readable: messages::percent(book.fit.percent_readable),
        decodable: messages::percent(book.fit.percent_decodable),
        new,
        so_far,
    }
}

/// The patterns that some reader practises, or that the lesson of one teaches.
fn columns(shelf: &Shelf) -> Vec<usize> {
    let taught = |row: &PatternSeries| shelf.books.iter().any(|book| book.fit.meant_for == Some(row.lesson));
    let kept = shelf.series.patterns.iter().enumerate().filter(|(_, row)| row.practice.times > 0 || taught(row));
    kept.map(|(number, _)| number).collect()
}

fn strip(shelf: &Shelf, columns: &[usize]) -> Strip {
    let pattern = |number: &usize| {
        let row = &shelf.series.patterns[*number];
        PatternColumn { label: row.label.clone(), lesson: shelf.id(Some(row.lesson)).unwrap_or_default() }
    };
    let cell = |book: &Book, practised: &[usize], number: usize| {
        let n = practised[number];
        let shade = match n {
            0 => 0,
            1..=4 => 1,
            5..=9 => 2,
            _ => 3,
        };
        Cell { n, shade, own: book.fit.meant_for == Some(shelf.series.patterns[number].lesson) }
    };
    let cells = |book: &Book| {
        let practised = shelf.practised(book);
        columns.iter().map(|number| cell(book, &practised, *number)).collect()
    };
    Strip {
        patterns: columns.iter().map(pattern).collect(),
        rows: if columns.is_empty() { Vec::new() } else { shelf.books.iter().map(cells).collect() },
        sums: columns.iter().map(|number| shelf.series.patterns[*number].practice.times).collect(),
    }
}

fn lesson_name(shelf: &Shelf, lesson: LessonIndex) -> Option<LessonName<'static>> {
    let lesson = shelf.scope?.lesson(lesson)?;
    Some(LessonName { id: &lesson.id, title: &lesson.title })
}

fn pattern_row<'a>(shelf: &Shelf, row: &'a PatternSeries) -> PatternRow<'a> {
    let met = row.practice.readers > 0;
    PatternRow {
        label: &row.label,
        lesson: shelf.id(Some(row.lesson)).unwrap_or_default(),
        before: row.before,
        at: row.at,
        after: row.after,
        readers: row.practice.readers,
        gap: met.then_some(row.practice.longest_gap),
        since: row.practice.since(shelf.books.len()),
        little: row.practice.times < shelf.enough,
    }
}

fn sight_row<'a>(shelf: &Shelf, row: &'a crate::analysis::SightSeries) -> SightRow<'a> {
    let trace = row.number.map_or_else(Trace::default, |number| shelf.trace(number));
    SightRow {
        word: &row.word,
        lesson: shelf.id(Some(row.lesson)).unwrap_or_default(),
        early: row.before,
        little: trace.times < shelf.enough,
        trace: word_trace(shelf, &trace),
    }
}

fn word_row<'a>(shelf: &Shelf, word: &'a str, readable: Option<LessonIndex>, number: u32) -> WordRow<'a> {
    WordRow { word, from: shelf.id(readable).unwrap_or("never"), trace: word_trace(shelf, &shelf.trace(number)) }
}

fn word_trace(shelf: &Shelf, trace: &Trace) -> WordTrace {
    let met = trace.readers > 0;
    let reader = |number: usize| met.then(|| called(&shelf.books[number]));
    WordTrace {
        times: trace.times,
        readers: trace.readers,
        first: reader(trace.first),
        last: reader(trace.last),
        gap: met.then_some(trace.longest_gap),
        since: trace.since(shelf.books.len()),
    }
}

fn order_entry(shelf: &Shelf, number: usize) -> OrderEntry {
    let book = &shelf.books[number];
    OrderEntry { number: number + 1, title: called(book), first: shelf.id(book.fit.first) }
}

fn against<'a>(shelf: &Shelf, name: &'a str) -> Against<'a> {
    let mut rows = Vec::new();
    for (number, book) in (1..).zip(&shelf.books) {
        let Some(refit) = &book.refit else { continue };
        if !refit.no_lesson && refit.fit.timing() == book.fit.timing() {
            continue;
        }
        let words = refit.untaught_here.iter().chain(&refit.untaught_there).take(UNTAUGHT).map(String::as_str);
        rows.push(AgainstRow {
            number,
            title: called(book),
            here: book.fit.timing().name(),
            there: if refit.no_lesson { "no such lesson there" } else { refit.fit.timing().name() },
            readable: messages::percent(book.fit.percent_readable),
            readable_there: messages::percent(refit.fit.percent_readable),
            words: words.collect::<Vec<_>>().join(", "),
        });
    }
    Against { scope: name, same: shelf.books.len() - rows.len(), rows }
}
