//! Which files a run is about: those named, and the stories in the folders named.

use std::collections::HashSet;
use std::path::{Path, PathBuf};

use ignore::WalkBuilder;
use untaught_documents::Kind;

use super::Settings;
use crate::args::Texts;
use crate::output::{Failed, complain, one_line, path_line};

/// Besides those of the version control, the files that say what to leave out.
const IGNORE_FILE: &str = ".untaughtignore";

/// The files of a run in order.
pub(crate) struct Found {
    pub(crate) files: Vec<PathBuf>,
    /// What could not be followed.
    pub(crate) failures: Vec<Failed>,
}

impl Found {
    fn fail(&mut self, path: &Path, message: String) {
        self.failures.push(Failed::complain(path.display().to_string(), message));
    }
}

/// Finds the files: named ones as they are named, folders walked in the order of names. Each file once.
pub(crate) fn gather(args: &Texts, settings: &Settings) -> Found {
    let mut found = Found { files: Vec::new(), failures: Vec::new() };
    if args.files.is_empty() {
        found.files.push(PathBuf::from("-"));
    }
    let mut seen: HashSet<PathBuf> = HashSet::new();
    for path in &args.files {
        if path == Path::new("-") || !path.is_dir() {
            let excluded = args.force_exclude && path != Path::new("-") && settings.excludes(path);
            if !excluded && seen.insert(path.clone()) {
                found.files.push(path.clone());
            }
            continue;
        }
        let before = (found.files.len(), found.failures.len());
        walk(path, settings, &mut seen, &mut found);
        if before == (found.files.len(), found.failures.len()) {
            found.fail(path, format!("there are no stories in {} (or all are left out)", path_line(path)));
        }
    }
    found
}

fn walk(folder: &Path, settings: &Settings, seen: &mut HashSet<PathBuf>, found: &mut Found) {
    let mut walk = WalkBuilder::new(folder);
    walk.require_git(false).add_custom_ignore_filename(IGNORE_FILE).follow_links(false);
    walk.sort_by_file_name(Ord::cmp);
    for entry in walk.build() {
        let entry = match entry {
            Ok(entry) => entry,
            Err(error) => {
                found.fail(folder, one_line(&error.to_string()).into_owned());
                continue;
            }
        };
        if let Some(error) = entry.error() {
            complain(&one_line(&error.to_string()));
        }
        let path = entry.path();
        let readable = path.to_str().and_then(Kind::of_name).is_some();
        // A link to a file is that file; links to folders are not followed, so that no loop can trap us. A link that leads nowhere
        // stands for a story, and is told of when it is read.
        let is_file = entry.file_type().is_some_and(|kind| kind.is_file());
        let other = !is_file && path.metadata().is_ok_and(|found| !found.is_file());
        if !readable || other || settings.excludes(path) {
            continue;
        }
        if seen.insert(path.to_owned()) {
            found.files.push(path.to_owned());
        }
    }
}
