//! A single error type for programs that want one: `?` converts every error of this crate to it.

use std::fmt;

use crate::{Fault, UnknownLesson};

/// Any error of this crate.
///
/// ```
/// use untaught::{Error, Options, Reader, Scope, check};
///
/// fn percent(story: &str, scope: &str, lesson: &str) -> Result<Option<f64>, Error> {
///     let reader = Reader::default();
///     let scope = Scope::parse(scope, &reader)?;
///     let lesson = scope.index_of(lesson)?;
///     Ok(check(story, &scope, &reader, &Options::at(lesson)).tokens.percent_decodable())
/// }
///
/// let scope = "format: 1\nlessons:\n- teach: [s, a, t, m]\n";
/// assert_eq!(percent("Sam sat.", scope, "1").unwrap(), Some(100.0));
/// assert!(percent("Sam sat.", scope, "2").unwrap_err().to_string().contains("no lesson 2"));
/// assert!(percent("Sam sat.", "format: 1\nlessons:\n- teach: [shh]\n", "1").is_err());
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub enum Error {
    /// The mistakes in a scope file, front matter or settings, in file order.
    Faults(Vec<Fault>),
    /// A scope does not have a lesson with this id.
    UnknownLesson(UnknownLesson),
    /// A pattern is not valid: a sentence that says what is wrong and makes a suggestion.
    Pattern(String),
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Error::Faults(faults) => {
                let lines: Vec<String> = faults.iter().map(ToString::to_string).collect();
                f.write_str(&lines.join("\n"))
            }
            Error::UnknownLesson(unknown) => unknown.fmt(f),
            Error::Pattern(message) => f.write_str(message),
        }
    }
}

impl std::error::Error for Error {}

impl From<Vec<Fault>> for Error {
    fn from(faults: Vec<Fault>) -> Error {
        Error::Faults(faults)
    }
}

impl From<Fault> for Error {
    fn from(fault: Fault) -> Error {
        Error::Faults(vec![fault])
    }
}

impl From<UnknownLesson> for Error {
    fn from(unknown: UnknownLesson) -> Error {
        Error::UnknownLesson(unknown)
    }
}

impl From<String> for Error {
    fn from(message: String) -> Error {
        Error::Pattern(message)
    }
}
