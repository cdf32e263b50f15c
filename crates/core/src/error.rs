//! One error for programs that want one: every error of this crate becomes it with `?`.

use std::fmt;

use crate::{Fault, UnknownLesson};

/// Why something could not be done.
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
/// assert_eq!(percent("Tam sat.", scope, "1").unwrap(), Some(100.0));
/// assert!(percent("Tam sat.", scope, "2").unwrap_err().to_string().contains("no lesson 2"));
/// assert!(percent("Tam sat.", "format: 1\nlessons:\n- teach: [shh]\n", "1").is_err());
/// ```
#[derive(Clone, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub enum Error {
    /// What is wrong with a scope file, front matter or settings, in the order of the file.
    Faults(Vec<Fault>),
    /// A scope has no lesson of that id.
    UnknownLesson(UnknownLesson),
    /// A pattern cannot be read: a sentence that says what is wrong and what was probably meant.
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
