//! All that the server knows: open texts, files that they depend on, and what was told of them.

use std::collections::BTreeMap;
use std::hash::{DefaultHasher, Hasher as _};
use std::path::PathBuf;
use std::time::{SystemTime, UNIX_EPOCH};

use lsp_types::Uri;
use untaught::{Fault, Scope};
use untaught_config::Project;

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
    /// Those with which the session began: they hold where later settings say nothing.
    pub(crate) first_wishes: Wishes,
    pub(crate) buffers: Buffers,
    pub(crate) shelf: Shelf,
    /// Texts that were closed since the client was last told.
    closed: Vec<Uri>,
    /// Faults of files that are not open, as they were pushed, by URI.
    told: BTreeMap<String, String>,
    /// Checks of stories so far.
    checks: u64,
    /// When the session began: no result of another has the same id.
    began: u128,
}

impl State {
    pub(crate) fn new(client: Client, folders: Vec<PathBuf>, wishes: Wishes) -> State {
        let buffers = Buffers::new(client.encoding);
        let began = SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |time| time.as_nanos());
        let (shelf, closed, told) = (Shelf::default(), Vec::new(), BTreeMap::new());
        State { client, folders, first_wishes: wishes.clone(), wishes, buffers, shelf, closed, told, checks: 0, began }
    }

    /// An open text, checked as it is now.
    pub(crate) fn checked(&mut self, uri: &Uri) -> Option<&Buffer> {
        let buffer = self.buffers.open.get(uri.as_str())?;
        if let Role::Story(kind) = buffer.role {
            let from = Sources { buffers: &self.buffers, folders: &self.folders, wishes: &self.wishes };
            let checked = story::check(buffer, kind, &mut self.shelf, &from);
            let buffer = self.buffers.open.get_mut(uri.as_str())?;
            let is_new = match checked {
                Some(Some(story)) => {
                    buffer.story = Some(story);
                    true
                }
                Some(None) => false,
                None => buffer.story.take().is_some(),
            };
            if is_new {
                self.checks += 1;
                (buffer.check, buffer.fresh) = (self.checks, true);
            }
        }
        self.buffers.get(uri)
    }

    /// Closes a text: nothing is shown beside it any more.
    pub(crate) fn close(&mut self, uri: &Uri) {
        if self.buffers.open.remove(uri.as_str()).is_some_and(|buffer| buffer.told.is_some()) {
            self.closed.push(uri.clone());
        }
    }

    /// Writes what is to be shown beside an open text.
    pub(crate) fn diagnostics(&mut self, uri: &Uri, list: &mut List) {
        self.checked(uri);
        let faults = match self.buffers.get(uri).map(|buffer| buffer.role) {
            Some(Role::Settings | Role::Yaml) => self.faults(uri),
            _ => Vec::new(),
        };
        let Some(buffer) = self.buffers.get(uri) else { return };
        match (buffer.role, &buffer.story) {
            (Role::Story(_), Some(story)) => diagnose::story(buffer, story, &self.client, list),
            (Role::Settings | Role::Yaml, _) => diagnose::faults(&buffer.text, &buffer.lines, &faults, list),
            _ => {}
        }
    }

    /// A name for what is to be shown beside an open text: the same only for the same.
    pub(crate) fn result_id(&mut self, uri: &Uri) -> String {
        self.checked(uri);
        let number = match self.buffers.get(uri).map(|buffer| (buffer.role, buffer.check)) {
            Some((Role::Story(_), check)) => check,
            // Faults are few.
            _ => {
                let mut list = List::after(String::new());
                self.diagnostics(uri, &mut list);
                let mut state = DefaultHasher::new();
                state.write(list.end("").as_bytes());
                state.finish()
            }
        };
        format!("{:x}-{number:x}", self.began)
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
                let path = buffer.path.clone().unwrap_or_else(|| PathBuf::from(untaught_config::NAME));
                Project::parse(&buffer.text, &path).err().unwrap_or_default()
            }
            _ if in_use || buffer.is_scope() => Scope::parse(&buffer.text, &READER).err().unwrap_or_default(),
            // It may be used yet: so nothing is remembered of it.
            _ => return Vec::new(),
        };
        buffer.faults = Some((buffer.edition, faults.clone()));
        faults
    }

    /// The faults of files that are not open but in use, by URI, as lists of diagnostics.
    pub(crate) fn elsewhere(&mut self) -> BTreeMap<String, String> {
        let closed = self.shelf.broken().filter(|(path, _)| self.buffers.at(path).is_none());
        let shown = closed.filter_map(|(path, faults)| {
            let text = crate::shelf::text(path).unwrap_or_default();
            let lines = LineIndex::new(&text, self.client.encoding);
            let mut list = List::after(String::new());
            diagnose::faults(&text, &lines, faults, &mut list);
            Some((place::uri(path)?.as_str().to_owned(), list.end("")))
        });
        shown.collect()
    }

    /// Everything that a client that does not ask for diagnostics must be told now, as messages: what has changed since it was last
    /// told.
    pub(crate) fn news(&mut self) -> Vec<String> {
        let publication = |uri: &str, list: &str| wire::publication_head(uri, None) + list + "}}";
        let closed = std::mem::take(&mut self.closed).into_iter();
        let closed = closed.filter(|uri| self.buffers.get(uri).is_none());
        let mut news: Vec<String> = closed.map(|uri| publication(uri.as_str(), "[]")).collect();
        let open: Vec<Uri> = self.buffers.open.values().map(|buffer| buffer.uri.clone()).collect();
        for uri in open {
            let Some(buffer) = self.checked(&uri) else { continue };
            let (version, is_story) = (buffer.version, matches!(buffer.role, Role::Story(_)));
            // What is the same in a new version is told again, so that the client knows it holds for it.
            if is_story && buffer.told == Some(version) && !buffer.fresh {
                continue;
            }
            let mut list = List::after(wire::publication_head(uri.as_str(), Some(version)));
            self.diagnostics(&uri, &mut list);
            let message = list.end("}}");
            let Some(buffer) = self.buffers.open.get_mut(uri.as_str()) else { continue };
            (buffer.told, buffer.fresh) = (Some(version), false);
            if !is_story {
                if buffer.message == message {
                    continue;
                }
                buffer.message.clone_from(&message);
            }
            news.push(message);
        }
        let elsewhere = self.elsewhere();
        for (uri, found) in &elsewhere {
            if self.told.get(uri) != Some(found) {
                news.push(publication(uri, found));
            }
        }
        for uri in self.told.keys() {
            // What was opened since is told as an open text.
            if !elsewhere.contains_key(uri) && !self.buffers.open.contains_key(uri) {
                news.push(publication(uri, "[]"));
            }
        }
        self.told = elsewhere;
        news
    }
}
