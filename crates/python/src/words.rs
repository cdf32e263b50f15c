//! Words for a lesson.

use std::ops::RangeInclusive;

use pyo3::exceptions::PyValueError;
use pyo3::prelude::*;
use untaught::{Focus, Pattern};
use untaught_lists::{Bank, BankWord, Shape, Vocabulary, WordFilter, WordPosition};

use crate::errors::Error;
use crate::scope::{KnownScope, LessonId, Scope};

/// A number, or the least and the most.
#[derive(FromPyObject)]
pub(crate) enum Numbers {
    #[pyo3(transparent, annotation = "int")]
    One(usize),
    #[pyo3(transparent, annotation = "tuple of two numbers")]
    Between((usize, usize)),
}

impl Numbers {
    fn range(numbers: Option<Numbers>) -> RangeInclusive<usize> {
        match numbers {
            None => 1..=usize::MAX,
            Some(Numbers::One(number)) => number..=number,
            Some(Numbers::Between((least, most))) => least..=most,
        }
    }
}

/// Lists common words, fit for children, that can be sounded out at a lesson (by default the last) and practise what it teaches: those
/// that `untaught words` lists.
///
/// `focus` lists other patterns to practise; `all=True` asks for any words. `shape` is written like `"cvc"`; `sounds` and `syllables` are a
/// number or a pair, the least and the most; `position` is where the pattern is: `"start"`, `"middle"` or `"end"`. `new=True` leaves out
/// words that could be read before the lesson; `older=True` adds words that the children of the scope are too young to know, and
/// `rarer=True` less common ones too. `limit=None` gives all there are.
///
/// Raises `LessonError` if the scope has no such lesson, and `Error` if a pattern or shape cannot be read.
#[pyfunction]
#[pyo3(signature = (scope, lesson=None, *, focus=None, all=false, shape=None, sounds=None, syllables=None, position=None, new=false, older=false, rarer=false, limit=Some(60)), text_signature = "(scope, lesson=None, *, focus=None, all=False, shape=None, sounds=None, syllables=None, position=None, new=False, older=False, rarer=False, limit=60)")]
#[allow(clippy::too_many_arguments)]
pub(crate) fn words(
    py: Python<'_>,
    scope: &Scope,
    lesson: Option<LessonId>,
    focus: Option<Vec<String>>,
    all: bool,
    shape: Option<&str>,
    sounds: Option<Numbers>,
    syllables: Option<Numbers>,
    position: Option<&str>,
    new: bool,
    older: bool,
    rarer: bool,
    limit: Option<usize>,
) -> PyResult<Vec<Word>> {
    let known = &scope.known;
    if all && (position.is_some() || focus.as_ref().is_some_and(|focus| !focus.is_empty())) {
        return Err(PyValueError::new_err("all=True goes with neither focus nor position"));
    }
    let lesson = known.lesson(lesson.as_ref())?;
    let focus = match focus.filter(|focus| !focus.is_empty()) {
        _ if all => None,
        None => Some(Focus::practised_at(&known.scope, lesson)),
        Some(written) => {
            let reader = known.judge().reader();
            let patterns = written.iter().map(|text| Pattern::parse(text, reader));
            Some(Focus::of(&known.scope, &patterns.collect::<Result<Vec<_>, String>>().map_err(Error::new_err)?))
        }
    };
    let position = match position {
        None => None,
        Some("start") => Some(WordPosition::Start),
        Some("middle") => Some(WordPosition::Middle),
        Some("end") => Some(WordPosition::End),
        Some(_) => return Err(PyValueError::new_err("position is \"start\", \"middle\" or \"end\"")),
    };
    let filter = WordFilter {
        focus: focus.filter(|focus| !focus.is_empty()),
        position,
        sounds: Numbers::range(sounds),
        syllables: Numbers::range(syllables),
        shape: shape.map(Shape::parse).transpose().map_err(Error::new_err)?,
        only_new: new,
    };
    let vocabulary = if rarer { Vocabulary::with_rarer() } else { Vocabulary { older, ..Vocabulary::default() } };
    Ok(py.detach(|| {
        let bank = Bank::practising(known.judge(), lesson, vocabulary, filter.syllables.clone(), filter.focus.as_ref());
        let chosen = bank.select(&filter).into_iter().take(limit.unwrap_or(usize::MAX));
        chosen.map(|word| Word::of(word, known)).collect()
    }))
}

/// A word of a list.
#[pyclass(frozen, get_all, module = "untaught")]
pub(crate) struct Word {
    /// The word.
    word: String,
    /// Its pronunciation in IPA, without slashes.
    ipa: String,
    /// The spellings of its parts.
    parts: Vec<String>,
    /// Number of sounds.
    sounds: usize,
    /// Number of syllables.
    syllables: usize,
    /// Its consonants and vowels: `CVC`.
    shape: String,
    /// The id of the first lesson at which it can be sounded out.
    lesson: String,
}

impl Word {
    fn of(word: &BankWord, known: &KnownScope) -> Word {
        Word {
            word: word.word.clone(),
            ipa: word.reading.ipa(),
            parts: word.reading.parts.iter().map(|part| part.spelling().to_owned()).collect(),
            sounds: word.sounds.len(),
            syllables: word.reading.syllables(),
            shape: Shape::of(&word.sounds).to_string(),
            lesson: known.scope.id(word.first).to_owned(),
        }
    }
}

#[pymethods]
impl Word {
    fn __repr__(&self) -> String {
        format!("<Word {} {}>", self.word, self.parts.join("·"))
    }
}
