//! Rows of a table for spreadsheets, by RFC 4180.

use std::io;

use super::one_line;

/// One row. A cell that a spreadsheet would take for a formula gets an apostrophe before it; control characters are shown as codes.
pub(crate) fn row(cells: &[&str]) -> io::Result<Vec<u8>> {
    let mut out = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    out.write_record(cells.iter().map(|cell| harmless(cell)))?;
    out.into_inner().map_err(|error| io::Error::other(error.to_string()))
}

fn harmless(cell: &str) -> String {
    let number = cell.parse::<f64>().is_ok();
    let formula =
        cell.starts_with(['=', '+', '-', '@', '\t', '\r', '\n', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}']);
    let safe = one_line(cell);
    if formula && !number { format!("'{safe}") } else { safe.into_owned() }
}

#[cfg(test)]
mod tests {
    use super::row;

    #[test]
    fn no_cell_is_a_formula() {
        let shown = |cells: &[&str]| String::from_utf8(row(cells).unwrap()).unwrap();
        assert_eq!(
            shown(&["=cmd()", "a,b", "-5", "-x", "say \"hi\""]),
            "'=cmd(),\"a,b\",-5,'-x,\"say \"\"hi\"\"\"\r\n"
        );
        assert_eq!(shown(&["@sum", "+1x", "a\u{1b}b"]), "'@sum,'+1x,a\\u{1b}b\r\n");
    }
}
