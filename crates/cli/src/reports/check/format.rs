//! What a format of `check` is. A piece is made for each text, on whatever thread has checked it; the pieces are put together in order.

use std::io;

use serde_json::value::RawValue;
use untaught::Counts;
use untaught::json::ErrorReport;

use super::pieces::Pieces;
use super::summary::StorySummary;
use crate::analysis::{CheckedText, Detail};

/// A way to report checked texts.
pub(crate) trait Format: Sync {
    /// How much of a text it asks for.
    fn detail(&self) -> Detail {
        Detail::default()
    }

    /// What comes before all texts.
    fn head(&self) -> String {
        String::new()
    }

    /// What comes between two pieces.
    fn between(&self) -> &'static str {
        ""
    }

    /// The report on one text; empty for a text that is not reported.
    fn piece(&self, checked: &CheckedText) -> io::Result<Vec<u8>>;

    /// What comes after all texts.
    fn tail(&self, totals: &RunTotals) -> io::Result<Vec<u8>>;

    /// What is reported at once about something that could not be checked, with the id of its record; none to report it at the end.
    fn error(&self, _id: Option<&RawValue>, _error: &ErrorReport) -> io::Result<Option<Vec<u8>>> {
        Ok(None)
    }

    /// Whether the pieces are kept until the end, because what comes before them sums up all texts.
    fn keeps_pieces(&self) -> bool {
        false
    }
}

/// What a whole run came to.
#[derive(Default)]
pub(crate) struct RunTotals {
    /// Texts that were checked.
    pub(crate) texts: usize,
    /// Of these, texts that fall short.
    pub(crate) short: usize,
    /// The running words of all texts.
    pub(crate) counts: Counts,
    /// What could not be checked.
    pub(crate) failed: usize,
    /// The errors of these, if the format reports them at the end.
    pub(crate) errors: Vec<ErrorReport>,
    /// The pieces, if the format keeps them.
    pub(crate) pieces: Pieces,
    /// What an index says of each text, if the format keeps the pieces.
    pub(crate) summaries: Vec<StorySummary>,
}
