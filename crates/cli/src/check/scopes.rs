//! Which scope each text is checked against: the one on the command line, else the one the text names, else the default.

use std::path::Path;
use std::rc::Rc;

use untaught::{Place, Reader, Scope};

use crate::input;
use crate::output::Failure;

/// The scopes read so far, each once.
pub(super) struct Scopes<'r> {
    reader: &'r Reader,
    read: Vec<(String, Rc<Scope>)>,
}

impl<'r> Scopes<'r> {
    pub(super) fn new(reader: &'r Reader) -> Scopes<'r> {
        Scopes { reader, read: Vec::new() }
    }

    /// The scope of that name or path.
    pub(super) fn get(&mut self, name: Option<&str>) -> Result<Rc<Scope>, Failure> {
        let name = name.unwrap_or(input::DEFAULT_SCOPE);
        if let Some((_, scope)) = self.read.iter().find(|(known, _)| known == name) {
            return Ok(Rc::clone(scope));
        }
        let scope = Rc::new(input::scope(Some(name), self.reader)?);
        self.read.push((name.to_owned(), Rc::clone(&scope)));
        Ok(scope)
    }

    /// The scope that a text names in its front matter: one that comes with the program, or a path from the text's folder.
    pub(super) fn named_by(&mut self, text: &Path, name: &str) -> Result<Rc<Scope>, String> {
        let embedded = Scope::all_embedded().any(|(known, _)| known == name);
        let path = match text.parent() {
            Some(folder) if !embedded => folder.join(name).display().to_string(),
            _ => name.to_owned(),
        };
        self.get(Some(&path)).map_err(|failure| match failure {
            Failure::Message(message) => message,
            Failure::ClosedPipe => "the scope file cannot be read".to_owned(),
        })
    }
}

/// The place of a lesson, or what is wrong with its id.
pub(super) fn place(scope: &Scope, id: Option<&str>) -> Result<Option<Place>, String> {
    id.map(|id| scope.place(id)).transpose()
}
