//! The command `untaught`. It parses, calls, and maps the outcome to an exit code: 0 all texts meet their thresholds, 1 some text
//! falls short, 2 the run itself failed.

mod args;
mod check;
mod editor;
mod explain;
mod input;
mod materials;
mod output;
mod page;
mod patterns;
mod place;
mod scope;
mod serve;
mod shelf;
mod shell;
mod texts;

use std::process::ExitCode;

use clap::Parser as _;

use args::{Args, Command};
use output::Failure;

/// How a run ended.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
enum Outcome {
    /// All texts meet their thresholds.
    Met,
    /// Some text falls short.
    Short,
    /// Part of the run failed.
    Failed,
}

fn main() -> ExitCode {
    let args = match Args::try_parse() {
        Ok(args) => args,
        Err(error) => return output::usage(error),
    };
    args.color.apply();
    let outcome = match &args.command {
        Command::Check(check) => check::run(check),
        Command::Place(place) => place::run(place),
        Command::Shelf(shelf) => shelf::run(shelf),
        Command::Page(page) => serve::run(page),
        Command::Editor(_) => editor::run(),
        Command::Completions(completions) => shell::completions(completions.shell),
        Command::Man => shell::manual(),
        Command::Words(words) => materials::words::run(words),
        Command::Chain(chain) => materials::chain::run(chain),
        Command::Boxes(boxes) => materials::boxes::run(boxes),
        Command::Contrast(contrast) => materials::contrast::run(contrast),
        Command::Dictation(dictation) => materials::dictation::run(dictation),
        Command::Pack(pack) => materials::pack::run(pack),
        Command::Explain(explain) => explain::run(explain),
        Command::Patterns(patterns) => patterns::run(patterns),
        Command::Scope(scope) => scope::run(scope),
    };
    match outcome {
        Ok(Outcome::Met) | Err(Failure::ClosedPipe) => ExitCode::SUCCESS,
        Ok(Outcome::Short) => ExitCode::from(1),
        Ok(Outcome::Failed) => ExitCode::from(2),
        Err(Failure::Message(message)) => {
            output::complain(message);
            ExitCode::from(2)
        }
        Err(Failure::Faults(message)) => {
            output::complain(message);
            ExitCode::from(2)
        }
    }
}
