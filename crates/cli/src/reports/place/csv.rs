//! Places for spreadsheets: a row for each text.

use std::io;

use crate::analysis::Placement;
use crate::output::table;

pub(super) const HEAD: &str = "file,scope,lesson,first_readable,words,percent_readable,obstacles\r\n";

/// The row of a text.
pub(super) fn row(placement: &Placement) -> io::Result<Vec<u8>> {
    let checked = &placement.checked;
    let meant = placement.meant_for();
    let percent = meant.and_then(|lesson| placement.curve.percent_readable(lesson));
    let ways: Vec<String> =
        placement.obstacles.iter().map(|o| format!("{} ({})", o.label(checked.plan.scope), o.words)).collect();
    table::row(&[
        &checked.source.name,
        checked.plan.scope.title(),
        checked.id(meant).unwrap_or_default(),
        checked.id(placement.first).unwrap_or("never"),
        &placement.curve.words.to_string(),
        &table::percent(percent),
        &ways.join("; "),
    ])
}
