//! A word sort: words to put under two or three headings, by spelling, with some that belong under none.

use std::collections::HashSet;

use fastrand::Rng;
use serde::Serialize;
use untaught::{Focus, Pattern};
use untaught_phonics::SoundId;

use crate::dictation::draw;
use crate::random::shuffle;
use crate::{Bank, BankWord, CannotMake, WordFilter};

/// A word of a sort.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct SortWord {
    /// The word.
    pub word: String,
    /// The heading it belongs under; none for a word that fits no heading.
    pub column: Option<usize>,
}

/// A word sort.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct WordSort {
    /// The headings: names of patterns.
    pub columns: Vec<String>,
    /// The words, mixed.
    pub words: Vec<SortWord>,
}

/// Words for each heading, the fewest that make a heading, and those that fit none.
const EACH: usize = 5;
const FEWEST: usize = 4;
const OTHERS: usize = 2;

/// Headings at most.
const COLUMNS: usize = 3;

/// Makes a sort of the patterns of a lesson; one pattern is sorted from an earlier one that is easily taken for it: one of the same sound, or
/// of the same letters, or another vowel.
///
/// # Errors
/// A sentence, if there are not two patterns with enough words.
pub fn word_sort(bank: &Bank<'_>, patterns: &[Pattern], seed: u64) -> Result<WordSort, CannotMake> {
    let scope = bank.judge.scope();
    let mut rng = Rng::with_seed(seed);
    let short = bank.select(&WordFilter { sounds: 2..=6, ..WordFilter::default() });
    let focus = |pattern: &Pattern| Focus::of(scope, std::slice::from_ref(pattern));
    let has_words = |pattern: &&Pattern| {
        let focus = focus(pattern);
        short.iter().filter(|word| bank.practises(word, &focus, None)).take(FEWEST).count() == FEWEST
    };
    let mut columns: Vec<&Pattern> = patterns.iter().filter(has_words).take(COLUMNS).collect();
    if let [only] = columns[..] {
        let earlier = scope.indexed_lessons().filter(|(index, _)| *index <= bank.lesson);
        let mut rivals: Vec<(u32, usize, &Pattern)> = earlier
            .flat_map(|(index, lesson)| lesson.patterns.iter().map(move |pattern| (index, pattern)))
            .filter(|(_, pattern)| *pattern != only)
            .filter_map(|(index, pattern)| Some((unlike(only, pattern)?, usize::MAX - index.get(), pattern)))
            .collect();
        rivals.sort_by_key(|(unlike, back, _)| (*unlike, *back));
        columns.extend(rivals.into_iter().map(|(.., pattern)| pattern).find(has_words));
    }
    if columns.len() < 2 {
        return Err(CannotMake(
            "no sort can be made: there are not two patterns with enough words to tell apart".to_owned(),
        ));
    }
    let focuses: Vec<Focus> = columns.iter().map(|pattern| focus(pattern)).collect();
    let column_of = |word: &BankWord| -> Vec<usize> {
        (0..focuses.len()).filter(|column| bank.practises(word, &focuses[*column], None)).collect()
    };
    let mut words: Vec<SortWord> = Vec::new();
    for column in 0..columns.len() {
        // A word under two headings is no fair question.
        let fit: Vec<&BankWord> = short.iter().copied().filter(|word| column_of(word) == [column]).collect();
        let drawn = draw(&fit, EACH, &mut rng, &HashSet::new());
        if drawn.len() < 2 {
            return Err(CannotMake("no sort can be made: most words have both patterns".to_owned()));
        }
        words.extend(drawn.into_iter().map(|word| SortWord { word, column: Some(column) }));
    }
    let none: Vec<&BankWord> = short.iter().copied().filter(|word| column_of(word).is_empty()).collect();
    words
        .extend(draw(&none, OTHERS, &mut rng, &HashSet::new()).into_iter().map(|word| SortWord { word, column: None }));
    shuffle(&mut words, &mut rng);
    Ok(WordSort { columns: columns.into_iter().map(Pattern::label).collect(), words })
}

/// How unlike two patterns are for a sort: 0 for the same sound, 1 for the same letters, 2 for two vowels or two consonants; none for a chunk.
fn unlike(one: &Pattern, other: &Pattern) -> Option<u32> {
    let of = |pattern: &Pattern| -> Option<(Vec<SoundId>, &'static str)> {
        match pattern {
            Pattern::One(id, _) => Some((vec![id.get().sound], id.get().spelling)),
            Pattern::Bare(spelling) => {
                let everyday = untaught_phonics::spelled(spelling);
                let sounds = everyday.filter(|id| id.get().grade == untaught_phonics::Grade::Everyday);
                Some((sounds.map(|id| id.get().sound).collect(), spelling))
            }
            _ => None,
        }
    };
    let ((sounds, spelling), (others, other)) = (of(one)?, of(other)?);
    let vowel = |sounds: &[SoundId]| sounds.first().map(|sound| sound.get().kind.is_vowel());
    if sounds.iter().any(|sound| others.contains(sound)) {
        Some(0)
    } else if spelling == other {
        Some(1)
    } else {
        (vowel(&sounds) == vowel(&others)).then_some(2)
    }
}
