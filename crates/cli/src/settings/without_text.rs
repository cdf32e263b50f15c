//! Scope and lesson of a command that is about no text: what was typed, else what the settings of the current folder say.

use untaught::{LessonIndex, Scope};
use untaught_config::{EffectiveSettings, Layers, Origin, ScopeReference, Sourced, resolve};

use super::{RunSettings, described, shown_scope};
use crate::output::{Failure, one_line, remark};

impl RunSettings {
    /// The scope. Notes it if it comes from a settings file.
    pub(crate) fn scope_without_text(&self) -> Result<&'static Scope, Failure> {
        let settings = self.without_text(self.command_line.scope.is_none())?;
        let scope = self.scope(&settings, None)?;
        note([from_file(&settings.scope, scope_phrase)]);
        Ok(scope)
    }

    /// The scope, without a note.
    pub(crate) fn scope_quietly(&self) -> Result<&'static Scope, Failure> {
        let settings = self.without_text(self.command_line.scope.is_none())?;
        Ok(self.scope(&settings, None)?)
    }

    /// Where that scope is from.
    pub(crate) fn scope_reference_without_text(&self) -> Result<ScopeReference, Failure> {
        Ok(self.without_text(self.command_line.scope.is_none())?.scope.value)
    }

    /// The scope and the lesson. Notes those that come from a settings file.
    pub(crate) fn lesson_without_text(&self) -> Result<(&'static Scope, LessonIndex), Failure> {
        let search = self.command_line.scope.is_none() || self.command_line.lesson.is_none();
        let settings = self.without_text(search)?;
        let scope = self.scope(&settings, None)?;
        let lesson = self.lesson(&settings, scope, None)?;
        let of_lesson = settings.lesson.as_ref().and_then(|lesson| from_file(lesson, |id| format!("lesson {id}")));
        note([from_file(&settings.scope, scope_phrase), of_lesson]);
        Ok((scope, lesson))
    }

    /// A settings file is read only if something is missing, so that a broken one is in nobody's way.
    fn without_text(&self, search: bool) -> Result<EffectiveSettings, Failure> {
        let folder = if search { self.files.folder_settings(None)? } else { None };
        Ok(resolve(&Layers { command_line: Some(&self.command_line), folder, ..Layers::default() }))
    }
}

fn scope_phrase(scope: &ScopeReference) -> String {
    format!("the scope {}", one_line(&shown_scope(scope)))
}

/// Names a value and its place, if that is a settings file.
fn from_file<T>(setting: &Sourced<T>, phrase: impl Fn(&T) -> String) -> Option<String> {
    let is_file = matches!(setting.origin, Origin::Settings { .. });
    is_file.then(|| format!("{} from {}", phrase(&setting.value), described(&setting.origin)))
}

fn note<const N: usize>(used: [Option<String>; N]) {
    let used: Vec<String> = used.into_iter().flatten().collect();
    if !used.is_empty() {
        remark(&format!("using {}", used.join(" and ")));
    }
}
