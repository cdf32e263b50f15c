//! Many texts in one stream: a JSON object a line in, a JSON object a line out, in the same order and as it comes, so that programs
//! that handle large bodies of text can pipe them through. Every line in has its line out, a faulty one too.

mod lines;
mod record;

use std::io::{self, BufRead as _, IsTerminal as _};
use std::path::{Path, PathBuf};

use serde_json::value::RawValue;
use untaught::Counts;
use untaught::json::ErrorReport;
use untaught::messages::thousands;
use untaught_documents::{Document, Kind};

use super::run::{CheckRun, TextOutcome};
use crate::analysis::check;
use crate::args::CheckArgs;
use crate::output::{Failure, Message, complain, complain_of, error_at, path_line};
use crate::reports::check::{Format, line as report_line};
use crate::settings::RunSettings;
use crate::texts::{Source, Worker, in_order};
use lines::{LONGEST, Line, LineContent, MARK};
use record::{Members, Record, lesson};

/// Faulty records that are complained of, each by itself: their lines in the report say the same.
const COMPLAINTS: usize = 20;

/// Whether a path is one of records: a file by its name, standard input by what it holds.
pub(super) fn is_records(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending == "jsonl") || path == Path::new("-") && on_stdin()
}

/// Whether standard input holds records: its first character that is not white space is a brace, which begins no story. Nothing at all is
/// no record, so that who pipes nothing through gets nothing back.
fn on_stdin() -> bool {
    if io::stdin().is_terminal() {
        return false;
    }
    let mut input = io::stdin().lock();
    if input.fill_buf().is_ok_and(|buffer| buffer.starts_with(&[MARK, b"{"].concat())) {
        input.consume(MARK.len());
    }
    loop {
        let Ok(buffer) = input.fill_buf() else { return false };
        let space = buffer.iter().take_while(|b| b.is_ascii_whitespace()).count();
        match buffer.get(space) {
            Some(first) => return *first == b'{',
            None if buffer.is_empty() => return true,
            None => input.consume(space),
        }
    }
}

/// Checks the records of a file, or of standard input. Those that can be had together are worked on by several threads; the lines are
/// written in the order of the records.
pub(super) fn run(run: &mut CheckRun<'_>, path: &Path, settings: &RunSettings) -> Result<(), Failure> {
    let is_stdin = path == Path::new("-");
    let name = if is_stdin { run.args.texts.stdin_name.clone() } else { path.display().to_string() };
    let stream = RecordStream { name: &name, path, args: run.args, format: run.format, settings };
    let open = {
        let path = PathBuf::from(path);
        move || lines::open(&path)
    };
    let mut faulty = 0;
    in_order(
        run.args.texts.jobs,
        open,
        |worker, batch| stream.batch(batch, worker),
        |ready: Vec<BatchResults>| {
            for BatchResults { results, written } in ready {
                let mut written = written.as_slice();
                for result in results {
                    match result {
                        RecordResult::Checked { met, counts, bytes } => {
                            let (piece, later) = written.split_at(bytes);
                            written = later;
                            run.put(TextOutcome { met, counts, note: None, summary: None }, piece)?;
                        }
                        RecordResult::Faulty(id, error) => {
                            faulty += 1;
                            if faulty <= COMPLAINTS {
                                complain_of(&error);
                            }
                            run.fail_record(id.as_deref(), error)?;
                        }
                        RecordResult::NoStream(error) => {
                            complain_of(&error);
                            run.fail(None, error)?;
                        }
                        RecordResult::NoReport(error) => return Err(error.into()),
                    }
                    if !run.goes_on() {
                        return Ok(false);
                    }
                }
            }
            // Whoever waits for the answer gets it.
            if is_stdin {
                run.sink.flush()?;
            }
            Ok(true)
        },
    )?;
    if faulty > COMPLAINTS {
        complain(format!("{name}: {} more records cannot be checked", thousands(faulty - COMPLAINTS)));
    }
    Ok(())
}

