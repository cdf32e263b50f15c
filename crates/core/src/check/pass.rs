//! The pass over a text: counts each running word and judges each distinct word.

use std::collections::HashSet;
use std::ops::Range;
use std::sync::Arc;

use memchr::memmem;

use super::memory::{StatusAt, Tally, TextWord, practises};
use super::spelling_rows::SpellingRows;
use super::{Checker, Counts, Finding, FocusCount, Options, PLACES, Report, TwoReadings, Type, WordAt, names};
use crate::{Focus, LessonIndex, Status, TokenKind, fold_word, front_matter, tokens};

pub(super) fn run(checker: &mut Checker<'_>, text: &str, options: &Options) -> Report {
    let Checker { judge, memory } = checker;
    let lesson = options.lesson.min(judge.scope().last());
    let this_text = memory.begin(judge.scope().serial());
    let declared_words: Vec<String> = options.declared.iter().flat_map(|words| folded(words)).collect();
    let room = u32::try_from(options.places).unwrap_or(u32::MAX);
    let mut met = std::mem::take(&mut memory.met);
    let mut words = Vec::new();
    let mut uncounted = 0;
    let mut uncounted_types: HashSet<&str> = HashSet::new();
    let mut uncounted_list: Vec<String> = Vec::new();
    let start = options.start.unwrap_or_else(|| front_matter(text).map_or(0, |(_, start)| start));
    let story = text.get(start..).unwrap_or_default();
    let start = text.len() - story.len();
    let mut last_end = 0;
    // Titles capitalise every word, so a capital counts only after a word in lower case.
    let mut after_lower = false;
    let (mut after_title, mut after_greeting, mut after_name) = (false, false, false);
    let mut used = vec![false; declared_words.len()];
    // Rare, so it is looked for once and does not slow down other texts.
    let addresses = ADDRESS_MARKS.iter().any(|mark| memmem::find(story.as_bytes(), mark.as_bytes()).is_some());
    let mut rows = SpellingRows::default();
    for token in tokens(story) {
        let Range { start: from, end: to } = token.span.clone();
        let between = last_end..from;
        last_end = to;
        let skipped = addresses && in_address(story, from, to) || are_kisses(&story[from..to]);
        let counts = token.kind != TokenKind::Other && !skipped && !rows.have(judge.reader(), story, &token.span);
        if !counts {
            uncounted += 1;
            if uncounted_types.insert(&story[from..to]) && uncounted_list.len() < PLACES {
                uncounted_list.push(story[from..to].to_owned());
            }
            continue;
        }
        let known = memory.number(judge, story, from..to);
        if memory.tallies[known].text != this_text {
            let StatusAt { mut status, two_readings } = memory.at(known, lesson);
            let mut declared = false;
            for (number, word) in declared_words.iter().enumerate() {
                if covers(word, &memory.verdict(known).word.text) {
                    declared = true;
                    used[number] = true;
                }
            }
            if declared && status == Status::Untaught {
                status = Status::Story;
            }
            let shown = status == Status::Untaught || two_readings;
            let [number, room] = [met.len() as u32, if shown { room } else { 0 }];
            memory.tallies[known] = Tally { text: this_text, number, room, ..Tally::default() };
            met.push(TextWord { known, status, declared, two_readings, places: Vec::new() });
        }
        let tally = &mut memory.tallies[known];
        tally.count += 1;
        let capital = story.as_bytes()[from].is_ascii_uppercase();
        if capital {
            tally.capitals += 1;
            let between = &story.as_bytes()[between];
            let inside = after_lower && continues(between)
                || after_title && names::follows_title(between)
                || after_name && between == b" ";
            let inside =
                inside && !names::is_in_title(story, &(from..to)) || after_greeting && names::follows_greeting(between);
            after_name = inside && names::may_be_name(&story[from..to]);
            tally.inner_capitals += u32::from(after_name);
        } else {
            after_name = false;
        }
        after_lower = !capital;
        after_title = capital && names::is_title(&story[from..to]);
        after_greeting = capital && names::is_greeting(&story[from..to]);
        let number = tally.number as usize;
        if tally.room > 0 {
            tally.room -= 1;
            met[number].places.push(start + from..start + to);
        }
        if options.every_word {
            words.push(WordAt { span: start + from..start + to, type_number: number });
        }
    }
    let mut report = report(checker, lesson, options, &mut met, words);
    checker.memory.met = met;
    report.tokens.uncounted = uncounted;
    report.types.uncounted = uncounted_types.len();
    let unused = declared_words.iter().zip(used).filter(|(_, used)| !used);
    report.uncounted = uncounted_list;
    report.not_in_text = unused.map(|(word, _)| word.clone()).collect();
    report
}

