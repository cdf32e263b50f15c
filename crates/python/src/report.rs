//! The report on a text.

use std::sync::Arc;

use pyo3::prelude::*;
use pyo3::pybacked::PyBackedStr;
use untaught::json::{Positions as _, TextDetails, TextReport};
use untaught::messages;

use crate::options::{CheckOptions, CheckedText, GivenOptions, Names};
use crate::scope::{KnownScope, LessonId, Scope};

/// Checks a text at a lesson of a scope and reports which words a child cannot yet be expected to read, and why.
///
/// `lesson` is the id of a lesson; without it, that of the text's front matter counts, or the last lesson. `names` (or "allow", for
/// every word that looks like a name) and `story_words` are pre-taught. `focus` lists patterns whose practice is counted, by default
/// those of the lesson. `min_readable` (100 by default), `min_decodable` and `min_focus` are the percentages that `met` depends on.
///
/// Raises `LessonError` if the scope has no such lesson, and `TextError` if the front matter cannot be used.
#[pyfunction]
#[pyo3(signature = (text, scope, lesson=None, *, names=None, story_words=None, focus=None, min_decodable=None, min_readable=None, min_focus=None, every_word=false))]
#[allow(clippy::too_many_arguments)]
pub(crate) fn check(
    py: Python<'_>,
    text: PyBackedStr,
    scope: &Scope,
    lesson: Option<LessonId>,
    names: Option<Names>,
    story_words: Option<Vec<String>>,
    focus: Option<Vec<String>>,
    min_decodable: Option<f64>,
    min_readable: Option<f64>,
    min_focus: Option<f64>,
    every_word: bool,
) -> PyResult<Report> {
    let known = &scope.known;
    let given = GivenOptions { lesson, names, story_words, focus, min_decodable, min_readable, min_focus, every_word };
    let options = CheckOptions::new(given, known)?;
    let checked = py.detach(|| known.with_checker(|checker| options.check(checker, &text, None)));
    match checked {
        Ok(checked) => Ok(Report { scope: Arc::clone(known), checked }),
        Err(problem) => Err(problem.into_error(py, None)),
    }
}

/// The report on a text at a lesson.
#[pyclass(frozen, module = "untaught")]
pub(crate) struct Report {
    pub(crate) scope: Arc<KnownScope>,
    pub(crate) checked: CheckedText,
}

#[pymethods]
impl Report {
    /// The id of the lesson.
    #[getter]
    fn lesson(&self) -> &str {
        self.scope.scope.id(self.checked.report.lesson)
    }

    /// The scope.
    #[getter]
    fn scope(&self) -> Scope {
        Scope { known: Arc::clone(&self.scope) }
    }

    /// Whether the text reaches the required percentages.
    #[getter]
    fn met(&self) -> bool {
        self.checked.met
    }

    /// Running words by status.
    #[getter]
    fn counts(&self) -> Counts {
        Counts::of(&self.checked.report.tokens)
    }

    /// Different words by status.
    #[getter]
    fn types(&self) -> Counts {
        Counts::of(&self.checked.report.types)
    }

    /// Percentage of running words that are decodable, to two decimals; None for a text without words.
    #[getter]
    fn percent_decodable(&self) -> Option<f64> {
        messages::rounded(self.checked.report.tokens.percent_decodable())
    }

    /// Percentage of running words that are decodable, sight words or story words, to two decimals; None for a text without words.
    #[getter]
    fn percent_readable(&self) -> Option<f64> {
        messages::rounded(self.checked.report.tokens.percent_readable())
    }

    /// The untaught words, each once, in order of first appearance.
    #[getter]
    fn untaught(&self) -> Vec<UntaughtWord> {
        let findings = &self.checked.report.findings;
        let offsets: Vec<usize> = findings.iter().flat_map(|finding| &finding.places).map(|span| span.start).collect();
        let mut places = self.checked.positions(&offsets).into_iter().map(|place| (place.line, place.column));
        let word = |finding: &untaught::Finding| UntaughtWord {
            word: finding.word().to_owned(),
            count: finding.count,
            places: places.by_ref().take(finding.places.len()).collect(),
            needs: finding.needs.iter().map(|need| Need::of(need, &self.scope)).collect(),
            reason: messages::needs(&finding.needs, &self.scope.scope),
            first_readable: self.scope.id(self.checked.report.distinct[finding.type_number].verdict.first_readable()),
            likely_name: finding.likely_name,
            by_letters: finding.by_letters,
        };
        findings.iter().map(word).collect()
    }

