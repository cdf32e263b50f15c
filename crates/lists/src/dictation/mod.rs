//! Dictation: words and short sentences to spell at a lesson, new and review mixed.
//!
//! Sentences are made of a bank of frames and words of our own (`data/frames.tsv`, `data/slots.tsv`), and only those are kept all of
//! whose words can be read at the lesson.

use std::collections::{HashMap, HashSet};

use fastrand::Rng;
use untaught::{Focus, Judge, LessonIndex, Status, fold_word, tokens};

use crate::lot::{choice, shuffle};
use crate::{Bank, BankWord, Lacking, Wanted};

include!(concat!(env!("OUT_DIR"), "/frames.rs"));

/// Words and sentences to spell.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Dictation {
    /// Words that practise what the lesson teaches.
    pub new: Vec<String>,
    /// Words that practise what was taught before.
    pub review: Vec<String>,
    /// Words taught whole, the latest first.
    pub sight: Vec<String>,
    /// Sentences.
    pub sentences: Vec<String>,
}

/// Sentences tried for each one wanted.
const TRIES: usize = 40;

/// Makes a dictation of some words of each kind and some sentences.
///
/// # Errors
/// A sentence where the lesson has not enough words for any of it.
pub fn dictation(
    bank: &Bank<'_>,
    focus: &Focus,
    words: usize,
    sentences: usize,
    seed: u64,
) -> Result<Dictation, Lacking> {
    let mut rng = Rng::with_seed(seed);
    let short = Wanted { sounds: 2..=5, ..Wanted::default() };
    let practise = Wanted { focus: Some(focus.clone()).filter(|focus| !focus.is_empty()), ..short.clone() };
    let new = draw(&bank.select(&practise), words, &mut rng, &HashSet::new());
    let taken: HashSet<String> = new.iter().cloned().collect();
    let before: Vec<&BankWord> =
        bank.select(&short).into_iter().filter(|word| word.first < bank.lesson && word.sounds.len() > 2).collect();
    let review = draw(&before, words, &mut rng, &taken);
    let scope = bank.judge.scope();
    let taught =
        scope.indexed_lessons().rev().filter(|(index, _)| *index <= bank.lesson).flat_map(|(_, lesson)| &lesson.sight);
    let sight = taught.filter(|word| crate::fit::is_fit(&fold_word(word))).take(words / 2).cloned().collect();
    let sentences = self::sentences(&bank.judge, bank.lesson, focus, sentences, &mut rng);
    if new.is_empty() && review.is_empty() && sentences.is_empty() {
        return Err(Lacking("too few words can be sounded out at this lesson for a dictation".to_owned()));
    }
    Ok(Dictation { new, review, sight, sentences })
}

/// Some of the words by lot, the commonest likelier; inflected ones only where there are too few others.
pub(crate) fn draw(words: &[&BankWord], count: usize, rng: &mut Rng, not: &HashSet<String>) -> Vec<String> {
    let mut left: Vec<&&BankWord> = words.iter().filter(|word| !not.contains(&word.word)).collect();
    if left.iter().filter(|word| !word.inflected).count() >= count {
        left.retain(|word| !word.inflected);
    }
    shuffle(&mut left, rng);
    left.sort_by_key(|word| (word.inflected, word.class));
    // Of the commonest, not always the same.
    left.truncate(count * 3);
    shuffle(&mut left, rng);
    left.into_iter().take(count).map(|word| word.word.clone()).collect()
}

/// Whether a word is one of those that children know: it fills a gap of some frame.
pub(crate) fn is_childlike(word: &str) -> bool {
    crate::fit::is_in(CHILDLIKE, word)
}

/// Words that may stand in a frame's gap, of those that can be read at a lesson.
struct Slots<'j> {
    judge: &'j Judge<'j>,
    lesson: LessonIndex,
    readable: HashMap<String, bool>,
}

