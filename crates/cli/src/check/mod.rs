//! `untaught check`.

mod config;
mod csv;
mod describe;
mod format;
mod found;
mod github;
mod html;
mod json;
mod jsonl;
mod junit;
mod kept;
mod notes;
mod records;
mod running;
mod sarif;
mod story;
mod text;

use std::path::{Path, PathBuf};

use serde_json::value::RawValue;

pub(crate) use found::{Checked, Wanted, check, lesson_id};
pub(crate) use html::{titles, titles_of};
pub(crate) use untaught::say::{percent as shown, rounded};

use crate::Outcome;
use crate::args::{Check, Report};
use crate::output::{Failed, Failure, Message, Sink, remark};
use crate::page;
use crate::texts::{Settings, Source, Worker, each, gather, read};
use format::{Format, Whole};

pub(crate) fn run(args: &Check) -> Result<Outcome, Failure> {
    if args.every_word && !matches!(args.format, Report::Json | Report::Jsonl) {
        return Err(Failure::Message("--every-word goes with --format json or jsonl".to_owned()));
    }
    if args.suggest && !matches!(args.format, Report::Text | Report::Json | Report::Jsonl) {
        return Err(Failure::Message("--suggest goes with --format text, json or jsonl".to_owned()));
    }
    let settings = Settings::new(&args.texts.told, &args.texts.config)?;
    let found = gather(&args.texts, &settings)?;
    if args.show_config {
        return config::run(args, &settings, found);
    }
    let format = format::of(args);
    let sink = Sink::open(args.texts.output.as_deref(), args.format == Report::Text)?;
    let mut run = Run { args, format: &*format, sink, whole: Whole::default(), any: false };
    run.sink.write(format.head().as_bytes())?;
    let work = |worker: &mut Worker, path: &Path, out: &mut Vec<u8>| {
        if args.format == Report::Jsonl && path.extension().is_some_and(|ending| ending == "jsonl") {
            return Ok(Work::Records(path.to_owned()));
        }
        if args.format == Report::Jsonl && path == Path::new("-") && records::on_stdin() {
            return Ok(Work::Records(path.to_owned()));
        }
        let source = read(path, &args.texts.stdin_name)?;
        one(args, &*format, source, &settings, worker, out).map(Work::Done)
    };
    each(found, args.texts.jobs, work, |result| {
        match result {
            // Texts in records are read one after the other, as they come.
            Ok((Work::Records(path), _)) => records::run(&mut run, &path, &settings)?,
            Ok((Work::Done(done), piece)) => run.put(done, piece)?,
            Err(failed) => run.fail(None, failed)?,
        }
        Ok(!(args.fail_fast && run.whole.short + run.whole.failed > 0))
    })?;
    run.end()
}

/// What became of a path.
enum Work {
    Done(Done),
    /// It holds many texts.
    Records(PathBuf),
}

/// What is left of a text once it has been reported.
struct Done {
    met: bool,
    note: Option<String>,
    summary: Option<Box<html::Summary>>,
}

/// Checks one text and reports it.
fn one(
    args: &Check,
    format: &dyn Format,
    source: Source,
    settings: &Settings,
    worker: &mut Worker,
    out: &mut Vec<u8>,
) -> Result<Done, Message> {
    let plan = settings.plan(args.typed(), &source)?;
    let checked = check(source, plan, format.wanted(), worker, settings)?;
    out.extend(format.piece(&checked).map_err(|error| format!("the report cannot be made: {error}"))?);
    let summary = format.keeps_pieces().then(|| Box::new(html::Summary::of(&checked)));
    Ok(Done { met: checked.met(), note: checked.source.note(), summary })
}

/// A run as it is written.
struct Run<'a> {
    args: &'a Check,
    format: &'a dyn Format,
    sink: Sink,
    whole: Whole,
    /// Whether a piece has been written.
    any: bool,
}

impl Run<'_> {
    fn put(&mut self, done: Done, piece: &[u8]) -> Result<(), Failure> {
        if let Some(note) = &done.note {
            remark(note);
        }
        self.whole.texts += 1;
        self.whole.short += usize::from(!done.met);
        if self.format.keeps_pieces() {
            self.whole.pieces.push(piece)?;
            self.whole.summaries.extend(done.summary.map(|summary| *summary));
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
    fn fail(&mut self, id: Option<&RawValue>, failed: Failed) -> Result<(), Failure> {
        self.whole.failed += 1;
        match self.format.failed(id, &failed)? {
            Some(piece) => self.sink.write(&piece)?,
            None => self.whole.failures.push(failed),
        }
        Ok(())
    }

    fn end(mut self) -> Result<Outcome, Failure> {
        let tail = self.format.tail(&self.whole)?;
        if self.format.keeps_pieces() {
            let (before, after) = page::around_pieces(&tail);
            self.sink.write(before)?;
            for (number, piece) in (1..).zip(self.whole.pieces.pieces()) {
                self.sink.write(&page::numbered(&piece?, number))?;
                self.sink.write(b"\n")?;
            }
            self.sink.write(after)?;
        } else {
            self.sink.write(&tail)?;
        }
        self.sink.close()?;
        Ok(match (self.whole.failed, self.whole.short) {
            (0, 0) => Outcome::Met,
            (0, _) => Outcome::Short,
            _ => Outcome::Failed,
        })
    }
}
