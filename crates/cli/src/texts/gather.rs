//! Which files a run is about: those named, and the stories in the folders named.

use std::collections::{HashSet, VecDeque};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};
use std::vec;

use ignore::{DirEntry, Walk, WalkBuilder};
use untaught_documents::Kind;

use super::trouble;
use crate::args::Texts;
use crate::output::{Failure, named, path_line, spare_the_stories};
use crate::settings::RunSettings;

/// Besides those of the version control, the files that say what to leave out.
const IGNORE_FILE: &str = ".untaughtignore";

/// All files that say what to leave out.
const IGNORE_FILES: [&str; 4] = [IGNORE_FILE, ".gitignore", ".ignore", ".git/info/exclude"];

/// The largest of them that is read, in bytes: each becomes one pattern, which takes a thousand times as much memory.
const LARGEST: u64 = 128 << 10;

/// What comes of looking for files.
pub(crate) enum Discovery {
    File(PathBuf),
    /// What could not be followed, and why.
    Error(PathBuf, String),
    /// What is to be said on the way: nothing is lost.
    Remark(String),
}

/// Finds the files, one after the other: named ones as they are named, folders walked in the order of names. Each file once. Refuses
/// to where the report would take the place of one.
pub(crate) fn gather<'a>(args: &'a Texts, settings: &'a RunSettings) -> Result<FileFinder<'a>, Failure> {
    let report = named(args.output.as_deref());
    spare_the_stories(report, args.files.iter().map(PathBuf::as_path))?;
    let mut named: Vec<&Path> = args.files.iter().map(PathBuf::as_path).collect();
    if named.is_empty() {
        named.push(Path::new("-"));
    }
    // A single folder has nothing twice.
    let seen = (named.len() > 1).then(HashSet::new);
    let named = named.into_iter();
    let last = report.and_then(|report| report.canonicalize().ok());
    let force_exclude = args.force_exclude;
    Ok(FileFinder { named, force_exclude, settings, report, last, seen, folder: None, ready: VecDeque::new() })
}

/// The files of a run in order: a folder is walked while its first files are already worked on.
pub(crate) struct FileFinder<'a> {
    named: vec::IntoIter<&'a Path>,
    force_exclude: bool,
    settings: &'a RunSettings,
    /// Where the report goes, if not to standard output.
    pub(crate) report: Option<&'a Path>,
    /// The report of an earlier run, which this one replaces: no story, wherever it lies.
    last: Option<PathBuf>,
    /// Whole paths, but that links stay links.
    seen: Option<HashSet<PathBuf>>,
    folder: Option<Folder<'a>>,
    /// What the last steps have brought.
    ready: VecDeque<Discovery>,
}

/// A folder that is being walked.
struct Folder<'a> {
    path: &'a Path,
    walk: Walk,
    empty: bool,
    /// Folders that were not walked, each with the file that says too much of what to leave out.
    unread: Arc<Mutex<Vec<(PathBuf, PathBuf)>>>,
}

impl Iterator for FileFinder<'_> {
    type Item = Discovery;

    fn next(&mut self) -> Option<Discovery> {
        while self.ready.is_empty() {
            match self.folder.take() {
                Some(folder) => self.folder = self.step(folder),
                None => {
                    let path = self.named.next()?;
                    self.name(path);
                }
            }
        }
        self.ready.pop_front()
    }
}

