//! All that the server knows: open texts, files that they depend on, what was found in them and what the client knows of it.

use std::collections::BTreeMap;
use std::hash::{DefaultHasher, Hasher as _};
use std::path::PathBuf;
use std::time::{SystemTime, UNIX_EPOCH};

use lsp_types::Uri;
use untaught::{Fault, Scope};
use untaught_config::{EditorSettings, FolderSettings};

use crate::buffer::{Buffer, BufferRole, Buffers};
use crate::client::Client;
use crate::diagnostic_list::DiagnosticList;
use crate::plan::PlanSources;
use crate::positions::LineIndex;
use crate::review::Review;
use crate::shared_files::{READER, SharedFiles};
use crate::story::{self, CheckedStory, StoryCheck};
use crate::{diagnose, summary, uri, wire};

#[derive(Debug)]
pub(crate) struct State {
    pub(crate) client: Client,
    pub(crate) folders: Vec<PathBuf>,
    pub(crate) settings: EditorSettings,
    /// Those with which the session began, for what later ones lack.
    pub(crate) first_settings: EditorSettings,
    pub(crate) buffers: Buffers,
    /// What was found in open texts, by URI.
    reviews: BTreeMap<String, Review>,
    files: SharedFiles,
    /// Texts that were closed since diagnostics were last pushed.
    closed: Vec<Uri>,
    /// Faults of files that are not open, as they were pushed, by URI.
    pushed_elsewhere: BTreeMap<String, String>,
    /// Checks of stories so far.
    checks: u64,
    /// When the session began: no result of another has the same id.
    began: u128,
}

