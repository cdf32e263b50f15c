//! Which files a run is about: those named, and the stories in the folders named.

use std::collections::HashSet;
use std::path::{Path, PathBuf};

use ignore::WalkBuilder;
use untaught_documents::Kind;

use super::Settings;
use crate::args::Texts;
use crate::output::complain;

/// Besides those of the version control, the files that say what to leave out.
const IGNORE_FILE: &str = ".untaughtignore";

/// The files of a run in order.
pub(crate) struct Found {
    pub(crate) files: Vec<PathBuf>,
    /// How many paths could not be followed; each has been complained of.
    pub(crate) failed: usize,
    /// How many named files the settings leave out.
    pub(crate) excluded: usize,
}

/// Finds the files: named ones as they are named, folders walked in the order of names. Each file once.
pub(crate) fn gather(args: &Texts, settings: &Settings) -> Found {
    let mut found = Found { files: Vec::new(), failed: 0, excluded: 0 };
    if args.files.is_empty() {
        found.files.push(PathBuf::from("-"));
    }
    let mut seen: HashSet<PathBuf> = HashSet::new();
    for path in &args.files {
        if path == Path::new("-") || !path.is_dir() {
            if args.force_exclude && path != Path::new("-") && settings.excludes(path) {
                found.excluded += 1;
            } else if seen.insert(path.clone()) {
                found.files.push(path.clone());
            }
            continue;
        }
        let before = (found.files.len(), found.failed);
        walk(path, settings, &mut seen, &mut found);
        if before == (found.files.len(), found.failed) {
            complain(&format!("there are no stories in {} (or all are left out)", path.display()));
            found.failed += 1;
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
                complain(&format!("{error}"));
                found.failed += 1;
                continue;
            }
        };
        if let Some(error) = entry.error() {
            complain(&format!("{error}"));
        }
        let path = entry.path();
        let readable = path.to_str().and_then(Kind::of_name).is_some();
        // A link to a file is that file; links to folders are not followed, so that no loop can trap us.
        if !readable || !path.is_file() || settings.excludes(path) {
            continue;
        }
        if seen.insert(path.to_owned()) {
            found.files.push(path.to_owned());
        }
    }
}
