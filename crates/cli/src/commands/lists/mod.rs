//! The lists of a lesson: `untaught words`, `chain`, `boxes`, `contrast`, `dictation` and `pack`.

pub(crate) mod boxes;
pub(crate) mod chain;
pub(crate) mod contrast;
pub(crate) mod dictation;
pub(crate) mod pack;
pub(crate) mod words;

use untaught::{Focus, Judge, LessonIndex, Pattern, Reader, Scope};
use untaught_lists::{Bank, Vocabulary};

use crate::args::{ForLesson, VocabularyArgs};
use crate::output::Failure;
use crate::settings::RunSettings;

/// A lesson of a scope.
struct ListLesson {
    reader: &'static Reader,
    scope: &'static Scope,
    lesson: LessonIndex,
    vocabulary: Vocabulary,
}

/// The words that were asked for.
fn vocabulary(asked: &VocabularyArgs) -> Vocabulary {
    match (asked.rarer, asked.older) {
        (true, _) => Vocabulary::with_rarer(),
        (false, older) => Vocabulary { older, ..Vocabulary::default() },
    }
}

impl ListLesson {
    fn new(args: &ForLesson) -> Result<ListLesson, Failure> {
        ListLesson::of(&RunSettings::new(args.settings(), &args.config)?, &args.vocabulary)
    }

    /// The lesson that the settings name for a command that is about no text.
    fn of(settings: &RunSettings, asked: &VocabularyArgs) -> Result<ListLesson, Failure> {
        let (scope, lesson) = settings.lesson_without_text()?;
        Ok(ListLesson { reader: settings.reader, scope, lesson, vocabulary: vocabulary(asked) })
    }

    fn judge(&self) -> Judge<'static> {
        Judge::new(self.reader, self.scope)
    }

    fn bank(&self, syllables: std::ops::RangeInclusive<usize>) -> Bank<'static> {
        Bank::new(self.judge(), self.lesson, self.vocabulary, syllables)
    }

    /// The lesson for people: `lesson 15 (sh and ch) of Starter`.
    fn named(&self) -> String {
        let title = self.scope.lesson(self.lesson).map_or("", |lesson| lesson.title.as_str());
        let title = if title.is_empty() { String::new() } else { format!(" ({title})") };
        format!("lesson {}{title} of {}", self.scope.id(self.lesson), self.scope.title())
    }

    /// Reads patterns as they were typed.
    fn patterns(&self, written: &[String]) -> Result<Vec<Pattern>, Failure> {
        let reader = self.reader.for_scope(self.scope);
        let read = written.iter().map(|text| Pattern::parse(text, reader));
        read.collect::<Result<_, String>>().map_err(Failure::Message)
    }

    /// The patterns to practise: those that were typed, else those that the lesson teaches, else those that it reviews.
    fn focus(&self, written: &[String]) -> Result<Focus, Failure> {
        if !written.is_empty() {
            return Ok(Focus::of(self.scope, &self.patterns(written)?));
        }
        Ok(Focus::practised_at(self.scope, self.lesson))
    }
}
