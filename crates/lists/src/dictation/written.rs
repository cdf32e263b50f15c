//! The bank of sentences: written for this project, and read again by a second reader. A lesson takes those whose words can all be read
//! by then, with words that practise it, longer ones as the lessons go on.

use std::borrow::Cow;
use std::collections::HashMap;
use std::sync::LazyLock;

use fastrand::Rng;
use untaught::{Focus, Judge, LessonIndex, Status, fold_word, tokens};

use crate::deflated::inflated;
use crate::dialect;
use crate::random::shuffle;

/// A sentence a line.
static SENTENCES: LazyLock<String> =
    LazyLock::new(|| inflated(include_bytes!(concat!(env!("OUT_DIR"), "/sentences.bin"))));

/// Words of a sentence at the first lesson and at the last, on average.
const SHORT: usize = 4;
const LONG: usize = 9;

/// A sentence that can be read.
pub(super) struct Written {
    pub(super) text: Cow<'static, str>,
    /// How many of its words practise the lesson.
    pub(super) practised: usize,
    words: usize,
}

/// What a word is at a lesson.
#[derive(Clone, Copy)]
struct Standing {
    readable: bool,
    practises: bool,
}

/// The sentences that can be read at a lesson, the best first: of the length that suits it, and half of those with two words that
/// practise it or more before the other half and those with one. So the few best of a lesson are not in every dictation of it.
pub(super) fn readable(judge: &Judge<'_>, lesson: LessonIndex, focus: &Focus, rng: &mut Rng) -> Vec<Written> {
    let mut known: HashMap<&'static str, Standing> = HashMap::new();
    let mut found: Vec<Written> =
        SENTENCES.lines().filter_map(|text| read(text, judge, lesson, focus, &mut known)).collect();
    shuffle(&mut found, rng);
    let last = judge.scope().last();
    let wanted = SHORT + (LONG - SHORT) * usize::from(lesson) / usize::from(last).max(1);
    found.sort_by_key(|one| {
        (one.practised.min(2) == 0, one.words.abs_diff(wanted) > 2, std::cmp::Reverse(one.practised.min(2)))
    });
    let suits = |one: &Written, fewest| one.practised >= fewest && one.words.abs_diff(wanted) <= 2;
    let (best, good) = (found.partition_point(|one| suits(one, 2)), found.partition_point(|one| suits(one, 1)));
    shuffle(&mut found[best.div_ceil(2)..good], rng);
    found
}

fn read(
    text: &'static str,
    judge: &Judge<'_>,
    lesson: LessonIndex,
    focus: &Focus,
    known: &mut HashMap<&'static str, Standing>,
) -> Option<Written> {
    let accent = judge.scope().accent();
    let (mut practised, mut words) = (0, 0);
    for token in tokens(text) {
        let word = dialect::word(&text[token.span], accent);
        let standing = *known.entry(word).or_insert_with(|| standing(word, judge, lesson, focus));
        if !standing.readable {
            return None;
        }
        words += 1;
        practised += usize::from(standing.practises);
    }
    Some(Written { text: dialect::sentence(text, accent), practised, words })
}

fn standing(word: &str, judge: &Judge<'_>, lesson: LessonIndex, focus: &Focus) -> Standing {
    let verdict = judge.judge(&fold_word(word));
    let status = verdict.status(lesson, false);
    let is_in = || {
        let reading = verdict.word.readings.first();
        reading.is_some_and(|reading| focus.is_in(judge.reader(), &verdict.word.text, reading))
    };
    Standing { readable: status != Status::Untaught, practises: status == Status::Decodable && is_in() }
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use super::*;
    use crate::fitness::{Purpose, is_fit};

    #[test]
    fn every_sentence_is_whole_short_fit_and_there_once() {
        let mut seen = HashSet::new();
        for text in SENTENCES.lines() {
            assert!(seen.insert(text), "twice: {text}");
            let count = tokens(text).count();
            assert!((2..=14).contains(&count), "{text}");
            assert!(text.starts_with(|c: char| c.is_uppercase() || c == '"'), "{text}");
            assert!(text.trim_end_matches('"').ends_with(['.', '?', '!']), "{text}");
            assert!(text.matches('"').count() % 2 == 0, "{text}");
            for token in tokens(text) {
                let word = &text[token.span];
                let purpose = if word.starts_with(char::is_uppercase) { Purpose::Name } else { Purpose::Listed };
                assert!(is_fit(&fold_word(word), purpose), "{word}: {text}");
            }
        }
        assert!(seen.len() > 600, "{}", seen.len());
    }
}
