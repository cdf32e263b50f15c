//! One page over all texts: what the run came to, an index, and each story with its words marked.

mod notes;
mod running_text;
mod story;

use std::io;

use serde::Serialize;
use untaught::json::ErrorReport;

use super::format::{Format, RunTotals};
use super::summary::StorySummary;
use crate::analysis::{CheckedText, Detail};
use crate::pages;

pub(super) struct Html;

/// The page over all stories.
#[derive(Serialize)]
struct CheckPage<'a> {
    title: String,
    more: Option<String>,
    complaints: &'a [ErrorReport],
    stories: &'a [StorySummary],
}

impl Format for Html {
    fn detail(&self) -> Detail {
        Detail { every_word: true, ..Detail::default() }
    }

    fn piece(&self, checked: &CheckedText) -> io::Result<Vec<u8>> {
        pages::render("story.html", story::of(checked)).map(String::into_bytes)
    }

    fn keeps_pieces(&self) -> bool {
        true
    }

    fn tail(&self, totals: &RunTotals) -> io::Result<Vec<u8>> {
        let texts = totals.texts + totals.failed;
        let mut title = match (texts, totals.short) {
            (1, 0) if totals.failed == 0 => "1 story, which meets its thresholds".to_owned(),
            (1, 1) => "1 story, which is below its thresholds".to_owned(),
            (_, 0) => format!("{}, none below threshold", stories(texts)),
            (_, 1) => format!("{}, 1 below threshold", stories(texts)),
            (_, short) => format!("{}, {short} below threshold", stories(texts)),
        };
        if totals.failed > 0 {
            title += &format!(", {} could not be checked", totals.failed);
        }
        let page = CheckPage {
            title,
            more: scopes(&totals.summaries),
            complaints: &totals.errors,
            stories: &totals.summaries,
        };
        pages::render("check.html", page).map(String::into_bytes)
    }
}

fn stories(n: usize) -> String {
    if n == 1 { "1 story".to_owned() } else { format!("{n} stories") }
}

/// The scopes that the stories were checked by.
fn scopes(summaries: &[StorySummary]) -> Option<String> {
    let mut titles: Vec<&str> = summaries.iter().map(|summary| summary.scope.as_str()).collect();
    titles.sort_unstable();
    titles.dedup();
    (!titles.is_empty()).then(|| format!("Checked by: {}.", titles.join("; ")))
}
