//! What goes wrong where a folder is walked, in sentences.

use std::io;
use std::path::{Path, PathBuf};

use ignore::Error;

use crate::output::{one_line, path_line};

/// What went wrong, and with which file or folder; `at` where the error does not say.
pub(super) fn told(error: &Error, at: &Path) -> Vec<(PathBuf, String)> {
    let mut all = Vec::new();
    tell(error, at, None, &mut all);
    all
}

fn tell(error: &Error, path: &Path, line: Option<u64>, all: &mut Vec<(PathBuf, String)>) {
    let place = line.map_or_else(|| path_line(path), |line| format!("{}:{line}", path_line(path)));
    let message = match error {
        Error::Partial(errors) => return errors.iter().for_each(|error| tell(error, path, line, all)),
        Error::WithLineNumber { line, err } => return tell(err, path, Some(*line), all),
        Error::WithPath { path, err } => return tell(err, path, line, all),
        Error::WithDepth { err, .. } => return tell(err, path, line, all),
        Error::Io(error) => format!("{place} cannot be read: {}", cause(error)),
        Error::Loop { ancestor, child } => {
            let message = format!("{} is a link back to {}, which contains it", path_line(child), path_line(ancestor));
            all.push((child.clone(), message));
            return;
        }
        Error::Glob { glob: Some(glob), err } => {
            format!("{place}: the pattern {} cannot be used: {}", one_line(glob), one_line(err))
        }
        error => format!("{place}: {}", one_line(&error.to_string())),
    };
    all.push((path.to_owned(), message));
}

/// What the system said, without what was wrapped around it on the way: the path is told already.
fn cause(error: &io::Error) -> String {
    if error.kind() == io::ErrorKind::PermissionDenied {
        return "permission denied".to_owned();
    }
    let within = error.get_ref().and_then(|within| within.source());
    one_line(&within.map_or_else(|| error.to_string(), ToString::to_string)).into_owned()
}

#[cfg(test)]
mod tests {
    use std::fmt;

    use super::*;

    /// As a walk hands it over: the path twice, once around the system's error and once within its message.
    #[derive(Debug)]
    struct Walked(io::Error);

    impl fmt::Display for Walked {
        fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            write!(f, "IO error for operation on un/locked: {}", self.0)
        }
    }

    impl std::error::Error for Walked {
        fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
            Some(&self.0)
        }
    }

    fn walked(kind: io::ErrorKind, message: &str) -> Error {
        let error = io::Error::new(kind, Walked(io::Error::new(kind, message.to_owned())));
        let err = Box::new(Error::WithDepth { depth: 1, err: Box::new(Error::Io(error)) });
        Error::WithPath { path: "un/locked".into(), err }
    }

    #[test]
    fn what_cannot_be_read_is_told_once_and_by_its_own_name() {
        for (kind, message, said) in [
            (io::ErrorKind::PermissionDenied, "no", "permission denied"),
            (io::ErrorKind::Other, "the disk is broken", "the disk is broken"),
        ] {
            let told = told(&walked(kind, message), Path::new("un"));
            assert_eq!(told, [("un/locked".into(), format!("un/locked cannot be read: {said}"))]);
        }
    }

    #[test]
    fn links_and_patterns_are_told_in_sentences() {
        let looped = Error::Loop { ancestor: "un".into(), child: "un/deux".into() };
        let glob = Error::Glob { glob: Some("a{b".into()), err: "a brace is missing".into() };
        let glob = Error::WithLineNumber { line: 2, err: Box::new(glob) };
        let glob = Error::WithPath { path: "un/.gitignore".into(), err: Box::new(glob) };
        let all = Error::Partial(vec![Error::WithDepth { depth: 1, err: Box::new(looped) }, glob]);
        let told: Vec<String> = told(&all, Path::new("un")).into_iter().map(|(_, message)| message).collect();
        assert_eq!(
            told,
            [
                "un/deux is a link back to un, which contains it",
                "un/.gitignore:2: the pattern a{b cannot be used: a brace is missing"
            ]
        );
    }
}
