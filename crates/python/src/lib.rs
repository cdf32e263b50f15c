//! The Python package `untaught`: the library for Python, and the command.
//!
//! Python sees the classes and functions of the module `_untaught` through `python/untaught/__init__.py`; their types are in
//! `python/untaught/__init__.pyi`. Texts are worked on without Python's lock.

mod errors;
mod explain;
mod many;
mod options;
mod report;
mod scope;
mod words;

use pyo3::prelude::*;

#[pymodule]
mod _untaught {
    use super::*;

    #[pymodule_export]
    use super::errors::{Error, Fault, LessonError, ScopeError, TextError};
    #[pymodule_export]
    use super::explain::{Explanation, Part, Reading, explain};
    #[pymodule_export]
    use super::many::check_many;
    #[pymodule_export]
    use super::report::{Counts, Need, Report, UntaughtWord, check};
    #[pymodule_export]
    use super::scope::{Lesson, Scope};
    #[pymodule_export]
    use super::words::{Word, words};

    /// Runs the command with its arguments, of which the first is the name of the program, and returns its exit code.
    #[pyfunction]
    fn _run(py: Python<'_>, arguments: Vec<std::ffi::OsString>) -> u8 {
        py.detach(|| untaught_cli::run(arguments))
    }

    #[pymodule_init]
    fn init(module: &Bound<'_, PyModule>) -> PyResult<()> {
        module.add("__version__", env!("CARGO_PKG_VERSION"))
    }
}
