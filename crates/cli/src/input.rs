//! Reading texts and scope files: bytes to text, with a sentence where that cannot be done.

use std::fs;
use std::io::{self, Read as _};
use std::path::Path;

use untaught::{Fault, Reader, Scope};
use untaught_config::ScopeReference;
use untaught_documents::Kind;

use crate::output::{one_line, path_line, remark};

/// The bytes of a file, or a sentence that begins with its name.
pub(crate) fn bytes(path: &Path) -> Result<Vec<u8>, String> {
    let name = path_line(path);
    fs::read(path).map_err(|error| match error.kind() {
        io::ErrorKind::NotFound => format!("there is no file {name}"),
        io::ErrorKind::PermissionDenied => format!("{name} may not be read: permission denied"),
        io::ErrorKind::IsADirectory => format!("{name} is a folder"),
        _ => format!("{name} cannot be read: {error}"),
    })
}

/// The text of a plain file, or of standard input for `-`.
pub(crate) fn text(path: &Path) -> Result<String, String> {
    let (name, bytes) = if path == Path::new("-") {
        let mut bytes = Vec::new();
        io::stdin().lock().read_to_end(&mut bytes).map_err(|e| format!("standard input cannot be read: {e}"))?;
        ("standard input".to_owned(), bytes)
    } else {
        (path_line(path), self::bytes(path)?)
    };
    let document = untaught_documents::read(Kind::Text, bytes).map_err(|problem| format!("{name} {problem}"))?;
    if let Some(encoding) = document.decoded_from() {
        remark(&format!("{name} is not UTF-8; it was read as {encoding}"));
    }
    Ok(document.text().to_owned())
}

/// Reads a scope.
pub(crate) fn scope(reference: &ScopeReference, reader: &Reader) -> Result<Scope, String> {
    let path = match reference {
        ScopeReference::BuiltIn(name) => {
            return Scope::embedded(name, reader).ok_or_else(|| format!("no scope {name} comes with the program"));
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
        return Err(message);
    }
    if path.is_dir() {
        return Err(format!("{given} is a folder, not a scope file"));
    }
    if !path.exists() && given != "-" {
        return Err(format!("there is no scope file {given}"));
    }
    let text = text(path).map_err(|problem| format!("the scope file {problem}"))?;
    Scope::parse(&text, reader).map_err(|faults| listed(given, &faults))
}

/// All faults of a file, one a line: `file:line:column: what`.
fn listed(name: &str, faults: &[Fault]) -> String {
    let name = one_line(name);
    let lines = faults
        .iter()
        .map(|fault| format!("{name}:{}:{}: {}", fault.position.line, fault.position.column, fault.message));
    format!("the scope file cannot be used\n{}", lines.collect::<Vec<_>>().join("\n"))
}
