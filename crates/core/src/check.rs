//! Checking a text at a lesson.

use std::collections::{HashMap, HashSet};
use std::ops::Range;
use std::sync::Arc;

use memchr::memmem;

use crate::types::Types;
use crate::{Focus, Judge, Kind, Need, Place, Reader, Scope, Status, Verdict, fold_word, tokens};

/// What to check.
#[derive(Clone, Debug)]
pub struct Options {
    /// The lesson, from 0.
    pub lesson: Place,
    /// Words told to the child beforehand, folded as by [`crate::fold_word`].
    pub declared: Vec<String>,
    /// Whether to keep every running word, not only the counts and the untaught ones.
    pub every_word: bool,
    /// Whether words that look like names count as told to the child beforehand.
    pub allow_names: bool,
    /// The patterns whose practice to count; none for those of the lesson.
    pub focus: Option<Focus>,
    /// How many places to keep of each untaught word; [`PLACES`] at first.
    pub places: usize,
    /// Where the story begins, in bytes: what stands before it is front matter. Positions still count from the start of the text.
    pub start: usize,
}

impl Options {
    /// A check at a lesson, nothing declared.
    #[must_use]
    pub fn at(lesson: Place) -> Options {
        Options {
            lesson,
            declared: Vec::new(),
            every_word: false,
            allow_names: false,
            focus: None,
            places: PLACES,
            start: 0,
        }
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
    pub verdict: Arc<Verdict>,
    /// What it is at the lesson of the check.
    pub status: Status,
    /// Whether it counts as told to the child beforehand.
    pub declared: bool,
    /// How often it stands in the text.
    pub count: usize,
    /// How often with a capital.
    pub capitals: usize,
    /// How often with a capital inside a sentence, after a word without one.
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
    pub needs: Arc<[Need]>,
    /// How often it stands in the text.
    pub count: usize,
    /// Where, in bytes: the first places, as many as were asked for.
    pub places: Vec<Range<usize>>,
    /// Whether its capitals look like a name's.
    pub likely_name: bool,
    /// Whether it was read by its letters alone.
    pub by_letters: bool,
}

/// A word that one reading makes readable at the lesson, but not another that it also has: *wind*, *live*.
#[derive(Debug)]
pub struct TwoReadings {
    /// The word, folded.
    pub word: String,
    /// The number of its type.
    pub type_number: usize,
    /// Where it stands, in bytes: the first places, as many as were asked for.
    pub places: Vec<Range<usize>>,
    /// How often.
    pub count: usize,
    /// The reading that counts, in IPA.
    pub counted: String,
    /// The other, in IPA.
    pub other: String,
    /// The first patterns in which they differ: `ea as in eat`, `ea as in bread`.
    pub patterns: (String, String),
}

/// How much the text practises its focus patterns.
#[derive(Debug, Default)]
pub struct FocusCount {
    /// The patterns.
    pub labels: Vec<String>,
    /// Running words that practise one of them.
    pub tokens: usize,
    /// The numbers of the different words that do, in the order of their first place.
    pub types: Vec<usize>,
}

/// Places kept of each untaught word, unless asked otherwise, and of what is not counted.
pub const PLACES: usize = 20;

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
    /// Words whose verdict depends on how they are read, in the order of their first place.
    pub two_readings: Vec<TwoReadings>,
    /// How much the text practises its focus patterns.
    pub focus: FocusCount,
    /// How much it practises the patterns that its lesson reviews.
    pub review: FocusCount,
    /// What is no word and was not counted, each once, in the order of its first place: the first [`PLACES`].
    pub uncounted: Vec<String>,
    /// Declared words that the text does not have: perhaps mistyped.
    pub not_in_text: Vec<String>,
}

/// What is counted for every running word: small, so that the words of a text stay in the cache. A text of less than 8 GiB has too
/// few words for these numbers to overflow; a longer one would count wrongly, not fail.
#[derive(Clone, Copy, Default)]
struct Tally {
    count: u32,
    capitals: u32,
    inner_capitals: u32,
    /// Places still to be kept.
    room: u32,
}

struct Judged {
    verdict: Arc<Verdict>,
    status: Status,
    declared: bool,
    places: Vec<Range<usize>>,
}

/// Checks a text. Never fails: every token gets a verdict, an empty text an empty report.
///
/// Cost: one pass over the text, and a judgement for each distinct word; memory for each distinct word and for the places of the
/// untaught ones (and of all, if every word is asked for).
#[must_use]
pub fn check(text: &str, scope: &Scope, reader: &Reader, options: &Options) -> Report {
    Checker::new(scope, reader).check(text, options)
}

/// Checks many texts against one scope: a word that several have is judged once, for its verdict holds at every lesson.
#[derive(Debug)]
pub struct Checker<'a> {
    /// Judges words.
    pub judge: Judge<'a>,
    memory: Memory,
}

