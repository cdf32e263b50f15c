//! Why a file cannot be read, and what to do about it.

use std::fmt;

/// A sentence without its subject: callers print the file name and a space before it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Problem(String);

impl Problem {
    pub(crate) fn new(sentence: impl Into<String>) -> Problem {
        Problem(sentence.into())
    }

    /// A damaged file that its own program can probably repair.
    pub(crate) fn damaged(what: impl fmt::Display) -> Problem {
        Problem(format!("is damaged ({what}): open it in the program it was made with, save it again and try again"))
    }

    /// A file that goes beyond what any story needs.
    pub(crate) fn too_large(what: impl fmt::Display) -> Problem {
        Problem(format!("was not read: it {what}; save only the story, as plain text, and try again"))
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for Problem {}
