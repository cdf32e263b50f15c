//! `untaught check`.

mod json;
mod scopes;
mod text;

use std::path::{Path, PathBuf};
use std::rc::Rc;

use untaught::{Focus, Options, Pattern, Reader, Report, Scope, check, fold_word, front_matter, tokens};

use crate::args::{Check, Format};
use crate::output::{self, Failure};
use crate::{Outcome, input};
use scopes::Scopes;

/// In place of a name: whatever looks like one counts.
const ALLOW: &str = "allow";

/// One text that was checked.
struct Checked {
    name: String,
    text: String,
    scope: Rc<Scope>,
    report: Report,
    /// Whether no lesson was given, so that the last counts.
    lesson_assumed: bool,
    met: bool,
}

pub(crate) fn run(args: &Check) -> Result<Outcome, Failure> {
    let reader = Reader::default();
    let mut scopes = Scopes::new(&reader);
    if let Some(name) = &args.scope {
        // A scope named on the command line must be right even if no text is.
        let scope = scopes.get(Some(name))?;
        scopes::place(&scope, args.lesson.as_deref()).map_err(Failure::Message)?;
    }
    let stdin = [PathBuf::from("-")];
    let files = if args.files.is_empty() { &stdin[..] } else { &args.files };
    let mut outcome = Outcome::Met;
    let mut texts = Vec::new();
    let (mut short, mut failed) = (0, 0);
    if args.every_word && args.format != Format::Json {
        return Err(Failure::Message("--every-word goes with --format json".to_owned()));
    }
    for path in files {
        match check_one(path, args, &mut scopes, &reader) {
            Err(message) => {
                output::complain(&message);
                failed += 1;
                outcome = Outcome::Failed;
            }
            Ok(checked) => {
                if !checked.met {
                    short += 1;
                    outcome = outcome.max(Outcome::Short);
                }
                match args.format {
                    Format::Text if args.quiet && checked.met => {}
                    Format::Text => text::print(&checked, args)?,
                    Format::Json => texts.push(checked),
                }
            }
        }
    }
    if args.format == Format::Text && files.len() > 1 && !args.quiet {
        text::closing(files.len(), short, failed)?;
    }
    if args.format == Format::Json {
        output::json(&json::root(&texts, args))?;
    }
    Ok(outcome)
}

fn check_one(path: &Path, args: &Check, scopes: &mut Scopes<'_>, reader: &Reader) -> Result<Checked, String> {
    let text = input::read(path, &args.stdin_name)?;
    let name = if path == Path::new("-") { args.stdin_name.clone() } else { path.display().to_string() };
    let (front, start) = front_matter(&text)
        .map_err(|fault| format!("{name}:{}:{}: {}", fault.position.line, fault.position.column, fault.message))?;
    let of_text = |problem: String| format!("{name}: {problem}");
    let scope = match (&args.scope, &front.scope) {
        (None, Some(named)) => scopes.named_by(Path::new(&name), named).map_err(of_text)?,
        (named, _) => scopes.get(named.as_deref()).map_err(|failure| match failure {
            Failure::Message(message) => message,
            Failure::ClosedPipe => "the scope file cannot be read".to_owned(),
        })?,
    };
    let given = scopes::place(&scope, args.lesson.as_deref())?;
    let place = match given {
        Some(place) => Some(place),
        None => scopes::place(&scope, front.lesson.as_deref()).map_err(of_text)?,
    };
    let names: Vec<String> = args.names.iter().filter(|name| *name != ALLOW).cloned().collect();
    let declared = [&args.story_words, &names, &front.names, &front.story_words];
    let focus = if args.focus.is_empty() { &front.focus } else { &args.focus };
    let patterns: Result<Vec<Pattern>, String> = focus.iter().map(|text| Pattern::parse(text, reader)).collect();
    let patterns = patterns.map_err(|problem| format!("{name}: its focus cannot be read: {problem}"))?;
    let options = Options {
        allow_names: args.names.iter().any(|name| name == ALLOW),
        focus: (!patterns.is_empty()).then(|| Focus::of(&scope, &patterns)),
        lesson: place.unwrap_or(scope.last()),
        declared: declared.into_iter().flatten().flat_map(|words| declared_words(words)).collect(),
        every_word: args.every_word && args.format == Format::Json,
        start,
    };
    let report = check(&text, &scope, reader, &options);
    let reaches = |percent: Option<f64>, least: f64| percent.is_none_or(|percent| percent + 1e-9 >= least);
    let met = reaches(report.tokens.percent_readable(), args.min_readable)
        && args.min_decodable.is_none_or(|least| reaches(report.tokens.percent_decodable(), least));
    Ok(Checked { name, text, scope, report, lesson_assumed: place.is_none(), met })
}

/// The words of a declared name or story word: *Old Tom* and *merry-go-round* are judged word by word, and so declared.
fn declared_words(written: &str) -> Vec<String> {
    tokens(written).map(|token| fold_word(&written[token.span])).collect()
}
