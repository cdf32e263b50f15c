//! Checks a text at a lesson.

mod memory;
mod names;
mod pass;
mod report;
mod spelling_rows;

use crate::{Focus, Judge, LessonIndex, Reader, Scope};

pub use memory::Memory;
pub use report::{Counts, Finding, FocusCount, PLACES, Report, TwoReadings, Type, WordAt, percent};

/// What to check.
#[derive(Clone, Debug)]
pub struct Options {
    /// The lesson; an index past the end means the last lesson.
    pub lesson: LessonIndex,
    /// Names and story words that the child already knows; capitals do not matter. A name of several words declares each of
    /// its words.
    pub declared: Vec<String>,
    /// Whether to keep every running word, not only the counts and the untaught ones.
    pub every_word: bool,
    /// Whether words that look like names count as declared.
    pub allow_names: bool,
    /// The patterns whose practice to count; `None` for those of the lesson.
    pub focus: Option<Focus>,
    /// Number of positions to keep for each untaught word; [`PLACES`] by default.
    pub places: usize,
    /// The byte offset at which the story begins; `None` means after the front matter, if there is any. Positions always
    /// count from the start of the text.
    pub start: Option<usize>,
}

impl Options {
    /// Creates the options for a check at a lesson, with no declared words.
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
/// Cost: one pass over the text and a judgement for each distinct word; memory for each distinct word and for the positions of
/// untaught words (of all words, if every word is requested).
#[must_use]
pub fn check(text: &str, scope: &Scope, reader: &Reader, options: &Options) -> Report {
    Checker::new(scope, reader).check(text, options)
}

/// Checks many texts against one scope. A word that occurs in several texts is judged once, because its verdict covers all
/// lessons.
#[derive(Debug)]
pub struct Checker<'a> {
    judge: Judge<'a>,
    memory: Memory,
}

impl<'a> Checker<'a> {
    /// Creates a checker with an empty memory.
    #[must_use]
    pub fn new(scope: &'a Scope, reader: &'a Reader) -> Checker<'a> {
        Checker::remembering(scope, reader, Memory::default())
    }

    /// Creates a checker with the memory of an earlier checker of the same scope.
    #[must_use]
    pub fn remembering(scope: &'a Scope, reader: &'a Reader, memory: Memory) -> Checker<'a> {
        Checker { judge: Judge::new(reader, scope), memory }
    }

    /// The judge of its words.
    #[must_use]
    pub fn judge(&self) -> Judge<'a> {
        self.judge
    }

    /// Returns its memory, for the next checker of the same scope.
    #[must_use]
    pub fn into_memory(self) -> Memory {
        self.memory
    }

    /// Checks a text like [`check`].
    #[must_use]
    pub fn check(&mut self, text: &str, options: &Options) -> Report {
        pass::run(self, text, options)
    }
}
