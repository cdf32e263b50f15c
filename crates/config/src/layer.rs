//! Layers of settings: what each sets, with its origin.

use std::path::Path;

use untaught::FrontMatter;

use crate::effective::{EffectiveSettings, Origin, ScopeReference, Sourced};

/// In place of a name: every word that looks like a name counts as one.
pub const ALLOW: &str = "allow";

/// Settings that were typed.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct CommandLineSettings {
    /// The scope: the name of one that comes with the program, or a path from the current folder.
    pub scope: Option<String>,
    /// The id of the lesson.
    pub lesson: Option<String>,
    /// Names taught beforehand, or [`ALLOW`].
    pub names: Vec<String>,
    /// Other words taught beforehand.
    pub story_words: Vec<String>,
    /// Patterns whose practice is counted.
    pub focus: Vec<String>,
    /// Least percent decodable.
    pub min_decodable: Option<f64>,
    /// Least percent readable.
    pub min_readable: Option<f64>,
    /// Least percent of running words that practise the focus.
    pub min_focus: Option<f64>,
}

/// Settings of an editor.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct EditorSettings {
    /// The scope: the name of one that comes with the program, or a path from the workspace folder.
    pub scope: Option<String>,
    /// The id of the lesson.
    pub lesson: Option<String>,
    /// Names taught beforehand, or [`ALLOW`]; none if the editor has no such setting.
    pub names: Option<Vec<String>>,
}

impl EditorSettings {
    /// These settings; what they lack is taken from earlier ones.
    #[must_use]
    pub fn or(self, earlier: &EditorSettings) -> EditorSettings {
        EditorSettings {
            scope: self.scope.or_else(|| earlier.scope.clone()),
            lesson: self.lesson.or_else(|| earlier.lesson.clone()),
            names: self.names.or_else(|| earlier.names.clone()),
        }
    }
}

/// What one layer sets.
#[derive(Clone, PartialEq, Debug, Default)]
pub(crate) struct Layer {
    pub(crate) scope: Option<Sourced<ScopeReference>>,
    pub(crate) lesson: Option<Sourced<String>>,
    pub(crate) names: Vec<Sourced<String>>,
    pub(crate) story_words: Vec<Sourced<String>>,
    pub(crate) focus: Vec<Sourced<String>>,
    pub(crate) allow_names: Option<Sourced<bool>>,
    pub(crate) min_decodable: Option<Sourced<f64>>,
    pub(crate) min_readable: Option<Sourced<f64>>,
    pub(crate) min_focus: Option<Sourced<f64>>,
    pub(crate) pronounce: Vec<Sourced<(String, String)>>,
}

impl Layer {
    pub(crate) fn typed(typed: &CommandLineSettings) -> Layer {
        let origin = Origin::CommandLine;
        let percent = |value: Option<f64>| value.map(|value| Sourced::new(value, origin.clone()));
        Layer {
            scope: typed.scope.as_ref().map(|name| Sourced::new(ScopeReference::new(name, None), origin.clone())),
            lesson: typed.lesson.as_ref().map(|id| Sourced::new(id.clone(), origin.clone())),
            names: names(&typed.names, &origin),
            story_words: all(&typed.story_words, |_| origin.clone()),
            focus: all(&typed.focus, |_| origin.clone()),
            allow_names: allow(&typed.names, &origin),
            min_decodable: percent(typed.min_decodable),
            min_readable: percent(typed.min_readable),
            min_focus: percent(typed.min_focus),
            ..Layer::default()
        }
    }

    /// What the front matter of a text sets; a path in it counts from the text's folder.
    pub(crate) fn front_matter(front: &FrontMatter, folder: Option<&Path>) -> Layer {
        let at = |key: &str| Origin::FrontMatter { position: front.position(key) };
        let list = |written: &[String], key: &str| {
            all(written, |number| Origin::FrontMatter { position: front.entry_position(key, number) })
        };
        let scope = front.scope.as_ref();
        Layer {
            scope: scope.map(|named| Sourced::new(ScopeReference::new(named, folder), at("scope"))),
            lesson: front.lesson.as_ref().map(|id| Sourced::new(id.clone(), at("lesson"))),
            names: list(&front.names, "names"),
            story_words: list(&front.story_words, "story-words"),
            focus: list(&front.focus, "focus"),
            ..Layer::default()
        }
    }

    /// What the editor sets; a path in it counts from a folder of the workspace.
    pub(crate) fn editor(editor: &EditorSettings, folder: Option<&Path>) -> Layer {
        let origin = Origin::Editor;
        let written = editor.names.as_deref().unwrap_or_default();
        Layer {
            scope: editor.scope.as_ref().map(|name| Sourced::new(ScopeReference::new(name, folder), origin.clone())),
            lesson: editor.lesson.as_ref().map(|id| Sourced::new(id.clone(), origin.clone())),
            names: names(written, &origin),
            allow_names: allow(written, &origin),
            ..Layer::default()
        }
    }

    pub(crate) fn lesson(id: &str, origin: Origin) -> Layer {
        Layer { lesson: Some(Sourced::new(id.to_owned(), origin)), ..Layer::default() }
    }

    /// Puts this layer on top of the ones below it: its values override theirs, and names and story words add up.
    pub(crate) fn over(&self, below: &mut EffectiveSettings) {
        if let Some(scope) = &self.scope {
            below.scope = scope.clone();
        }
        if let Some(allow) = &self.allow_names {
            below.allow_names = allow.clone();
        }
        if let Some(least) = &self.min_readable {
            below.min_readable = least.clone();
        }
        if !self.focus.is_empty() {
            below.focus.clone_from(&self.focus);
        }
        if !self.pronounce.is_empty() {
            below.pronounce.clone_from(&self.pronounce);
        }
        override_with(&mut below.lesson, &self.lesson);
        override_with(&mut below.min_decodable, &self.min_decodable);
        override_with(&mut below.min_focus, &self.min_focus);
        below.names.splice(0..0, self.names.iter().cloned());
        below.story_words.splice(0..0, self.story_words.iter().cloned());
    }
}

fn override_with<T: Clone>(below: &mut Option<T>, value: &Option<T>) {
    if value.is_some() {
        below.clone_from(value);
    }
}

/// Values of a list, each with its origin by its number.
pub(crate) fn all(written: &[String], origin: impl Fn(usize) -> Origin) -> Vec<Sourced<String>> {
    written.iter().enumerate().map(|(number, value)| Sourced::new(value.clone(), origin(number))).collect()
}

fn names(written: &[String], origin: &Origin) -> Vec<Sourced<String>> {
    let names = written.iter().filter(|name| *name != ALLOW);
    names.map(|name| Sourced::new(name.clone(), origin.clone())).collect()
}

fn allow(written: &[String], origin: &Origin) -> Option<Sourced<bool>> {
    written.iter().any(|name| name == ALLOW).then(|| Sourced::new(true, origin.clone()))
}
