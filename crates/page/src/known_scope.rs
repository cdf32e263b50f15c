//! A scope that was asked about, with the words that were judged by it.

use untaught::{Checker, Focus, Memory, Options, Pattern, Reader, Report, Scope};

use crate::ask::{ScopeSource, StoryQuestion};

/// A scope, compiled.
#[derive(Debug)]
pub(crate) struct KnownScope {
    pub(crate) source: ScopeSource,
    pub(crate) scope: Scope,
    memory: Memory,
}

impl KnownScope {
    pub(crate) fn new(source: ScopeSource, scope: Scope) -> KnownScope {
        KnownScope { source, scope, memory: Memory::default() }
    }

    /// Checks a story as `untaught check` does.
    pub(crate) fn check(&mut self, reader: &Reader, asked: &StoryQuestion) -> Result<Report, String> {
        let focus: Vec<Pattern> =
            asked.focus.iter().map(|text| Pattern::parse(text, reader)).collect::<Result<_, _>>()?;
        let focus = (!focus.is_empty()).then(|| Focus::of(&self.scope, &focus));
        let declared = asked.names.iter().chain(&asked.story_words).cloned().collect();
        // What is pasted is the story: the page has fields of its own for what front matter would say.
        let options = Options { declared, every_word: true, focus, start: Some(0), ..Options::at(asked.lesson) };
        let mut checker = Checker::remembering(&self.scope, reader, std::mem::take(&mut self.memory));
        let report = checker.check(&asked.text, &options);
        self.memory = checker.into_memory();
        Ok(report)
    }
}
