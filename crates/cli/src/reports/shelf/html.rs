//! The shelf on one page: its readers in order, what each practises, what is practised too little.

use std::io;

use serde::Serialize;
use untaught::json::ErrorReport;
use untaught::messages;

use crate::analysis::{Book, PatternTotals, Shelf, Timing};
use crate::output::count;
use crate::pages;
use crate::reports::titles;

/// Patterns side by side on paper.
const ON_PAPER: usize = 15;

#[derive(Serialize)]
struct ShelfPage<'a> {
    title: String,
    scope: Option<&'static str>,
    complaints: &'a [ErrorReport],
    readers: Vec<ReaderRow<'a>>,
    /// Whether some sit too early, or too late.
    early: bool,
    late: bool,
    /// The table of readers and patterns: shelf, and in strips for paper.
    whole: Strip,
    strips: Vec<Strip>,
    enough: usize,
    too_little: Vec<PatternRow<'a>>,
    order: Option<Vec<OrderEntry>>,
}

#[derive(Serialize)]
struct ReaderRow<'a> {
    title: String,
    file: Option<String>,
    meant_for: Option<&'static str>,
    first: Option<&'static str>,
    sits: &'static str,
    /// Whether that is right, or wrong; none where no lesson is named.
    good: Option<bool>,
    words: usize,
    readable: String,
    new: &'a [String],
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
struct PatternRow<'a> {
    label: &'a str,
    lesson: &'static str,
    words: usize,
    readers: usize,
}

/// A reader in the proposed order.
#[derive(Serialize)]
struct OrderEntry {
    number: usize,
    title: String,
    first: Option<&'static str>,
}

pub(super) fn page(shelf: &Shelf, errors: &[ErrorReport]) -> io::Result<String> {
    let amiss = shelf.misplaced().count();
    let mut title = count(shelf.books.len(), "reader");
    title += &match amiss {
        0 => ", none out of place".to_owned(),
        amiss => format!(", {amiss} out of place"),
    };
    if !errors.is_empty() {
        title += &format!(", {} could not be checked", errors.len());
    }
    let columns = columns(shelf);
    let page = ShelfPage {
        title,
        scope: shelf.scope.map(|scope| scope.title()),
        complaints: errors,
        readers: shelf.books.iter().map(|book| reader(shelf, book)).collect(),
        early: shelf.books.iter().any(|book| book.timing() == Timing::Early),
        late: shelf.books.iter().any(|book| book.timing() == Timing::Late),
        whole: strip(shelf, &columns),
        strips: columns.chunks(ON_PAPER).map(|columns| strip(shelf, columns)).collect(),
        enough: shelf.enough,
        too_little: shelf.too_little.iter().map(|number| too_little(shelf, &shelf.patterns[*number])).collect(),
        order: shelf.order.as_ref().map(|order| order.iter().map(|number| order_entry(shelf, *number)).collect()),
    };
    pages::render("shelf.html", page)
}

fn reader<'a>(shelf: &Shelf, book: &'a Book) -> ReaderRow<'a> {
    let (title, file) = titles::of_named(book.title.as_deref(), &book.name);
    let sits = book.timing();
    ReaderRow {
        title,
        file,
        meant_for: shelf.id(book.meant_for),
        first: shelf.id(book.first),
        sits: sits.name(),
        good: match sits {
            Timing::Right => Some(true),
            Timing::Early | Timing::Late => Some(false),
            Timing::Unknown => None,
        },
        words: book.words,
        readable: messages::percent(book.percent_readable),
        new: &book.new,
    }
}

/// The patterns that some reader practises, or that the lesson of one teaches.
fn columns(shelf: &Shelf) -> Vec<usize> {
    let taught = |row: &PatternTotals| shelf.books.iter().any(|book| book.meant_for == Some(row.lesson));
    let kept = shelf.patterns.iter().enumerate().filter(|(_, row)| row.words > 0 || taught(row));
    kept.map(|(number, _)| number).collect()
}

fn strip(shelf: &Shelf, columns: &[usize]) -> Strip {
    let pattern = |number: &usize| {
        let row = &shelf.patterns[*number];
        PatternColumn { label: row.label.clone(), lesson: shelf.id(Some(row.lesson)).unwrap_or_default() }
    };
    let cell = |book: &Book, number: usize| {
        let n = book.practised[number];
        let shade = match n {
            0 => 0,
            1..=4 => 1,
            5..=9 => 2,
            _ => 3,
        };
        Cell { n, shade, own: book.meant_for == Some(shelf.patterns[number].lesson) }
    };
    let cells = |book: &Book| columns.iter().map(|number| cell(book, *number)).collect();
    Strip {
        patterns: columns.iter().map(pattern).collect(),
        rows: shelf.books.iter().map(cells).collect(),
        sums: columns.iter().map(|number| shelf.patterns[*number].words).collect(),
    }
}

fn too_little<'a>(shelf: &Shelf, row: &'a PatternTotals) -> PatternRow<'a> {
    let PatternTotals { label, lesson, words, readers } = row;
    PatternRow { label, lesson: shelf.id(Some(*lesson)).unwrap_or_default(), words: *words, readers: *readers }
}

fn order_entry(shelf: &Shelf, number: usize) -> OrderEntry {
    let book = &shelf.books[number];
    let (title, _) = titles::of_named(book.title.as_deref(), &book.name);
    OrderEntry { number: number + 1, title, first: shelf.id(book.first) }
}
