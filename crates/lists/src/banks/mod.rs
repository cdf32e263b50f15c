//! A bank of words for a lesson: the words of the dictionary that can be sounded out by then, are common, and are fit for children.

mod shape;

use std::ops::RangeInclusive;

use serde::{Deserialize, Serialize};
use untaught::{Candidate, Decodable, Focus, Judge, LessonIndex, Reading};
use untaught_phonics::CorrespondenceId;

use crate::ages::{OLDER, Vocabulary, known_from};
use crate::dialect::is_said;
use crate::fitness::{Purpose, is_fit, is_fit_as_heard};
use crate::parallel;
use crate::sounds::{SpokenSound, heard};

pub use shape::Shape;

/// A word of a bank.
#[derive(Clone, Debug)]
pub struct BankWord {
    /// The word.
    pub word: String,
    /// How common it is: a size class, 10 the commonest.
    pub class: u8,
    /// The age at which children know it: 5 to 8, or [`OLDER`].
    pub age: u8,
    /// Whether it is a plural, a form of a verb or a compared adjective: in lists its base does better.
    pub inflected: bool,
    /// The reading that counts.
    pub reading: Reading,
    /// Its sounds in order.
    pub sounds: Vec<SpokenSound>,
    /// The lesson from which it can be sounded out.
    pub first: LessonIndex,
}

/// The words that can be sounded out at a lesson.
#[derive(Debug)]
pub struct Bank<'a> {
    /// Judges words against the scope.
    pub judge: Judge<'a>,
    /// The lesson.
    pub lesson: LessonIndex,
    /// The words: those that are no inflected forms first, then those that the youngest children know, then the commonest classes, then in
    /// alphabetical order.
    pub words: Vec<BankWord>,
}

/// Where in a word a pattern is.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WordPosition {
    /// It is the first part.
    Start,
    /// It is neither the first part nor the last.
    Middle,
    /// It is the last part, or its split e ends the word.
    End,
}

impl WordPosition {
    /// The place for people: *at the start*.
    #[must_use]
    pub fn phrase(self) -> &'static str {
        match self {
            WordPosition::Start => "at the start",
            WordPosition::Middle => "in the middle",
            WordPosition::End => "at the end",
        }
    }
}

/// Which words of a bank to select.
#[derive(Clone, Debug)]
pub struct WordFilter {
    /// Only words that practise one of these patterns.
    pub focus: Option<Focus>,
    /// Only words that have the pattern there; goes with a focus.
    pub position: Option<WordPosition>,
    /// Numbers of sounds.
    pub sounds: RangeInclusive<usize>,
    /// Numbers of syllables.
    pub syllables: RangeInclusive<usize>,
    /// Only words of this shape.
    pub shape: Option<Shape>,
    /// Only words that can be sounded out from just this lesson on.
    pub only_new: bool,
}

impl Default for WordFilter {
    fn default() -> Self {
        WordFilter {
            focus: None,
            position: None,
            sounds: 1..=usize::MAX,
            syllables: 1..=usize::MAX,
            shape: None,
            only_new: false,
        }
    }
}

impl<'a> Bank<'a> {
    /// The words of a vocabulary (the usual one: some thirty-four thousand candidates) with so many syllables. Cost: a pass over the
    /// dictionary, and a judgement for each word whose parts have been taught.
    #[must_use]
    pub fn new(
        judge: Judge<'a>,
        lesson: LessonIndex,
        vocabulary: Vocabulary,
        syllables: RangeInclusive<usize>,
    ) -> Bank<'a> {
        Bank::practising(judge, lesson, vocabulary, syllables, None)
    }

    /// The same, but of words that may practise some patterns: fewer are judged.
    #[must_use]
    pub fn practising(
        judge: Judge<'a>,
        lesson: LessonIndex,
        vocabulary: Vocabulary,
        syllables: RangeInclusive<usize>,
        focus: Option<&Focus>,
    ) -> Bank<'a> {
        let oldest = if vocabulary.older { OLDER } else { judge.scope().age() };
        let touched: Option<Vec<bool>> =
            focus.map(|focus| CorrespondenceId::all().map(|id| focus.touches(id)).collect());
        let accent = judge.scope().accent();
        let may_be = |candidate: &Candidate| {
            let word = candidate.word();
            is_plain(word)
                && is_said(word, accent)
                && candidate.has_syllables(&syllables)
                && is_fit(word, Purpose::Listed)
        };
        let look = |candidate: &Candidate| {
            let candidate = Some(*candidate).filter(may_be)?;
            let Decodable { word, first, base, class } = judge.decodable(candidate, lesson)?;
            if word.is_homograph() {
                return None;
            }
            let reading = word.readings.into_iter().next()?;
            let sounds = heard(&reading)?;
            // A form of a word that is unfit is no better than it.
            if base.as_ref().is_some_and(|base| !is_fit(base, Purpose::Listed)) {
                return None;
            }
            let inflected = base.is_some();
            let age = known_from(&word.text).min(base.as_deref().map_or(OLDER, known_from));
            let fits = age <= oldest
                && syllables.contains(&reading.syllables())
                && is_fit_as_heard(&word.text, &sounds, Purpose::Listed);
            fits.then_some(BankWord { word: word.text, class, age, inflected, reading, sounds, first })
        };
        let practises =
            |candidate: &Candidate| touched.as_ref().is_none_or(|touched| candidate.has(|id| touched[id.index()]));
        let candidates: Vec<Candidate> = judge.candidates(lesson, vocabulary.class).filter(practises).collect();
        let mut words = parallel::filter_map(&candidates, look);
        // They come in alphabetical order, and keep it.
        words.sort_by_key(|word| (word.inflected, word.age, word.class));
        Bank { judge, lesson, words }
    }

    /// The words that a filter lets through, in the order of the bank.
    #[must_use]
    pub fn select(&self, filter: &WordFilter) -> Vec<&BankWord> {
        self.words.iter().filter(|word| self.passes(word, filter)).collect()
    }

    fn passes(&self, word: &BankWord, filter: &WordFilter) -> bool {
        filter.sounds.contains(&word.sounds.len())
            && filter.syllables.contains(&word.reading.syllables())
            && filter.shape.as_ref().is_none_or(|shape| *shape == Shape::of(&word.sounds))
            && (!filter.only_new || word.first == self.lesson)
            && filter.focus.as_ref().is_none_or(|focus| self.practises(word, focus, filter.position))
    }

    /// Whether a word practises some patterns, at a place if one is given.
    #[must_use]
    pub fn practises(&self, word: &BankWord, focus: &Focus, position: Option<WordPosition>) -> bool {
        let Some(position) = position else {
            return focus.is_in(self.judge.reader(), &word.word, &word.reading);
        };
        let stretches = focus.stretches(self.judge.reader(), &word.word, &word.reading);
        let last = word.reading.parts.len();
        let at = |stretch: &RangeInclusive<usize>, position| {
            let (start, end) = (*stretch.start() == 0, ends(&word.reading, *stretch.end()));
            match position {
                WordPosition::Start => start,
                WordPosition::End => end,
                WordPosition::Middle => !start && !end && last > 0,
            }
        };
        stretches.iter().any(|stretch| at(stretch, position))
    }
}

/// Whether a part ends the word, or its e does.
fn ends(reading: &Reading, part: usize) -> bool {
    let last = reading.parts.len() - 1;
    part == last || part + 1 == last && reading.parts[part].spelling().contains('_')
}

/// Letters only: neither an apostrophe nor an accent.
fn is_plain(word: &str) -> bool {
    word.bytes().all(|b| b.is_ascii_lowercase()) && (word.len() > 1 || word == "a")
}
