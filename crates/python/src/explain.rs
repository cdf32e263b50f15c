//! Words explained.

use pyo3::prelude::*;
use untaught::tokens;

use crate::errors::Error;
use crate::report::{json, loads};
use crate::scope::Scope;

/// Explains a word: how it is cut into parts, what each part needs, and from which lesson of a scope it can be read.
///
/// Raises `Error` if it is not one word.
#[pyfunction]
pub(crate) fn explain(py: Python<'_>, word: &str, scope: &Scope) -> PyResult<Explanation> {
    let mut words = tokens(word).map(|token| &word[token.span]).filter(|word| word.chars().any(char::is_alphabetic));
    let shown = || untaught::messages::excerpt(word).into_owned();
    let one = words.next().ok_or_else(|| Error::new_err(format!("“{}” is not a word", shown())))?;
    if words.next().is_some() {
        return Err(Error::new_err(format!("“{}” is more than one word", shown())));
    }
    let known = &scope.known;
    py.detach(|| {
        let explained = known.judge().explain(one);
        let id = |id: Option<&str>| id.map(str::to_owned);
        let readings = explained.readings.iter().map(|reading| Reading {
            ipa: reading.ipa.clone(),
            parts: reading
                .parts
                .iter()
                .map(|part| Part {
                    spelling: part.spelling.clone(),
                    sound: part.sound.clone(),
                    ipa: part.ipa.clone(),
                    pattern: part.pattern.clone(),
                    lesson: id(part.lesson),
                })
                .collect(),
            skills: reading.skills.clone(),
            first_decodable: id(reading.first_decodable),
            made_of: reading.made_of.clone(),
            also: reading.also(&known.scope),
        });
        Ok(Explanation {
            word: explained.word.clone(),
            accent: explained.accent,
            origin: explained.origin,
            first_decodable: id(explained.first_decodable),
            first_readable: id(explained.first_readable),
            when: explained.when(),
            readings: readings.collect(),
            json: json(&explained)?,
        })
    })
}

/// The explanation of a word.
#[pyclass(frozen, module = "untaught")]
pub(crate) struct Explanation {
    /// The word as written.
    #[pyo3(get)]
    word: String,
    /// The accent in which it is read, as named in scope files.
    #[pyo3(get)]
    accent: &'static str,
    /// `dictionary`, `derived` or `letters`, or another name of where its readings come from.
    #[pyo3(get)]
    origin: &'static str,
    /// The id of the first lesson at which it can be sounded out; None if there is none.
    #[pyo3(get)]
    first_decodable: Option<String>,
    /// The id of the first lesson at which it can be read, sounded out or as a sight word; None if there is none.
    #[pyo3(get)]
    first_readable: Option<String>,
    /// When it can be read, as a phrase for people: `decodable from lesson 33`.
    #[pyo3(get)]
    when: String,
    /// Its readings, the one that counts first.
    #[pyo3(get)]
    readings: Vec<Reading>,
    json: String,
}

#[pymethods]
impl Explanation {
    /// The explanation as a dictionary: an entry in the output of `untaught explain --format json`.
    fn to_dict<'py>(&self, py: Python<'py>) -> PyResult<Bound<'py, PyAny>> {
        loads(py, &self.json)
    }

    fn __repr__(&self) -> String {
        format!("<Explanation {}: {}>", self.word, self.when)
    }
}

/// One pronunciation of a word, cut into parts.
#[pyclass(frozen, get_all, from_py_object, module = "untaught")]
#[derive(Clone)]
pub(crate) struct Reading {
    /// The pronunciation in IPA, without slashes.
    ipa: String,
    /// Its parts in the order of their first letter.
    parts: Vec<Part>,
    /// The skills it requires, as named in scope files.
    skills: Vec<&'static str>,
    /// The id of the first lesson at which it can be sounded out; None if there is none.
    first_decodable: Option<String>,
    /// What the word is made of: `hope + -ing`; None if of nothing smaller.
    made_of: Option<String>,
    /// What it requires besides its parts, as phrases for people: `two syllables, lesson 25`.
    also: Vec<String>,
}

#[pymethods]
impl Reading {
    fn __repr__(&self) -> String {
        let cut: Vec<&str> = self.parts.iter().map(|part| part.spelling.as_str()).collect();
        format!("<Reading /{}/ {}>", self.ipa, cut.join("·"))
    }
}

/// One spelling with its sound in a word.
#[pyclass(frozen, get_all, from_py_object, module = "untaught")]
#[derive(Clone)]
pub(crate) struct Part {
    /// Its spelling in the notation of scope files.
    spelling: String,
    /// Its sound in ARPAbet.
    sound: String,
    /// Its sound in IPA.
    ipa: String,
    /// What it needs, for people: `igh as in night`.
    pattern: String,
    /// The id of the lesson that teaches it; None if the scope never does.
    lesson: Option<String>,
}

#[pymethods]
impl Part {
    fn __repr__(&self) -> String {
        format!("<Part {} /{}/: {}>", self.spelling, self.ipa, self.pattern)
    }
}
