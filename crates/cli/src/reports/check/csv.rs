//! Tables for spreadsheets: a row for each text, or for each untaught word of each text.

use std::io;

use untaught::{Finding, messages};

use super::format::{Format, RunTotals};
use crate::analysis::{CheckedText, Detail};
use crate::output::table::{self, percent, truth};

/// A row for each text.
pub(super) struct TextRows;

impl Format for TextRows {
    fn detail(&self) -> Detail {
        Detail::COUNTS
    }

    fn head(&self) -> String {
        let columns = "file,scope,lesson,met,words,decodable,sight,story,untaught,uncounted,percent_decodable,percent_readable,\
                       percent_focus,untaught_words";
        format!("{columns}\r\n")
    }

    fn piece(&self, checked: &CheckedText) -> io::Result<Vec<u8>> {
        let (report, counts) = (&checked.report, &checked.report.tokens);
        let number = |n: usize| n.to_string();
        let focus = untaught::percent(report.focus.tokens, counts.words);
        let untaught: Vec<&str> = report.findings.iter().map(Finding::word).collect();
        table::row(&[
            &checked.source.name,
            checked.plan.scope.title(),
            checked.lesson_id(),
            truth(checked.met()),
            &number(counts.words),
            &number(counts.decodable),
            &number(counts.sight),
            &number(counts.story),
            &number(counts.untaught),
            &number(counts.uncounted),
            &percent(counts.percent_decodable()),
            &percent(counts.percent_readable()),
            &percent(focus.filter(|_| !report.focus.labels.is_empty())),
            &untaught.join(" "),
        ])
    }

    fn tail(&self, _: &RunTotals) -> io::Result<Vec<u8>> {
        Ok(Vec::new())
    }
}

/// A row for each untaught word.
pub(super) struct WordRows;

impl Format for WordRows {
    fn detail(&self) -> Detail {
        Detail { places: 1, ..Detail::COUNTS }
    }

    fn head(&self) -> String {
        "file,scope,lesson,word,times,line,column,needs,first_readable,likely_name,by_letters\r\n".to_owned()
    }

    fn piece(&self, checked: &CheckedText) -> io::Result<Vec<u8>> {
        let report = &checked.report;
        let extents = checked.extents(report.findings.iter().map(|finding| &finding.places[..1]));
        let mut out = Vec::new();
        for (finding, extents) in report.findings.iter().zip(extents) {
            let needs: Vec<String> =
                finding.needs.iter().map(|need| messages::need(need, checked.plan.scope)).collect();
            let first = report.distinct[finding.type_number].verdict.first_readable();
            out.extend(table::row(&[
                &checked.source.name,
                checked.plan.scope.title(),
                checked.lesson_id(),
                finding.word(),
                &finding.count.to_string(),
                &extents[0].start.line.to_string(),
                &extents[0].start.column.to_string(),
                &needs.join(" + "),
                checked.id(first).unwrap_or("never"),
                truth(finding.likely_name),
                truth(finding.by_letters),
            ])?);
        }
        Ok(out)
    }

    fn tail(&self, _: &RunTotals) -> io::Result<Vec<u8>> {
        Ok(Vec::new())
    }
}