/// Marks that show that a run of characters is an e-mail address or a link.
const ADDRESS_MARKS: [&str; 3] = ["@", "://", "www."];

/// Whether a word is in an e-mail address or a link, whose parts are not read as words.
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

/// Whether a word is the kisses at the end of a letter: *xxx*.
fn are_kisses(word: &str) -> bool {
    word.len() > 1 && word.bytes().all(|b| matches!(b, b'x' | b'X'))
}

/// Splits a declared name into folded words: *Old Tom* declares *old* and *tom*.
fn folded(declared: &str) -> impl Iterator<Item = String> + '_ {
    tokens(declared).map(|token| fold_word(&declared[token.span]))
}

/// Whether a declared word covers a written one: the word itself, its possessive or its plural.
fn covers(declared: &str, written: &str) -> bool {
    written.strip_prefix(declared).is_some_and(|rest| matches!(rest, "" | "'s" | "s" | "s'" | "'"))
}

/// Whether a word continues the sentence of the word before it: only spaces and commas are between them.
fn continues(between: &[u8]) -> bool {
    !between.is_empty() && between.iter().all(|b| matches!(b, b' ' | b',' | b';'))
}

fn report(
    checker: &mut Checker<'_>,
    lesson: LessonIndex,
    options: &Options,
    met: &mut Vec<TextWord>,
    words: Vec<WordAt>,
) -> Report {
    let Checker { judge, memory } = checker;
    let practice = memory.practice(judge, lesson);
    let count = |focus: &Focus| FocusCount { labels: focus.labels.clone(), ..FocusCount::default() };
    let mut report = Report {
        lesson,
        tokens: Counts::default(),
        types: Counts::default(),
        distinct: Vec::with_capacity(met.len()),
        words,
        findings: Vec::with_capacity(met.iter().filter(|met| met.status == Status::Untaught).count()),
        two_readings: Vec::new(),
        focus: count(options.focus.as_ref().unwrap_or(&practice[0])),
        review: count(&practice[1]),
        uncounted: Vec::new(),
        not_in_text: Vec::new(),
    };
    for (type_number, met) in met.drain(..).enumerate() {
        let TextWord { known, mut status, mut declared, two_readings, places } = met;
        let verdict = Arc::clone(memory.verdict(known));
        let Tally { count, capitals, inner_capitals, .. } = memory.tallies[known];
        let [count, capitals, inner_capitals] = [count, capitals, inner_capitals].map(|n| n as usize);
        // A word that only sentences begin with is a name if it comes again and is no word.
        let word = &verdict.word.text;
        let again = || count > 1 && !judge.reader().spells(word.strip_suffix("'s").unwrap_or(word));
        let nobody = names::is_of_calendar(word) || names::is_a_title(word);
        let likely_name = capitals == count && !nobody && (inner_capitals > 0 || again());
        if status == Status::Untaught && likely_name && options.allow_names {
            declared = true;
            status = Status::Story;
        }
        // Only decodable words practise patterns.
        if status == Status::Decodable {
            let [mut focus, review] = memory.practises(judge, known, lesson, &practice);
            if let Some(wanted) = &options.focus {
                focus = practises(judge, &verdict, wanted);
            }
            for (is_in, counted) in [(focus, &mut report.focus), (review, &mut report.review)] {
                if is_in {
                    counted.tokens += count;
                    counted.types.push(type_number);
                }
            }
        }
        if two_readings && let Some(other) = verdict.other_reading(lesson) {
            report.two_readings.push(TwoReadings {
                verdict: Arc::clone(&verdict),
                type_number,
                places: places.clone(),
                count,
                counted: verdict.word.readings[0].ipa(),
                other: other.ipa(),
                needs: judge.first_difference(&verdict.word, &verdict.word.readings[0], other),
            });
        }
        report.tokens.add(status, count);
        report.types.add(status, 1);
        if status == Status::Untaught {
            report.findings.push(Finding {
                verdict: Arc::clone(&verdict),
                type_number,
                needs: memory.needs(judge, known, lesson),
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
