//! The settings of a run: what was typed, the settings files, and the scopes they name. `untaught_config::resolve` decides between
//! them; here its layers are read, and its values looked up.

mod command_line;
mod files;
mod origin;
mod plan;
mod without_text;

pub(crate) use origin::described;
pub(crate) use plan::Plan;

use std::path::{Path, PathBuf};

use untaught::{LessonIndex, Reader, Scope};
use untaught_config::{CommandLineSettings, EffectiveSettings, Layers, Origin, ScopeReference, Sourced, resolve};

use crate::args::ConfigArgs;
use crate::output::{Failure, Message};
use files::Files;
use origin::placed;

/// The settings of a run. All threads share them.
pub(crate) struct RunSettings {
    pub(crate) reader: &'static Reader,
    command_line: CommandLineSettings,
    files: Files,
}

impl RunSettings {
    /// Reads the settings file and the scope that were named on the command line, so that mistakes there are reported even if there
    /// is no text.
    pub(crate) fn new(command_line: CommandLineSettings, config: &ConfigArgs) -> Result<RunSettings, Failure> {
        // It lasts as long as the program.
        let reader: &'static Reader = Box::leak(Box::default());
        let files = Files::new(config)?;
        let settings = RunSettings { reader, command_line, files };
        if settings.command_line.scope.is_some() {
            let typed = resolve(&Layers { command_line: Some(&settings.command_line), ..Layers::default() });
            let scope = settings.scope(&typed, None)?;
            settings.lesson(&typed, scope, None)?;
        }
        Ok(settings)
    }

    /// A scope by its name or path as typed.
    pub(crate) fn scope_typed(&self, written: &str) -> Result<&'static Scope, Message> {
        self.files.scope(&ScopeReference::new(written, None), self.reader)
    }

    /// The same for a text: with the pronunciations that its settings give.
    pub(crate) fn scope_typed_for(&self, written: &str, plan: &Plan) -> Result<&'static Scope, Message> {
        let mut settings = plan.settings.clone();
        settings.scope = Sourced::new(ScopeReference::new(written, None), Origin::CommandLine);
        self.scope(&settings, None)
    }

    /// Whether the settings of its folder leave a text out.
    pub(crate) fn excludes(&self, text: &Path) -> bool {
        let folder = self.files.folder_settings(Some(text)).ok().flatten();
        folder.is_some_and(|folder| folder.excludes(&untaught_config::absolute(text)))
    }

    /// The scope that the settings of a text name, or of no text.
    fn scope(&self, settings: &EffectiveSettings, text: Option<&str>) -> Result<&'static Scope, Message> {
        self.files.scope_of(settings, text, self.reader)
    }

    /// The lesson that the settings of a text name, or of no text; the last of the scope if they name none.
    fn lesson(&self, settings: &EffectiveSettings, scope: &Scope, text: Option<&str>) -> Result<LessonIndex, Message> {
        let Some(lesson) = &settings.lesson else { return Ok(scope.last()) };
        scope.index_of(&lesson.value).map_err(|unknown| placed(&lesson.origin, text, unknown.into()))
    }
}

/// A scope as it is shown: its name, or its path.
pub(crate) fn shown_scope(scope: &ScopeReference) -> String {
    match scope {
        ScopeReference::BuiltIn(name) => name.clone(),
        ScopeReference::File(path) => from_here(path).display().to_string(),
    }
}

/// A path from the current folder if it is there.
fn from_here(path: &Path) -> PathBuf {
    let here = std::env::current_dir().unwrap_or_default();
    path.strip_prefix(&here).unwrap_or(path).to_owned()
}
