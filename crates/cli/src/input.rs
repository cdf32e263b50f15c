//! Reading texts and scope files: bytes to text, with a sentence where that cannot be done. Nothing is read without end.

use std::fs::{self, File};
use std::io::{self, Read};
use std::path::Path;

use untaught::yaml::LARGEST;
use untaught::{Reader, Scope};
use untaught_config::ScopeReference;
use untaught_documents::Kind;

use crate::output::{Message, path_line, remark};

/// The largest file that is read as a story, in bytes: far more than the longest book.
const STORY: usize = 512 << 20;

/// The most that is read as a story from a pipe or a device, which may have no end.
const STREAM: usize = 128 << 20;

/// The bytes of a story, or a sentence that begins with its name.
pub(crate) fn bytes(path: &Path) -> Result<Vec<u8>, String> {
    let is_file = fs::metadata(path).is_ok_and(|found| found.is_file());
    opened(path, "", if is_file { STORY } else { STREAM })
}

/// What comes in on standard input as a story, or a sentence.
pub(crate) fn stdin() -> Result<Vec<u8>, String> {
    read(&mut io::stdin().lock(), STREAM, 0, "standard input")
}

/// `what` is what kind of file it is, with a space after it, if it is of one.
fn opened(path: &Path, what: &str, most: usize) -> Result<Vec<u8>, String> {
    let shown = path_line(path);
    let name = if what.is_empty() { shown.clone() } else { format!("the {what}file {shown}") };
    let problem = |error: io::Error| match error.kind() {
        io::ErrorKind::NotFound => format!("there is no {what}file {shown}"),
        io::ErrorKind::PermissionDenied => format!("{name} may not be read: permission denied"),
        io::ErrorKind::IsADirectory => format!("{name} is a folder"),
        _ => format!("{name} cannot be read: {error}"),
    };
    let mut file = File::open(path).map_err(problem)?;
    let size = file.metadata().map_or(0, |found| usize::try_from(found.len()).unwrap_or(usize::MAX));
    if size > most {
        return Err(too_large(&name, most));
    }
    read(&mut file, most, size, &name)
}

/// Reads to the end, but no further than to what is allowed.
fn read(from: &mut impl Read, most: usize, size: usize, name: &str) -> Result<Vec<u8>, String> {
    let mut bytes = Vec::with_capacity(size + 1);
    let read = from.take(most as u64 + 1).read_to_end(&mut bytes);
    read.map_err(|error| match error.kind() {
        io::ErrorKind::IsADirectory => format!("{name} is a folder"),
        _ => format!("{name} cannot be read: {error}"),
    })?;
    if bytes.len() > most { Err(too_large(name, most)) } else { Ok(bytes) }
}

fn too_large(name: &str, most: usize) -> String {
    format!("{name} was not read: it is larger than {} MB", most >> 20)
}

/// The text of a file of some kind, `scope` or `settings`, or a sentence that says why it cannot be read.
pub(crate) fn text(path: &Path, what: &str) -> Result<String, String> {
    let name = format!("the {what} file {}", path_line(path));
    if fs::metadata(path).is_ok_and(|found| !found.is_file() && !found.is_dir()) {
        return Err(format!("{name} is a pipe or a device; save it as a file and name that file"));
    }
    let bytes = opened(path, &format!("{what} "), LARGEST)?;
    let document = untaught_documents::read(Kind::Text, bytes).map_err(|problem| format!("{name} {problem}"))?;
    if let Some(encoding) = document.decoded_from() {
        remark(&format!("{name} is not UTF-8; it was read as {encoding}"));
    }
    Ok(document.text().to_owned())
}

/// Reads a scope.
pub(crate) fn scope(reference: &ScopeReference, reader: &Reader) -> Result<Scope, Message> {
    let path = match reference {
        ScopeReference::BuiltIn(name) => {
            return Scope::embedded(name, reader)
                .ok_or_else(|| format!("no scope {name} comes with the program").into());
        }
        ScopeReference::File(path) => path.as_path(),
    };
    let given = &*path_line(path);
    if !path.exists() && !given.contains(['/', '\\', '.']) {
        let names: Vec<&str> = Scope::all_embedded().map(|(name, _)| name).collect();
        let message = format!(
            "there is no scope file {given}, and no scope of that name comes with the program (it has {})",
            names.join(", ")
        );
        return Err(message.into());
    }
    if path.is_dir() {
        return Err(format!("{given} is a folder, not a scope file").into());
    }
    if !path.exists() && given != "-" {
        return Err(format!("there is no scope file {given}").into());
    }
    let text = text(path, "scope")?;
    Scope::parse(&text, reader).map_err(|faults| Message::faults("the scope file cannot be used", given, &faults))
}
