//! Checking a text at a lesson.

use std::collections::HashMap;
use std::hash::{BuildHasherDefault, Hasher};
use std::ops::Range;

use crate::text::lower_ascii;
use crate::{Judge, Kind, Need, Place, Reader, Scope, Status, Verdict, tokens};

/// What to check.
#[derive(Clone, Debug, Default)]
pub struct Options {
    /// The lesson, from 0.
    pub lesson: Place,
    /// Words told to the child beforehand, folded as by [`crate::fold_word`].
    pub declared: Vec<String>,
    /// Whether to keep every running word, not only the counts and the untaught ones.
    pub every_word: bool,
    /// Where the story begins, in bytes: what stands before it is front matter. Positions still count from the start of the text.
    pub start: usize,
}

impl Options {
    /// A check at a lesson, nothing declared.
    #[must_use]
    pub fn at(lesson: Place) -> Options {
        Options { lesson, ..Options::default() }
    }
}

/// Words by status.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Counts {
    /// All that count.
    pub words: usize,
    /// Of these, decodable.
    pub decodable: usize,
    /// Known whole.
    pub sight: usize,
    /// Declared by the text.
    pub story: usize,
    /// None of these.
    pub untaught: usize,
    /// Not words, and not in `words`: numbers, letters named as letters.
    pub uncounted: usize,
}

impl Counts {
    fn add(&mut self, status: Status, n: usize) {
        self.words += n;
        match status {
            Status::Decodable => self.decodable += n,
            Status::Sight => self.sight += n,
            Status::Story => self.story += n,
            Status::Untaught => self.untaught += n,
        }
    }

    /// Percent decodable: decodable / words. None where there are no words.
    #[must_use]
    pub fn percent_decodable(&self) -> Option<f64> {
        percent(self.decodable, self.words)
    }

    /// Percent readable: (decodable + sight + story) / words. None where there are no words.
    #[must_use]
    pub fn percent_readable(&self) -> Option<f64> {
        percent(self.words - self.untaught, self.words)
    }
}

/// A share in percent; none of nothing.
#[must_use]
pub fn percent(part: usize, whole: usize) -> Option<f64> {
    (whole > 0).then(|| part as f64 * 100.0 / whole as f64)
}

/// A distinct word of a text.
#[derive(Debug)]
pub struct Type {
    /// Its verdict, the folded word in it.
    pub verdict: Verdict,
    /// What it is at the lesson of the check.
    pub status: Status,
    /// How often it stands in the text.
    pub count: usize,
    /// How often with a capital.
    pub capitals: usize,
    /// How often with a capital that does not begin a sentence.
    pub inner_capitals: usize,
}

/// A running word, if every word was asked for.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct WordAt {
    /// Where it stands, in bytes.
    pub span: Range<usize>,
    /// The number of its type.
    pub type_number: usize,
}

/// One untaught word.
#[derive(Debug)]
pub struct Finding {
    /// The word, folded.
    pub word: String,
    /// The number of its type.
    pub type_number: usize,
    /// What it needs.
    pub needs: Vec<Need>,
    /// How often it stands in the text.
    pub count: usize,
    /// Where, in bytes: the first [`PLACES`] places.
    pub places: Vec<Range<usize>>,
    /// Whether its capitals look like a name's.
    pub likely_name: bool,
    /// Whether it was read by its letters alone.
    pub by_letters: bool,
}

/// Places kept for each untaught word.
pub const PLACES: usize = 100;

/// What a check found.
#[derive(Debug)]
pub struct Report {
    /// The lesson.
    pub lesson: Place,
    /// Running words.
    pub tokens: Counts,
    /// Distinct words.
    pub types: Counts,
    /// The distinct words in the order of their first place.
    pub distinct: Vec<Type>,
    /// Every running word in order, if asked for.
    pub words: Vec<WordAt>,
    /// The untaught words in the order of their first place.
    pub findings: Vec<Finding>,
}

/// Multiply-and-rotate over eight bytes at a time: words are short, and nobody gains by making them collide but a text whose
/// check is slow.
#[derive(Default)]
struct WordHasher(u64);

impl Hasher for WordHasher {
    fn write(&mut self, bytes: &[u8]) {
        const FACTOR: u64 = 0x9e37_79b9_7f4a_7c15;
        let mut rest = bytes;
        while let Some((chunk, tail)) = rest.split_first_chunk::<8>() {
            self.0 = (self.0.rotate_left(5) ^ u64::from_le_bytes(*chunk)).wrapping_mul(FACTOR);
            rest = tail;
        }
        let last = rest.iter().fold(bytes.len() as u64, |word, byte| word << 8 | u64::from(*byte));
        self.0 = (self.0.rotate_left(5) ^ last).wrapping_mul(FACTOR);
    }

