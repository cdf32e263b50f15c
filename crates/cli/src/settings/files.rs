//! Settings files and scope files, each read once. They last as long as the program, so that all threads share them.

use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

use untaught::{Reader, Scope};
use untaught_config::{EffectiveSettings, FolderSettings, ScopeReference};

use super::{from_here, placed};
use crate::args::ConfigArgs;
use crate::input;
use crate::output::{Message, path_line};

/// Files that have been read, or why they cannot be used.
pub(super) struct Files {
    given: Option<&'static FolderSettings>,
    search: bool,
    /// By folder: its settings file, or that of a folder above.
    found: Mutex<HashMap<PathBuf, Option<PathBuf>>>,
    settings: Cache<PathBuf, FolderSettings>,
    scopes: Cache<ScopeReference, Scope>,
    /// Scopes with the pronunciations of a folder.
    pronouncing: Cache<(ScopeReference, Vec<(String, String)>), Scope>,
}

type Cache<K, T> = Mutex<HashMap<K, Result<&'static T, Message>>>;

impl Files {
    /// Reads the settings file that was named, if any.
    pub(super) fn new(config: &ConfigArgs) -> Result<Files, Message> {
        Ok(Files {
            given: config.config.as_deref().map(open).transpose()?,
            search: !config.no_config && config.config.is_none(),
            found: Mutex::default(),
            settings: Mutex::default(),
            scopes: Mutex::default(),
            pronouncing: Mutex::default(),
        })
    }

    /// The settings file for a text, or for the current folder.
    pub(super) fn folder_settings(&self, text: Option<&Path>) -> Result<Option<&'static FolderSettings>, Message> {
        if self.given.is_some() || !self.search {
            return Ok(self.given);
        }
        let folder = text.and_then(Path::parent).unwrap_or(Path::new(""));
        let path = {
            let mut found = self.found.lock().unwrap_or_else(PoisonError::into_inner);
            match found.get(folder) {
                Some(path) => path.clone(),
                None => found.entry(folder.to_owned()).or_insert(untaught_config::find(folder)).clone(),
            }
        };
        path.map(|path| once(&self.settings, &path, || open(&from_here(&path)))).transpose()
    }

    /// The scope that some settings name, with their pronunciations.
    pub(super) fn scope_of(
        &self,
        settings: &EffectiveSettings,
        text: Option<&str>,
        reader: &Reader,
    ) -> Result<&'static Scope, Message> {
        let reference = &settings.scope;
        let scope = self.scope(&reference.value, reader).map_err(|message| placed(&reference.origin, text, message))?;
        if settings.pronounce.is_empty() {
            return Ok(scope);
        }
        once(&self.pronouncing, &(reference.value.clone(), settings.pronunciations()), || {
            let made = settings.pronouncing(scope);
            made.map(|scope| &*Box::leak(Box::new(scope)))
                .map_err(|problem| placed(&problem.origin, text, problem.value.into()))
        })
    }

    /// A scope as its file has it.
    pub(super) fn scope(&self, reference: &ScopeReference, reader: &Reader) -> Result<&'static Scope, Message> {
        once(&self.scopes, reference, || {
            let reference = match reference {
                ScopeReference::File(path) => ScopeReference::File(from_here(path)),
                built_in @ ScopeReference::BuiltIn(_) => built_in.clone(),
            };
            input::scope(&reference, reader).map(|scope| &*Box::leak(Box::new(scope)))
        })
    }
}

/// Looks up what is known, or makes it.
fn once<K: Clone + Eq + std::hash::Hash, T>(
    cache: &Cache<K, T>,
    key: &K,
    make: impl FnOnce() -> Result<&'static T, Message>,
) -> Result<&'static T, Message> {
    let mut known = cache.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(made) = known.get(key) {
        return made.clone();
    }
    let made = make();
    known.insert(key.clone(), made.clone());
    made
}

/// Reads a settings file.
fn open(path: &Path) -> Result<&'static FolderSettings, Message> {
    let text = input::text(path, "settings")?;
    let settings = FolderSettings::parse(&text, path)
        .map_err(|faults| Message::faults("the settings file cannot be used", &path_line(path), &faults))?;
    Ok(Box::leak(Box::new(settings)))
}