    /// The report as a dictionary: an entry of `texts` in the output of `untaught check --format json`.
    #[pyo3(signature = (file = "-"))]
    fn to_dict<'py>(&self, py: Python<'py>, file: &str) -> PyResult<Bound<'py, PyAny>> {
        loads(py, &self.to_json(py, file)?)
    }

    /// The same as a JSON text.
    #[pyo3(signature = (file = "-"))]
    fn to_json(&self, py: Python<'_>, file: &str) -> PyResult<String> {
        py.detach(|| {
            let checked = &self.checked;
            let details = TextDetails {
                file,
                met: Some(checked.met),
                every_word: checked.every_word,
                ..TextDetails::new(checked.document.text(), checked)
            };
            json(&TextReport::new(&checked.report, &self.scope.scope, details))
        })
    }

    fn __repr__(&self) -> String {
        let counts = &self.checked.report.tokens;
        let readable = messages::percent(self.percent_readable());
        format!("<Report at lesson {}: {readable} of {} words readable>", self.lesson(), counts.words)
    }
}

/// A value as JSON.
pub(crate) fn json(value: &impl serde::Serialize) -> PyResult<String> {
    serde_json::to_string(value)
        .map_err(|error| pyo3::exceptions::PyRuntimeError::new_err(format!("the report could not be made: {error}")))
}

/// A JSON text as Python's own types.
pub(crate) fn loads<'py>(py: Python<'py>, json: &str) -> PyResult<Bound<'py, PyAny>> {
    py.import("json")?.call_method1("loads", (json,))
}

/// Numbers of words by status.
#[pyclass(frozen, get_all, eq, module = "untaught")]
#[derive(PartialEq)]
pub(crate) struct Counts {
    /// All counted words.
    words: usize,
    /// Decodable words.
    decodable: usize,
    /// Sight words.
    sight: usize,
    /// Names and story words.
    story: usize,
    /// Untaught words.
    untaught: usize,
    /// What is no word, such as a number; not part of `words`.
    uncounted: usize,
}

impl Counts {
    fn of(counts: &untaught::Counts) -> Counts {
        let untaught::Counts { words, decodable, sight, story, untaught, uncounted } = *counts;
        Counts { words, decodable, sight, story, untaught, uncounted }
    }
}

#[pymethods]
impl Counts {
    fn __repr__(&self) -> String {
        let Counts { words, decodable, sight, story, untaught, uncounted } = self;
        format!(
            "<Counts words={words}, decodable={decodable}, sight={sight}, story={story}, untaught={untaught}, uncounted={uncounted}>"
        )
    }
}

/// Something that an untaught word needs.
#[pyclass(frozen, get_all, from_py_object, module = "untaught")]
#[derive(Clone)]
pub(crate) struct Need {
    /// What it is, for people: `igh as in night`.
    pattern: String,
    /// `pattern`, `skill`, `sight-word`, `irregular` or `abbreviation`.
    kind: &'static str,
    /// The id of the lesson that teaches it; None if the scope never does.
    lesson: Option<String>,
}

impl Need {
    fn of(need: &untaught::Need, known: &KnownScope) -> Need {
        Need { pattern: messages::need(need, &known.scope), kind: need.kind(), lesson: known.id(need.lesson()) }
    }
}

#[pymethods]
impl Need {
    fn __repr__(&self) -> String {
        match &self.lesson {
            Some(lesson) => format!("<Need {}, lesson {lesson}>", self.pattern),
            None => format!("<Need {}>", self.pattern),
        }
    }
}

/// An untaught word.
#[pyclass(frozen, get_all, module = "untaught")]
pub(crate) struct UntaughtWord {
    /// The word in lower case.
    word: String,
    /// How often the text has it.
    count: usize,
    /// Lines and columns of the first places, from 1.
    places: Vec<(usize, usize)>,
    /// What it needs.
    needs: Vec<Need>,
    /// The same as a phrase for people: `needs igh as in night (lesson 33)`.
    reason: String,
    /// The id of the first lesson at which it can be read; None if there is none.
    first_readable: Option<String>,
    /// Whether it looks like a name.
    likely_name: bool,
    /// Whether the dictionary lacks it, so that it was read by its letters.
    by_letters: bool,
}

#[pymethods]
impl UntaughtWord {
    fn __repr__(&self) -> String {
        format!("<UntaughtWord {}: {}>", self.word, self.reason)
    }
}
