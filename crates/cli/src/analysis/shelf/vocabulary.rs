//! The different words of a whole shelf, each kept once.

use std::collections::HashMap;
use std::sync::Arc;

use untaught::{Judge, LessonIndex, Practice, Reader, Scope, TaughtPattern, Verdict};

/// The words of a shelf by number, in the order in which they were met.
pub(crate) struct Vocabulary {
    practice: Practice<'static>,
    numbers: HashMap<Arc<str>, u32>,
    words: Vec<ShelfWord>,
}

/// A word of a shelf.
pub(crate) struct ShelfWord {
    pub(crate) text: Arc<str>,
    /// The earliest lesson at which it can be sounded out.
    pub(crate) decodable: Option<LessonIndex>,
    /// The lesson that teaches it whole.
    pub(crate) taught_whole: Option<LessonIndex>,
    /// The earliest lesson at which it can be read at all.
    pub(crate) readable: Option<LessonIndex>,
    /// The patterns of the scope that are in it, by number.
    pub(crate) patterns: Box<[u16]>,
}

impl Vocabulary {
    /// None yet, by a scope.
    pub(crate) fn new(scope: &'static Scope, reader: &'static Reader) -> Vocabulary {
        let practice = Practice::new(Judge::new(reader, scope));
        Vocabulary { practice, numbers: HashMap::new(), words: Vec::new() }
    }

    /// The number of a word, which is a new one if it has none yet. Cost of a new word: a comparison for each pattern.
    pub(crate) fn number(&mut self, verdict: &Arc<Verdict>) -> u32 {
        let text = verdict.word.text.as_str();
        if let Some(number) = self.numbers.get(text) {
            return *number;
        }
        // No shelf has so many different words.
        let number = u32::try_from(self.words.len()).unwrap_or(u32::MAX);
        let text: Arc<str> = text.into();
        self.numbers.insert(Arc::clone(&text), number);
        self.words.push(ShelfWord {
            decodable: verdict.first_decodable(),
            taught_whole: self.practice.scope().sight_lesson(&text),
            readable: verdict.first_readable(),
            patterns: self.practice.patterns_in(verdict).into(),
            text,
        });
        number
    }

    /// The number of a word, if the shelf has it.
    pub(crate) fn find(&self, text: &str) -> Option<u32> {
        self.numbers.get(text).copied()
    }

    /// The word of a number that [`Vocabulary::number`] gave.
    pub(crate) fn word(&self, number: u32) -> &ShelfWord {
        &self.words[number as usize]
    }

    pub(crate) fn len(&self) -> usize {
        self.words.len()
    }

    /// The patterns of the scope, in scope order.
    pub(crate) fn patterns(&self) -> &[TaughtPattern] {
        self.practice.patterns()
    }
}
