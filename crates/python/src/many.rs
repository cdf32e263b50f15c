//! Many texts at once, on several threads, without Python's lock.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::mpsc::{self, RecvTimeoutError};
use std::thread;
use std::time::Duration;

use pyo3::exceptions::PyValueError;
use pyo3::prelude::*;
use pyo3::pybacked::PyBackedStr;
use pyo3::types::{PyFloat, PyList, PyString};

use crate::errors::TextProblem;
use crate::options::{CheckOptions, CheckedText, GivenOptions, Names};
use crate::report::Report;
use crate::scope::{KnownScope, LessonId, Scope};

/// The lesson of all texts, or one for each.
pub(crate) enum Lessons {
    One(LessonId),
    Each(Vec<Option<LessonId>>),
}

impl<'py> FromPyObject<'_, 'py> for Lessons {
    type Error = PyErr;

    fn extract(given: Borrowed<'_, 'py, PyAny>) -> PyResult<Lessons> {
        if given.is_instance_of::<PyString>() {
            return given.extract().map(Lessons::One);
        }
        match given.try_iter() {
            Ok(lessons) => {
                let each = |lesson: PyResult<Bound<'py, PyAny>>| match lesson? {
                    lesson if is_missing(&lesson) => Ok(None),
                    lesson => lesson.extract().map(Some),
                };
                lessons.map(each).collect::<PyResult<_>>().map(Lessons::Each)
            }
            Err(_) => given.extract().map(Lessons::One),
        }
    }
}

/// Whether this is no value: None, or the number in its place in a table of pandas.
fn is_missing(given: &Bound<'_, PyAny>) -> bool {
    given.is_none() || given.cast::<PyFloat>().is_ok_and(|number| number.value().is_nan())
}

/// A text, or why it is none.
type GivenText = Result<PyBackedStr, String>;

fn given_text(given: &Bound<'_, PyAny>) -> PyResult<GivenText> {
    if is_missing(given) {
        return Ok(Err("there is no text".to_owned()));
    }
    if !given.is_instance_of::<PyString>() {
        return Ok(Err(format!("a text is a str, not {}", given.get_type().name()?)));
    }
    Ok(given.extract().map_err(|_| "the text has characters that Unicode does not allow".to_owned()))
}

/// Texts that a thread takes at once.
const BATCH: usize = 16;

/// How often a long run looks whether it was interrupted.
const PAUSE: Duration = Duration::from_millis(100);

/// Checks many texts and returns their reports in the same order, each like that of `check`.
///
/// `lesson` may also be a list with a lesson, or None, for each text. The texts are worked on by `jobs` threads (by default one for each
/// processor) while other Python threads run. A text that cannot be checked, such as None, raises `TextError`; with
/// `return_errors=True` the error takes the place of its report instead.
#[pyfunction]
#[pyo3(signature = (texts, scope, lesson=None, *, jobs=None, return_errors=false, names=None, story_words=None, focus=None, min_decodable=None, min_readable=None, min_focus=None, every_word=false))]
#[allow(clippy::too_many_arguments)]
pub(crate) fn check_many<'py>(
    py: Python<'py>,
    texts: &Bound<'py, PyAny>,
    scope: &Scope,
    lesson: Option<Lessons>,
    jobs: Option<usize>,
    return_errors: bool,
    names: Option<Names>,
    story_words: Option<Vec<String>>,
    focus: Option<Vec<String>>,
    min_decodable: Option<f64>,
    min_readable: Option<f64>,
    min_focus: Option<f64>,
    every_word: bool,
) -> PyResult<Bound<'py, PyList>> {
    if jobs == Some(0) {
        return Err(PyValueError::new_err("jobs is a number of threads from 1"));
    }
    let (lesson, lessons) = match lesson {
        None => (None, None),
        Some(Lessons::One(lesson)) => (Some(lesson), None),
        Some(Lessons::Each(lessons)) => (None, Some(lessons)),
    };
    let given = GivenOptions { lesson, names, story_words, focus, min_decodable, min_readable, min_focus, every_word };
    let options = CheckOptions::new(given, &scope.known)?;
    let texts: Vec<GivenText> = texts.try_iter()?.map(|text| given_text(&text?)).collect::<PyResult<_>>()?;
    let lessons: Option<Vec<Option<String>>> =
        lessons.map(|lessons| lessons.into_iter().map(|lesson| lesson.map(|lesson| lesson.0)).collect());
    if let Some(lessons) = lessons.as_ref().filter(|lessons| lessons.len() != texts.len()) {
        let message = format!("{} texts have {} lessons; give each text one", texts.len(), lessons.len());
        return Err(PyValueError::new_err(message));
    }
    let jobs = jobs.unwrap_or_else(|| thread::available_parallelism().map_or(1, usize::from));
    let run = Run { known: &scope.known, options: &options, texts: &texts, lessons: lessons.as_deref() };
    let checked = py.detach(|| run.all(jobs))?;
    let reports = PyList::empty(py);
    for (index, checked) in checked.into_iter().enumerate() {
        match checked {
            Ok(checked) => reports.append(Report { scope: Arc::clone(&scope.known), checked })?,
            Err(problem) => {
                let error = problem.into_error(py, Some(index));
                if !return_errors {
                    return Err(error);
                }
                reports.append(error)?;
            }
        }
    }
    Ok(reports)
}

