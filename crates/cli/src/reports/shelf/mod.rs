//! The formats of `untaught shelf`.

mod csv;
mod html;
mod json;
mod text;

use std::io;

use untaught::json::ErrorReport;

use crate::analysis::Shelf;
use crate::args::ShelfFormat;

/// The report on a shelf.
pub(crate) fn report(format: ShelfFormat, shelf: &Shelf, errors: &[ErrorReport]) -> io::Result<Vec<u8>> {
    match format {
        ShelfFormat::Text => Ok(text::report(shelf).into_bytes()),
        ShelfFormat::Json => json::report(shelf, errors),
        ShelfFormat::Csv => csv::report(shelf),
        ShelfFormat::Html => html::page(shelf, errors).map(String::into_bytes),
    }
}
