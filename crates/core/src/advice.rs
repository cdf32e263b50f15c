//! Advice on a scope for its author. These are suggestions, not errors.

use std::collections::{BTreeMap, BTreeSet};

use untaught_phonics::{CorrespondenceId, Grade, Reading, spelled_in};

use crate::{Focus, Judge, LessonIndex, Need, Pattern, Reader, Scope, messages};

/// If fewer common words than this practise a pattern at its lesson, it is hard to write for.
pub const FEW: usize = 10;

/// Size class of words that count as common: about the 11,000 commonest in the dictionary.
const COMMON: u8 = 20;

/// Size class of the very commonest words: about 4,000.
const COMMONEST: u8 = 10;

/// Words that are named as examples.
const EXAMPLES: usize = 10;

/// The advice on a scope.
#[derive(Debug)]
pub struct Advice {
    /// Sight words that are decodable at their lesson or later: word, lesson that teaches it, first lesson at which it is
    /// decodable.
    pub sight: Vec<(String, LessonIndex, LessonIndex)>,
    /// Patterns with fewer than [`FEW`] common decodable words at their lesson: pattern, lesson, number of words.
    pub thin: Vec<(String, LessonIndex, usize)>,
    /// Untaught correspondences in very common words, which are therefore never decodable: correspondence, number of words,
    /// examples.
    pub missing: Vec<(String, usize, Vec<String>)>,
    /// Lessons that teach patterns but by which no common word becomes decodable.
    pub idle: Vec<LessonIndex>,
    /// Bare spellings with other common sounds that the scope never names: spelling, lesson, those sounds.
    pub ambiguous: Vec<(String, LessonIndex, Vec<String>)>,
    /// Spellings that the title of a lesson names, and that no lesson up to this one teaches: lesson, spellings.
    pub titles: Vec<(LessonIndex, Vec<String>)>,
}

