//! All that the server knows: open texts, files that they depend on, and what was told of them.

use std::collections::BTreeMap;
use std::path::PathBuf;

use lsp_types::Uri;
use untaught::{Fault, Scope};
use untaught_project::Project;

use crate::buffer::{Buffer, Buffers, Role};
use crate::client::{Client, Wishes};
use crate::list::List;
use crate::plan::Sources;
use crate::positions::LineIndex;
use crate::shelf::{READER, Shelf};
use crate::{diagnose, place, story, wire};

#[derive(Debug)]
pub(crate) struct State {
    pub(crate) client: Client,
    pub(crate) folders: Vec<PathBuf>,
    pub(crate) wishes: Wishes,
    pub(crate) buffers: Buffers,
    pub(crate) shelf: Shelf,
    /// Texts that were closed since the client was last told.
    closed: Vec<Uri>,
    /// Faults of files that are not open, as they were pushed, by URI.
    told: BTreeMap<String, List>,
}

impl State {
    pub(crate) fn new(client: Client, folders: Vec<PathBuf>, wishes: Wishes) -> State {
        let buffers = Buffers::new(client.encoding);
        State { client, folders, wishes, buffers, shelf: Shelf::default(), closed: Vec::new(), told: BTreeMap::new() }
    }

    /// An open text, checked as it is now.
    pub(crate) fn checked(&mut self, uri: &Uri) -> Option<&Buffer> {
        let buffer = self.buffers.open.get(uri.as_str())?;
        if let Role::Story(kind) = buffer.role {
            let from = Sources { buffers: &self.buffers, folders: &self.folders, wishes: &self.wishes };
            let checked = story::check(buffer, kind, &mut self.shelf, &from);
            let buffer = self.buffers.open.get_mut(uri.as_str())?;
            match checked {
                Some(Some(story)) => (buffer.story, buffer.fresh) = (Some(story), true),
                Some(None) => {}
                None => (buffer.story, buffer.fresh) = (None, true),
            }
        }
        self.buffers.get(uri)
    }

    /// Closes a text: nothing is shown beside it any more.
    pub(crate) fn close(&mut self, uri: &Uri) {
        if self.buffers.open.remove(uri.as_str()).is_some_and(|buffer| buffer.pushed.is_some()) {
            self.closed.push(uri.clone());
        }
    }

    /// What is to be shown beside an open text.
    pub(crate) fn diagnostics(&mut self, uri: &Uri) -> List {
        self.checked(uri);
        let faults = match self.buffers.get(uri).map(|buffer| buffer.role) {
            Some(Role::Settings | Role::Yaml) => self.faults(uri),
            _ => Vec::new(),
        };
        let Some(buffer) = self.buffers.get(uri) else { return List::new() };
        match buffer.role {
            Role::Story(_) => match &buffer.story {
                Some(story) => diagnose::story(buffer, story, &self.client),
                None => List::new(),
            },
            Role::Settings | Role::Yaml => diagnose::faults(&buffer.text, &buffer.lines, &faults),
            Role::Other => List::new(),
        }
    }

    /// What is wrong with an open scope file or settings file. Cost: reading it, unless it was read since its last change.
    fn faults(&mut self, uri: &Uri) -> Vec<Fault> {
        let Some(buffer) = self.buffers.open.get_mut(uri.as_str()) else { return Vec::new() };
        let in_use = buffer.path.as_ref().is_some_and(|path| self.shelf.scopes.contains_key(path));
        if let Some((_, faults)) = buffer.faults.as_ref().filter(|(edition, _)| *edition == buffer.edition) {
            return faults.clone();
        }
        let faults = match buffer.role {
            Role::Settings => {
                let path = buffer.path.clone().unwrap_or_else(|| PathBuf::from(untaught_project::NAME));
                Project::parse(&buffer.text, &path).err().unwrap_or_default()
            }
            _ if in_use || buffer.is_scope() => Scope::parse(&buffer.text, &READER).err().unwrap_or_default(),
            // It may be used yet: so nothing is remembered of it.
            _ => return Vec::new(),
        };
        buffer.faults = Some((buffer.edition, faults.clone()));
        faults
    }

    /// The faults of files that are not open but in use, by URI.
    pub(crate) fn elsewhere(&mut self) -> BTreeMap<String, List> {
        let closed = self.shelf.broken().filter(|(path, _)| self.buffers.at(path).is_none());
        let shown = closed.filter_map(|(path, faults)| {
            let text = std::fs::read_to_string(path).unwrap_or_default();
            let lines = LineIndex::new(&text, self.client.encoding);
            Some((place::uri(path)?.as_str().to_owned(), diagnose::faults(&text, &lines, faults)))
        });
        shown.collect()
    }

    /// Everything that a client that does not ask for diagnostics must be told now, as messages: what has changed since it was last
    /// told.
    pub(crate) fn news(&mut self) -> Vec<String> {
        let none = List::new();
        let closed = std::mem::take(&mut self.closed).into_iter();
        let closed = closed.filter(|uri| self.buffers.get(uri).is_none());
        let mut news: Vec<_> = closed.map(|uri| wire::publication(uri.as_str(), None, none.json())).collect();
        let open: Vec<Uri> = self.buffers.open.values().map(|buffer| buffer.uri.clone()).collect();
        for uri in open {
            let unchanged = self.checked(&uri).is_some_and(|buffer| {
                let told = buffer.pushed.as_ref().is_some_and(|(version, _)| *version == buffer.version);
                matches!(buffer.role, Role::Story(_)) && told && !buffer.fresh
            });
            if unchanged {
                continue;
            }
            let found = self.diagnostics(&uri);
            let Some(buffer) = self.buffers.open.get_mut(uri.as_str()) else { continue };
            buffer.fresh = false;
            // What is the same in a new version is told again, so that the client knows it holds for it.
            let now = (buffer.version, found);
            if buffer.pushed.as_ref() != Some(&now) {
                news.push(wire::publication(uri.as_str(), Some(buffer.version), now.1.json()));
                buffer.pushed = Some(now);
            }
        }
        let elsewhere = self.elsewhere();
        for (uri, found) in &elsewhere {
            if self.told.get(uri) != Some(found) {
                news.push(wire::publication(uri, None, found.json()));
            }
        }
        for uri in self.told.keys() {
            // What was opened since is told as an open text.
            if !elsewhere.contains_key(uri) && !self.buffers.open.contains_key(uri) {
                news.push(wire::publication(uri, None, none.json()));
            }
        }
        self.told = elsewhere;
        news
    }
}
