//! What a text is checked against.

use std::path::Path;

use untaught::{Curve, LessonIndex, Pattern, Reader, Scope, front_matter};
use untaught_config::{EffectiveSettings, Layers, Origin, absolute, resolve};

use super::{RunSettings, placed};
use crate::output::Message;

/// The settings of one text, with the scope and lesson that they name.
pub(crate) struct Plan {
    pub(crate) settings: EffectiveSettings,
    pub(crate) scope: &'static Scope,
    pub(crate) lesson: LessonIndex,
    pub(crate) title: Option<String>,
    /// Where the story begins in the text, in bytes.
    pub(crate) start: usize,
}

impl Plan {
    /// The lesson, unless it is only the last because none was set.
    pub(crate) fn set_lesson(&self) -> Option<LessonIndex> {
        self.settings.lesson.as_ref().map(|_| self.lesson)
    }

    /// Least percent decodable.
    pub(crate) fn min_decodable(&self) -> Option<f64> {
        self.settings.min_decodable.as_ref().map(|least| least.value)
    }

    /// The first lesson at which enough of a text can be read. How much of it is sounded out is another question.
    pub(crate) fn first_readable(&self, curve: &Curve) -> Option<LessonIndex> {
        curve.first(0.0, self.settings.min_readable.value)
    }

    /// The first lesson at which enough can be sounded out; the first of all if nothing is required.
    pub(crate) fn first_decodable(&self, curve: &Curve) -> Option<LessonIndex> {
        curve.first(self.min_decodable().unwrap_or(0.0), 0.0)
    }

    /// The patterns of the focus; empty for those of the lesson.
    pub(crate) fn patterns(&self, reader: &Reader, text: &str) -> Result<Vec<Pattern>, Message> {
        self.settings.patterns(reader).map_err(|problem| match problem.origin {
            Origin::CommandLine => format!("{text}: its focus is not valid: {}", problem.value).into(),
            origin => placed(&origin, Some(text), format!("the focus is not valid: {}", problem.value).into()),
        })
    }
}

impl RunSettings {
    /// What a text is checked against, by its name in reports and its path, if it has one. A text that came in a record may have a
    /// lesson there.
    pub(crate) fn plan(
        &self,
        name: &str,
        path: Option<&Path>,
        text: &str,
        record_lesson: Option<&str>,
    ) -> Result<Plan, Message> {
        let (front, start) = front_matter(text)
            .map_err(|fault| format!("{name}:{}:{}: {}", fault.position.line, fault.position.column, fault.message))?;
        let settings = resolve(&Layers {
            text: path.map(absolute).as_deref(),
            command_line: Some(&self.command_line),
            record_lesson,
            front_matter: Some(&front),
            folder: self.files.folder_settings(path)?,
            ..Layers::default()
        });
        let scope = self.scope(&settings, Some(name))?;
        let lesson = self.lesson(&settings, scope, Some(name))?;
        Ok(Plan { settings, scope, lesson, title: front.title, start })
    }
}
