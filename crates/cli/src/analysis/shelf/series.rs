//! What happens from reader to reader: when each word, pattern and lesson is met, and how long it is not.

use untaught::{LessonIndex, Scope, Status, fold_word};

use super::{Book, Vocabulary};

/// When something is met in a series of readers, which are numbered from 0.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(crate) struct Trace {
    /// Running words.
    pub(crate) times: usize,
    /// Readers that have any.
    pub(crate) readers: usize,
    /// The first and the last of these; meaningless if there are none.
    pub(crate) first: usize,
    pub(crate) last: usize,
    /// The most readers in a row without it, between two that have it.
    pub(crate) longest_gap: usize,
}

impl Trace {
    /// Counts it in a reader, which no earlier call may have named a later one than.
    fn meet(&mut self, reader: usize, times: usize) {
        if times == 0 {
            return;
        }
        if self.readers == 0 {
            self.first = reader;
        } else if reader > self.last {
            self.longest_gap = self.longest_gap.max(reader - self.last - 1);
        }
        if self.readers == 0 || reader > self.last {
            self.readers += 1;
        }
        self.last = reader;
        self.times += times;
    }

    /// How many readers of a series come after the last that has it; none if none has it.
    pub(crate) fn since(&self, readers: usize) -> Option<usize> {
        (self.readers > 0).then(|| readers - 1 - self.last)
    }
}

/// When a pattern of the scope is met.
#[derive(Clone, Debug)]
pub(crate) struct PatternSeries {
    pub(crate) label: String,
    pub(crate) lesson: LessonIndex,
    /// The decodable words that practise it.
    pub(crate) practice: Trace,
    /// Running words with it in readers that come before its lesson, whether they can be read there or not.
    pub(crate) before: usize,
    /// Words that practise it in the readers of its lesson, and in those of later lessons.
    pub(crate) at: usize,
    pub(crate) after: usize,
}

/// When a word that the scope teaches whole is met.
#[derive(Clone, Debug)]
pub(crate) struct SightSeries {
    pub(crate) word: String,
    pub(crate) lesson: LessonIndex,
    /// Its number in the vocabulary; none if no reader has it.
    pub(crate) number: Option<u32>,
    /// How often readers that come before its lesson have it.
    pub(crate) before: usize,
}

/// What the readers of a lesson come to.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(crate) struct LessonSeries {
    pub(crate) readers: usize,
    pub(crate) words: usize,
    pub(crate) new_words: usize,
}

/// A shelf from its first reader to its last.
#[derive(Default)]
pub(crate) struct Series {
    /// By number in the vocabulary.
    pub(crate) words: Vec<Trace>,
    /// In scope order.
    pub(crate) patterns: Vec<PatternSeries>,
    pub(crate) sight: Vec<SightSeries>,
    /// By lesson of the scope.
    pub(crate) lessons: Vec<LessonSeries>,
    /// For each reader, how many of its words no reader before it has.
    pub(crate) new_words: Vec<usize>,
}

impl Series {
    /// Follows the readers in order.
    pub(crate) fn of(books: &[Book], vocabulary: &Vocabulary, scope: &Scope) -> Series {
        let pattern = |(label, lesson): (String, LessonIndex)| PatternSeries {
            label,
            lesson,
            practice: Trace::default(),
            before: 0,
            at: 0,
            after: 0,
        };
        let taught = vocabulary.patterns().iter().map(|taught| (taught.label.clone(), taught.lesson));
        let sight = |(lesson, word): (LessonIndex, &String)| SightSeries {
            word: word.clone(),
            lesson,
            number: vocabulary.find(&fold_word(word)),
            before: 0,
        };
        let whole =
            scope.indexed_lessons().flat_map(|(index, lesson)| lesson.sight.iter().map(move |word| (index, word)));
        let mut series = Series {
            words: vec![Trace::default(); vocabulary.len()],
            patterns: taught.map(pattern).collect(),
            sight: whole.map(sight).collect(),
            lessons: vec![LessonSeries::default(); scope.lessons().len()],
            new_words: Vec::with_capacity(books.len()),
        };
        let mut before_sight = vec![0; vocabulary.len()];
        for (number, book) in books.iter().enumerate() {
            series.follow(number, book, vocabulary, &mut before_sight);
        }
        for sight in &mut series.sight {
            sight.before = sight.number.map_or(0, |number| before_sight[number as usize]);
        }
        series
    }

    fn follow(&mut self, number: usize, book: &Book, vocabulary: &Vocabulary, before_sight: &mut [usize]) {
        let lesson = book.fit.lesson();
        let comes_before = |taught: LessonIndex| lesson.is_some_and(|lesson| lesson < taught);
        let mut new = 0;
        for word in &book.uses {
            let (at, times) = (word.word as usize, word.times as usize);
            new += usize::from(self.words[at].readers == 0);
            self.words[at].meet(number, times);
            let known = vocabulary.word(word.word);
            if known.taught_whole.is_some_and(comes_before) {
                before_sight[at] += times;
            }
            for pattern in &known.patterns {
                let pattern = &mut self.patterns[usize::from(*pattern)];
                if comes_before(pattern.lesson) {
                    pattern.before += times;
                }
                if word.status != Status::Decodable {
                    continue;
                }
                pattern.practice.meet(number, times);
                if lesson == Some(pattern.lesson) {
                    pattern.at += times;
                } else if !comes_before(pattern.lesson) {
                    pattern.after += times;
                }
            }
        }
        self.new_words.push(new);
        if let Some(lesson) = lesson.and_then(|lesson| self.lessons.get_mut(lesson.get())) {
            lesson.readers += 1;
            lesson.words += book.words;
            lesson.new_words += new;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gaps_are_the_readers_without_it_between_two_that_have_it() {
        let mut trace = Trace::default();
        assert_eq!(trace.since(9), None);
        for (reader, times) in [(1, 2), (1, 1), (2, 0), (5, 1), (6, 1)] {
            trace.meet(reader, times);
        }
        assert_eq!(trace, Trace { times: 5, readers: 3, first: 1, last: 6, longest_gap: 3 });
        assert_eq!(trace.since(9), Some(2));
        assert_eq!(trace.since(7), Some(0));
    }
}
