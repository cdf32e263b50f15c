//! Focus: how much a text practises some patterns.

use std::ops::RangeInclusive;

use untaught_phonics::{CorrespondenceId, Grade, spelled};

use crate::{Pattern, Place, Reader, Reading, Scope};

/// Patterns to look for in readings.
#[derive(Clone, Debug)]
pub struct Focus {
    /// Their names.
    pub labels: Vec<String>,
    singles: Vec<CorrespondenceId>,
    runs: Vec<crate::Run>,
}

impl Focus {
    /// The patterns that a lesson itself teaches.
    #[must_use]
    pub fn of_lesson(scope: &Scope, place: Place) -> Focus {
        Focus::of(scope, scope.lesson(place).map_or(&[], |lesson| &lesson.patterns))
    }

    /// What a lesson practises: the patterns that it teaches, else those that it reviews.
    #[must_use]
    pub fn practised_at(scope: &Scope, place: Place) -> Focus {
        let lesson = scope.lesson(place);
        let taught = lesson.map_or(&[][..], |lesson| &lesson.patterns);
        let reviewed = lesson.map_or(&[][..], |lesson| &lesson.review_patterns);
        Focus::of(scope, if taught.is_empty() { reviewed } else { taught })
    }

    /// Some patterns, as the scope understands them: of a bare spelling the sounds that it teaches there.
    #[must_use]
    pub fn of(scope: &Scope, patterns: &[Pattern]) -> Focus {
        let mut focus =
            Focus { labels: patterns.iter().map(Pattern::label).collect(), singles: Vec::new(), runs: Vec::new() };
        for pattern in patterns {
            match pattern {
                Pattern::One(id, _) => focus.singles.push(*id),
                Pattern::Run(run) => focus.runs.push(run.clone()),
                Pattern::Bare(spelling) => {
                    let everyday = spelled(spelling).filter(|id| id.get().grade == Grade::Everyday);
                    let taught_here = |id: &CorrespondenceId| !scope.names(*id);
                    focus.singles.extend(everyday.filter(taught_here));
                }
            }
        }
        focus
    }

    /// Whether a correspondence is looked for on its own.
    #[must_use]
    pub fn teaches(&self, id: CorrespondenceId) -> bool {
        self.singles.contains(&id)
    }

    /// Whether a correspondence is looked for on its own, or begins a chunk that is: without one no reading practises any.
    #[must_use]
    pub fn touches(&self, id: CorrespondenceId) -> bool {
        self.teaches(id) || self.runs.iter().any(|run| run.parts.iter().any(|parts| parts.first() == Some(&id)))
    }

    /// Whether there is nothing to look for.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.singles.is_empty() && self.runs.is_empty()
    }

    /// Where in a reading of a word the patterns stand: numbers of the first and last part of each stretch.
    #[must_use]
    pub fn stretches(&self, reader: &Reader, word: &str, reading: &Reading) -> Vec<RangeInclusive<usize>> {
        let parts = &reading.parts;
        let is_single = |at: &usize| parts[*at].id().is_some_and(|id| self.singles.contains(&id));
        let mut found: Vec<RangeInclusive<usize>> = (0..parts.len()).filter(is_single).map(|at| at..=at).collect();
        for run in &self.runs {
            let one = Focus { labels: Vec::new(), singles: Vec::new(), runs: vec![run.clone()] };
            if !one.is_in(reader, word, reading) {
                continue;
            }
            for list in &run.parts {
                let fits = |at: &usize| {
                    parts[*at..].iter().zip(list).filter(|(a, b)| a.id() == Some(**b)).count() == list.len()
                };
                found.extend((0..parts.len()).filter(fits).map(|at| at..=at + list.len() - 1));
            }
        }
        found
    }

    /// Whether a reading of a word practises one of the patterns; an ending or beginning only where the word is made with it.
    #[must_use]
    pub fn is_in(&self, reader: &Reader, word: &str, reading: &Reading) -> bool {
        let parts = &reading.parts;
        let single = |part: &crate::Part| part.id().is_some_and(|id| self.singles.contains(&id));
        let run = |run: &crate::Run| {
            let spelled = run.parts.iter().any(|list| {
                let fits = |at: usize| parts[at..].iter().zip(list).all(|(a, b)| a.id() == Some(*b));
                let last = parts.len().checked_sub(list.len());
                last.is_some_and(|last| match (run.start, run.end) {
                    (true, _) => fits(0),
                    (_, true) => fits(last) && last > 0,
                    _ => (0..=last).any(fits),
                })
            });
            // Whether the word is made with it is the dearer question.
            spelled && run.affix().is_none_or(|affix| reader.base_of(word, reading, affix).is_some())
        };
        parts.iter().any(single) || self.runs.iter().any(run)
    }
}
