//! The report for programs, a line for each text. `scope-files/check.schema.json` says what a line is (`#/$defs/line`).

use std::collections::BTreeMap;
use std::io;

use serde::Serialize;
use serde_json::value::RawValue;
use untaught::json::{ErrorReport, FORMAT, TextReport};

use super::format::{Format, RunTotals};
use super::json::text;
use crate::analysis::{CheckedText, Detail};
use crate::output;

/// One object a line for each text.
pub(super) struct Jsonl {
    pub(super) every_word: bool,
    pub(super) suggest: bool,
    pub(super) plan: bool,
}

impl Format for Jsonl {
    fn detail(&self) -> Detail {
        Detail { every_word: self.every_word, suggestions: self.suggest, mending: self.plan, ..Detail::default() }
    }

    fn piece(&self, checked: &CheckedText) -> io::Result<Vec<u8>> {
        line(checked, self.every_word, None, &BTreeMap::new())
    }

    fn error(&self, id: Option<&RawValue>, error: &ErrorReport) -> io::Result<Option<Vec<u8>>> {
        let ErrorReport { file, message } = error;
        let mut out = output::json_bytes(&ErrorLine { format: FORMAT, id, file, error: message })?;
        out.push(b'\n');
        Ok(Some(out))
    }

    fn tail(&self, _: &RunTotals) -> io::Result<Vec<u8>> {
        Ok(Vec::new())
    }
}

/// The line of one text; of a text that came in as a record, with its id and the members of the record that mean nothing here.
pub(crate) fn line(
    checked: &CheckedText,
    every_word: bool,
    id: Option<&RawValue>,
    record: &BTreeMap<String, Box<RawValue>>,
) -> io::Result<Vec<u8>> {
    let mut out = output::json_bytes(&TextLine { format: FORMAT, id, record, text: text(checked, every_word) })?;
    out.push(b'\n');
    Ok(out)
}

#[derive(Serialize)]
struct TextLine<'a> {
    format: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    id: Option<&'a RawValue>,
    /// In an object of their own: none of them is taken for a member of the report.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    record: &'a BTreeMap<String, Box<RawValue>>,
    #[serde(flatten)]
    text: TextReport<'a>,
}

#[derive(Serialize)]
struct ErrorLine<'a> {
    format: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    id: Option<&'a RawValue>,
    file: &'a str,
    error: &'a str,
}
