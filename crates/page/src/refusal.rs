//! Why the page gets no answer, and what is wrong with a file, as it shows that.

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

/// Why there is no answer.
#[derive(Debug, Serialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum Refusal {
    /// A sentence.
    Problem(String),
    /// What is wrong with a scope file, and where.
    Faults(Vec<FaultAnswer>),
}

impl From<String> for Refusal {
    fn from(problem: String) -> Refusal {
        Refusal::Problem(problem)
    }
}
