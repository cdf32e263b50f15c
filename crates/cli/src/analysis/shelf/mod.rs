//! A folder of readers as one series: what each practises, how words and patterns come again, what is still missing.

mod book;
mod order;
mod series;
mod vocabulary;

use std::collections::HashSet;

use untaught::{LessonIndex, Scope, Status};

pub(crate) use book::{Book, BookDraft, Fit, Timing};
use order::proposed_order;
pub(crate) use series::{LessonSeries, PatternSeries, Series, SightSeries, Trace};
pub(crate) use vocabulary::{ShelfWord, Vocabulary};

/// The whole shelf.
pub(crate) struct Shelf {
    /// None if no text could be read.
    pub(crate) scope: Option<&'static Scope>,
    /// The scope that it is compared with, and what it is called.
    pub(crate) other: Option<(&'static Scope, String)>,
    /// In the order of the lessons that they are meant for; those that name none come last.
    pub(crate) books: Vec<Book>,
    vocabulary: Option<Vocabulary>,
    pub(crate) series: Series,
    pub(crate) lacks: Lacks,
    /// The proposed order, if it was asked for: numbers of books.
    pub(crate) order: Option<Vec<usize>>,
    /// How often a pattern or a sight word has to come.
    pub(crate) enough: usize,
}

/// What a scope teaches and a shelf does not have, or too little of.
#[derive(Default)]
pub(crate) struct Lacks {
    /// The lesson of the last reader.
    pub(crate) last: Option<LessonIndex>,
    /// Lessons up to that one without a reader.
    pub(crate) lessons: Vec<LessonIndex>,
    /// Lessons after it.
    pub(crate) lessons_to_come: Vec<LessonIndex>,
    /// Numbers of patterns taught by then and practised too little.
    pub(crate) patterns: Vec<usize>,
    /// Numbers of sight words taught by then that come too little.
    pub(crate) sight: Vec<usize>,
}

impl Shelf {
    /// Puts books of one scope on a shelf.
    pub(crate) fn new(
        scope: Option<(&'static Scope, Vocabulary)>,
        other: Option<(&'static Scope, String)>,
        mut books: Vec<Book>,
        enough: usize,
        propose_order: bool,
    ) -> Shelf {
        books.sort_by_key(|book| (book.fit.meant_for.is_none(), book.fit.meant_for));
        let (scope, vocabulary) = scope.unzip();
        let series = match (&vocabulary, scope) {
            (Some(vocabulary), Some(scope)) => Series::of(&books, vocabulary, scope),
            _ => Series::default(),
        };
        let last = books.iter().filter_map(|book| book.fit.lesson()).max();
        let lacks = scope.map_or_else(Lacks::default, |scope| Lacks::of(&series, scope, last, enough));
        let order = propose_order.then(|| proposed_order(&books));
        Shelf { scope, other, books, vocabulary, series, lacks, order, enough }
    }

    /// The books that are too early or too late.
    pub(crate) fn misplaced(&self) -> impl Iterator<Item = &Book> {
        self.books.iter().filter(|book| matches!(book.fit.timing(), Timing::Early | Timing::Late))
    }

    /// The id of a lesson; none for none.
    pub(crate) fn id(&self, lesson: Option<LessonIndex>) -> Option<&'static str> {
        Some(self.scope?.id(lesson?))
    }

    /// The id of a lesson of the scope that the shelf is compared with; none for none.
    pub(crate) fn other_id(&self, lesson: Option<LessonIndex>) -> Option<&'static str> {
        Some(self.other.as_ref()?.0.id(lesson?))
    }

    /// The words of the shelf with their numbers, in the order in which its readers have them.
    pub(crate) fn words(&self) -> impl Iterator<Item = (u32, &ShelfWord)> {
        let numbers = new_words(&self.books, 0..self.books.len()).into_iter().flat_map(|(_, new)| new);
        numbers.filter_map(|number| Some((number, self.vocabulary.as_ref()?.word(number))))
    }