/// What a [`Checker`] remembers: only good for the scope that it was gathered with. A caller that owns its scope keeps it between
/// checks.
#[derive(Debug, Default)]
pub struct Memory {
    known: HashMap<Box<str>, Arc<Verdict>>,
    /// What words need at the lesson of the last text: its neighbours in a folder are mostly of the same.
    needs: (Place, HashMap<Box<str>, Arc<[Need]>>),
}

impl Memory {
    /// Number of words that it knows.
    #[must_use]
    pub fn len(&self) -> usize {
        self.known.len()
    }

    /// Whether it knows no word.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.known.is_empty()
    }
}

/// Verdicts that a [`Checker`] remembers: some ten megabytes.
const KNOWN: usize = 1 << 16;

impl<'a> Checker<'a> {
    /// A checker that knows no word yet.
    #[must_use]
    pub fn new(scope: &'a Scope, reader: &'a Reader) -> Checker<'a> {
        Checker::remembering(scope, reader, Memory::default())
    }

    /// A checker that knows what another knew of the same scope.
    #[must_use]
    pub fn remembering(scope: &'a Scope, reader: &'a Reader, memory: Memory) -> Checker<'a> {
        Checker { judge: Judge { reader, scope }, memory }
    }

    /// What it has learnt, for the next checker of the same scope.
    #[must_use]
    pub fn into_memory(self) -> Memory {
        self.memory
    }

    fn verdict(&mut self, word: &str) -> Arc<Verdict> {
        if let Some(verdict) = self.memory.known.get(word) {
            return Arc::clone(verdict);
        }
        let verdict = Arc::new(self.judge.judge(word));
        if self.memory.known.len() >= KNOWN {
            self.memory.known.clear();
        }
        self.memory.known.insert(word.into(), Arc::clone(&verdict));
        verdict
    }

    fn needs(&mut self, verdict: &Verdict, at: Place) -> Arc<[Need]> {
        let (lesson, known) = &mut self.memory.needs;
        if *lesson != at || known.len() >= KNOWN {
            known.clear();
            *lesson = at;
        }
        let word = verdict.word.text.as_str();
        if let Some(needs) = known.get(word) {
            return Arc::clone(needs);
        }
        let needs: Arc<[Need]> = self.judge.needs(verdict, at).into();
        known.insert(word.into(), Arc::clone(&needs));
        needs
    }

    /// Checks one text, as [`check`] does.
    #[must_use]
    pub fn check(&mut self, text: &str, options: &Options) -> Report {
        run(self, text, options)
    }
}

fn run(checker: &mut Checker<'_>, text: &str, options: &Options) -> Report {
    let room = u32::try_from(options.places).unwrap_or(u32::MAX);
    let mut types = Types::default();
    let mut tallies: Vec<Tally> = Vec::new();
    let mut judged: Vec<Judged> = Vec::new();
    let mut words = Vec::new();
    let mut uncounted = 0;
    let mut uncounted_types: HashSet<&str> = HashSet::new();
    let mut uncounted_list: Vec<String> = Vec::new();
    let story = text.get(options.start..).unwrap_or_default();
    let start = text.len() - story.len();
    let mut last_end = 0;
    // Titles write every word with a capital: only one after a small letter tells.
    let mut after_lower = false;
    let mut used = vec![false; options.declared.len()];
    // Rare: looked for once, so that other texts do not pay for it.
    let addresses = ADDRESS_MARKS.iter().any(|mark| memmem::find(story.as_bytes(), mark.as_bytes()).is_some());
    for token in tokens(story) {
        let Range { start: from, end: to } = token.span;
        let between = last_end..from;
        last_end = to;
        if token.kind == Kind::Other || addresses && in_address(story, from, to) {
            uncounted += 1;
            if uncounted_types.insert(&story[from..to]) && uncounted_list.len() < PLACES {
                uncounted_list.push(story[from..to].to_owned());
            }
            continue;
        }
        let (number, is_new) = types.number(story, from, to);
        if is_new {
            let word = fold_word(&story[from..to]);
            let mut declared = false;
            for (number, _) in options.declared.iter().enumerate().filter(|(_, declared)| covers(declared, &word)) {
                declared = true;
                used[number] = true;
            }
            let verdict = checker.verdict(&word);
            let status = verdict.status(options.lesson, declared);
            let shown = status == Status::Untaught || verdict.other_reading(options.lesson).is_some();
            tallies.push(Tally { room: if shown { room } else { 0 }, ..Tally::default() });
            judged.push(Judged { verdict, status, declared, places: Vec::new() });
        }
        let tally = &mut tallies[number];
        tally.count += 1;
        let capital = story.as_bytes()[from].is_ascii_uppercase();
        if capital {
            tally.capitals += 1;
            let inside = after_lower && continues(&story.as_bytes()[between]) && may_be_name(&story[from..to]);
            tally.inner_capitals += u32::from(inside);
        }
        after_lower = !capital;
        if tally.room > 0 {
            tally.room -= 1;
            judged[number].places.push(start + from..start + to);
        }
        if options.every_word {
            words.push(WordAt { span: start + from..start + to, type_number: number });
        }
    }
    let mut report = report(checker, options, judged.into_iter().zip(tallies), words, uncounted, uncounted_types.len());
    let unused = options.declared.iter().zip(used).filter(|(_, used)| !used);
    report.uncounted = uncounted_list;
    report.not_in_text = unused.map(|(word, _)| word.clone()).collect();
    report
}

