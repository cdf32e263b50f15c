//! Scope files and settings files, as they are in the editor or else on disk. Of a broken one the last good state stays in force.

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
use untaught_config::Project;

use crate::buffer::Buffers;
use crate::diagnose::Sayings;
use crate::place::clean;

/// How words are read: one for all sessions.
pub(crate) static READER: LazyLock<Reader> = LazyLock::new(Reader::default);

/// The scope that counts where none is named.
const DEFAULT_SCOPE: &str = "starter";

/// Files that are kept in mind at most before those that there are not are forgotten.
const MISSING: usize = 64;

/// A scope in force.
#[derive(Debug)]
pub(crate) struct Loaded {
    pub(crate) scope: Scope,
    /// The file, and where everything stands in it; none for a scope that comes with the program.
    pub(crate) file: Option<(PathBuf, Outline)>,
    /// Verdicts against it.
    pub(crate) memory: RefCell<Memory>,
    /// What is said of untaught words.
    pub(crate) sayings: RefCell<Sayings>,
}

/// How a file was when it was read.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Stamp {
    Open(u64),
    Disk(Option<SystemTime>, u64),
    Missing,
}

/// The last good state of a file, and what is wrong with its present one.
#[derive(Debug)]
pub(crate) struct Kept<T> {
    stamp: Stamp,
    pub(crate) good: Option<Rc<T>>,
    pub(crate) faults: Vec<Fault>,
}

/// All files that were asked for.
#[derive(Debug, Default)]
pub(crate) struct Shelf {
    embedded: BTreeMap<String, Rc<Loaded>>,
    pub(crate) scopes: BTreeMap<PathBuf, Kept<Loaded>>,
    pub(crate) projects: BTreeMap<PathBuf, Kept<Project>>,
}

/// What was found under the name of a scope.
#[derive(Debug)]
pub(crate) struct Found<T> {
    pub(crate) good: Option<Rc<T>>,
    /// Why it is not the present state of the file, or why there is nothing.
    pub(crate) problem: Option<String>,
}

impl Shelf {
    /// A scope by the name of one that comes with the program, or by its path.
    pub(crate) fn scope(&mut self, name: Option<&str>, buffers: &Buffers) -> Found<Loaded> {
        let name = name.unwrap_or(DEFAULT_SCOPE);
        if let Some(known) = self.embedded.get(name) {
            return Found { good: Some(Rc::clone(known)), problem: None };
        }
        if let Some(scope) = Scope::embedded(name, &READER) {
            let loaded = Rc::new(Loaded { scope, file: None, memory: RefCell::default(), sayings: RefCell::default() });
            self.embedded.insert(name.to_owned(), Rc::clone(&loaded));
            return Found { good: Some(loaded), problem: None };
        }
        // While a path is typed, each beginning of it is asked for once.
        if self.scopes.len() > MISSING {
            self.scopes.retain(|_, kept| kept.stamp != Stamp::Missing || kept.good.is_some());
        }
        let path = clean(Path::new(name));
        let read = |text: &str| {
            let scope = Scope::parse(text, &READER)?;
            let outline = yaml::read::<IgnoredAny>(text).map(|(_, outline)| outline).unwrap_or_default();
            let file = Some((path.clone(), outline));
            Ok(Loaded { scope, file, memory: RefCell::default(), sayings: RefCell::default() })
        };
        look(&mut self.scopes, &path, buffers, "scope file", read)
    }

    /// The settings file of a folder or of one above it.
    pub(crate) fn project(&mut self, folder: &Path, buffers: &Buffers) -> Option<Found<Project>> {
        let open = |folder: &Path| buffers.at(&folder.join(untaught_config::NAME)).and_then(|b| b.path.clone());
        let path = folder.ancestors().find_map(|above| {
            // One that is open counts though it is not saved yet.
            let path = above.join(untaught_config::NAME);
            open(above).or_else(|| path.is_file().then_some(path))
        })?;
        Some(look(&mut self.projects, &path, buffers, "settings file", |text| Project::parse(text, &path)))
    }

    /// The files that are broken now, with their faults.
    pub(crate) fn broken(&self) -> impl Iterator<Item = (&Path, &[Fault])> {
        let scopes = self.scopes.iter().map(|(path, kept)| (path.as_path(), &kept.faults[..]));
        let projects = self.projects.iter().map(|(path, kept)| (path.as_path(), &kept.faults[..]));
        scopes.chain(projects).filter(|(_, faults)| !faults.is_empty())
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
    known: &mut BTreeMap<PathBuf, Kept<T>>,
    path: &Path,
    buffers: &Buffers,
    what: &str,
    read: impl FnOnce(&str) -> Result<T, Vec<Fault>>,
) -> Found<T> {
    let open = buffers.at(path);
    let stamp = match open {
        Some(buffer) => Stamp::Open(buffer.edition),
        None => match fs::metadata(path) {
            Ok(data) if !data.is_dir() => Stamp::Disk(data.modified().ok(), data.len()),
            _ => Stamp::Missing,
        },
    };
    let kept = known.entry(path.to_owned()).or_insert(Kept { stamp: Stamp::Missing, good: None, faults: Vec::new() });
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
    Found { good: kept.good.clone(), problem }
}
