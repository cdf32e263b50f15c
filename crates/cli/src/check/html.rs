//! One page over all texts.

use std::io;

use super::format::{Format, Whole};
use super::{Checked, Wanted};

pub(super) struct Html;

/// What the index says of a text.
pub(super) struct Summary {
    name: String,
}

impl Summary {
    pub(super) fn of(checked: &Checked) -> Summary {
        Summary { name: checked.source.name.clone() }
    }
}

impl Format for Html {
    fn wanted(&self) -> Wanted {
        Wanted { every_word: true, ..Wanted::default() }
    }

    fn piece(&self, _: &Checked) -> io::Result<Vec<u8>> {
        Ok(Vec::new())
    }

    fn keeps_pieces(&self) -> bool {
        true
    }

    fn tail(&self, whole: &Whole) -> io::Result<Vec<u8>> {
        Ok(whole.summaries.iter().flat_map(|summary| summary.name.bytes()).collect())
    }
}