/// What became of a batch of records, with all that is written about them.
struct BatchResults {
    results: Vec<RecordResult>,
    written: Vec<u8>,
}

/// What became of a record.
enum RecordResult {
    /// With the number of bytes that were written about it.
    Checked { met: bool, counts: Counts, bytes: usize },
    /// It cannot be checked. With its id.
    Faulty(Option<Box<RawValue>>, ErrorReport),
    /// There are no records: the file cannot be opened.
    NoStream(ErrorReport),
    /// Its report could not be made.
    NoReport(io::Error),
}

/// What the work on a record depends on besides the record.
struct RecordStream<'a> {
    name: &'a str,
    path: &'a Path,
    args: &'a CheckArgs,
    format: &'a dyn Format,
    settings: &'a RunSettings,
}

impl RecordStream<'_> {
    fn batch(&self, lines: Vec<Line>, worker: &mut Worker) -> BatchResults {
        let mut written = Vec::new();
        let results = lines.into_iter().map(|line| self.line(line, worker, &mut written)).collect();
        BatchResults { results, written }
    }

    fn line(&self, line: Line, worker: &mut Worker, out: &mut Vec<u8>) -> RecordResult {
        let name = self.name;
        let place = format!("{name}:{}", line.number);
        let bytes = match line.content {
            LineContent::Record(bytes) => bytes,
            LineContent::TooLong => {
                let message = format!("{place}: this record was not read: it is larger than {} MB", LONGEST >> 20);
                return RecordResult::Faulty(None, error_at(place, message));
            }
            LineContent::NotRead(error) => {
                return RecordResult::Faulty(None, error_at(name, format!("{place} cannot be read: {error}")));
            }
            LineContent::NotOpened(error) => {
                let message = format!("{} cannot be read: {error}", path_line(self.path));
                return RecordResult::NoStream(error_at(name, message));
            }
        };
        let mut id = None;
        match self.record(&place, &bytes, &mut id, worker, out) {
            Ok(result) => result,
            Err(message) => RecordResult::Faulty(id, error_at(place, message)),
        }
    }

    /// Checks a record and writes its line. Its id is known even where that fails.
    fn record(
        &self,
        place: &str,
        line: &[u8],
        id: &mut Option<Box<RawValue>>,
        worker: &mut Worker,
        out: &mut Vec<u8>,
    ) -> Result<RecordResult, Message> {
        let shape = |what: &str| {
            format!("{place}: a record must be an object with \"text\", and may have \"id\" and \"lesson\": {what}")
        };
        let Members(mut members) = serde_json::from_slice(line).map_err(|error| {
            // The place is the record's, not the stream's.
            let error = error.to_string();
            shape(error.split(" at line ").next().unwrap_or(&error))
        })?;
        *id = members.remove("id");
        let record = Record::of(members).map_err(|what| shape(&what))?;
        let here = |message: Message| if message.begins_with(place) { message } else { message.at(place) };
        let checked = lesson(record.lesson.as_ref()).map_err(Message::from).and_then(|lesson| {
            let document = untaught_documents::read(Kind::Text, record.text.into_bytes());
            let document: Document = document.map_err(|problem| format!("the text {problem}"))?;
            let source = Source { name: place.to_owned(), path: None, document };
            let plan = self.settings.plan(place, None, source.document.text(), lesson.as_deref())?;
            check(source, plan, self.format.detail(), worker, self.settings)
        });
        let checked = checked.map_err(here)?;
        Ok(match report_line(&checked, self.args.every_word, id.as_deref(), &record.others) {
            Err(error) => RecordResult::NoReport(error),
            Ok(piece) => {
                out.extend_from_slice(&piece);
                RecordResult::Checked { met: checked.met(), counts: checked.report.tokens, bytes: piece.len() }
            }
        })
    }
}
