//! Scope files and settings files, as they are in the editor or else on disk. Of a broken one the last valid version is used.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::Read as _;
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::LazyLock;
use std::time::SystemTime;

use serde::de::IgnoredAny;
use untaught::yaml::{self, LARGEST, Outline};
use untaught::{Fault, Memory, Reader, Scope};
use untaught_config::{EffectiveSettings, FolderSettings, ScopeReference, Sourced, clean};

use crate::buffer::Buffers;
use crate::word_diagnostics::WordDiagnostics;

/// How words are read: one for all sessions.
pub(crate) static READER: LazyLock<Reader> = LazyLock::new(Reader::default);

/// Files that are kept in mind at most before those that there are not are forgotten.
const MISSING: usize = 64;

/// Scopes with pronunciations of a folder that are kept: while one is typed, each state of it makes another.
const PRONOUNCING: usize = 8;

/// A scope that is in use.
#[derive(Debug)]
pub(crate) struct LoadedScope {
    pub(crate) scope: Scope,
    /// The file, and where everything stands in it; none for a scope that comes with the program.
    pub(crate) file: Option<(PathBuf, Outline)>,
    /// Verdicts against it.
    pub(crate) memory: RefCell<Memory>,
    /// The diagnostics of its untaught words.
    pub(crate) diagnostics: RefCell<WordDiagnostics>,
}

/// How a file was when it was read.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Stamp {
    Open(u64),
    Disk(Option<SystemTime>, u64),
    Missing,
}

/// The last valid version of a file, and what is wrong with the present one.
#[derive(Debug)]
pub(crate) struct FileState<T> {
    stamp: Stamp,
    pub(crate) good: Option<Rc<T>>,
    pub(crate) faults: Vec<Fault>,
}

/// A scope, and the same with the pronunciations of a folder.
#[derive(Debug)]
struct PronouncingScope {
    plain: Rc<LoadedScope>,
    given: Vec<(String, String)>,
    made: Rc<LoadedScope>,
}

/// All files that were asked for.
#[derive(Debug, Default)]
pub(crate) struct SharedFiles {
    built_in: BTreeMap<String, Rc<LoadedScope>>,
    /// Scopes with the pronunciations of a folder; the latest last.
    pronouncing: Vec<PronouncingScope>,
    pub(crate) scopes: BTreeMap<PathBuf, FileState<LoadedScope>>,
    pub(crate) settings: BTreeMap<PathBuf, FileState<FolderSettings>>,
}

/// What was found under the name of a scope.
#[derive(Debug)]
pub(crate) struct Lookup<T> {
    pub(crate) good: Option<Rc<T>>,
    /// Why it is not the present state of the file, or why there is nothing.
    pub(crate) problem: Option<String>,
}

impl SharedFiles {
    /// A scope.
    pub(crate) fn scope(&mut self, reference: &ScopeReference, buffers: &Buffers) -> Lookup<LoadedScope> {
        match reference {
            ScopeReference::BuiltIn(name) => self.built_in(name),
            ScopeReference::File(path) => self.scope_file(&clean(path), buffers),
        }
    }

    /// A scope with the pronunciations that some settings give; the scope itself, and what is wrong, if one cannot be read.
    pub(crate) fn pronouncing(
        &mut self,
        plain: Rc<LoadedScope>,
        settings: &EffectiveSettings,
    ) -> Result<Rc<LoadedScope>, (Rc<LoadedScope>, Sourced<String>)> {
        if settings.pronounce.is_empty() {
            return Ok(plain);
        }
        let given = settings.pronunciations();
        let known = self.pronouncing.iter().find(|known| Rc::ptr_eq(&known.plain, &plain) && known.given == given);
        if let Some(known) = known {
            return Ok(Rc::clone(&known.made));
        }
        let scope = match settings.pronouncing(&plain.scope) {
            Ok(scope) => scope,
            Err(problem) => return Err((plain, problem)),
        };
        let made = Rc::new(LoadedScope {
            scope,
            file: plain.file.clone(),
            memory: RefCell::default(),
            diagnostics: RefCell::default(),
        });
        if self.pronouncing.len() == PRONOUNCING {
            self.pronouncing.remove(0);
        }
        self.pronouncing.push(PronouncingScope { plain, given, made: Rc::clone(&made) });
        Ok(made)
    }

    fn built_in(&mut self, name: &str) -> Lookup<LoadedScope> {
        if let Some(known) = self.built_in.get(name) {
            return Lookup { good: Some(Rc::clone(known)), problem: None };
        }
        let Some(scope) = Scope::embedded(name, &READER) else {
            return Lookup { good: None, problem: Some(format!("no scope {name} comes with the program")) };
        };
        let loaded =
            Rc::new(LoadedScope { scope, file: None, memory: RefCell::default(), diagnostics: RefCell::default() });
        self.built_in.insert(name.to_owned(), Rc::clone(&loaded));
        Lookup { good: Some(loaded), problem: None }
    }

