//! What a lesson listens for: the sounds of its patterns, where its own words have them.

use std::collections::BTreeMap;

use untaught::{Focus, Pattern};
use untaught_phonics::{CorrespondenceId, SoundId, SoundKind, spelled_in};

use super::{Contrast, contrast};
use crate::{Bank, BankWord, CannotMake, WordPosition};

/// A sound that a pattern teaches.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct TaughtSound {
    /// The sound.
    pub sound: SoundId,
    /// Where the words that practise the pattern have it, the likeliest place first.
    pub positions: Vec<WordPosition>,
    /// The name of the pattern.
    pub pattern: String,
    /// How the pattern spells the sound, and its key word; none for a chunk.
    pub named: Option<(String, String)>,
}

/// Words that are enough to tell where a sound is.
const FEW: usize = 4;

/// A place counts if at least this share of the words has the sound there, in percent.
const SHARE: usize = 20;

/// The sounds that patterns teach, as the words of a bank have them: never the sound of `ck` at the start.
#[must_use]
pub fn taught_sounds(bank: &Bank<'_>, patterns: &[Pattern]) -> Vec<TaughtSound> {
    let mut found: Vec<TaughtSound> = Vec::new();
    for pattern in patterns {
        let focus = Focus::of(bank.judge.scope(), std::slice::from_ref(pattern));
        // Its everyday words: in *houses* the `se` of *house* is somewhere else.
        let practise = || bank.words.iter().filter(|word| bank.practises(word, &focus, None));
        let plain: Vec<&BankWord> = practise().filter(|word| !word.inflected).collect();
        let short: Vec<&BankWord> = plain.iter().copied().filter(|word| word.reading.syllables() == 1).collect();
        let practise =
            [short, plain].into_iter().find(|words| words.len() >= FEW).unwrap_or_else(|| practise().collect());
        let mut places: BTreeMap<SoundId, BTreeMap<WordPosition, usize>> = BTreeMap::new();
        for word in practise {
            if let Some((sound, position)) = heard_in(bank, &focus, word) {
                *places.entry(sound).or_default().entry(position).or_default() += 1;
            }
        }
        // Of several sounds of a bare spelling each is served, the commonest first.
        let mut sounds: Vec<(SoundId, BTreeMap<WordPosition, usize>)> = places.into_iter().collect();
        let all: usize = sounds.iter().map(|(_, places)| places.values().sum::<usize>()).sum();
        sounds.sort_by_key(|(_, places)| std::cmp::Reverse(places.values().sum::<usize>()));
        for (sound, places) in sounds {
            let words: usize = places.values().sum();
            if words * 100 < all * SHARE || found.iter().any(|known| known.sound == sound) {
                continue;
            }
            let mut places: Vec<(WordPosition, usize)> =
                places.into_iter().filter(|(_, here)| here * 100 >= words * SHARE).collect();
            places.sort_by_key(|(_, here)| std::cmp::Reverse(*here));
            let positions = places.into_iter().map(|(position, _)| position).collect();
            let named = named(bank, &focus, pattern, sound);
            found.push(TaughtSound { sound, positions, pattern: pattern.label(), named });
        }
    }
    found
}

/// How a pattern spells a sound, and its key word: that of the scope, if it gives one.
fn named(bank: &Bank<'_>, focus: &Focus, pattern: &Pattern, sound: SoundId) -> Option<(String, String)> {
    let accent = bank.judge.scope().accent();
    let has = |id: &CorrespondenceId| accent.heard(id.get().sound) == sound && id.get().is_in(accent);
    let (id, key) = match pattern {
        Pattern::One(id, label) => (Some(*id).filter(has)?, label.split_once(" as in ").map(|(_, key)| key)),
        Pattern::Bare(spelling) => (spelled_in(spelling, accent).find(|id| focus.teaches(*id) && has(id))?, None),
        Pattern::Chunk(_) | Pattern::Skill(_) => return None,
    };
    let part = id.get();
    Some((part.spelling.to_owned(), key.unwrap_or(part.key).to_owned()))
}

