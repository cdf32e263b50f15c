//! What is wrong with a file, as the page shows it.

use serde::Serialize;
use untaught::Fault;

/// A fault and where it is.
#[derive(Debug, Serialize)]
pub(crate) struct FaultAnswer {
    line: usize,
    column: usize,
    message: String,
}

impl From<&Fault> for FaultAnswer {
    fn from(fault: &Fault) -> FaultAnswer {
        let Fault { position, message } = fault.clone();
        FaultAnswer { line: position.line, column: position.column, message }
    }
}
