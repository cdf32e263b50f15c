//! What a text is checked with: the options of the functions, resolved with the front matter of the text as the command does.

use pyo3::exceptions::{PyTypeError, PyValueError};
use pyo3::prelude::*;
use untaught::json::Positions;
use untaught::{Checker, Focus, Lines, PLACES, Position, front_matter, percent};
use untaught_config::{ALLOW, CommandLineSettings, Layers, Origin, resolve};
use untaught_documents::{Document, Kind};

use crate::errors::TextProblem;
use crate::scope::{KnownScope, LessonId};

/// The options of a check.
pub(crate) struct CheckOptions {
    settings: CommandLineSettings,
    every_word: bool,
}

/// Some names, or `"allow"`.
#[derive(FromPyObject)]
pub(crate) enum Names {
    #[pyo3(transparent, annotation = "str")]
    Word(String),
    #[pyo3(transparent, annotation = "list of str")]
    List(Vec<String>),
}

/// The options as they are given in Python.
pub(crate) struct GivenOptions {
    pub(crate) lesson: Option<LessonId>,
    pub(crate) names: Option<Names>,
    pub(crate) story_words: Option<Vec<String>>,
    pub(crate) focus: Option<Vec<String>>,
    pub(crate) min_decodable: Option<f64>,
    pub(crate) min_readable: Option<f64>,
    pub(crate) min_focus: Option<f64>,
    pub(crate) every_word: bool,
}

/// A text that has been checked.
pub(crate) struct CheckedText {
    pub(crate) report: untaught::Report,
    pub(crate) document: Document,
    pub(crate) met: bool,
    pub(crate) every_word: bool,
}

impl CheckOptions {
    /// Looks the options over. The lesson must be one of the scope.
    pub(crate) fn new(given: GivenOptions, known: &KnownScope) -> PyResult<CheckOptions> {
        known.lesson(given.lesson.as_ref())?;
        let names = match given.names {
            None => Vec::new(),
            Some(Names::List(names)) => names,
            Some(Names::Word(word)) if word == ALLOW => vec![word],
            Some(Names::Word(_)) => return Err(PyTypeError::new_err("names is a list of names, or \"allow\"")),
        };
        for (name, least) in [
            ("min_decodable", given.min_decodable),
            ("min_readable", given.min_readable),
            ("min_focus", given.min_focus),
        ] {
            if let Some(least) = least.filter(|least| !(0.0..=100.0).contains(least)) {
                return Err(PyValueError::new_err(format!("{name} is a percentage from 0 to 100, not {least}")));
            }
        }
        let settings = CommandLineSettings {
            lesson: given.lesson.map(|lesson| lesson.0),
            names,
            story_words: given.story_words.unwrap_or_default(),
            focus: given.focus.unwrap_or_default(),
            min_decodable: given.min_decodable,
            min_readable: given.min_readable,
            min_focus: given.min_focus,
            ..CommandLineSettings::default()
        };
        Ok(CheckOptions { settings, every_word: given.every_word })
    }

    /// Checks a text. It may have a lesson of its own, which overrides the others.
    pub(crate) fn check(
        &self,
        checker: &mut Checker<'_>,
        text: &str,
        lesson: Option<&str>,
    ) -> Result<CheckedText, TextProblem> {
        let document = untaught_documents::read(Kind::Text, text.as_bytes().to_vec());
        let document = document.map_err(|problem| TextProblem::Other(format!("the text {problem}")))?;
        let (front, start) = front_matter(document.text()).map_err(|fault| TextProblem::Other(fault.to_string()))?;
        let layers = Layers {
            command_line: Some(&self.settings),
            record_lesson: lesson,
            front_matter: Some(&front),
            ..Layers::default()
        };
        let settings = resolve(&layers);
        let judge = checker.judge();
        let scope = judge.scope();
        let lesson = match &settings.lesson {
            None => scope.last(),
            Some(lesson) => scope.index_of(&lesson.value).map_err(|unknown| match lesson.origin {
                Origin::FrontMatter { position } => TextProblem::Other(format!(
                    "line {}, column {}: in the front matter: {unknown}",
                    position.line, position.column
                )),
                _ => TextProblem::Lesson(unknown),
            })?,
        };
        let patterns = settings.patterns(judge.reader());
        let patterns =
            patterns.map_err(|problem| TextProblem::Other(format!("the focus is not valid: {}", problem.value)))?;
        let options = untaught::Options {
            lesson,
            declared: settings.declared(),
            every_word: self.every_word,
            places: PLACES,
            allow_names: settings.allow_names.value,
            focus: (!patterns.is_empty()).then(|| Focus::of(scope, &patterns)),
            start: Some(start),
        };
        let report = checker.check(document.text(), &options);
        let counts = &report.tokens;
        let practised = percent(report.focus.tokens, counts.words).filter(|_| !report.focus.labels.is_empty());
        let reached = [
            (counts.percent_decodable(), settings.min_decodable.as_ref().map(|least| least.value)),
            (counts.percent_readable(), Some(settings.min_readable.value)),
            (practised, settings.min_focus.as_ref().map(|least| least.value)),
        ];
        let falls_short = |(percent, least): (Option<f64>, Option<f64>)| match (percent, least) {
            (Some(percent), Some(least)) => percent + 1e-9 < least,
            _ => false,
        };
        let met = !reached.into_iter().any(falls_short);
        Ok(CheckedText { report, document, met, every_word: self.every_word })
    }
}

impl Positions for CheckedText {
    fn positions(&self, offsets: &[usize]) -> Vec<Position> {
        Lines::new(self.document.source()).positions(offsets)
    }
}