/// Analyses a scope. `knows` says which words children know: they are the better examples. Cost: a judgement of the 11,000 commonest
/// words; a few hundredths of a second.
#[must_use]
pub fn advise(scope: &Scope, reader: &Reader, knows: impl Fn(&str) -> bool) -> Advice {
    let judge = Judge::new(reader, scope);
    let reader = judge.reader();
    let mut decodable: Vec<(&'static str, Reading, LessonIndex)> = Vec::new();
    let mut missing: BTreeMap<Need, Vec<(u8, String)>> = BTreeMap::new();
    for (word, class) in reader.common(COMMON) {
        let verdict = judge.judge(word);
        match verdict.first_decodable() {
            Some(taught_in) => decodable.push((word, verdict.word.readings[0].clone(), taught_in)),
            None if class <= COMMONEST && verdict.first_readable().is_none() => {
                for need in judge.needs(&verdict, scope.last()) {
                    missing.entry(need).or_default().push((class, word.to_owned()));
                }
            }
            None => {}
        }
    }
    Advice {
        sight: sight(&judge),
        thin: thin(scope, reader, &decodable),
        missing: most(missing, scope, knows),
        idle: idle(scope, &decodable),
        ambiguous: ambiguous(scope),
        titles: titles(scope, reader),
    }
}

fn sight(judge: &Judge<'_>) -> Vec<(String, LessonIndex, LessonIndex)> {
    let words = judge
        .scope()
        .indexed_lessons()
        .flat_map(|(taught_in, lesson)| lesson.sight.iter().map(move |word| (taught_in, word)));
    let first = words.filter_map(|(taught_in, word)| {
        let decodable = judge.judge(word).first_decodable()?;
        Some((word.clone(), taught_in, decodable))
    });
    first.collect()
}

fn idle(scope: &Scope, decodable: &[(&str, Reading, LessonIndex)]) -> Vec<LessonIndex> {
    let lessons = scope.indexed_lessons().filter(|(_, lesson)| !lesson.patterns.is_empty()).map(|(index, _)| index);
    // Nothing can be read at the very first lessons, with two or three letters.
    let ready = |lesson: &LessonIndex| decodable.iter().any(|(.., first)| first <= lesson);
    lessons.filter(|lesson| ready(lesson) && !decodable.iter().any(|(.., first)| first == lesson)).collect()
}

fn thin(
    scope: &Scope,
    reader: &Reader,
    decodable: &[(&str, Reading, LessonIndex)],
) -> Vec<(String, LessonIndex, usize)> {
    let mut thin = Vec::new();
    for (taught_in, lesson) in scope.indexed_lessons() {
        for pattern in &lesson.patterns {
            let focus = Focus::of(scope, std::slice::from_ref(pattern));
            let ready = decodable.iter().filter(|(.., first)| *first <= taught_in);
            let count = ready.filter(|(word, reading, _)| focus.is_in(reader, word, reading)).take(FEW).count();
            if count < FEW {
                thin.push((pattern.label(), taught_in, count));
            }
        }
    }
    thin
}

/// Returns the fifteen that hold back the most words.
fn most(
    missing: BTreeMap<Need, Vec<(u8, String)>>,
    scope: &Scope,
    knows: impl Fn(&str) -> bool,
) -> Vec<(String, usize, Vec<String>)> {
    let mut list: Vec<(String, usize, Vec<String>)> = missing
        .into_iter()
        .filter(|(need, _)| !need.is_whole_word())
        .map(|(need, mut words)| {
            words.sort_by_key(|(class, word)| (!knows(word), *class, word.len()));
            (
                messages::need(&need, scope),
                words.len(),
                words.into_iter().take(EXAMPLES).map(|(_, word)| word).collect(),
            )
        })
        .filter(|(_, count, _)| *count > 1)
        .collect();
    list.sort_by_key(|(label, count, _)| (std::cmp::Reverse(*count), label.clone()));
    list.truncate(15);
    list
}

fn ambiguous(scope: &Scope) -> Vec<(String, LessonIndex, Vec<String>)> {
    let mut found = Vec::new();
    for (taught_in, lesson) in scope.indexed_lessons() {
        for pattern in &lesson.patterns {
            let Pattern::Bare(spelling) = pattern else { continue };
            let further = |id: &CorrespondenceId| id.get().grade == Grade::Common && !scope.names(*id);
            let sounds: Vec<String> = spelled_in(spelling, scope.accent())
                .filter(further)
                .map(|id| messages::correspondence(id, scope))
                .collect();
            if !sounds.is_empty() {
                found.push(((*spelling).to_owned(), taught_in, sounds));
            }
        }
    }
    found
}

/// What titles promise: *igh, ie and y as in fly* in a lesson that teaches no `ie`.
fn titles(scope: &Scope, reader: &Reader) -> Vec<(LessonIndex, Vec<String>)> {
    let spelling = |label: &str| label.split(" as in ").next().unwrap_or_default().to_owned();
    let mut taught: BTreeSet<String> = BTreeSet::new();
    let mut found = Vec::new();
    for (index, lesson) in scope.indexed_lessons() {
        taught.extend(lesson.patterns.iter().map(|pattern| spelling(&pattern.label())));
        let mut missing: Vec<String> = Vec::new();
        let mut after_in = false;
        for written in lesson.title.split(|c: char| c.is_whitespace() || matches!(c, ',' | ';' | ':' | '(' | ')' | '/'))
        {
            // *ea as in eat*: the key word is none.
            let is_key = std::mem::replace(&mut after_in, written == "in");
            let is_ending =
                written.len() > 2 && written.starts_with('-') && written[1..].bytes().all(|b| b.is_ascii_lowercase());
            let strange = written.len() > 1 && (written.contains('_') || !reader.spells(written));
            let is_spelling = is_ending || strange && spelled_in(written, scope.accent()).next().is_some();
            // *-le* is taught by `le as in table`, *-tion* by `ti as in nation`.
            let bare = written.trim_start_matches('-');
            let is_taught =
                taught.contains(written) || taught.iter().any(|known| is_ending && bare.starts_with(known.as_str()));
            if is_spelling && !is_key && !is_taught && !missing.contains(&written.to_owned()) {
                missing.push(written.to_owned());
            }
        }
        if !missing.is_empty() {
            found.push((index, missing));
        }
    }
    found
}