/// The sound of a pattern in a word, and its place: of a chunk its vowel, of `tion` its first consonant.
fn heard_in(bank: &Bank<'_>, focus: &Focus, word: &BankWord) -> Option<(SoundId, WordPosition)> {
    let stretch = focus.stretches(bank.judge.reader(), &word.word, &word.reading).into_iter().next()?;
    let heard: Vec<(usize, SoundId)> = word
        .sounds
        .iter()
        .enumerate()
        .filter(|(_, heard)| stretch.contains(&heard.part))
        .map(|(at, heard)| (at, heard.sound))
        .collect();
    let single = |sound: SoundId| listenable(sound).is_some();
    // The vowel of an ending is weak: its consonant is heard better.
    let is_strong = word.reading.syllables() == 1 || word.reading.stressed.is_some_and(|at| stretch.contains(&at));
    let is_chunk = is_strong && stretch.start() != stretch.end();
    let vowel = heard.iter().find(|(_, sound)| is_chunk && single(*sound) && sound.get().kind.is_vowel());
    let (at, sound) = *vowel.or_else(|| heard.iter().find(|(_, sound)| single(*sound)))?;
    let position = match at {
        0 => WordPosition::Start,
        // The /tʃ/ of *picture* is not the end of it.
        at if at + 1 == word.sounds.len() && listenable(sound) == Some(sound) => WordPosition::End,
        _ => WordPosition::Middle,
    };
    Some((listenable(sound)?, position))
}

/// The sound to listen for: a single one that is not weak, or the first consonant of several, as the /tʃ/ of `ture`.
fn listenable(sound: SoundId) -> Option<SoundId> {
    let first = sound.get().name.split(' ').next().and_then(SoundId::named);
    match sound.get().kind {
        SoundKind::Weak => None,
        SoundKind::Cluster => first,
        // *ture* is /tʃ/ and a weak end; the /juː/ of *cube* and the /ɑr/ of *car* are one.
        _ if first.is_some_and(|first| first != sound && !first.get().kind.is_vowel() && first.get().name != "Y") => {
            first
        }
        _ => Some(sound),
    }
}

/// Listening lists for the sounds of some patterns, as many as can be made: each with the other sounds of the lesson among its foils.
///
/// # Errors
/// A sentence that says why there is none.
pub fn listening(bank: &Bank<'_>, patterns: &[Pattern], count: usize, seed: u64) -> Result<Vec<Contrast>, CannotMake> {
    let scope = bank.judge.scope();
    if scope.lessons().iter().all(|lesson| lesson.patterns.is_empty()) {
        return Err(CannotMake("this scope teaches sight words alone: there is no sound to listen for".to_owned()));
    }
    let taught = taught_sounds(bank, patterns);
    let rivals: Vec<SoundId> = taught.iter().map(|taught| taught.sound).collect();
    let mut made: Vec<Contrast> = Vec::new();
    let mut why = None;
    for one in &taught {
        for (number, position) in one.positions.iter().enumerate() {
            match contrast(bank.judge.reader(), one.sound, Some(*position), &rivals, count, seed) {
                Ok(list) => {
                    made.push(list.named_by(one));
                    break;
                }
                // What is wrong at the likeliest place tells most.
                Err(reason) if number == 0 => why = why.or(Some(reason)),
                Err(_) => {}
            }
        }
    }
    if made.is_empty() {
        let nothing =
            || CannotMake("no list fits, because this lesson teaches no sound that can be listened for".to_owned());
        return Err(why.unwrap_or_else(nothing));
    }
    Ok(made)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Vocabulary;
    use untaught::{Judge, Reader, Scope};

    #[test]
    fn a_sound_is_named_by_the_pattern_of_its_lesson() {
        let reader = Reader::default();
        let scope = Scope::embedded("starter", &reader).unwrap();
        for (id, heading) in [
            ("5", "the c of cat, at the start"),
            ("14", "the ck of duck, at the end"),
            ("33", "the igh of night, in the middle"),
            // A chunk is no spelling of one sound: the sound keeps its own key word.
            ("27", "the i of sit, in the middle"),
        ] {
            let lesson = scope.index_of(id).unwrap();
            let bank = Bank::new(Judge::new(&reader, &scope), lesson, Vocabulary::default(), 1..=3);
            let lists = listening(&bank, &scope.lesson(lesson).unwrap().patterns, 6, 1).unwrap();
            assert_eq!(lists[0].plain_heading(), heading, "{id}");
        }
    }
}
