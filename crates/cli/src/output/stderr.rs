//! What is printed on standard error.

use std::io::Write as _;
use std::path::Path;

use anstyle::{AnsiColor, Style};
use untaught::json::ErrorReport;

use super::escape::safe;
use super::progress::progress_is_over;
use super::style::DIM;

/// Prints a complaint on standard error.
pub(crate) fn complain(message: &str) {
    progress_is_over();
    let mut err = anstream::stderr().lock();
    let style = Style::new().bold().fg_color(Some(AnsiColor::Red.into()));
    // Nothing is left to do where even that fails.
    let _ = writeln!(err, "{style}untaught:{style:#} {}", safe(message));
}

/// Complains about a file or folder, and keeps the complaint for the formats that report it.
pub(crate) fn complain_about(file: impl Into<String>, message: impl Into<String>) -> ErrorReport {
    let error = ErrorReport { file: file.into(), message: message.into() };
    complain(&error.message);
    error
}

/// An error for the formats that report it.
pub(crate) fn error_at(file: &Path, message: String) -> ErrorReport {
    ErrorReport { file: file.display().to_string(), message }
}

/// Prints a remark on standard error: nothing failed.
pub(crate) fn remark(message: &str) {
    progress_is_over();
    // Nothing is left to do where even that fails.
    let _ = writeln!(anstream::stderr().lock(), "{DIM}untaught: note:{DIM:#} {}", safe(message));
}

/// Prints help, or what is wrong with the arguments, in which they stand as they were typed.
pub(crate) fn usage(error: &clap::Error) -> std::process::ExitCode {
    let text = error.render().to_string();
    // Nothing is left to do where printing fails.
    let _ = match error.use_stderr() {
        true => write!(anstream::stderr().lock(), "{}", safe(&text)),
        false => write!(anstream::stdout().lock(), "{text}"),
    };
    std::process::ExitCode::from(u8::try_from(error.exit_code()).unwrap_or(2))
}
