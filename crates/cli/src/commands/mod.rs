//! The commands: each parses nothing, prints through a report, and says how it ended.

mod check;
mod editor;
mod explain;
mod init;
mod lists;
mod page;
mod patterns;
mod place;
mod scope;
mod shelf;
mod shell;

pub(crate) use shell::values as completion_values;

use crate::args::Command;
use crate::output::{Failure, Outcome};

/// Runs a command.
pub(crate) fn run(command: &Command) -> Result<Outcome, Failure> {
    match command {
        Command::Check(args) => check::run(args),
        Command::Place(args) => place::run(args),
        Command::Shelf(args) => shelf::run(args),
        Command::Page(args) => page::run(args),
        Command::Editor(_) => editor::run(),
        Command::Completions(args) => shell::completions(args.shell),
        Command::Man => shell::manual(),
        Command::Words(args) => lists::words::run(args),
        Command::Chain(args) => lists::chain::run(args),
        Command::Boxes(args) => lists::boxes::run(args),
        Command::Contrast(args) => lists::contrast::run(args),
        Command::Dictation(args) => lists::dictation::run(args),
        Command::Pack(args) => lists::pack::run(args),
        Command::Explain(args) => explain::run(args),
        Command::Patterns(args) => patterns::run(args),
        Command::Scope(args) => scope::run(args),
        Command::Init(args) => init::run(args),
    }
}
