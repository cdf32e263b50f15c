//! Many texts in one stream: a JSON object a line in, a JSON object a line out, in the same order and as it comes, so that programs
//! that handle large bodies of text can pipe them through. Every line in has its line out, a faulty one too.

use std::collections::BTreeMap;
use std::fmt;
use std::fs::File;
use std::io::{self, BufRead, BufReader, IsTerminal as _, Read as _};
use std::path::Path;

use serde::de::{Error as _, MapAccess, Visitor};
use serde::{Deserialize, Deserializer};
use serde_json::Value;
use serde_json::value::RawValue;
use untaught::messages::{excerpt, thousands};
use untaught_documents::{Document, Kind};

use super::run::{CheckRun, TextOutcome};
use crate::analysis::check;
use crate::output::{Failure, Message, complain, complain_about, complain_of, error_at, path_line};
use crate::reports::check::line as report_line;
use crate::settings::RunSettings;
use crate::texts::{Source, Worker};

/// A record as it came.
struct Record {
    text: String,
    lesson: Option<Value>,
    /// Its other members, as they were written: they come back.
    others: BTreeMap<String, Box<RawValue>>,
}

/// The members of an object as they were written; none of them twice.
struct Members(BTreeMap<String, Box<RawValue>>);

impl<'de> Deserialize<'de> for Members {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Members, D::Error> {
        from.deserialize_map(MembersVisitor)
    }
}

struct MembersVisitor;

impl<'de> Visitor<'de> for MembersVisitor {
    type Value = Members;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an object")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Members, A::Error> {
        let mut members = BTreeMap::new();
        while let Some((name, value)) = map.next_entry::<String, Box<RawValue>>()? {
            if members.contains_key(&name) {
                return Err(A::Error::custom(format!("it has two members `{}`", excerpt(&name))));
            }
            members.insert(name, value);
        }
        Ok(Members(members))
    }
}

impl Record {
    /// Takes a record from its members; the id is taken already.
    fn of(mut members: BTreeMap<String, Box<RawValue>>) -> Result<Record, String> {
        let text = members.remove("text").ok_or("it has no member `text`")?;
        let text = serde_json::from_str(text.get()).map_err(|_| "its member `text` is no text")?;
        let lesson = members.remove("lesson").map(|lesson| serde_json::from_str(lesson.get()));
        let lesson = lesson.transpose().map_err(|_| "its member `lesson` cannot be read")?;
        Ok(Record { text, lesson, others: members })
    }
}

/// The longest record that is read, in bytes: no story is so long.
const LONGEST: usize = 32 << 20;

/// Faulty records that are complained of, each by itself: their lines in the report say the same.
const COMPLAINTS: usize = 20;

/// The byte order mark, which some programs put before everything.
const MARK: &[u8] = "\u{feff}".as_bytes();

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

