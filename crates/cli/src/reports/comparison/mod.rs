//! Two scopes compared: what moves, what becomes readable sooner or later, and which readers then fall short.

mod json;
mod text;

use untaught::json::ErrorReport;
use untaught::{Change, LessonIndex, LessonMap, Move, Scope, ScopeComparison};

use crate::analysis::{Fit, Refit, Timing};

pub(crate) use json::json;
pub(crate) use text::{sits_otherwise, text};

/// A comparison of two scopes.
pub(crate) struct Comparison {
    pub(crate) old: &'static Scope,
    pub(crate) new: &'static Scope,
    /// What they are called: [`names`].
    pub(crate) names: [String; 2],
    pub(crate) map: LessonMap,
    pub(crate) found: ScopeComparison,
    /// Readers under both, if there are any to compare.
    pub(crate) readers: Option<Vec<ComparedReader>>,
    pub(crate) errors: Vec<ErrorReport>,
}

/// A reader under both scopes.
pub(crate) struct ComparedReader {
    pub(crate) name: String,
    pub(crate) title: Option<String>,
    pub(crate) old: Fit,
    pub(crate) new: Refit,
    /// The percentage of readable words that is required.
    pub(crate) least: f64,
    /// What is to be said of how it was read.
    pub(crate) note: Option<String>,
}

/// What two scopes are called: by their titles, and as they were named on the command line too where the titles are the same.
pub(crate) fn names(scopes: [&Scope; 2], named: [&str; 2]) -> [String; 2] {
    match scopes.map(Scope::title) {
        [one, other] if one == other => named.map(|named| format!("{one} ({named})")),
        titles => titles.map(str::to_owned),
    }
}

impl ComparedReader {
    /// Whether it could be read at its lesson in the old scope and cannot in the new.
    pub(crate) fn falls_short(&self) -> bool {
        !self.new.no_lesson && self.old.timing() != Timing::Early && self.new.fit.timing() == Timing::Early
    }

    /// The other way round.
    pub(crate) fn comes_right(&self) -> bool {
        !self.new.no_lesson && self.old.timing() == Timing::Early && self.new.fit.timing() != Timing::Early
    }
}

impl Comparison {
    /// The readers that fall short in the new scope only.
    pub(crate) fn falling_short(&self) -> impl Iterator<Item = &ComparedReader> {
        self.readers.iter().flatten().filter(|reader| reader.falls_short())
    }

    fn old_id(&self, lesson: Option<LessonIndex>) -> Option<&'static str> {
        lesson.map(|lesson| self.old.id(lesson))
    }

    fn new_id(&self, lesson: Option<LessonIndex>) -> Option<&'static str> {
        lesson.map(|lesson| self.new.id(lesson))
    }

    /// The words of a change that children know or that a scope teaches whole, those first that the youngest know: only these are
    /// named.
    fn words(&self, change: Change) -> Vec<&Move> {
        let taught = |word: &str| [self.old, self.new].iter().any(|scope| scope.sight_lesson(word).is_some());
        let all = self.found.words.iter().filter(|word| word.change == change);
        let known = |word: &str| taught(word) || untaught_lists::is_known_to_children(word);
        let mut words: Vec<&Move> = all.filter(|word| known(&word.name)).collect();
        words.sort_by_key(|word| untaught_lists::known_from(&word.name));
        words
    }

    fn number_of_words(&self, change: Change) -> usize {
        self.found.words.iter().filter(|word| word.change == change).count()
    }
}
