//! One text as it was read.

use std::io::{self, IsTerminal as _, Write as _};
use std::path::{Path, PathBuf};

use untaught_documents::{Document, Kind};

use crate::input;
use crate::output::Message;
use crate::settings::{Plan, RunSettings};

/// A text with its name.
pub(crate) struct Source {
    /// What it is called in reports.
    pub(crate) name: String,
    /// Where it lies; none for a text that came in otherwise.
    pub(crate) path: Option<PathBuf>,
    pub(crate) document: Document,
}

impl Source {
    /// What is to be said of how it was read.
    pub(crate) fn note(&self) -> Option<String> {
        let encoding = self.document.decoded_from()?;
        Some(format!(
            "{} is not UTF-8; it was read as {encoding}. If some letters look wrong, save the file as UTF-8",
            self.name
        ))
    }
}

impl Source {
    /// What the text is checked against.
    pub(crate) fn plan(&self, settings: &RunSettings) -> Result<Plan, Message> {
        settings.plan(&self.name, self.path.as_deref(), self.document.text(), None)
    }
}

/// Reads a file, or standard input for `-`.
pub(crate) fn read(path: &Path, stdin_name: &str) -> Result<Source, String> {
    let from_stdin = path == Path::new("-");
    let (name, bytes) = if from_stdin {
        if io::stdin().is_terminal() {
            // Whoever cannot read this can still paste.
            let _ = writeln!(io::stderr(), "Paste the story, then press Ctrl-D on a new line.");
        }
        (stdin_name.to_owned(), input::stdin()?)
    } else {
        (path.display().to_string(), input::bytes(path)?)
    };
    let document = Kind::of(&name, &bytes).and_then(|kind| untaught_documents::read(kind, bytes));
    let document = document.map_err(|problem| format!("{name} {problem}"))?;
    let path = if from_stdin { (stdin_name != "-").then(|| PathBuf::from(stdin_name)) } else { Some(path.to_owned()) };
    Ok(Source { name, path, document })
}
