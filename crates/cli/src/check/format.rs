//! Ways to report. A piece is made for each text, on whatever thread has checked it; the pieces are put together in order.

use std::io;

use serde_json::value::RawValue;

use super::kept::Kept;
use super::{Checked, Wanted};
use super::{csv, github, html, json, jsonl, junit, sarif, text};
use crate::args::{Check, Report};
use crate::output::Failed;

pub(super) trait Format: Sync {
    /// What of a text it needs to know.
    fn wanted(&self) -> Wanted {
        Wanted::default()
    }

    /// What stands before all texts.
    fn head(&self) -> String {
        String::new()
    }

    /// What stands between two pieces.
    fn between(&self) -> &'static str {
        ""
    }

    /// What is said of one text; nothing for a text that is passed over.
    fn piece(&self, checked: &Checked) -> io::Result<Vec<u8>>;

    /// What stands after all texts.
    fn tail(&self, whole: &Whole) -> io::Result<Vec<u8>>;

    /// What is said at once of what could not be checked, with the id of its record; else it is kept for the end.
    fn failed(&self, _id: Option<&RawValue>, _failed: &Failed) -> io::Result<Option<Vec<u8>>> {
        Ok(None)
    }

    /// Whether the pieces are kept for the end, because what comes first speaks of all.
    fn keeps_pieces(&self) -> bool {
        false
    }
}

/// What a whole run came to.
#[derive(Default)]
pub(super) struct Whole {
    /// Texts checked, how many of them fall short, and how many more things could not be checked.
    pub(super) texts: usize,
    pub(super) short: usize,
    pub(super) failed: usize,
    /// What could not be checked, where the format says it at the end.
    pub(super) failures: Vec<Failed>,
    /// The pieces, where the format keeps them.
    pub(super) pieces: Kept,
    /// What an index says of each text, where the format keeps the pieces.
    pub(super) summaries: Vec<html::Summary>,
}

/// The format that was asked for.
pub(super) fn of(args: &Check) -> Box<dyn Format + '_> {
    match args.format {
        Report::Text => Box::new(text::Text(args)),
        Report::Html => Box::new(html::Html),
        Report::Json => Box::new(json::Json { every_word: args.every_word, suggest: args.suggest }),
        Report::Jsonl => Box::new(jsonl::Jsonl { every_word: args.every_word, suggest: args.suggest }),
        Report::Csv => Box::new(csv::Texts),
        Report::CsvWords => Box::new(csv::Words),
        Report::Sarif => Box::new(sarif::Sarif),
        Report::Junit => Box::new(junit::Junit),
        Report::Github => Box::new(github::Github),
    }
}
