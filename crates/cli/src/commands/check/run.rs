//! A run of `untaught check` as it is written.

use serde_json::value::RawValue;
use untaught::Counts;
use untaught::json::ErrorReport;

use crate::args::CheckArgs;
use crate::output::{Failure, Outcome, Sink, remark};
use crate::pages;
use crate::reports::check::{Format, RunTotals, StorySummary};

/// What is left of a text once it has been reported.
pub(super) struct TextOutcome {
    pub(super) met: bool,
    pub(super) counts: Counts,
    pub(super) note: Option<String>,
    pub(super) summary: Option<Box<StorySummary>>,
}

/// A run: what has been written, and what it has come to so far.
pub(super) struct CheckRun<'a> {
    pub(super) args: &'a CheckArgs,
    pub(super) format: &'a dyn Format,
    pub(super) sink: Sink,
    totals: RunTotals,
    /// Records that could not be checked and have a line that says so: the run itself went well.
    faulty_records: usize,
    /// Whether a piece has been written.
    any: bool,
}

impl<'a> CheckRun<'a> {
    /// Begins the report.
    pub(super) fn begin(args: &'a CheckArgs, format: &'a dyn Format, mut sink: Sink) -> Result<CheckRun<'a>, Failure> {
        sink.write(format.head().as_bytes())?;
        Ok(CheckRun { args, format, sink, totals: RunTotals::default(), faulty_records: 0, any: false })
    }

    /// Whether to go on: not after a failure with `--fail-fast`.
    pub(super) fn goes_on(&self) -> bool {
        !(self.args.fail_fast && self.totals.short + self.totals.failed + self.faulty_records > 0)
    }

    /// Writes the report on a text.
    pub(super) fn put(&mut self, text: TextOutcome, piece: &[u8]) -> Result<(), Failure> {
        if let Some(note) = &text.note {
            remark(note);
        }
        self.totals.texts += 1;
        self.totals.short += usize::from(!text.met);
        self.totals.counts += text.counts;
        if self.format.keeps_pieces() {
            self.totals.pieces.push(piece)?;
            self.totals.summaries.extend(text.summary.map(|summary| *summary));
        } else if !piece.is_empty() {
            if self.any {
                self.sink.write(self.format.between().as_bytes())?;
            }
            self.any = true;
            self.sink.write(piece)?;
        }
        Ok(())
    }

    /// Reports what could not be checked: at once, or at the end.
    pub(super) fn fail(&mut self, id: Option<&RawValue>, error: ErrorReport) -> Result<(), Failure> {
        self.totals.failed += 1;
        match self.format.error(id, &error)? {
            Some(piece) => self.sink.write(&piece)?,
            None => self.totals.errors.push(error),
        }
        Ok(())
    }

    /// Reports a record that could not be checked.
    pub(super) fn fail_record(&mut self, id: Option<&RawValue>, error: ErrorReport) -> Result<(), Failure> {
        self.fail(id, error)?;
        if !self.args.strict {
            self.totals.failed -= 1;
            self.faulty_records += 1;
        }
        Ok(())
    }

    /// Ends the report.
    pub(super) fn end(mut self) -> Result<Outcome, Failure> {
        let tail = self.format.tail(&self.totals)?;
        if self.format.keeps_pieces() {
            let (before, after) = pages::around_pieces(&tail);
            self.sink.write(before)?;
            for (number, piece) in (1..).zip(self.totals.pieces.pieces()) {
                self.sink.write(&pages::numbered(&piece?, number))?;
                self.sink.write(b"\n")?;
            }
            self.sink.write(after)?;
        } else {
            self.sink.write(&tail)?;
        }
        self.sink.close()?;
        let outcome = Outcome::of(self.totals.failed, self.totals.short + self.faulty_records);
        Ok(if self.args.exit_zero && outcome == Outcome::Short { Outcome::Met } else { outcome })
    }
}
