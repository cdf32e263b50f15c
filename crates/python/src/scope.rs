//! Scopes.

use std::fs;
use std::io::{self, ErrorKind, Read as _};
use std::path::PathBuf;
use std::sync::{Arc, LazyLock, Mutex, PoisonError};

use pyo3::exceptions::PyTypeError;
use pyo3::prelude::*;
use pyo3::types::PyType;
use untaught::yaml::LARGEST;
use untaught::{Checker, LessonIndex, Memory, Reader};
use untaught_documents::Kind;

use crate::errors::{no_scope, scope_error, unknown_lesson};

/// Knows how words are read.
pub(crate) static READER: LazyLock<Reader> = LazyLock::new(Reader::default);

/// A scope and sequence: an ordered list of lessons, each of which teaches some patterns and sight words.
///
/// Make one with `Scope.builtin`, `Scope.from_file` or `Scope.from_yaml`, and keep it: it remembers the words it has judged, and
/// threads may share it. It can be pickled.
#[pyclass(frozen, module = "untaught")]
pub(crate) struct Scope {
    pub(crate) known: Arc<KnownScope>,
}

/// A scope with what is remembered of the words that were checked against it.
pub(crate) struct KnownScope {
    pub(crate) scope: untaught::Scope,
    origin: ScopeOrigin,
    /// One for each thread that has checked texts at the same time as others.
    memories: Mutex<Vec<Memory>>,
}

enum ScopeOrigin {
    BuiltIn(String),
    Yaml(String),
}

impl KnownScope {
    fn share(scope: untaught::Scope, origin: ScopeOrigin) -> Scope {
        Scope { known: Arc::new(KnownScope { scope, origin, memories: Mutex::default() }) }
    }

    /// Lends a checker, which knows the words of earlier texts.
    pub(crate) fn with_checker<R>(&self, work: impl FnOnce(&mut Checker<'_>) -> R) -> R {
        let memory = self.memories.lock().unwrap_or_else(PoisonError::into_inner).pop().unwrap_or_default();
        let mut checker = Checker::remembering(&self.scope, &READER, memory);
        let done = work(&mut checker);
        self.memories.lock().unwrap_or_else(PoisonError::into_inner).push(checker.into_memory());
        done
    }

    pub(crate) fn judge(&self) -> untaught::Judge<'_> {
        untaught::Judge::new(&READER, &self.scope)
    }

    /// The id of a lesson, if there is one.
    pub(crate) fn id(&self, lesson: Option<LessonIndex>) -> Option<String> {
        lesson.map(|lesson| self.scope.id(lesson).to_owned())
    }

    /// The index of a lesson, by default of the last.
    pub(crate) fn lesson(&self, id: Option<&LessonId>) -> PyResult<LessonIndex> {
        let Some(id) = id else { return Ok(self.scope.last()) };
        self.scope.index_of(&id.0).map_err(|unknown| unknown_lesson(&unknown))
    }
}

/// The id of a lesson, given as text or as a whole number.
pub(crate) struct LessonId(pub(crate) String);

impl<'py> FromPyObject<'_, 'py> for LessonId {
    type Error = PyErr;

    fn extract(given: Borrowed<'_, 'py, PyAny>) -> PyResult<LessonId> {
        if let Ok(id) = given.extract::<String>() {
            return Ok(LessonId(id));
        }
        match given.extract::<i64>() {
            Ok(number) => Ok(LessonId(number.to_string())),
            Err(_) => Err(PyTypeError::new_err(format!("a lesson is an id such as \"12\", not {}", given.repr()?))),
        }
    }
}

#[pymethods]
impl Scope {
    /// A scope that comes with the package, by name.
    ///
    /// Raises `ScopeError` if there is none of that name.
    #[staticmethod]
    #[pyo3(signature = (name = "starter"))]
    fn builtin(py: Python<'_>, name: &str) -> PyResult<Scope> {
        let scope = untaught::Scope::embedded(name, &READER).ok_or_else(|| {
            let name = untaught::messages::excerpt(name);
            let names = Scope::builtin_names().join(", ");
            no_scope(py, format!("no scope {name} comes with the package; it has {names}"))
        })?;
        Ok(KnownScope::share(scope, ScopeOrigin::BuiltIn(name.to_owned())))
    }

