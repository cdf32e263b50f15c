//! The one pass over a text: each running word is counted, each distinct one judged.

use std::collections::HashSet;
use std::ops::Range;
use std::sync::Arc;

use memchr::memmem;

use super::{Checker, Counts, Finding, FocusCount, Options, PLACES, Report, TwoReadings, Type, WordAt};
use crate::types::Types;
use crate::{Focus, Kind, Status, Verdict, fold_word, tokens};

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

pub(super) fn run(checker: &mut Checker<'_>, text: &str, options: &Options) -> Report {
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
