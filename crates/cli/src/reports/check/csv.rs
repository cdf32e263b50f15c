//! Tables for spreadsheets: a row for each text, or for each untaught word of each text.

use std::io;

use untaught::{Counts, Finding, messages};

use super::format::{Format, RunTotals};
use super::sentences;
use crate::analysis::{CheckedText, Detail};
use crate::output::table::{self, percent, truth};

/// A row for each text; with a row of totals below them, if that is asked for.
pub(super) struct TextRows {
    pub(super) totals: bool,
}

impl Format for TextRows {
    fn detail(&self) -> Detail {
        Detail::COUNTS
    }

    fn head(&self) -> String {
        let columns = "file,scope,lesson,met,words,decodable,sight,story,untaught,uncounted,percent_decodable,percent_readable,\
                       percent_focus,untaught_words,lesson_title,different_words,different_decodable,different_sight,\
                       different_story,different_untaught,percent_different_decodable,percent_different_readable,\
                       min_decodable,min_readable,min_focus,why_not_met";
        format!("{columns}\r\n")
    }

    fn piece(&self, checked: &CheckedText) -> io::Result<Vec<u8>> {
        let (report, plan) = (&checked.report, &checked.plan);
        let focus = untaught::percent(report.focus.tokens, report.tokens.words);
        let untaught: Vec<&str> = report.findings.iter().map(Finding::word).collect();
        let title = plan.scope.lesson(report.lesson).map_or("", |lesson| lesson.title.as_str());
        let least = |least: Option<f64>| least.map_or_else(String::new, |least| least.to_string());
        let why: Vec<String> = checked.shortfalls.iter().map(|short| sentences::shortfall(checked, short)).collect();
        let types = &report.types;
        let mut row = vec![
            checked.source.name.clone(),
            plan.scope.title().to_owned(),
            checked.lesson_id().to_owned(),
            truth(checked.met()).to_owned(),
        ];
        row.extend(counted(&report.tokens));
        row.extend([percent(focus.filter(|_| !report.focus.labels.is_empty())), untaught.join(" "), title.to_owned()]);
        row.extend([types.words, types.decodable, types.sight, types.story, types.untaught].map(|n| n.to_string()));
        row.extend([
            percent(types.percent_decodable()),
            percent(types.percent_readable()),
            least(plan.min_decodable()),
            least(Some(plan.settings.min_readable.value)),
            least(plan.settings.min_focus.as_ref().map(|least| least.value)),
            why.join(" "),
        ]);
        table::row(&row.iter().map(String::as_str).collect::<Vec<_>>())
    }

    fn tail(&self, totals: &RunTotals) -> io::Result<Vec<u8>> {
        if !self.totals {
            return Ok(Vec::new());
        }
        let met = truth(totals.short == 0);
        let mut row = vec!["all".to_owned(), String::new(), String::new(), met.to_owned()];
        row.extend(counted(&totals.counts));
        // Different words cannot be added up.
        row.resize(AFTER_COUNTS + row.len(), String::new());
        table::row(&row.iter().map(String::as_str).collect::<Vec<_>>())
    }
}

/// Columns after those of [`counted`].
const AFTER_COUNTS: usize = 14;

/// Counts and the two percentages.
fn counted(counts: &Counts) -> [String; 8] {
    let Counts { words, decodable, sight, story, untaught, uncounted } = counts;
    let [words, decodable, sight, story, untaught, uncounted] =
        [words, decodable, sight, story, untaught, uncounted].map(ToString::to_string);
    let percents = [percent(counts.percent_decodable()), percent(counts.percent_readable())];
    let [of_decodable, of_readable] = percents;
    [words, decodable, sight, story, untaught, uncounted, of_decodable, of_readable]
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
