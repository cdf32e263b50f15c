//! The lists of a lesson: `untaught words`, `chain`, `boxes`, `contrast`, `dictation` and `pack`.

pub(crate) mod boxes;
pub(crate) mod chain;
pub(crate) mod contrast;
pub(crate) mod dictation;
pub(crate) mod pack;
pub(crate) mod words;

use untaught::{Focus, Judge, LessonIndex, Pattern, Reader, Scope};
use untaught_lists::Bank;

use crate::args::ForLesson;
use crate::input;
use crate::output::Failure;

/// A lesson of a scope.
struct At {
    reader: &'static Reader,
    scope: &'static Scope,
    place: LessonIndex,
    class: u8,
}

/// The size class of the words.
fn class(rarer: bool) -> u8 {
    if rarer { 40 } else { untaught_lists::USUAL_CLASS }
}

impl At {
    fn new(args: &ForLesson) -> Result<At, Failure> {
        At::of(args.scope.as_deref(), args.lesson.as_deref(), args.rarer)
    }

    /// The scope and the lesson that the arguments name; without them the default scope and its last lesson.
    fn of(scope: Option<&str>, lesson: Option<&str>, rarer: bool) -> Result<At, Failure> {
        // Both last as long as the program.
        let reader: &'static Reader = Box::leak(Box::default());
        let scope: &'static Scope = Box::leak(Box::new(input::scope(scope, reader)?));
        let place = lesson.map(|id| scope.index_of(id)).transpose()?;
        Ok(At { reader, scope, place: place.unwrap_or(scope.last()), class: class(rarer) })
    }

    fn judge(&self) -> Judge<'static> {
        Judge::new(self.reader, self.scope)
    }

    fn bank(&self, syllables: std::ops::RangeInclusive<usize>) -> Bank<'static> {
        Bank::new(self.judge(), self.place, self.class, syllables)
    }

    /// The lesson for people: `lesson 15 (sh and ch) of Starter`.
    fn named(&self) -> String {
        let title = self.scope.lesson(self.place).map_or("", |lesson| lesson.title.as_str());
        let title = if title.is_empty() { String::new() } else { format!(" ({title})") };
        format!("lesson {}{title} of {}", self.scope.id(self.place), self.scope.title())
    }

    /// Reads patterns as they were typed.
    fn patterns(&self, written: &[String]) -> Result<Vec<Pattern>, Failure> {
        let read = written.iter().map(|text| Pattern::parse(text, self.reader));
        read.collect::<Result<_, String>>().map_err(Failure::Message)
    }

    /// The patterns to practise: those that were typed, else those that the lesson teaches, else those that it reviews.
    fn focus(&self, written: &[String]) -> Result<Focus, Failure> {
        if !written.is_empty() {
            return Ok(Focus::of(self.scope, &self.patterns(written)?));
        }
        Ok(Focus::practised_at(self.scope, self.place))
    }
}
