//! Workflow commands: GitHub shows them beside the lines of a changed text. The syntax is that of its documentation of workflow
//! commands (from memory): `%`, CR and LF are escaped, in properties `:` and `,` too.

use std::fmt::Write as _;
use std::io;

use untaught::json::ErrorReport;

use super::format::{Format, RunTotals};
use super::sentences;
use crate::analysis::{CheckedText, Detail, Extent};
use crate::output::safe;

pub(super) struct Github;

impl Format for Github {
    fn detail(&self) -> Detail {
        Detail { places: usize::MAX, ..Detail::default() }
    }

    fn piece(&self, checked: &CheckedText) -> io::Result<Vec<u8>> {
        let mut out = String::new();
        let file = property(&checked.source.name);
        let report = &checked.report;
        let extents = checked.extents(report.findings.iter().map(|finding| &finding.places[..]));
        // What only tells is a notice; what fails the run is an error.
        let level = if checked.met() { "notice" } else { "error" };
        for (finding, extents) in report.findings.iter().zip(extents) {
            let message = data(&sentences::untaught(checked, finding));
            let title = property(&format!("Untaught: {}", finding.word()));
            for Extent { start, end } in extents {
                let line = start.line;
                // A word broken over two lines has no columns that hold for both.
                let columns = match end.line == line {
                    true => format!(",col={},endColumn={}", start.column, end.column),
                    false => format!(",endLine={}", end.line),
                };
                let _ = writeln!(out, "::{level} file={file},line={line}{columns},title={title}::{message}");
            }
        }
        for short in &checked.shortfalls {
            let message = data(&sentences::shortfall(checked, short));
            let _ = writeln!(out, "::error file={file},title=Below threshold::{message}");
        }
        Ok(out.into_bytes())
    }

    fn tail(&self, totals: &RunTotals) -> io::Result<Vec<u8>> {
        let mut out = String::new();
        for ErrorReport { file, message } in &totals.errors {
            let _ = writeln!(out, "::error file={},title=Not checked::{}", property(file), data(message));
        }
        Ok(out.into_bytes())
    }
}

fn data(text: &str) -> String {
    let text = text.replace('%', "%25").replace('\r', "%0D").replace('\n', "%0A");
    safe(&text).to_string()
}

fn property(text: &str) -> String {
    data(text).replace(':', "%3A").replace(',', "%2C")
}