/// Texts to be checked.
struct Run<'a> {
    known: &'a KnownScope,
    options: &'a CheckOptions,
    texts: &'a [GivenText],
    lessons: Option<&'a [Option<String>]>,
}

type Checked = Result<CheckedText, TextProblem>;

impl Run<'_> {
    /// Checks all of them. The calling thread waits, and looks whether it was interrupted.
    fn all(&self, jobs: usize) -> PyResult<Vec<Checked>> {
        let threads = jobs.min(self.texts.len().div_ceil(BATCH));
        let (next, stop) = (AtomicUsize::new(0), AtomicBool::new(false));
        thread::scope(|scope| {
            let (send, receive) = mpsc::channel();
            for _ in 0..threads {
                let send = send.clone();
                let (next, stop) = (&next, &stop);
                let work = move || {
                    self.known.with_checker(|checker| {
                        while !stop.load(Ordering::Relaxed) {
                            let from = next.fetch_add(BATCH, Ordering::Relaxed);
                            let Some(batch) = self.texts.get(from..) else { break };
                            let batch = batch.iter().take(BATCH).enumerate();
                            let checked: Vec<Checked> =
                                batch.map(|(at, text)| self.one(checker, from + at, text)).collect();
                            if checked.is_empty() || send.send((from, checked)).is_err() {
                                break;
                            }
                        }
                    });
                };
                thread::Builder::new().spawn_scoped(scope, work)?;
            }
            drop(send);
            let mut all: Vec<Option<Vec<Checked>>> = Vec::new();
            all.resize_with(self.texts.len().div_ceil(BATCH), || None);
            loop {
                match receive.recv_timeout(PAUSE) {
                    Ok((from, checked)) => all[from / BATCH] = Some(checked),
                    Err(RecvTimeoutError::Disconnected) => break,
                    Err(RecvTimeoutError::Timeout) => {}
                }
                if let Err(interrupted) = Python::attach(|py| py.check_signals()) {
                    stop.store(true, Ordering::Relaxed);
                    return Err(interrupted);
                }
            }
            Ok(all.into_iter().flatten().flatten().collect())
        })
    }

    fn one(&self, checker: &mut untaught::Checker<'_>, index: usize, text: &GivenText) -> Checked {
        let text = text.as_ref().map_err(|problem| TextProblem::Other(problem.clone()))?;
        let lesson = self.lessons.and_then(|lessons| lessons[index].as_deref());
        self.options.check(checker, text, lesson)
    }
}
