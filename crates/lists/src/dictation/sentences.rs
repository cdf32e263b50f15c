//! Sentences for a dictation.
//!
//! They are made of frames and words written for this project (`data/sentences`); only those are kept whose words can all be read
//! at the lesson.

use std::collections::{HashMap, HashSet};
use std::sync::LazyLock;

use fastrand::Rng;
use untaught::{Focus, Judge, LessonIndex, Status, fold_word, tokens};

use crate::deflated::inflated;
use crate::dialect;
use crate::fitness::{Purpose, is_fit};
use crate::random::{choice, shuffle};

/// The frames, an empty line, and the words for each category of gap.
static TEXT: LazyLock<String> = LazyLock::new(|| inflated(include_bytes!(concat!(env!("OUT_DIR"), "/frames.bin"))));

fn frames() -> impl Iterator<Item = &'static str> {
    TEXT.lines().take_while(|line| !line.is_empty())
}

/// The words for a category of gap; none where there is no such category.
fn words_for(slot: &str) -> impl Iterator<Item = &'static str> {
    let slots = TEXT.split_once("\n\n").map_or("", |(_, slots)| slots);
    let found = slots.lines().find_map(|line| line.strip_prefix(slot)?.strip_prefix('\t'));
    found.into_iter().flat_map(|words| words.split('\t'))
}

/// Sentences tried for each one that is asked for.
const TRIES: usize = 40;

/// The words for the gaps of frames that can be read at a lesson.
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
        let purpose = if slot == "Name" { Purpose::Name } else { Purpose::Listed };
        let accent = self.judge.scope().accent();
        let said = words_for(slot).map(|word| dialect::word(word, accent));
        said.filter(|word| is_fit(&fold_word(word), purpose) && self.reads(word)).collect()
    }

    /// A sentence made of a frame, or none if a word of it cannot be read yet.
    fn fill(&mut self, frame: &str, rng: &mut Rng, drawn: &mut HashMap<String, Vec<&'static str>>) -> Option<String> {
        let mut out = String::new();
        let mut used: HashSet<&str> = HashSet::new();
        let mut rest = frame;
        // It marks a frame without a verb.
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

/// How good a sentence is: the more words that practise the focus the better; worse without a verb, or with hardly any words.
fn worth(frame: &str, sentence: &str, practised: usize) -> i32 {
    let short = tokens(sentence).count() < 4;
    2 * i32::try_from(practised.min(9)).unwrap_or(9) - 3 * i32::from(frame.starts_with('~')) - i32::from(short)
}

/// Sentences that can be read at a lesson, those with the most words that practise the focus first, with few words used again.
pub(super) fn sentences(
    judge: &Judge<'_>,
    lesson: LessonIndex,
    focus: &Focus,
    count: usize,
    rng: &mut Rng,
) -> Vec<String> {
    let mut slots = Slots { judge, lesson, readable: HashMap::new() };
    let mut drawn = HashMap::new();
    let mut frames: Vec<&'static str> = frames().collect();
    shuffle(&mut frames, rng);
    let usable = |frame: &&str, slots: &mut Slots<'_>| {
        let bare: String =
            frame.split('{').map(|piece| piece.split_once('}').map_or(piece, |(_, tail)| tail)).collect();
        tokens(&bare).map(|token| &bare[token.span]).all(|word| {
            // The words of a frame go through the gate like any other.
            is_fit(&fold_word(word), Purpose::Listed) && slots.reads(word)
        })
    };
    frames.retain(|frame| usable(frame, &mut slots));
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
