//! The diagnostics of words, kept from keystroke to keystroke.

use std::collections::HashMap;
use std::rc::Rc;

use untaught::{Finding, LessonIndex};

use crate::diagnostic_list::DiagnosticText;

/// How many words of a scope are remembered.
pub(crate) const REMEMBERED: usize = 8192;

/// The diagnostics of untaught words at one lesson of a scope. Most of these words were there before the last keystroke.
#[derive(Debug, Default)]
pub(crate) struct WordDiagnostics {
    lesson: LessonIndex,
    /// By word; first of those that do not look like names.
    known: [HashMap<Box<str>, Rc<DiagnosticText>>; 2],
}

impl WordDiagnostics {
    /// The diagnostic of a finding; `make` makes it if it is new.
    pub(crate) fn of(
        &mut self,
        finding: &Finding,
        lesson: LessonIndex,
        make: impl FnOnce() -> DiagnosticText,
    ) -> Rc<DiagnosticText> {
        if self.lesson != lesson {
            *self = WordDiagnostics { lesson, ..WordDiagnostics::default() };
        }
        let known = &mut self.known[usize::from(finding.likely_name)];
        if let Some(text) = known.get(finding.word()) {
            return Rc::clone(text);
        }
        // Each beginning of a word that is typed gets a diagnostic.
        if known.len() >= REMEMBERED {
            known.clear();
        }
        let text = Rc::new(make());
        known.insert(finding.word().into(), Rc::clone(&text));
        text
    }
}
