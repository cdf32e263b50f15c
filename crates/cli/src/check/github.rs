//! Workflow commands: GitHub shows them beside the lines of a changed text. The syntax is that of its documentation of workflow
//! commands (from memory): `%`, CR and LF are escaped, in properties `:` and `,` too.

use std::fmt::Write as _;
use std::io;

use super::format::{Format, Whole};
use super::{Checked, Wanted, describe};
use crate::output::Failed;

pub(super) struct Github;

impl Format for Github {
    fn wanted(&self) -> Wanted {
        Wanted { places: usize::MAX, ..Wanted::default() }
    }

    fn piece(&self, checked: &Checked) -> io::Result<Vec<u8>> {
        let mut out = String::new();
        let file = property(&checked.source.name);
        let report = &checked.report;
        let spots = checked.spots(report.findings.iter().map(|finding| &finding.places[..]));
        // What only tells is a notice; what fails the run is an error.
        let level = if checked.met() { "notice" } else { "error" };
        for (finding, spots) in report.findings.iter().zip(spots) {
            let message = data(&describe::untaught(checked, finding));
            let title = property(&format!("Untaught: {}", finding.word()));
            for spot in spots {
                let line = spot.line;
                // A word broken over two lines has no columns that hold for both.
                let columns = match spot.end_line == line {
                    true => format!(",col={},endColumn={}", spot.column, spot.end_column),
                    false => format!(",endLine={}", spot.end_line),
                };
                let _ = writeln!(out, "::{level} file={file},line={line}{columns},title={title}::{message}");
            }
        }
        for short in &checked.shortfalls {
            let message = data(&describe::shortfall(checked, short));
            let _ = writeln!(out, "::error file={file},title=Falls short::{message}");
        }
        Ok(out.into_bytes())
    }

    fn tail(&self, whole: &Whole) -> io::Result<Vec<u8>> {
        let mut out = String::new();
        for Failed { file, message } in &whole.failures {
            let _ = writeln!(out, "::error file={},title=Not checked::{}", property(file), data(message));
        }
        Ok(out.into_bytes())
    }
}

fn data(text: &str) -> String {
    let text = text.replace('%', "%25").replace('\r', "%0D").replace('\n', "%0A");
    crate::output::safe(&text).to_string()
}

fn property(text: &str) -> String {
    data(text).replace(':', "%3A").replace(',', "%2C")
}
