//! What a story is checked against: its effective settings, with the scope and lesson that they name.

use std::path::{Path, PathBuf};
use std::rc::Rc;

use untaught::{LessonIndex, Position, front_matter};
use untaught_config::{EditorSettings, EffectiveSettings, Layers, Origin, resolve};

use crate::buffer::{Buffer, Buffers};
use crate::shared_files::{LoadedScope, SharedFiles};

/// What keeps a story from being checked as it should be, with its place in the story.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct PlanNote {
    pub(crate) at: Position,
    pub(crate) message: String,
    /// The story is checked all the same.
    pub(crate) mild: bool,
}

impl PlanNote {
    /// A mistake in a setting: at its place if it is in the story itself, else at the beginning, with the name of the place.
    pub(crate) fn of(origin: &Origin, problem: String) -> PlanNote {
        let (at, message) = match origin {
            Origin::FrontMatter { position } => (*position, problem),
            Origin::Settings { path, position } | Origin::FileName { path, position } => {
                (Position::START, format!("{problem} ({}:{})", path.display(), position.line))
            }
            Origin::Editor => (Position::START, format!("{problem} (settings of the editor)")),
            Origin::CommandLine | Origin::Record | Origin::Default => (Position::START, problem),
        };
        PlanNote { at, message, mild: false }
    }
}

/// What becomes of a file that has mistakes.
const LAST_VALID: &str = "; using the last valid version";

/// What a story is checked against.
#[derive(Clone, Debug)]
pub(crate) struct StoryPlan {
    /// None where the story cannot be checked: a note says why.
    pub(crate) scope: Option<Rc<LoadedScope>>,
    pub(crate) lesson: LessonIndex,
    pub(crate) settings: EffectiveSettings,
    /// Where the story begins, in bytes.
    pub(crate) start: usize,
    pub(crate) notes: Vec<PlanNote>,
}

impl PartialEq for StoryPlan {
    fn eq(&self, other: &StoryPlan) -> bool {
        let scopes = match (&self.scope, &other.scope) {
            (Some(one), Some(other)) => Rc::ptr_eq(one, other),
            (one, other) => one.is_none() && other.is_none(),
        };
        scopes
            && (self.lesson, self.start) == (other.lesson, other.start)
            && self.settings == other.settings
            && self.notes == other.notes
    }
}

/// What a plan is made from.
pub(crate) struct PlanSources<'a> {
    pub(crate) buffers: &'a Buffers,
    pub(crate) folders: &'a [PathBuf],
    pub(crate) settings: &'a EditorSettings,
}

/// Makes the plan of a story; `text` is the story as it is read, with its front matter. None for one that the settings leave out.
pub(crate) fn plan(buffer: &Buffer, text: &str, shelf: &mut SharedFiles, from: &PlanSources<'_>) -> Option<StoryPlan> {
    let mut plan = StoryPlan {
        scope: None,
        lesson: LessonIndex::FIRST,
        settings: EffectiveSettings::default(),
        start: 0,
        notes: Vec::new(),
    };
    let (front, start) = match front_matter(text) {
        Ok(front) => front,
        Err(fault) => {
            plan.notes.push(PlanNote { at: fault.position, message: fault.message, mild: false });
            return Some(plan);
        }
    };
    // A byte order mark is no part of the first word.
    plan.start = if start == 0 && text.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { start };
    let path = file(buffer, from.folders);
    let found = path.as_deref().and_then(Path::parent).and_then(|folder| shelf.folder_settings(folder, from.buffers));
    let folder = found.and_then(|found| {
        if let Some(problem) = found.problem {
            let still = if found.good.is_some() { LAST_VALID } else { "; it is ignored" };
            plan.notes.push(PlanNote { at: Position::START, message: problem + still, mild: true });
        }
        found.good
    });
    if let (Some(folder), Some(path)) = (&folder, &buffer.path)
        && folder.excludes(path)
    {
        return None;
    }
    plan.settings = resolve(&Layers {
        text: path.as_deref(),
        front_matter: Some(&front),
        folder: folder.as_deref(),
        editor: Some(from.settings),
        workspace: from.folders,
        ..Layers::default()
    });
    let of_scope = &plan.settings.scope;
    let found = shelf.scope(&of_scope.value, from.buffers);
    match (&found.good, found.problem) {
        (Some(_), Some(problem)) => {
            plan.notes.push(PlanNote { at: Position::START, message: problem + LAST_VALID, mild: true });
        }
        (None, Some(problem)) => plan.notes.push(PlanNote::of(&of_scope.origin, problem)),
        (_, None) => {}
    }
    let Some(loaded) = found.good else { return Some(plan) };
    let loaded = shelf.pronouncing(loaded, &plan.settings).unwrap_or_else(|(loaded, problem)| {
        plan.notes.push(PlanNote::of(&problem.origin, problem.value));
        loaded
    });
    match plan.settings.lesson.as_ref() {
        None => plan.lesson = loaded.scope.last(),
        Some(lesson) => match loaded.scope.index_of(&lesson.value) {
            Ok(index) => plan.lesson = index,
            Err(unknown) => {
                plan.notes.push(PlanNote::of(&lesson.origin, unknown.to_string()));
                return Some(plan);
            }
        },
    }
    plan.scope = Some(loaded);
    Some(plan)
}

/// The file of a story. One that was never saved counts as a file of the client's first folder.
fn file(buffer: &Buffer, folders: &[PathBuf]) -> Option<PathBuf> {
    let unsaved = || Some(folders.first()?.join(buffer.uri.as_str().rsplit([':', '/']).next().unwrap_or("story")));
    buffer.path.clone().or_else(unsaved)
}
