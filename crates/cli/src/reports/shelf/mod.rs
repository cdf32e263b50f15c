//! The formats of `untaught shelf`.

mod csv;
mod html;
mod json;
mod plots;
mod tables;
mod text;

use untaught::json::ErrorReport;

use crate::analysis::Shelf;
use crate::args::{ShelfFormat, ShelfList};
use crate::output::{Failure, Sink, sheets};

/// Writes the report on a shelf; `show` is what the text report shows in full.
pub(crate) fn write(
    sink: &mut Sink,
    format: ShelfFormat,
    shelf: &Shelf,
    show: &[ShelfList],
    errors: &[ErrorReport],
) -> Result<(), Failure> {
    match format {
        ShelfFormat::Text => sink.write(text::report(shelf, show).as_bytes()),
        ShelfFormat::Json => sink.write(&json::report(shelf, errors)?),
        ShelfFormat::Csv => csv::write(sink, tables::readers(shelf, true), Some(tables::reader_sums(shelf))),
        ShelfFormat::CsvWords => csv::write(sink, tables::words(shelf), None),
        ShelfFormat::CsvPatterns => csv::write(sink, tables::patterns(shelf), None),
        ShelfFormat::CsvLessons => csv::write(sink, tables::lessons(shelf), None),
        ShelfFormat::Xlsx => sink.write(&sheets::workbook(vec![
            tables::readers(shelf, false),
            tables::words(shelf),
            tables::patterns(shelf),
            tables::lessons(shelf),
            tables::practice(shelf),
            tables::lacking(shelf),
        ])?),
        ShelfFormat::Html => html::write(sink, shelf, errors),
    }
}
