//! The shelf for programs. The shape is published in `scope-files/shelf.schema.json`.

use std::io;

use serde::Serialize;
use untaught::json::{ErrorReport, FORMAT};
use untaught::messages;

use crate::analysis::{Book, Shelf};
use crate::output::json_bytes;

#[derive(Serialize)]
struct ShelfReport<'a> {
    format: u32,
    scope: Option<&'a str>,
    patterns: Vec<PatternReport<'a>>,
    readers: Vec<BookReport<'a>>,
    /// Patterns practised fewer times than this are listed.
    enough: usize,
    practised_too_little: Vec<&'a str>,
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
    new_words: &'a [String],
}

#[derive(Serialize)]
struct PatternUse<'a> {
    pattern: &'a str,
    words: usize,
}

/// The report on a shelf.
pub(super) fn report(shelf: &Shelf, errors: &[ErrorReport]) -> io::Result<Vec<u8>> {
    let practised = |book: &'_ Book| -> Vec<(usize, usize)> {
        book.practised.iter().copied().enumerate().filter(|(_, n)| *n > 0).collect()
    };
    let report = ShelfReport {
        format: FORMAT,
        scope: shelf.scope.map(|scope| scope.title()),
        patterns: shelf
            .patterns
            .iter()
            .map(|pattern| PatternReport {
                pattern: &pattern.label,
                lesson: shelf.id(Some(pattern.lesson)),
                words: pattern.words,
                readers: pattern.readers,
            })
            .collect(),
        readers: shelf
            .books
            .iter()
            .map(|book| BookReport {
                file: &book.name,
                title: book.title.as_deref(),
                lesson: shelf.id(book.meant_for),
                readable_from: shelf.id(book.first),
                sits: book.timing().name(),
                words: book.words,
                percent_readable: messages::rounded(book.percent_readable),
                practises: practised(book)
                    .into_iter()
                    .map(|(number, words)| PatternUse { pattern: &shelf.patterns[number].label, words })
                    .collect(),
                new_words: &book.new,
            })
            .collect(),
        enough: shelf.enough,
        practised_too_little: shelf.too_little.iter().map(|number| shelf.patterns[*number].label.as_str()).collect(),
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
