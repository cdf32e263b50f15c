//! `untaught editor`.

use untaught_editor::End;

use crate::output::{Failure, Outcome};

/// Serves an editor on standard input and output. A client that leaves without a word is a failed run, as the protocol wants it.
pub(crate) fn run() -> Result<Outcome, Failure> {
    match untaught_editor::run() {
        Ok(End::Clean) => Ok(Outcome::Met),
        Ok(End::Abrupt) => Ok(Outcome::Short),
        Err(error) => Err(Failure::Message(format!("the editor sent something that is not a message: {error}"))),
    }
}
