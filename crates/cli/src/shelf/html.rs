//! The shelf on one page: its readers in order, what each practises, what is practised too little.

use serde::Serialize;

use super::{Book, Row, Sits, Whole};
use crate::check::{shown, titles_of};
use crate::output::{Failed, Failure};
use crate::page;

/// Patterns side by side on paper.
const ON_PAPER: usize = 15;

#[derive(Serialize)]
struct Page<'a> {
    title: String,
    scope: Option<&'static str>,
    complaints: &'a [Failed],
    readers: Vec<Reader<'a>>,
    /// Whether some sit too early, or too late.
    early: bool,
    late: bool,
    /// The table of readers and patterns: whole, and in strips for paper.
    whole: Strip,
    strips: Vec<Strip>,
    enough: usize,
    too_little: Vec<TooLittle<'a>>,
    order: Option<Vec<Place>>,
}

#[derive(Serialize)]
struct Reader<'a> {
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
    patterns: Vec<Pattern>,
    rows: Vec<Vec<Cell>>,
    sums: Vec<usize>,
}

#[derive(Serialize)]
struct Pattern {
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
struct TooLittle<'a> {
    label: &'a str,
    lesson: &'static str,
    words: usize,
    readers: usize,
}

/// A reader in the proposed order.
#[derive(Serialize)]
struct Place {
    number: usize,
    title: String,
    first: Option<&'static str>,
}

pub(super) fn page(whole: &Whole, failed: &[Failed]) -> Result<String, Failure> {
    let amiss = whole.books.iter().filter(|book| matches!(book.sits(), Sits::Early | Sits::Late)).count();
    let mut title = page::count(whole.books.len(), "reader");
    title += &match amiss {
        0 => ", none out of place".to_owned(),
        amiss => format!(", {amiss} out of place"),
    };
    if !failed.is_empty() {
        title += &format!(", {} could not be checked", failed.len());
    }
    let columns = columns(whole);
    let page = Page {
        title,
        scope: whole.scope.map(|scope| scope.title()),
        complaints: failed,
        readers: whole.books.iter().map(|book| reader(whole, book)).collect(),
        early: whole.books.iter().any(|book| book.sits() == Sits::Early),
        late: whole.books.iter().any(|book| book.sits() == Sits::Late),
        whole: strip(whole, &columns),
        strips: columns.chunks(ON_PAPER).map(|columns| strip(whole, columns)).collect(),
        enough: whole.enough,
        too_little: whole.too_little.iter().map(|number| too_little(whole, &whole.rows[*number])).collect(),
        order: whole.order.as_ref().map(|order| order.iter().map(|number| place(whole, *number)).collect()),
    };
    Ok(page::render("shelf.html", page)?)
}

fn reader<'a>(whole: &Whole, book: &'a Book) -> Reader<'a> {
    let (title, file) = titles_of(book.title.as_deref(), &book.name);
    let sits = book.sits();
    Reader {
        title,
        file,
        meant_for: whole.id(book.meant_for),
        first: whole.id(book.first),
        sits: sits.name(),
        good: match sits {
            Sits::Right => Some(true),
            Sits::Early | Sits::Late => Some(false),
            Sits::Nowhere => None,
        },
        words: book.words,
        readable: shown(book.percent_readable),
        new: &book.new,
    }
}

/// The patterns that some reader practises, or that the lesson of one teaches.
fn columns(whole: &Whole) -> Vec<usize> {
    let taught = |row: &Row| whole.books.iter().any(|book| book.meant_for == Some(row.lesson));
    let kept = whole.rows.iter().enumerate().filter(|(_, row)| row.words > 0 || taught(row));
    kept.map(|(number, _)| number).collect()
}

fn strip(whole: &Whole, columns: &[usize]) -> Strip {
    let pattern = |number: &usize| {
        let row = &whole.rows[*number];
        Pattern { label: row.label.clone(), lesson: whole.id(Some(row.lesson)).unwrap_or_default() }
    };
    let cell = |book: &Book, number: usize| {
        let n = book.practised[number];
        let shade = match n {
            0 => 0,
            1..=4 => 1,
            5..=9 => 2,
            _ => 3,
        };
        Cell { n, shade, own: book.meant_for == Some(whole.rows[number].lesson) }
    };
    let cells = |book: &Book| columns.iter().map(|number| cell(book, *number)).collect();
    Strip {
        patterns: columns.iter().map(pattern).collect(),
        rows: whole.books.iter().map(cells).collect(),
        sums: columns.iter().map(|number| whole.rows[*number].words).collect(),
    }
}

fn too_little<'a>(whole: &Whole, row: &'a Row) -> TooLittle<'a> {
    let Row { label, lesson, words, readers } = row;
    TooLittle { label, lesson: whole.id(Some(*lesson)).unwrap_or_default(), words: *words, readers: *readers }
}

fn place(whole: &Whole, number: usize) -> Place {
    let book = &whole.books[number];
    let (title, _) = titles_of(book.title.as_deref(), &book.name);
    Place { number: number + 1, title, first: whole.id(book.first) }
}
