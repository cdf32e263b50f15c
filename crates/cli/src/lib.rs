//! The command `untaught` as a library, for the program and for the Python package: [`run`] parses the arguments, runs a command and
//! maps the outcome to an exit code.
//!
//! From the ground up: `output` writes, `args` are the arguments, `settings` are resolved from them
//! and from settings files, `texts` finds and reads stories and works on them in parallel,
//! `analysis` is what is found out about them, `reports` is what is printed (pages are templates in `pages`), `commands` run it all.

mod analysis;
mod args;
mod commands;
mod input;
mod output;
mod pages;
mod reports;
mod settings;
mod texts;

use std::ffi::OsString;
use std::io::Write as _;

use clap::Parser as _;

use args::Args;
use commands::completion_values;
use output::{Failure, Outcome};

/// Runs the command with its arguments, of which the first is the name of the program. Reads standard input and files, and writes to
/// standard output and standard error. Returns the exit code: 0 all texts meet their thresholds, 1 some text falls short, 2 the run
/// itself failed.
pub fn run(args: impl IntoIterator<Item = impl Into<OsString> + Clone>) -> u8 {
    let code = match std::env::var_os(completion_values::VARIABLE) {
        Some(kind) => {
            let typed = args.into_iter().skip(1).map(Into::into);
            code(completion_values::run(&kind.to_string_lossy(), typed))
        }
        None => match Args::try_parse_from(args) {
            Ok(args) => {
                args.color.apply();
                code(commands::run(&args.command))
            }
            Err(error) => output::usage(error),
        },
    };
    // Nothing is left to do where that fails. A program that is not written in Rust does not do it at its end.
    let _ = std::io::stdout().flush();
    code
}

fn code(outcome: Result<Outcome, Failure>) -> u8 {
    match outcome {
        Ok(Outcome::Met) | Err(Failure::ClosedPipe) => 0,
        Ok(Outcome::Short) => 1,
        Ok(Outcome::Failed) => 2,
        Err(Failure::Message(message)) => {
            output::complain(message);
            2
        }
        Err(Failure::Faults(message)) => {
            output::complain(message);
            2
        }
    }
}
