//! Settings that were typed, by command.

use untaught_config::CommandLineSettings;

use crate::args::{CheckArgs, ExplainArgs, ForLesson, PackArgs, ScopeArgs, SettingsArgs, Texts};

impl SettingsArgs {
    fn settings(&self) -> CommandLineSettings {
        CommandLineSettings {
            scope: self.scope.clone(),
            lesson: self.lesson.clone(),
            names: self.names.clone(),
            story_words: self.story_words.clone(),
            ..CommandLineSettings::default()
        }
    }
}

impl Texts {
    pub(crate) fn settings(&self) -> CommandLineSettings {
        let (min_decodable, min_readable) = (self.min_decodable, self.min_readable);
        CommandLineSettings { min_decodable, min_readable, ..self.settings.settings() }
    }
}

impl CheckArgs {
    pub(crate) fn settings(&self) -> CommandLineSettings {
        CommandLineSettings { focus: self.focus.clone(), min_focus: self.min_focus, ..self.texts.settings() }
    }
}

impl PackArgs {
    pub(crate) fn settings(&self) -> CommandLineSettings {
        CommandLineSettings { focus: self.focus.clone(), ..self.settings.settings() }
    }
}

impl ForLesson {
    pub(crate) fn settings(&self) -> CommandLineSettings {
        let (scope, lesson) = (self.scope.clone(), self.lesson.clone());
        CommandLineSettings { scope, lesson, ..CommandLineSettings::default() }
    }
}

impl ExplainArgs {
    pub(crate) fn settings(&self) -> CommandLineSettings {
        CommandLineSettings { scope: self.scope.clone(), ..CommandLineSettings::default() }
    }
}

impl ScopeArgs {
    pub(crate) fn settings(&self) -> CommandLineSettings {
        CommandLineSettings { scope: self.scope.clone(), ..CommandLineSettings::default() }
    }
}
