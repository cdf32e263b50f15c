//! The command `untaught`.

use std::process::ExitCode;

fn main() -> ExitCode {
    ExitCode::from(untaught_cli::run(std::env::args_os()))
}
