//! What holds for a story: what it says itself, what the settings of its folder say, what the client was set to, in that order.

use std::path::{Path, PathBuf};
use std::rc::Rc;

use untaught::{FrontMatter, LessonIndex, Position, Scope, fold_word, front_matter, tokens};
use untaught_config::{Sourced, TextSettings};

use crate::buffer::{Buffer, Buffers};
use crate::client::Wishes;
use crate::shared_files::{LoadedScope as Loaded, SharedFiles as Shelf};
use crate::uri::clean;

/// What keeps a story from being checked as it should be, with its place in the story.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Note {
    pub(crate) at: Position,
    pub(crate) message: String,
    /// The story is checked all the same.
    pub(crate) mild: bool,
}

/// What holds for one story.
#[derive(Clone, Debug)]
pub(crate) struct Plan {
    /// None where the story cannot be checked: a note says why.
    pub(crate) scope: Option<Rc<Loaded>>,
    pub(crate) lesson: LessonIndex,
    /// Words told beforehand, folded.
    pub(crate) declared: Vec<String>,
    pub(crate) allow_names: bool,
    pub(crate) focus: Vec<String>,
    /// Where the story begins, in bytes.
    pub(crate) start: usize,
    pub(crate) notes: Vec<Note>,
}

impl PartialEq for Plan {
    fn eq(&self, other: &Plan) -> bool {
        let scopes = match (&self.scope, &other.scope) {
            (Some(one), Some(other)) => Rc::ptr_eq(one, other),
            (one, other) => one.is_none() && other.is_none(),
        };
        let key = |plan: &Plan| (plan.lesson, plan.allow_names, plan.start);
        scopes
            && key(self) == key(other)
            && self.declared == other.declared
            && self.focus == other.focus
            && self.notes == other.notes
    }
}

/// What a plan is made from.
pub(crate) struct Sources<'a> {
    pub(crate) buffers: &'a Buffers,
    pub(crate) folders: &'a [PathBuf],
    pub(crate) wishes: &'a Wishes,
}

/// Makes the plan of a story; `text` is the story as it is read, with its front matter. None for one that the settings leave out.
pub(crate) fn plan(buffer: &Buffer, text: &str, shelf: &mut Shelf, from: &Sources<'_>) -> Option<Plan> {
    let mut plan = Plan {
        scope: None,
        lesson: LessonIndex::FIRST,
        declared: Vec::new(),
        allow_names: from.wishes.allow_names,
        focus: Vec::new(),
        start: 0,
        notes: Vec::new(),
    };
    let note = |at: Position, message: String, mild: bool| Note { at, message, mild };
    let (front, start) = match front_matter(text) {
        Ok(front) => front,
        Err(fault) => {
            plan.notes.push(note(fault.position, fault.message, false));
            return Some(plan);
        }
    };
    // A byte order mark is no part of the first word.
    plan.start = if start == 0 && text.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { start };
    let path = file(buffer, from.folders);
    let mut set = TextSettings::default();
    let project = path.as_deref().and_then(Path::parent).and_then(|folder| shelf.project(folder, from.buffers));
    if let (Some(found), Some(path)) = (project, &path) {
        if let Some(problem) = found.problem {
            let still =
                if found.good.is_some() { "; its last good state stays in force" } else { "; it is passed over" };
            plan.notes.push(note(Position::START, problem + still, true));
        }
        if let Some(project) = found.good {
            if buffer.path.is_some() && project.excludes(path) {
                return None;
            }
            set = project.for_text(path);
        }
    }
    let name = scope_name(&front, &set, path.as_deref(), from);
    let found = shelf.scope(name.as_deref(), from.buffers);
    let at_scope = if front.scope.is_some() { front.position("scope") } else { Position::START };
    match (&found.good, found.problem) {
        (Some(_), Some(problem)) => {
            plan.notes.push(note(Position::START, problem + "; its last good state stays in force", true));
        }
        (None, Some(problem)) => plan.notes.push(note(at_scope, problem, false)),
        (_, None) => {}
    }
    let loaded = match found.good {
        Some(loaded) => loaded,
        None => return Some(plan),
    };
    let (lesson, at) = match (&front.lesson, &set.lesson, &from.wishes.lesson) {
        (Some(id), ..) => (Some(id), front.position("lesson")),
        (None, Some(set), _) => (Some(&set.value), Position::START),
        (None, None, wished) => (wished.as_ref(), Position::START),
    };
    match lesson.map_or(Ok(loaded.scope.last()), |id| loaded.scope.index_of(id)) {
        Ok(place) => plan.lesson = place,
        Err(message) => {
            plan.notes.push(note(at, message.to_string(), false));
            return Some(plan);
        }
    }
    let values = |list: &[Sourced<String>]| list.iter().map(|word| word.value.clone()).collect::<Vec<_>>();
    let told = [front.story_words.clone(), front.names.clone(), values(&set.names), values(&set.story_words)].concat();
    let told = told.iter().chain(&from.wishes.names);
    // *Old Tom* is judged word by word, and so declared.
    plan.declared = told.flat_map(|text| tokens(text).map(|token| fold_word(&text[token.span]))).collect();
    plan.focus = if front.focus.is_empty() { values(&set.focus) } else { front.focus.clone() };
    plan.scope = Some(loaded);
    Some(plan)
}

/// The file of a story. One that was never saved counts as a file of the client's first folder.
fn file(buffer: &Buffer, folders: &[PathBuf]) -> Option<PathBuf> {
    let unsaved = || Some(folders.first()?.join(buffer.uri.as_str().rsplit([':', '/']).next().unwrap_or("story")));
    buffer.path.clone().or_else(unsaved)
}

fn scope_name(front: &FrontMatter, set: &TextSettings, path: Option<&Path>, from: &Sources<'_>) -> Option<String> {
    let embedded = |name: &str| Scope::all_embedded().any(|(known, _)| known == name);
    let beside = |folder: Option<&Path>, named: &str| match folder {
        Some(folder) if !embedded(named) => clean(&folder.join(named)).display().to_string(),
        _ => named.to_owned(),
    };
    let folder = path.and_then(Path::parent);
    if let Some(named) = &front.scope {
        return Some(beside(folder, named));
    }
    if let Some(set) = &set.scope {
        return Some(set.value.clone());
    }
    // A path among the client's settings counts from the folder of its workspace that the story lies in, else from the first.
    let home = from.folders.iter().filter(|home| path.is_some_and(|path| path.starts_with(home)));
    let home = home.max_by_key(|home| home.components().count()).or(from.folders.first());
    from.wishes.scope.as_ref().map(|named| beside(home.map(PathBuf::as_path).or(folder), named))
}
