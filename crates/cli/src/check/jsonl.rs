//! The report for programs, a line for each text. `scope-files/check.schema.json` says what a line is (`#/$defs/line`).

use std::io;

use serde::Serialize;
use serde_json::value::RawValue;
use untaught::json::{FORMAT, TextReport};

use super::format::{Format, Whole};
use super::json::text;
use super::{Checked, Wanted};
use crate::output::{self, Failed};

/// One object a line for each text.
pub(super) struct Jsonl {
    pub(super) every_word: bool,
    pub(super) suggest: bool,
}

impl Format for Jsonl {
    fn wanted(&self) -> Wanted {
        Wanted { every_word: self.every_word, suggestions: self.suggest, ..Wanted::default() }
    }

    fn piece(&self, checked: &Checked) -> io::Result<Vec<u8>> {
        line(checked, self.every_word, None)
    }

    fn failed(&self, id: Option<&RawValue>, failed: &Failed) -> io::Result<Option<Vec<u8>>> {
        let Failed { file, message } = failed;
        let mut out = output::json_bytes(&FailedLine { format: FORMAT, id, file, error: message })?;
        out.push(b'\n');
        Ok(Some(out))
    }

    fn tail(&self, _: &Whole) -> io::Result<Vec<u8>> {
        Ok(Vec::new())
    }
}

/// The line of one text; of a text that came in as a record, with its id.
pub(super) fn line(checked: &Checked, every_word: bool, id: Option<&RawValue>) -> io::Result<Vec<u8>> {
    let mut out = output::json_bytes(&Line { format: FORMAT, id, text: text(checked, every_word) })?;
    out.push(b'\n');
    Ok(out)
}

#[derive(Serialize)]
struct Line<'a> {
    format: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    id: Option<&'a RawValue>,
    #[serde(flatten)]
    text: TextReport<'a>,
}

#[derive(Serialize)]
struct FailedLine<'a> {
    format: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    id: Option<&'a RawValue>,
    file: &'a str,
    error: &'a str,
}
