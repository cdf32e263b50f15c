//! What a checker keeps between texts: the words it has seen, and their status at the lesson of the last text.
//!
//! The texts in a folder share most of their words and often their lesson. Each occurrence of a word is looked up once;
//! everything else about the word is found by its number.

use std::ops::Range;
use std::sync::Arc;

use crate::types::Types;
use crate::{Focus, Judge, LessonIndex, Need, Status, Verdict};

/// What a [`Checker`](super::Checker) remembers about one scope; it is cleared for a different scope. A caller that owns its
/// scope can keep it between checks.
#[derive(Debug, Default)]
pub struct Memory {
    types: Types,
    known: Vec<KnownWord>,
    /// One entry for each known word.
    pub(super) tallies: Vec<Tally>,
    /// The distinct words of the text, kept only to reuse the allocation.
    pub(super) met: Vec<TextWord>,
    /// The number of the last text, from 1.
    text: u32,
    /// The scope that the memory belongs to.
    scope: Option<u64>,
    practice: Option<LessonFocus>,
}

/// The counts of a word. Small, so that the words of a text stay in the CPU cache. A text below 8 GiB has too few words for these
/// numbers to overflow; a longer text would be miscounted, not fail.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Tally {
    /// The text that the counts belong to.
    pub(super) text: u32,
    /// The word's number among the distinct words of the text.
    pub(super) number: u32,
    pub(super) count: u32,
    pub(super) capitals: u32,
    pub(super) inner_capitals: u32,
    /// Number of positions still to keep.
    pub(super) room: u32,
}

/// A distinct word of the text.
#[derive(Debug)]
pub(super) struct TextWord {
    /// Its number in the memory.
    pub(super) known: usize,
    pub(super) status: Status,
    pub(super) declared: bool,
    pub(super) two_readings: bool,
    pub(super) places: Vec<Range<usize>>,
}

/// A word that has been judged.
#[derive(Debug)]
struct KnownWord {
    verdict: Arc<Verdict>,
    /// The lesson that the other fields belong to.
    lesson: LessonIndex,
    at: Option<StatusAt>,
    needs: Option<Arc<[Need]>>,
    /// Whether it practises what its lesson teaches, and what it reviews.
    practises: Option<[bool; 2]>,
}

/// The status of a word at a lesson, kept so that most texts do not need its verdict.
#[derive(Clone, Copy, Debug)]
pub(super) struct StatusAt {
    /// Its status if it is not declared.
    pub(super) status: Status,
    /// Whether another reading is not yet decodable.
    pub(super) two_readings: bool,
}

/// The patterns that a lesson practises.
#[derive(Debug)]
struct LessonFocus {
    lesson: LessonIndex,
    /// Those it teaches, and those it reviews.
    patterns: Arc<[Focus; 2]>,
}

/// Maximum number of words to remember, which take about ten megabytes.
const KNOWN: usize = 1 << 16;

impl Memory {
    /// Number of words remembered.
    #[must_use]
    pub fn len(&self) -> usize {
        self.known.len()
    }

    /// Whether no words are remembered.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.known.is_empty()
    }

    /// Begins a text against a scope; returns the text's number.
    pub(super) fn begin(&mut self, scope: u64) -> u32 {
        if self.known.len() >= KNOWN || self.text == u32::MAX || self.scope != Some(scope) {
            *self = Memory { scope: Some(scope), ..Memory::default() };
        }
        self.text += 1;
        self.text
    }

    /// Returns the number of the word at `span`; judges the word if it is new.
    #[inline]
    pub(super) fn number(&mut self, judge: &Judge<'_>, text: &str, span: Range<usize>) -> usize {
        let (number, is_new) = self.types.number(text, span.start, span.end);
        if is_new {
            self.learn(judge, &text[span]);
        }
        number
    }

    #[cold]
    fn learn(&mut self, judge: &Judge<'_>, written: &str) {
        let verdict = Arc::new(judge.judge(written));
        self.known.push(KnownWord { verdict, lesson: LessonIndex::FIRST, at: None, needs: None, practises: None });
        self.tallies.push(Tally::default());
    }

    pub(super) fn verdict(&self, number: usize) -> &Arc<Verdict> {
        &self.known[number].verdict
    }

    /// Returns the status of a word at a lesson.
    pub(super) fn at(&mut self, number: usize, lesson: LessonIndex) -> StatusAt {
        let known = self.known[number].about(lesson);
        let look = || StatusAt {
            status: known.verdict.status(lesson, false),
            two_readings: known.verdict.other_reading(lesson).is_some(),
        };
        *known.at.get_or_insert_with(look)
    }

    /// Returns what a word needs at a lesson.
    pub(super) fn needs(&mut self, judge: &Judge<'_>, number: usize, lesson: LessonIndex) -> Arc<[Need]> {
        let known = self.known[number].about(lesson);
        Arc::clone(known.needs.get_or_insert_with(|| judge.needs(&known.verdict, lesson).into()))
    }

    /// Returns what a lesson teaches, and what it reviews.
    pub(super) fn practice(&mut self, judge: &Judge<'_>, lesson: LessonIndex) -> Arc<[Focus; 2]> {
        if let Some(practice) = &self.practice
            && practice.lesson == lesson
        {
            return Arc::clone(&practice.patterns);
        }
        let review = judge.scope().lesson(lesson).map_or(&[][..], |lesson| &lesson.review_patterns);
        let patterns = Arc::new([Focus::of_lesson(judge.scope(), lesson), Focus::of(judge.scope(), review)]);
        self.practice = Some(LessonFocus { lesson, patterns: Arc::clone(&patterns) });
        patterns
    }

    /// Whether a word practises what its lesson teaches, and what it reviews.
    pub(super) fn practises(
        &mut self,
        judge: &Judge<'_>,
        number: usize,
        lesson: LessonIndex,
        of: &[Focus; 2],
    ) -> [bool; 2] {
        let known = self.known[number].about(lesson);
        let verdict = &known.verdict;
        *known.practises.get_or_insert_with(|| of.each_ref().map(|focus| practises(judge, verdict, focus)))
    }
}

/// Whether a word's first reading practises some patterns.
pub(super) fn practises(judge: &Judge<'_>, verdict: &Verdict, focus: &Focus) -> bool {
    let reading = verdict.word.readings.first();
    reading.is_some_and(|reading| focus.is_in(judge.reader(), &verdict.word.text, reading))
}

impl KnownWord {
    /// Clears what belongs to another lesson and returns itself.
    fn about(&mut self, lesson: LessonIndex) -> &mut KnownWord {
        if self.lesson != lesson {
            self.lesson = lesson;
            self.at = None;
            self.needs = None;
            self.practises = None;
        }
        self
    }
}