    fn write_u8(&mut self, _: u8) {}

    fn finish(&self) -> u64 {
        self.0 ^ self.0 >> 29
    }
}

struct Tally {
    verdict: Verdict,
    status: Status,
    count: usize,
    capitals: usize,
    inner_capitals: usize,
    places: Vec<Range<usize>>,
}

/// Checks a text. Never fails: every token gets a verdict, an empty text an empty report.
///
/// Cost: one pass over the text, and a judgement for each distinct word; memory for each distinct word and for the places of the
/// untaught ones (and of all, if every word is asked for).
#[must_use]
pub fn check(text: &str, scope: &Scope, reader: &Reader, options: &Options) -> Report {
    let judge = Judge { reader, scope };
    let mut numbers: HashMap<Box<str>, usize, BuildHasherDefault<WordHasher>> = HashMap::default();
    let mut tallies: Vec<Tally> = Vec::new();
    let mut words = Vec::new();
    let mut uncounted = 0;
    let mut other_types: HashMap<Box<str>, (), BuildHasherDefault<WordHasher>> = HashMap::default();
    let mut buffer = String::new();
    let story = text.get(options.start..).unwrap_or_default();
    let start = text.len() - story.len();
    let mut last_end = 0;
    for token in tokens(story) {
        let written = &story[token.span.clone()];
        if token.kind == Kind::Other {
            uncounted += 1;
            if !other_types.contains_key(written) {
                other_types.insert(written.into(), ());
            }
            last_end = token.span.end;
            continue;
        }
        let folded = lower_ascii(written, &mut buffer);
        let number = match numbers.get(folded.as_ref()) {
            Some(number) => *number,
            None => {
                let verdict = judge.judge(&folded);
                let declared = options.declared.iter().any(|word| covers(word, &folded));
                let status = verdict.status(options.lesson, declared);
                numbers.insert(folded.as_ref().into(), tallies.len());
                tallies.push(Tally { verdict, status, count: 0, capitals: 0, inner_capitals: 0, places: Vec::new() });
                tallies.len() - 1
            }
        };
        let tally = &mut tallies[number];
        tally.count += 1;
        if written.as_bytes()[0].is_ascii_uppercase() {
            tally.capitals += 1;
            tally.inner_capitals += usize::from(!begins_sentence(&story[last_end..token.span.start]));
        }
        if tally.status == Status::Untaught && tally.places.len() < PLACES {
            tally.places.push(start + token.span.start..start + token.span.end);
        }
        if options.every_word {
            words.push(WordAt { span: start + token.span.start..start + token.span.end, type_number: number });
        }
        last_end = token.span.end;
    }
    report(&judge, options, tallies, words, uncounted, other_types.len())
}

/// Whether a declared word stands for a written one: itself, or its possessive or plural.
fn covers(declared: &str, written: &str) -> bool {
    written.strip_prefix(declared).is_some_and(|rest| matches!(rest, "" | "'s" | "s" | "s'" | "'"))
}

/// Whether what stands between two words ends a sentence or opens a speech; the start of a text does.
fn begins_sentence(between: &str) -> bool {
    between.is_empty()
        || between.contains(['.', '!', '?', '\n', ':', '“', '"', '…'])
}

fn report(
    judge: &Judge<'_>,
    options: &Options,
    tallies: Vec<Tally>,
    words: Vec<WordAt>,
    uncounted: usize,
    uncounted_types: usize,
) -> Report {
    let mut report = Report {
        lesson: options.lesson,
        tokens: Counts { uncounted, ..Counts::default() },
        types: Counts { uncounted: uncounted_types, ..Counts::default() },
        distinct: Vec::with_capacity(tallies.len()),
        words,
        findings: Vec::new(),
    };
    for (type_number, tally) in tallies.into_iter().enumerate() {
        report.tokens.add(tally.status, tally.count);
        report.types.add(tally.status, 1);
        if tally.status == Status::Untaught {
            report.findings.push(Finding {
                word: tally.verdict.word.text.clone(),
                type_number,
                needs: judge.needs(&tally.verdict, options.lesson),
                count: tally.count,
                places: tally.places,
                likely_name: tally.capitals == tally.count && tally.inner_capitals > 0,
                by_letters: tally.verdict.by_letters(),
            });
        }
        report.distinct.push(Type {
            verdict: tally.verdict,
            status: tally.status,
            count: tally.count,
            capitals: tally.capitals,
            inner_capitals: tally.inner_capitals,
        });
    }
    report
}