impl State {
    pub(crate) fn new(client: Client, folders: Vec<PathBuf>, settings: EditorSettings) -> State {
        let buffers = Buffers::new(client.encoding);
        let began = SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |time| time.as_nanos());
        State {
            client,
            folders,
            first_settings: settings.clone(),
            settings,
            buffers,
            reviews: BTreeMap::new(),
            files: SharedFiles::default(),
            closed: Vec::new(),
            pushed_elsewhere: BTreeMap::new(),
            checks: 0,
            began,
        }
    }

    /// Opens a text, about which nothing is known yet.
    pub(crate) fn open(&mut self, uri: Uri, language: &str, version: i32, text: String) {
        self.reviews.insert(uri.as_str().to_owned(), Review::default());
        self.buffers.open(uri, language, version, text);
    }

    /// An open text, checked as it is now, with its story if it is one.
    pub(crate) fn checked(&mut self, uri: &Uri) -> Option<(&Buffer, Option<&CheckedStory>)> {
        let buffer = self.buffers.get(uri)?;
        let review = self.reviews.entry(uri.as_str().to_owned()).or_default();
        if let BufferRole::Story(kind) = buffer.role {
            let from = PlanSources { buffers: &self.buffers, folders: &self.folders, settings: &self.settings };
            let is_new = match story::check(buffer, review.story.as_ref(), kind, &mut self.files, &from) {
                StoryCheck::Checked(story) => {
                    review.story = Some(*story);
                    true
                }
                StoryCheck::Unchanged => false,
                StoryCheck::Excluded => review.story.take().is_some(),
            };
            if is_new {
                self.checks += 1;
                (review.check, review.fresh) = (self.checks, true);
            }
        }
        Some((buffer, review.story.as_ref()))
    }

    /// Closes a text: nothing is shown beside it any more.
    pub(crate) fn close(&mut self, uri: &Uri) {
        self.buffers.open.remove(uri.as_str());
        if self.reviews.remove(uri.as_str()).is_some_and(|review| review.pushed.is_some()) {
            self.closed.push(uri.clone());
        }
    }

    /// Writes what is to be shown beside an open text.
    pub(crate) fn diagnostics(&mut self, uri: &Uri, list: &mut DiagnosticList) {
        self.checked(uri);
        let faults = match self.buffers.get(uri).map(|buffer| buffer.role) {
            Some(BufferRole::Settings | BufferRole::Yaml) => self.faults(uri),
            _ => Vec::new(),
        };
        let Some(buffer) = self.buffers.get(uri) else { return };
        let story = self.reviews.get(uri.as_str()).and_then(|review| review.story.as_ref());
        match (buffer.role, story) {
            (BufferRole::Story(_), Some(story)) => diagnose::story(buffer, story, &self.client, list),
            (BufferRole::Settings | BufferRole::Yaml, _) => {
                diagnose::faults(&buffer.text, &buffer.lines, &faults, list);
            }
            _ => {}
        }
    }

    /// A name for what is to be shown beside an open text: the same only for the same.
    pub(crate) fn result_id(&mut self, uri: &Uri) -> String {
        self.checked(uri);
        let is_story = self.buffers.get(uri).is_some_and(|buffer| matches!(buffer.role, BufferRole::Story(_)));
        let number = match self.reviews.get(uri.as_str()) {
            Some(review) if is_story => review.check,
            // Faults are few.
            _ => {
                let mut list = DiagnosticList::after(String::new());
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
        let Some(buffer) = self.buffers.get(uri) else { return Vec::new() };
        let review = self.reviews.entry(uri.as_str().to_owned()).or_default();
        let in_use = buffer.path.as_ref().is_some_and(|path| self.files.scopes.contains_key(path));
        if let Some((_, faults)) = review.faults.as_ref().filter(|(edition, _)| *edition == buffer.edition) {
            return faults.clone();
        }
        let faults = match buffer.role {
            BufferRole::Settings => {
                let path = buffer.path.clone().unwrap_or_else(|| PathBuf::from(untaught_config::NAME));
                FolderSettings::parse(&buffer.text, &path).err().unwrap_or_default()
            }
            _ if in_use || buffer.is_scope() => Scope::parse(&buffer.text, &READER).err().unwrap_or_default(),
            // It may be used yet: so nothing is remembered of it.
            _ => return Vec::new(),
        };
        review.faults = Some((buffer.edition, faults.clone()));
        faults
    }

    /// The faults of files that are not open but in use, by URI, as lists of diagnostics.
    pub(crate) fn elsewhere(&mut self) -> BTreeMap<String, String> {
        let closed = self.files.broken().filter(|(path, _)| self.buffers.at(path).is_none());
        let shown = closed.filter_map(|(path, faults)| {
            let text = crate::shared_files::text(path).unwrap_or_default();
            let lines = LineIndex::new(&text, self.client.encoding);
            let mut list = DiagnosticList::after(String::new());
            diagnose::faults(&text, &lines, faults, &mut list);
            Some((uri::from_path(path)?.as_str().to_owned(), list.end("")))
        });
        shown.collect()
    }

    /// The summaries that have changed since they were last sent, as messages.
    pub(crate) fn new_summaries(&mut self) -> Vec<String> {
        let open: Vec<Uri> = self.buffers.open.values().map(|buffer| buffer.uri.clone()).collect();
        let mut new = Vec::new();
        for uri in open {
            let now = self.checked(&uri).and_then(|(_, story)| summary::sentence(story?));
            let Some(review) = self.reviews.get_mut(uri.as_str()) else { continue };
            if review.summary != now {
                new.push(summary::notification(uri.as_str(), now.as_deref()));
                review.summary = now;
            }
        }
        new
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
            self.checked(&uri);
            let (Some(buffer), Some(review)) = (self.buffers.get(&uri), self.reviews.get(uri.as_str())) else {
                continue;
            };
            let (version, is_story) = (buffer.version, matches!(buffer.role, BufferRole::Story(_)));
            // What is the same in a new version is told again, so that the client knows it holds for it.
            if is_story && review.pushed == Some(version) && !review.fresh {
                continue;
            }
            let mut list = DiagnosticList::after(wire::publication_head(uri.as_str(), Some(version)));
            self.diagnostics(&uri, &mut list);
            let message = list.end("}}");
            let review = self.reviews.entry(uri.as_str().to_owned()).or_default();
            (review.pushed, review.fresh) = (Some(version), false);
            if !is_story {
                if review.message == message {
                    continue;
                }
                review.message.clone_from(&message);
            }
            news.push(message);
        }
        let elsewhere = self.elsewhere();
        for (uri, found) in &elsewhere {
            if self.pushed_elsewhere.get(uri) != Some(found) {
                news.push(publication(uri, found));
            }
        }
        for uri in self.pushed_elsewhere.keys() {
            // What was opened since is told as an open text.
            if !elsewhere.contains_key(uri) && !self.buffers.open.contains_key(uri) {
                news.push(publication(uri, "[]"));
            }
        }
        self.pushed_elsewhere = elsewhere;
        news
    }
}