    fn scope_file(&mut self, path: &Path, buffers: &Buffers) -> Lookup<LoadedScope> {
        // While a path is typed, each beginning of it is asked for once.
        if self.scopes.len() > MISSING {
            self.scopes.retain(|_, kept| kept.stamp != Stamp::Missing || kept.good.is_some());
        }
        let read = |text: &str| {
            let scope = Scope::parse(text, &READER)?;
            let outline = yaml::read::<IgnoredAny>(text).map(|(_, outline)| outline).unwrap_or_default();
            let file = Some((path.to_owned(), outline));
            Ok(LoadedScope { scope, file, memory: RefCell::default(), diagnostics: RefCell::default() })
        };
        look(&mut self.scopes, path, buffers, "scope file", read)
    }

    /// The settings file of a folder or of one above it.
    pub(crate) fn folder_settings(&mut self, folder: &Path, buffers: &Buffers) -> Option<Lookup<FolderSettings>> {
        let open = |folder: &Path| buffers.at(&folder.join(untaught_config::NAME)).and_then(|b| b.path.clone());
        let path = folder.ancestors().find_map(|above| {
            // One that is open counts though it is not saved yet.
            let path = above.join(untaught_config::NAME);
            open(above).or_else(|| path.is_file().then_some(path))
        })?;
        let read = |text: &str| FolderSettings::parse(text, &path);
        Some(look(&mut self.settings, &path, buffers, "settings file", read))
    }

    /// The files that are broken now, with their faults.
    pub(crate) fn broken(&self) -> impl Iterator<Item = (&Path, &[Fault])> {
        let scopes = self.scopes.iter().map(|(path, kept)| (path.as_path(), &kept.faults[..]));
        let settings = self.settings.iter().map(|(path, kept)| (path.as_path(), &kept.faults[..]));
        scopes.chain(settings).filter(|(_, faults)| !faults.is_empty())
    }
}

/// The text of a file, or why it cannot be read. What is no file, such as a pipe, is not opened: it may have no end.
pub(crate) fn text(path: &Path) -> Result<String, &'static str> {
    const UNREADABLE: &str = "cannot be read as UTF-8";
    if !path.is_file() {
        return Err("is a pipe or a device; save it as a file and name that file");
    }
    let mut text = String::new();
    let file = File::open(path).map_err(|_| UNREADABLE)?;
    if file.metadata().is_ok_and(|found| found.len() > LARGEST as u64) {
        return Err("is larger than 4 MB");
    }
    file.take(LARGEST as u64).read_to_string(&mut text).map_err(|_| UNREADABLE)?;
    Ok(text)
}

fn look<T>(
    known: &mut BTreeMap<PathBuf, FileState<T>>,
    path: &Path,
    buffers: &Buffers,
    what: &str,
    read: impl FnOnce(&str) -> Result<T, Vec<Fault>>,
) -> Lookup<T> {
    let open = buffers.at(path);
    let stamp = match open {
        Some(buffer) => Stamp::Open(buffer.edition),
        None => match fs::metadata(path) {
            Ok(data) if !data.is_dir() => Stamp::Disk(data.modified().ok(), data.len()),
            _ => Stamp::Missing,
        },
    };
    let kept =
        known.entry(path.to_owned()).or_insert(FileState { stamp: Stamp::Missing, good: None, faults: Vec::new() });
    if kept.stamp != stamp {
        kept.stamp = stamp;
        let text = match open {
            Some(buffer) => Ok(buffer.text.clone()),
            None => text(path),
        };
        let unread = |why: &str| vec![Fault::new(untaught::Position::START, &format!("the {what} {why}"))];
        let made = text.map_err(unread).and_then(|text| read(&text));
        match made {
            Ok(good) => (kept.good, kept.faults) = (Some(Rc::new(good)), Vec::new()),
            // A file that is gone has no place to show a fault at.
            Err(_) if stamp == Stamp::Missing => kept.faults = Vec::new(),
            Err(faults) => kept.faults = faults,
        }
    }
    let name = path.display();
    let problem = match (kept.stamp, kept.faults.first()) {
        (Stamp::Missing, _) => Some(format!("there is no {what} {name}")),
        (_, Some(fault)) => Some(format!("the {what} {name} cannot be used: {fault}")),
        (_, None) => None,
    };
    Lookup { good: kept.good.clone(), problem }
}