impl Slots<'_> {
    fn reads(&mut self, word: &str) -> bool {
        let folded = fold_word(word);
        if let Some(known) = self.readable.get(&folded) {
            return *known;
        }
        let verdict = self.judge.judge(&folded);
        let reads = verdict.status(self.lesson, false) != Status::Untaught;
        self.readable.insert(folded, reads);
        reads
    }

    fn choices(&mut self, slot: &str) -> Vec<&'static str> {
        let words = SLOTS.iter().find(|(name, _)| *name == slot).map_or(&[][..], |(_, words)| words);
        words.iter().copied().filter(|word| self.reads(word)).collect()
    }

    /// A sentence of a frame, or none if a word of it cannot be read yet.
    fn fill(&mut self, frame: &str, rng: &mut Rng, drawn: &mut HashMap<String, Vec<&'static str>>) -> Option<String> {
        let mut out = String::new();
        let mut used: HashSet<&str> = HashSet::new();
        let mut rest = frame;
        // The mark of a frame without a verb.
        rest = rest.trim_start_matches('~');
        while let Some(open) = rest.find('{') {
            let (text, tail) = rest.split_at(open);
            out += text;
            let (slot, after) = tail[1..].split_once('}')?;
            let (article, slot) = match slot.split_once(':') {
                Some((_, slot)) => (true, slot),
                None => (false, slot),
            };
            if !drawn.contains_key(slot) {
                let choices = self.choices(slot);
                drawn.insert(slot.to_owned(), choices);
            }
            let choices: Vec<&&str> = drawn[slot].iter().filter(|word| !used.contains(**word)).collect();
            let word = choice(&choices, rng)?;
            used.insert(word);
            if article {
                let capital = out.is_empty();
                out += match (word.starts_with(['a', 'e', 'i', 'o', 'u']), capital) {
                    (true, true) => "An ",
                    (true, false) => "an ",
                    (false, true) => "A ",
                    (false, false) => "a ",
                };
            }
            if out.is_empty() {
                let mut letters = word.chars();
                out.extend(letters.next().map(|first| first.to_ascii_uppercase()));
                out += letters.as_str();
            } else {
                out += word;
            }
            rest = after;
        }
        out += rest;
        let all = tokens(&out).all(|token| self.reads(&out[token.span]));
        all.then_some(out)
    }
}

/// How much a sentence is liked: for its words that practise the focus; less if it has no verb or hardly any words.
fn worth(frame: &str, sentence: &str, practised: usize) -> i32 {
    let short = tokens(sentence).count() < 4;
    2 * i32::try_from(practised.min(9)).unwrap_or(9) - 3 * i32::from(frame.starts_with('~')) - i32::from(short)
}

/// Sentences that can be read at a lesson, those with most words that practise the focus first; no word of the gaps too often.
fn sentences(judge: &Judge<'_>, lesson: LessonIndex, focus: &Focus, count: usize, rng: &mut Rng) -> Vec<String> {
    let mut slots = Slots { judge, lesson, readable: HashMap::new() };
    let mut drawn = HashMap::new();
    let mut frames: Vec<&'static str> = FRAMES.to_vec();
    shuffle(&mut frames, rng);
    let fixed = |frame: &&str, slots: &mut Slots<'_>| {
        let bare: String =
            frame.split('{').map(|piece| piece.split_once('}').map_or(piece, |(_, tail)| tail)).collect();
        tokens(&bare).all(|token| slots.reads(&bare[token.span]))
    };
    frames.retain(|frame| fixed(frame, &mut slots));
    let mut found: Vec<(i32, String, usize)> = Vec::new();
    for number in 0..count * TRIES {
        let Some(frame) = frames.get(number % frames.len().max(1)) else { break };
        if let Some(sentence) = slots.fill(frame, rng, &mut drawn) {
            let practised = tokens(&sentence)
                .filter(|token| {
                    let verdict = judge.judge(&fold_word(&sentence[token.span.clone()]));
                    verdict.status(lesson, false) == Status::Decodable
                        && verdict
                            .word
                            .readings
                            .first()
                            .is_some_and(|reading| focus.is_in(judge.reader(), &verdict.word.text, reading))
                })
                .count();
            found.push((worth(frame, &sentence, practised), sentence, number % frames.len()));
        }
    }
    found.sort_by_key(|(worth, ..)| std::cmp::Reverse(*worth));
    let (mut chosen, mut frames_used, mut words_used): (Vec<String>, HashSet<usize>, HashSet<String>) =
        Default::default();
    // First such as repeat no word, then such as repeat half of theirs.
    let passes = [true, false].into_iter().flat_map(|strict| found.iter().map(move |one| (strict, one)));
    for (strict, (_, sentence, frame)) in passes {
        let content: Vec<String> = tokens(sentence)
            .map(|token| fold_word(&sentence[token.span]))
            .filter(|word| word.len() > 2 && word != "the")
            .collect();
        let again = content.iter().filter(|word| words_used.contains(*word)).count();
        let fresh = again * 2 <= if strict { 0 } else { content.len() };
        if chosen.len() < count && fresh && frames_used.insert(*frame) {
            words_used.extend(content);
            chosen.push(sentence.clone());
        }
    }
    chosen
}
