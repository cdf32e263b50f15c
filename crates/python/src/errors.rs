//! The exceptions. Their messages are the sentences of the library.

use pyo3::create_exception;
use pyo3::exceptions::PyValueError;
use pyo3::prelude::*;
use untaught::UnknownLesson;
use untaught::yaml::first;

create_exception!(untaught, Error, PyValueError, "Something that was given cannot be used; the message says why.");
create_exception!(
    untaught,
    ScopeError,
    Error,
    "A scope cannot be used. `faults` lists what is wrong with its file, with lines and columns."
);
create_exception!(untaught, LessonError, Error, "A scope has no such lesson.");
create_exception!(
    untaught,
    TextError,
    Error,
    "A text cannot be checked. `index` is its number among many, from 0; None if there is only one."
);

/// One thing that is wrong with a scope file.
#[pyclass(frozen, get_all, module = "untaught")]
pub(crate) struct Fault {
    /// The line, from 1.
    line: usize,
    /// The column, from 1.
    column: usize,
    /// What is wrong, and what was probably meant.
    message: String,
}

#[pymethods]
impl Fault {
    fn __repr__(&self) -> String {
        format!("<Fault line {}, column {}: {}>", self.line, self.column, self.message)
    }
}

/// Faults in a message; the exception lists all of them.
const SHOWN: usize = 20;

/// What is wrong with a scope file: its name, if it has one, and its faults.
pub(crate) fn scope_error(py: Python<'_>, name: Option<&str>, faults: &[untaught::Fault]) -> PyErr {
    let place = |(number, fault): (usize, &untaught::Fault)| {
        let untaught::Fault { position, message } = fault;
        match name {
            // That there are more has no place.
            _ if number == SHOWN => message.clone(),
            Some(name) => format!("{name}:{}:{}: {message}", position.line, position.column),
            None => fault.to_string(),
        }
    };
    let lines: Vec<String> = first(faults, SHOWN).iter().enumerate().map(place).collect();
    let error = ScopeError::new_err(format!("the scope file cannot be used\n{}", lines.join("\n")));
    let of = |fault: &untaught::Fault| Fault {
        line: fault.position.line,
        column: fault.position.column,
        message: fault.message.clone(),
    };
    let all: Vec<Fault> = faults.iter().map(of).collect();
    with(py, error, "faults", all)
}

/// A scope that cannot be had for another reason.
pub(crate) fn no_scope(py: Python<'_>, message: String) -> PyErr {
    with(py, ScopeError::new_err(message), "faults", Vec::<Fault>::new())
}

pub(crate) fn unknown_lesson(unknown: &UnknownLesson) -> PyErr {
    LessonError::new_err(unknown.to_string())
}

/// Why a text cannot be checked.
pub(crate) enum TextProblem {
    /// Its lesson.
    Lesson(UnknownLesson),
    /// Anything else, in a sentence.
    Other(String),
}

impl TextProblem {
    /// The exception; of one text among many with its number.
    pub(crate) fn into_error(self, py: Python<'_>, index: Option<usize>) -> PyErr {
        let place = |message: String| match index {
            Some(index) => format!("text {index}: {message}"),
            None => message,
        };
        match self {
            TextProblem::Lesson(unknown) if index.is_none() => unknown_lesson(&unknown),
            TextProblem::Lesson(unknown) => with(py, TextError::new_err(place(unknown.to_string())), "index", index),
            TextProblem::Other(message) => with(py, TextError::new_err(place(message)), "index", index),
        }
    }
}

/// An exception with an attribute.
fn with<'py>(py: Python<'py>, error: PyErr, name: &str, value: impl IntoPyObject<'py>) -> PyErr {
    match error.value(py).setattr(name, value) {
        Ok(()) => error,
        Err(other) => other,
    }
}