    /// A word by its number.
    pub(crate) fn word(&self, number: u32) -> &str {
        self.vocabulary.as_ref().map_or("", |vocabulary| &vocabulary.word(number).text)
    }

    pub(crate) fn trace(&self, word: u32) -> Trace {
        self.series.words.get(word as usize).copied().unwrap_or_default()
    }

    /// How often a book practises each pattern.
    pub(crate) fn practised(&self, book: &Book) -> Vec<usize> {
        let mut counts = vec![0; self.series.patterns.len()];
        let Some(vocabulary) = &self.vocabulary else { return counts };
        for word in book.uses.iter().filter(|word| word.status == Status::Decodable) {
            for pattern in &vocabulary.word(word.word).patterns {
                counts[usize::from(*pattern)] += word.times as usize;
            }
        }
        counts
    }

    /// The words of a book that cannot be read at its lesson, the latest first, each with the lesson from which it can.
    pub(crate) fn untaught(&self, book: &Book) -> Vec<(&str, Option<LessonIndex>)> {
        let Some(vocabulary) = &self.vocabulary else { return Vec::new() };
        let untaught = book.uses.iter().filter(|word| word.status == Status::Untaught);
        let words = untaught.map(|word| vocabulary.word(word.word));
        let mut words: Vec<_> = words.map(|word| (&*word.text, word.readable)).collect();
        words.sort_by_key(|(_, lesson)| (lesson.is_some(), std::cmp::Reverse(*lesson)));
        words
    }

    /// The patterns that a book has before their lesson, with how often.
    pub(crate) fn before_their_lesson(&self, book: &Book) -> Vec<(usize, usize)> {
        let (Some(vocabulary), Some(lesson)) = (&self.vocabulary, book.fit.lesson()) else { return Vec::new() };
        let mut found = Vec::new();
        for word in &book.uses {
            let numbers = vocabulary.word(word.word).patterns.iter().map(|number| usize::from(*number));
            let early = numbers.filter(|number| self.series.patterns[*number].lesson > lesson);
            found.extend(early.map(|number| (number, word.times as usize)));
        }
        found
    }

    /// From how many readers without it on a word or a pattern is pointed out: a third of the shelf, and at least three.
    pub(crate) fn long_gap(&self) -> usize {
        (self.books.len() / 3).max(3)
    }

    /// Running words of the whole shelf.
    pub(crate) fn running_words(&self) -> usize {
        self.books.iter().map(|book| book.words).sum()
    }
}

impl Lacks {
    fn of(series: &Series, scope: &Scope, last: Option<LessonIndex>, enough: usize) -> Lacks {
        let by_then = |lesson: LessonIndex| last.is_some_and(|last| lesson <= last);
        let without = scope.indexed_lessons().map(|(index, _)| index);
        let without = without.filter(|index| series.lessons[index.get()].readers == 0);
        let (lessons, lessons_to_come) = without.partition(|index| by_then(*index));
        let patterns = series.patterns.iter().enumerate();
        let patterns = patterns.filter(|(_, row)| by_then(row.lesson) && row.practice.times < enough);
        let times = |row: &SightSeries| row.number.map_or(0, |number| series.words[number as usize].times);
        let sight = series.sight.iter().enumerate().filter(|(_, row)| by_then(row.lesson) && times(row) < enough);
        Lacks {
            last,
            lessons,
            lessons_to_come,
            patterns: patterns.map(|(number, _)| number).collect(),
            sight: sight.map(|(number, _)| number).collect(),
        }
    }
}

/// For each book in an order, its words that no book before it has.
pub(crate) fn new_words(books: &[Book], order: impl IntoIterator<Item = usize>) -> Vec<(usize, Vec<u32>)> {
    let mut seen: HashSet<u32> = HashSet::new();
    let new = |number: usize| {
        let words = books[number].uses.iter().map(|word| word.word);
        (number, words.filter(|word| seen.insert(*word)).collect())
    };
    order.into_iter().map(new).collect()
}
