//! What is printed on standard error.

use std::io::Write as _;

use anstyle::{AnsiColor, Style};
use untaught::json::ErrorReport;
use untaught::messages::excerpt;

use super::escape::{one_line, safe};
use super::message::{self, Message};
use super::progress::progress_is_over;
use super::style::DIM;

/// Prints a complaint on standard error, which may have things from outside in it as they are.
pub(crate) fn complain(message: impl Into<Message>) {
    print(&message.into().to_string());
}

/// Prints what is harmless already.
fn print(complaint: &str) {
    progress_is_over();
    let mut err = anstream::stderr().lock();
    let style = Style::new().bold().fg_color(Some(AnsiColor::Red.into()));
    // Nothing is left to do where even that fails.
    let _ = writeln!(err, "{style}untaught:{style:#} {complaint}");
}

/// An error about a file or folder, for the formats that report it. Its message is made harmless.
pub(crate) fn error_at(file: impl Into<String>, message: impl Into<Message>) -> ErrorReport {
    ErrorReport { file: file.into(), message: message.into().to_string() }
}

/// Complains of an error, which is harmless already.
pub(crate) fn complain_of(error: &ErrorReport) {
    print(&error.message);
}

/// Complains about a file or folder, and keeps the complaint for the formats that report it.
pub(crate) fn complain_about(file: impl Into<String>, message: impl Into<Message>) -> ErrorReport {
    let error = error_at(file, message);
    complain_of(&error);
    error
}

/// Prints a remark on standard error, in which things from outside may be as they are: nothing failed.
pub(crate) fn remark(message: &str) {
    progress_is_over();
    // Nothing is left to do where even that fails.
    let _ = writeln!(anstream::stderr().lock(), "{DIM}untaught: note:{DIM:#} {}", message::shown(message));
}

/// Prints help, or what is wrong with the arguments, which are quoted in one line each. Returns the exit code.
pub(crate) fn usage(mut error: clap::Error) -> u8 {
    use clap::error::ContextValue as Value;
    let one = |text: &String| one_line(&excerpt(text)).into_owned();
    let tip = |text: &clap::builder::StyledStr| message::shown(&text.to_string()).into_owned().into();
    let quoted: Vec<_> = error
        .context()
        .filter_map(|(kind, value)| match value {
            Value::String(text) => Some((kind, Value::String(one(text)))),
            Value::Strings(texts) => Some((kind, Value::Strings(texts.iter().map(one).collect()))),
            Value::StyledStrs(tips) => Some((kind, Value::StyledStrs(tips.iter().map(tip).collect()))),
            _ => None,
        })
        .collect();
    for (kind, value) in quoted {
        error.insert(kind, value);
    }
    let text = error.render().to_string();
    // Nothing is left to do where printing fails.
    let _ = match error.use_stderr() {
        true => write!(anstream::stderr().lock(), "{}", safe(&text)),
        false => write!(anstream::stdout().lock(), "{text}"),
    };
    u8::try_from(error.exit_code()).unwrap_or(2)
}
