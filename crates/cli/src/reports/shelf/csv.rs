//! The tables of a shelf for spreadsheets and programs.

use crate::output::sheets::{Cell, Table};
use crate::output::{Failure, Sink, table};

/// Writes a table, and a row of sums below it if there is one.
pub(super) fn write<'a>(sink: &mut Sink, written: Table<'a>, sums: Option<Vec<Cell<'a>>>) -> Result<(), Failure> {
    let names: Vec<&str> = written.columns.iter().map(|column| column.name.as_str()).collect();
    sink.write(&table::headings(&names)?)?;
    for row in written.rows.chain(sums) {
        let cells: Vec<_> = row.iter().map(Cell::text).collect();
        sink.write(&table::row(&cells.iter().map(AsRef::as_ref).collect::<Vec<_>>())?)?;
    }
    Ok(())
}