    /// The names of the scopes that come with the package.
    #[staticmethod]
    fn builtin_names() -> Vec<&'static str> {
        untaught::Scope::embedded_titles().map(|(name, _)| name).collect()
    }

    /// Reads a scope file.
    ///
    /// Raises `OSError` if it cannot be read, and `ScopeError` with everything that is wrong with it.
    #[staticmethod]
    fn from_file(py: Python<'_>, path: PathBuf) -> PyResult<Scope> {
        let shown = path.display().to_string();
        let bytes = read(&path).map_err(|error| {
            let message = match error.kind() {
                ErrorKind::NotFound => format!("there is no scope file {shown}"),
                ErrorKind::PermissionDenied => format!("the scope file {shown} may not be read: permission denied"),
                ErrorKind::IsADirectory => format!("{shown} is a folder, not a scope file"),
                ErrorKind::InvalidInput => {
                    format!("the scope file {shown} is a pipe or a device; save it as a file and name that file")
                }
                _ => format!("the scope file {shown} cannot be read: {error}"),
            };
            PyErr::from(io::Error::new(error.kind(), message))
        })?;
        if bytes.len() > LARGEST {
            let most = LARGEST >> 20;
            return Err(no_scope(py, format!("the scope file {shown} was not read: it is larger than {most} MB")));
        }
        let document = untaught_documents::read(Kind::Text, bytes);
        let document = document.map_err(|problem| no_scope(py, format!("the scope file {shown} {problem}")))?;
        parsed(py, document.text(), Some(&shown))
    }

    /// Reads the text of a scope file.
    ///
    /// Raises `ScopeError` with everything that is wrong with it.
    #[staticmethod]
    fn from_yaml(py: Python<'_>, text: &str) -> PyResult<Scope> {
        if text.len() > LARGEST {
            return Err(no_scope(py, format!("the scope was not read: it is larger than {} MB", LARGEST >> 20)));
        }
        parsed(py, text, None)
    }

    /// Its title.
    #[getter]
    fn title(&self) -> &str {
        self.known.scope.title()
    }

    /// The accent in which it reads words, as named in scope files.
    #[getter]
    fn accent(&self) -> &'static str {
        self.known.scope.accent().name()
    }

    /// Its lessons in order.
    #[getter]
    fn lessons(&self) -> Vec<Lesson> {
        self.known.scope.lessons().iter().map(Lesson::of).collect()
    }

    /// A lesson by its id. Raises `LessonError` if there is none.
    fn lesson(&self, id: LessonId) -> PyResult<Lesson> {
        let index = self.known.lesson(Some(&id))?;
        Ok(Lesson::of(&self.known.scope.lessons()[index.get()]))
    }

    fn __repr__(&self) -> String {
        format!("<Scope “{}”, {} lessons>", self.title(), self.known.scope.lessons().len())
    }

    fn __reduce__<'py>(&self, py: Python<'py>) -> PyResult<(Bound<'py, PyAny>, (&str,))> {
        let class = PyType::new::<Scope>(py);
        Ok(match &self.known.origin {
            ScopeOrigin::BuiltIn(name) => (class.getattr("builtin")?, (name,)),
            ScopeOrigin::Yaml(text) => (class.getattr("from_yaml")?, (text,)),
        })
    }
}

fn parsed(py: Python<'_>, text: &str, name: Option<&str>) -> PyResult<Scope> {
    let scope = py.detach(|| untaught::Scope::parse(text, &READER));
    let scope = scope.map_err(|faults| scope_error(py, name, &faults))?;
    Ok(KnownScope::share(scope, ScopeOrigin::Yaml(text.to_owned())))
}

/// Reads a file, but no more than is needed to see that it is too large.
fn read(path: &std::path::Path) -> io::Result<Vec<u8>> {
    let found = fs::metadata(path)?;
    if found.is_dir() {
        return Err(ErrorKind::IsADirectory.into());
    }
    if !found.is_file() {
        return Err(ErrorKind::InvalidInput.into());
    }
    let mut bytes = Vec::new();
    fs::File::open(path)?.take(LARGEST as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// One step of a scope.
#[pyclass(frozen, get_all, module = "untaught")]
pub(crate) struct Lesson {
    /// Its id.
    id: String,
    /// Its title; empty if it has none.
    title: String,
    /// The patterns it teaches, as in a scope file.
    teach: Vec<String>,
    /// The words it teaches whole.
    sight: Vec<String>,
    /// The skills it teaches.
    skills: Vec<String>,
    /// The patterns it practises again.
    review: Vec<String>,
}

impl Lesson {
    fn of(lesson: &untaught::Lesson) -> Lesson {
        Lesson {
            id: lesson.id.clone(),
            title: lesson.title.clone(),
            teach: lesson.patterns.iter().map(untaught::Pattern::label).collect(),
            sight: lesson.sight.clone(),
            skills: lesson.skills.iter().map(|skill| skill.name().to_owned()).collect(),
            review: lesson.review.clone(),
        }
    }
}

#[pymethods]
impl Lesson {
    fn __repr__(&self) -> String {
        format!("<Lesson {} “{}”>", self.id, self.title)
    }
}
