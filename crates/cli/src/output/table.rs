//! Rows of a table for spreadsheets, by RFC 4180.

use std::borrow::Cow;
use std::io;

use untaught::messages;

use super::escape::one_line;

/// One row. A cell that a spreadsheet would take for a formula gets an apostrophe before it; control characters are shown as codes.
pub(crate) fn row(cells: &[&str]) -> io::Result<Vec<u8>> {
    let mut out = csv::WriterBuilder::new();
    // The writer sets this aside anew for each row.
    out.terminator(csv::Terminator::CRLF).buffer_capacity(cells.iter().map(|cell| cell.len() + 4).sum());
    let mut out = out.from_writer(Vec::new());
    for cell in cells {
        out.write_field(&*harmless(cell))?;
    }
    out.write_record(None::<&[u8]>)?;
    out.into_inner().map_err(|error| io::Error::other(error.to_string()))
}

/// The row of the headings: programs read them as they are.
pub(crate) fn headings(cells: &[&str]) -> io::Result<Vec<u8>> {
    let mut out = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    out.write_record(cells.iter().map(|cell| one_line(cell).into_owned()))?;
    out.into_inner().map_err(|error| io::Error::other(error.to_string()))
}

/// A percentage: always two decimals; nothing if there is none.
pub(crate) fn percent(percent: Option<f64>) -> String {
    messages::rounded(percent).map_or_else(String::new, |percent| format!("{percent:.2}"))
}

/// For spreadsheets and programs alike.
pub(crate) fn truth(is: bool) -> &'static str {
    if is { "true" } else { "false" }
}

fn harmless(cell: &str) -> Cow<'_, str> {
    let formula =
        cell.starts_with(['=', '+', '-', '@', '\t', '\r', '\n', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}']);
    let safe = one_line(cell);
    if formula && cell.parse::<f64>().is_err() { format!("'{safe}").into() } else { safe }
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
