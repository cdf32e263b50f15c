//! `untaught check`.

mod json;
mod text;

use std::path::{Path, PathBuf};

use untaught::{Focus, Options, Pattern, Reader, Report, Scope, check, fold_word, front_matter};

use crate::args::{Check, Format};
use crate::output::{self, Failure};
use crate::{Outcome, input};

/// One text that was checked.
struct Checked {
    name: String,
    text: String,
    report: Report,
    /// Whether no lesson was given, so that the last counts.
    lesson_assumed: bool,
    met: bool,
}

pub(crate) fn run(args: &Check) -> Result<Outcome, Failure> {
    let reader = Reader::default();
    let scope = input::scope(args.scope.as_deref(), &reader)?;
    let given = match &args.lesson {
        Some(id) => Some(scope.place(id).map_err(Failure::Message)?),
        None => None,
    };
    let stdin = [PathBuf::from("-")];
    let files = if args.files.is_empty() { &stdin[..] } else { &args.files };
    let mut outcome = Outcome::Met;
    let mut texts = Vec::new();
    for path in files {
        match check_one(path, args, &scope, &reader, given) {
            Err(message) => {
                output::complain(&message);
                outcome = Outcome::Failed;
            }
            Ok(checked) => {
                if !checked.met {
                    outcome = outcome.max(Outcome::Short);
                }
                match args.format {
                    Format::Text if args.quiet && checked.met => {}
                    Format::Text => text::print(&checked, &scope, args)?,
                    Format::Json => texts.push(checked),
                }
            }
        }
    }
    if args.format == Format::Json {
        output::json(&json::root(&texts, &scope, args))?;
    }
    Ok(outcome)
}

fn check_one(
    path: &Path,
    args: &Check,
    scope: &Scope,
    reader: &Reader,
    given: Option<untaught::Place>,
) -> Result<Checked, String> {
    let text = input::read(path, &args.stdin_name)?;
    let name = if path == Path::new("-") { args.stdin_name.clone() } else { path.display().to_string() };
    let (front, start) = front_matter(&text)
        .map_err(|fault| format!("{name}:{}:{}: {}", fault.position.line, fault.position.column, fault.message))?;
    let place = match (given, &front.lesson) {
        (Some(place), _) => Some(place),
        (None, Some(id)) => Some(scope.place(id).map_err(|problem| format!("{name}: {problem}"))?),
        (None, None) => None,
    };
    let declared = [&args.story_words, &args.names, &front.names, &front.story_words];
    let focus = if args.focus.is_empty() { &front.focus } else { &args.focus };
    let patterns: Result<Vec<Pattern>, String> = focus.iter().map(|text| Pattern::parse(text, reader)).collect();
    let patterns = patterns.map_err(|problem| format!("{name}: the focus pattern {problem}"))?;
    let options = Options {
        allow_names: args.names.iter().any(|name| name == "allow"),
        focus: (!patterns.is_empty()).then(|| Focus::of(scope, &patterns)),
        lesson: place.unwrap_or(scope.last()),
        declared: declared.into_iter().flatten().map(|word| fold_word(word)).filter(|w| !w.is_empty()).collect(),
        every_word: args.every_word && args.format == Format::Json,
        start,
    };
    let report = check(&text, scope, reader, &options);
    let reaches = |percent: Option<f64>, least: f64| percent.is_none_or(|percent| percent + 1e-9 >= least);
    let met = reaches(report.tokens.percent_readable(), args.min_readable)
        && args.min_decodable.is_none_or(|least| reaches(report.tokens.percent_decodable(), least));
    Ok(Checked { name, text, report, lesson_assumed: place.is_none(), met })
}