/// Checks the records of a file, or of standard input, one after the other.
pub(super) fn run(run: &mut CheckRun<'_>, path: &Path, settings: &RunSettings) -> Result<(), Failure> {
    let from_stdin = path == Path::new("-");
    let name = if from_stdin { run.args.texts.stdin_name.clone() } else { path.display().to_string() };
    let mut input: Box<dyn BufRead> = if from_stdin {
        Box::new(io::stdin().lock())
    } else {
        match File::open(path) {
            Ok(file) => Box::new(BufReader::with_capacity(1 << 16, file)),
            Err(error) => {
                let error = complain_about(&name, format!("{} cannot be read: {error}", path_line(path)));
                return run.fail(None, error);
            }
        }
    };
    let mut stream = Stream { worker: Worker::default(), faulty: 0 };
    let mut line = Vec::new();
    for number in 1.. {
        line.clear();
        match input.by_ref().take(LONGEST as u64 + 1).read_until(b'\n', &mut line) {
            Ok(0) => break,
            Ok(_) => {}
            Err(error) => {
                stream.fail(run, None, &name, format!("{name}:{number} cannot be read: {error}"))?;
                break;
            }
        }
        let place = format!("{name}:{number}");
        if line.len() > LONGEST && !line.ends_with(b"\n") {
            stream.fail(
                run,
                None,
                &place,
                format!("{place}: this record was not read: it is larger than {} MB", LONGEST >> 20),
            )?;
            // Nothing of the rest is kept.
            line = Vec::new();
            if input.skip_until(b'\n').is_err() {
                break;
            }
        } else {
            let bytes = line.strip_prefix(MARK).filter(|_| number == 1).unwrap_or(&line);
            if bytes.trim_ascii().is_empty() {
                continue;
            }
            stream.one(run, &place, bytes, settings)?;
        }
        // Whoever waits for the answer gets it.
        if from_stdin {
            run.sink.flush()?;
        }
        if !run.goes_on() {
            break;
        }
    }
    if stream.faulty > COMPLAINTS {
        complain(format!("{name}: {} more records cannot be checked", thousands(stream.faulty - COMPLAINTS)));
    }
    Ok(())
}

/// The work on a stream of records.
struct Stream {
    worker: Worker,
    /// Records that could not be checked.
    faulty: usize,
}

impl Stream {
    /// Reports a record that cannot be checked.
    fn fail(
        &mut self,
        run: &mut CheckRun<'_>,
        id: Option<&RawValue>,
        name: &str,
        message: impl Into<Message>,
    ) -> Result<(), Failure> {
        self.faulty += 1;
        let error = error_at(name, message);
        if self.faulty <= COMPLAINTS {
            complain_of(&error);
        }
        run.fail_record(id, error)
    }

    fn one(&mut self, run: &mut CheckRun<'_>, name: &str, line: &[u8], settings: &RunSettings) -> Result<(), Failure> {
        let shape = |what: &str| {
            format!("{name}: a record must be an object with \"text\", and may have \"id\" and \"lesson\": {what}")
        };
        let Members(mut members) = match serde_json::from_slice(line) {
            Ok(members) => members,
            Err(error) => {
                // The place is the record's, not the stream's.
                let error = error.to_string();
                let what = error.split(" at line ").next().unwrap_or(&error);
                return self.fail(run, None, name, shape(what));
            }
        };
        let id = members.remove("id");
        let record = match Record::of(members) {
            Ok(record) => record,
            Err(what) => return self.fail(run, id.as_deref(), name, shape(&what)),
        };
        let done = lesson(record.lesson.as_ref()).map_err(Message::from).and_then(|lesson| {
            let document = untaught_documents::read(Kind::Text, record.text.into_bytes());
            let document: Document = document.map_err(|problem| format!("the text {problem}"))?;
            let source = Source { name: name.to_owned(), path: None, document };
            let plan = settings.plan(name, None, source.document.text(), lesson.as_deref())?;
            check(source, plan, run.format.detail(), &mut self.worker, settings)
        });
        match done {
            Err(message) => {
                let message = if message.begins_with(name) { message } else { message.at(name) };
                self.fail(run, id.as_deref(), name, message)
            }
            Ok(checked) => {
                let piece = report_line(&checked, run.args.every_word, id.as_deref(), &record.others)?;
                run.put(
                    TextOutcome { met: checked.met(), counts: checked.report.tokens, note: None, summary: None },
                    &piece,
                )
            }
        }
    }
}

/// The id of a lesson: text or a whole number.
fn lesson(value: Option<&Value>) -> Result<Option<String>, String> {
    match value {
        None | Some(Value::Null) => Ok(None),
        Some(Value::String(id)) => Ok(Some(id.clone())),
        Some(Value::Number(number)) if number.is_u64() => Ok(Some(number.to_string())),
        Some(other) => Err(format!("a lesson is an id such as \"12\", not {}", excerpt(&other.to_string()))),
    }
}
