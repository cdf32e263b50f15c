//! `untaught check`.

mod against;
mod records;
mod run;
mod show_config;

use std::path::{Path, PathBuf};

use run::{CheckRun, TextOutcome};

use crate::analysis::check;
use crate::args::{CheckArgs, CheckFormat};
use crate::output::{Failure, Message, Outcome, Sink};
use crate::reports::check::{Format, StorySummary, chosen};
use crate::settings::RunSettings;
use crate::texts::{Source, Worker, each, gather, read};

pub(crate) fn run(args: &CheckArgs) -> Result<Outcome, Failure> {
    if args.every_word && !matches!(args.format, CheckFormat::Json | CheckFormat::Jsonl) {
        return Err(Failure::Message("--every-word needs --format json or jsonl".to_owned()));
    }
    if args.suggest && !matches!(args.format, CheckFormat::Text | CheckFormat::Json | CheckFormat::Jsonl) {
        return Err(Failure::Message("--suggest needs --format text, json or jsonl".to_owned()));
    }
    if args.plan && !matches!(args.format, CheckFormat::Text | CheckFormat::Json | CheckFormat::Jsonl) {
        return Err(Failure::Message("--plan needs --format text, json or jsonl".to_owned()));
    }
    if args.totals && args.format != CheckFormat::Csv {
        return Err(Failure::Message("--totals needs --format csv".to_owned()));
    }
    let settings = RunSettings::new(args.settings(), &args.texts.config)?;
    if let Some(old) = &args.against {
        return against::run(args, old, &settings);
    }
    let found = gather(&args.texts, &settings)?;
    if args.show_config {
        return show_config::run(args, &settings, found);
    }
    let format = chosen(args);
    let sink = Sink::open(args.texts.output.as_deref(), args.format == CheckFormat::Text)?;
    let mut run = CheckRun::begin(args, &*format, sink)?;
    let work = |worker: &mut Worker, path: &Path, out: &mut Vec<u8>| {
        if args.format == CheckFormat::Jsonl && records::is_records(path) {
            return Ok(PathResult::Records(path.to_owned()));
        }
        let source = read(path, &args.texts.stdin_name)?;
        one(&*format, source, &settings, worker, out).map(PathResult::Text)
    };
    each(found, args.texts.jobs, work, |result| {
        match result {
            // The records of a file are shared out among threads of their own.
            Ok((PathResult::Records(path), _)) => records::run(&mut run, &path, &settings)?,
            Ok((PathResult::Text(text), piece)) => run.put(text, piece)?,
            Err(error) => run.fail(None, error)?,
        }
        Ok(run.goes_on())
    })?;
    run.end()
}

/// What a path turned out to be.
enum PathResult {
    /// A text, now checked.
    Text(TextOutcome),
    /// A file of many texts, still to be read.
    Records(PathBuf),
}

/// Checks one text and reports it.
fn one(
    format: &dyn Format,
    source: Source,
    settings: &RunSettings,
    worker: &mut Worker,
    out: &mut Vec<u8>,
) -> Result<TextOutcome, Message> {
    let plan = source.plan(settings)?;
    let checked = check(source, plan, format.detail(), worker, settings)?;
    out.extend(format.piece(&checked).map_err(|error| format!("the report could not be made: {error}"))?);
    let summary = format.keeps_pieces().then(|| Box::new(StorySummary::of(&checked)));
    Ok(TextOutcome { met: checked.met(), counts: checked.report.tokens, note: checked.source.note(), summary })
}
