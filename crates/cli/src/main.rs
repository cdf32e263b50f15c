//! The command `untaught`. It parses the arguments, runs a command and maps the outcome to an exit code: 0 all texts meet their
//! thresholds, 1 some text falls short, 2 the run itself failed.
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

use std::process::ExitCode;

use clap::Parser as _;

use args::Args;
use commands::completion_values;
use output::{Failure, Outcome};

fn main() -> ExitCode {
    if let Some(kind) = std::env::var_os(completion_values::VARIABLE) {
        return exit(completion_values::run(&kind.to_string_lossy(), std::env::args_os().skip(1)));
    }
    let args = match Args::try_parse() {
        Ok(args) => args,
        Err(error) => return output::usage(error),
    };
    args.color.apply();
    exit(commands::run(&args.command))
}

fn exit(outcome: Result<Outcome, Failure>) -> ExitCode {
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