impl<'a> FileFinder<'a> {
    /// Takes up a file or folder that was named.
    fn name(&mut self, path: &'a Path) {
        if path != Path::new("-") && path.is_dir() {
            let mut walk = WalkBuilder::new(path);
            walk.require_git(false).add_custom_ignore_filename(IGNORE_FILE).follow_links(false);
            walk.sort_by_file_name(Ord::cmp);
            let unread: Arc<Mutex<Vec<_>>> = Arc::default();
            let whole = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
            if let Some(file) = whole.ancestors().find_map(too_large) {
                self.ready.push_back(unwalked(path.to_owned(), &file));
                return;
            }
            let skipped = Arc::clone(&unread);
            walk.filter_entry(move |entry| {
                if !entry.file_type().is_some_and(|kind| kind.is_dir()) {
                    return true;
                }
                let Some(file) = too_large(entry.path()) else { return true };
                skipped.lock().unwrap_or_else(PoisonError::into_inner).push((entry.path().to_owned(), file));
                false
            });
            self.folder = Some(Folder { path, walk: walk.build(), empty: true, unread });
        } else if !(self.force_exclude && path != Path::new("-") && self.settings.excludes(path)) {
            self.file(path);
        }
    }

    /// Goes to the next entry of a folder; none if that was all.
    fn step(&mut self, mut folder: Folder<'a>) -> Option<Folder<'a>> {
        let next = folder.walk.next();
        for (path, file) in folder.unread.lock().unwrap_or_else(PoisonError::into_inner).drain(..) {
            self.ready.push_back(unwalked(path, &file));
            folder.empty = false;
        }
        match next {
            Some(Ok(entry)) => {
                let odd = entry.error().into_iter().flat_map(|error| trouble::told(error, entry.path()));
                self.ready.extend(odd.map(|(_, message)| Discovery::Remark(message)));
                if is_story(&entry) && !self.is_last_report(&entry) && !self.settings.excludes(entry.path()) {
                    folder.empty = false;
                    self.file(entry.path());
                }
            }
            Some(Err(error)) => {
                let failed = trouble::told(&error, folder.path).into_iter();
                self.ready.extend(failed.map(|(path, message)| Discovery::Error(path, message)));
                folder.empty = false;
            }
            None if folder.empty => {
                let path = path_line(folder.path);
                let message = format!("there are no stories in {path}, or all of them are excluded");
                self.ready.push_back(Discovery::Error(folder.path.to_owned(), message));
                return None;
            }
            None => return None,
        }
        Some(folder)
    }

    /// Whether this is the report of an earlier run. Looked at closely only where it may be: that is dear.
    fn is_last_report(&self, entry: &DirEntry) -> bool {
        self.last.as_ref().is_some_and(|last| {
            let may_be = entry.path_is_symlink() || last.file_name() == Some(entry.file_name());
            may_be && entry.path().canonicalize().is_ok_and(|path| path == *last)
        })
    }

    /// Hands over a file, if it has not been already.
    fn file(&mut self, path: &Path) {
        let whole = |path: &Path| match path == Path::new("-") {
            true => path.to_owned(),
            false => std::path::absolute(path).unwrap_or_else(|_| path.to_owned()),
        };
        if self.seen.as_mut().is_none_or(|seen| seen.insert(whole(path))) {
            self.ready.push_back(Discovery::File(path.to_owned()));
        }
    }
}

/// A file in a folder that says what to leave out, and is too large to be read.
fn too_large(folder: &Path) -> Option<PathBuf> {
    let files = IGNORE_FILES.iter().map(|name| folder.join(name));
    files.into_iter().find(|file| file.metadata().is_ok_and(|found| found.is_file() && found.len() > LARGEST))
}

/// What is told of a folder with such a file.
fn unwalked(folder: PathBuf, file: &Path) -> Discovery {
    let message = format!(
        "the stories in {} were not checked: {} is larger than {} KB",
        path_line(&folder),
        path_line(file),
        LARGEST >> 10
    );
    Discovery::Error(folder, message)
}

fn is_story(entry: &DirEntry) -> bool {
    let path = entry.path();
    // Whatever its name is made of, its ending tells.
    if Kind::of_name(&path.to_string_lossy()).is_none() {
        return false;
    }
    // A link to a file is that file; links to folders are not followed, so that no loop can trap us. A link that leads nowhere
    // stands for a story, and is told of when it is read.
    let is_file = entry.file_type().is_some_and(|kind| kind.is_file());
    is_file || !path.metadata().is_ok_and(|found| !found.is_file())
}
