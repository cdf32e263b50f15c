//! Checking a text at a lesson.

mod memory;
mod pass;
mod report;

use crate::{Focus, Judge, LessonIndex, Reader, Scope};

pub use memory::Memory;
pub use report::{Counts, Finding, FocusCount, PLACES, Report, TwoReadings, Type, WordAt, percent};

/// What to check.
#[derive(Clone, Debug)]
pub struct Options {
    /// The lesson; one past the end counts as the last.
    pub lesson: LessonIndex,
    /// Names and story words that the child knows beforehand, in any capitals. A name of several words is declared word by word.
    pub declared: Vec<String>,
    /// Whether to keep every running word, not only the counts and the untaught ones.
    pub every_word: bool,
    /// Whether words that look like names count as told to the child beforehand.
    pub allow_names: bool,
    /// The patterns whose practice to count; none for those of the lesson.
    pub focus: Option<Focus>,
    /// How many places to keep of each untaught word; [`PLACES`] at first.
    pub places: usize,
    /// Where the story begins, in bytes; none for after its front matter, if it has any. Positions still count from the start of the
    /// text.
    pub start: Option<usize>,
}

impl Options {
    /// A check at a lesson, nothing declared.
    #[must_use]
    pub fn at(lesson: LessonIndex) -> Options {
        Options {
            lesson,
            declared: Vec::new(),
            every_word: false,
            allow_names: false,
            focus: None,
            places: PLACES,
            start: None,
        }
    }
}

/// Checks a text. Never fails: every token gets a verdict, an empty text an empty report.
///
/// Cost: one pass over the text, and a judgement for each distinct word; memory for each distinct word and for the places of the
/// untaught ones (and of all, if every word is asked for).
#[must_use]
pub fn check(text: &str, scope: &Scope, reader: &Reader, options: &Options) -> Report {
    Checker::new(scope, reader).check(text, options)
}

/// Checks many texts against one scope: a word that several have is judged once, for its verdict holds at every lesson.
#[derive(Debug)]
pub struct Checker<'a> {
    judge: Judge<'a>,
    memory: Memory,
}

impl<'a> Checker<'a> {
    /// A checker that knows no word yet.
    #[must_use]
    pub fn new(scope: &'a Scope, reader: &'a Reader) -> Checker<'a> {
        Checker::remembering(scope, reader, Memory::default())
    }

    /// A checker that knows what another knew of the same scope.
    #[must_use]
    pub fn remembering(scope: &'a Scope, reader: &'a Reader, memory: Memory) -> Checker<'a> {
        Checker { judge: Judge::new(reader, scope), memory }
    }

    /// What judges its words.
    #[must_use]
    pub fn judge(&self) -> Judge<'a> {
        self.judge
    }

    /// What it has learnt, for the next checker of the same scope.
    #[must_use]
    pub fn into_memory(self) -> Memory {
        self.memory
    }

    /// Checks one text, as [`check`] does.
    #[must_use]
    pub fn check(&mut self, text: &str, options: &Options) -> Report {
        pass::run(self, text, options)
    }
}