/// What makes a run of characters an address of mail or of a page.
const ADDRESS_MARKS: [&str; 3] = ["@", "://", "www."];

/// Whether a word stands in an e-mail address or a link: nothing to read as words.
fn in_address(story: &str, from: usize, to: usize) -> bool {
    let start = story[..from].rfind(char::is_whitespace).map_or(0, |at| at + 1);
    let end = story[to..].find(char::is_whitespace).map_or(story.len(), |n| to + n);
    let run = story.get(start..end).unwrap_or(&story[from..end]);
    let alphanumeric = |text: &str, last: bool| {
        if last { text.ends_with(char::is_alphanumeric) } else { text.starts_with(char::is_alphanumeric) }
    };
    ADDRESS_MARKS.iter().any(|mark| {
        run.split_once(mark).is_some_and(|(before, after)| {
            alphanumeric(after, false) && (*mark == "www." && before.is_empty() || alphanumeric(before, true))
        })
    })
}

/// Whether a declared word stands for a written one: itself, or its possessive or plural.
fn covers(declared: &str, written: &str) -> bool {
    written.strip_prefix(declared).is_some_and(|rest| matches!(rest, "" | "'s" | "s" | "s'" | "'"))
}

/// Whether a word goes on the sentence of the one before: nothing but spaces and commas stands between them.
fn continues(between: &[u8]) -> bool {
    !between.is_empty() && between.iter().all(|b| matches!(b, b' ' | b',' | b';'))
}

/// Whether a capital may be a name's: not that of *I* and *I'm*, and not those of a shout.
fn may_be_name(word: &str) -> bool {
    !matches!(word.as_bytes(), [b'I'] | [b'I', b'\'', ..])
        && !word.starts_with("I\u{2019}")
        && word.chars().any(char::is_lowercase)
}

fn report(
    checker: &mut Checker<'_>,
    options: &Options,
    types: impl Iterator<Item = (Judged, Tally)>,
    words: Vec<WordAt>,
    uncounted: usize,
    uncounted_types: usize,
) -> Report {
    let scope = checker.judge.scope;
    let focus = options.focus.clone().unwrap_or_else(|| Focus::of_lesson(scope, options.lesson));
    let review = scope.lesson(options.lesson).map_or(&[][..], |lesson| &lesson.review_patterns);
    let review = Focus::of(scope, review);
    let mut report = Report {
        lesson: options.lesson,
        tokens: Counts { uncounted, ..Counts::default() },
        types: Counts { uncounted: uncounted_types, ..Counts::default() },
        distinct: Vec::new(),
        words,
        findings: Vec::new(),
        two_readings: Vec::new(),
        focus: FocusCount { labels: focus.labels.clone(), ..FocusCount::default() },
        review: FocusCount { labels: review.labels.clone(), ..FocusCount::default() },
        uncounted: Vec::new(),
        not_in_text: Vec::new(),
    };
    for (type_number, (judged, tally)) in types.enumerate() {
        let Judged { verdict, mut status, mut declared, places } = judged;
        let [count, capitals, inner_capitals] = [tally.count, tally.capitals, tally.inner_capitals].map(|n| n as usize);
        let likely_name = capitals == count && inner_capitals > 0;
        if status == Status::Untaught && likely_name && options.allow_names {
            declared = true;
            status = Status::Story;
        }
        // What is not sounded out practises nothing.
        let sounded = verdict.word.readings.first().filter(|_| status == Status::Decodable);
        for (patterns, counted) in [(&focus, &mut report.focus), (&review, &mut report.review)] {
            if sounded.is_some_and(|reading| patterns.is_in(checker.judge.reader, &verdict.word.text, reading)) {
                counted.tokens += count;
                counted.types.push(type_number);
            }
        }
        if let Some(other) = verdict.other_reading(options.lesson) {
            report.two_readings.push(TwoReadings {
                word: verdict.word.text.clone(),
                type_number,
                places: places.clone(),
                count,
                counted: verdict.word.readings[0].ipa(),
                other: other.ipa(),
                patterns: checker.judge.first_difference(&verdict.word, &verdict.word.readings[0], other),
            });
        }
        report.tokens.add(status, count);
        report.types.add(status, 1);
        if status == Status::Untaught {
            report.findings.push(Finding {
                word: verdict.word.text.clone(),
                type_number,
                needs: checker.needs(&verdict, options.lesson),
                count,
                places,
                likely_name,
                by_letters: verdict.by_letters(),
            });
        }
        report.distinct.push(Type { verdict, status, declared, count, capitals, inner_capitals });
    }
    report
}
