//! The formats of `untaught place`. All but the page are written text by text.

mod chart;
mod csv;
mod html;
mod json;
mod text;

use std::io;

use untaught::json::ErrorReport;

use crate::analysis::Placement;
use crate::args::PlaceFormat;

/// What comes before all texts.
pub(crate) fn head(format: PlaceFormat) -> String {
    match format {
        PlaceFormat::Text | PlaceFormat::Html => String::new(),
        PlaceFormat::Json => json::head(),
        PlaceFormat::Csv => csv::HEAD.to_owned(),
    }
}

/// The report on one text; nothing for a page, which is made of all texts together.
pub(crate) fn piece(format: PlaceFormat, placement: &Placement) -> io::Result<Vec<u8>> {
    match format {
        PlaceFormat::Text => Ok(text::piece(placement).into_bytes()),
        PlaceFormat::Json => json::piece(placement),
        PlaceFormat::Csv => csv::row(placement),
        PlaceFormat::Html => Ok(Vec::new()),
    }
}

/// What comes between two texts.
pub(crate) fn between(format: PlaceFormat) -> &'static str {
    if format == PlaceFormat::Json { "," } else { "" }
}

/// What comes after all texts; the whole page.
pub(crate) fn tail(format: PlaceFormat, placements: &[Placement], errors: &[ErrorReport]) -> io::Result<Vec<u8>> {
    match format {
        PlaceFormat::Text | PlaceFormat::Csv => Ok(Vec::new()),
        PlaceFormat::Json => json::tail(errors),
        PlaceFormat::Html => html::page(placements, errors).map(String::into_bytes),
    }
}
