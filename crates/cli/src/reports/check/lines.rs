//! One line for each untaught word, as compilers and linters print them: `file:line:column: word: reason`. Editors and terminals
//! make such a place something to jump to.

use std::io::{self, Write as _};

use untaught::json::ErrorReport;

use super::format::{Format, RunTotals};
use super::sentences;
use crate::analysis::{CheckedText, Detail, Extent};
use crate::output::one_line;

pub(super) struct WordLines;

impl Format for WordLines {
    fn detail(&self) -> Detail {
        Detail { places: usize::MAX, ..Detail::default() }
    }

    fn piece(&self, checked: &CheckedText) -> io::Result<Vec<u8>> {
        let report = &checked.report;
        let file = one_line(&checked.source.name);
        let extents = checked.extents(report.findings.iter().map(|finding| &finding.places[..]));
        let mut places: Vec<(usize, usize, usize)> = Vec::new();
        for (number, extents) in extents.into_iter().enumerate() {
            places.extend(extents.into_iter().map(|Extent { start, .. }| (start.line, start.column, number)));
        }
        // In the order of the text.
        places.sort_unstable();
        let mut out = Vec::new();
        for (line, column, number) in places {
            let finding = &report.findings[number];
            let (word, needs) = (finding.word(), sentences::needs(checked, finding));
            writeln!(out, "{file}:{line}:{column}: {}: {}", one_line(word), one_line(&needs))?;
        }
        for short in &checked.shortfalls {
            writeln!(out, "{file}: {}", one_line(&sentences::shortfall(checked, short)))?;
        }
        Ok(out)
    }

    fn tail(&self, totals: &RunTotals) -> io::Result<Vec<u8>> {
        let mut out = Vec::new();
        for ErrorReport { file, message } in &totals.errors {
            writeln!(out, "{}: not checked: {}", one_line(file), one_line(message))?;
        }
        Ok(out)
    }
}
