//! Listening lists: words with a sound, and foils that have a close sound in its place. They are heard, not read: their spellings need
//! not have been taught, but the words must be common.

mod closeness;
mod taught;

use std::collections::{HashMap, HashSet};

use fastrand::Rng;
use serde::Serialize;
use untaught::{Pattern, Reader, Reading};
use untaught_phonics::{Accent, SoundId, spelled_in};

use crate::ages::{OLDER, Vocabulary, known_from};
use crate::fitness::{Purpose, is_fit, is_fit_as_heard};
use crate::random::shuffle;
use crate::sounds::{BROAD, CUP, OPEN, WEAK, heard_apart, is_vowel};
use crate::{CannotMake, WordPosition};

use closeness::by_closeness;

pub use closeness::{closeness, confusions};
pub use taught::{TaughtSound, listening, taught_sounds};

/// A word to listen to.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct ContrastItem {
    /// The word.
    pub word: String,
    /// Whether it has the sound.
    pub has: bool,
    /// In a foil, the close sound in IPA.
    pub foil: Option<&'static str>,
}

/// A listening list.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct Contrast {
    /// The sound to listen for, in IPA.
    #[serde(rename = "sound")]
    pub ipa: &'static str,
    /// The sound to listen for.
    #[serde(skip)]
    pub sound: SoundId,
    /// A word with the sound: in a list for a lesson, the key word of its pattern.
    pub key: String,
    /// The letters that spell the sound in that word.
    #[serde(skip)]
    pub letters: String,
    /// Where in the words it is.
    pub position: WordPosition,
    /// The words in the order in which to say them: as many with the sound as without.
    pub items: Vec<ContrastItem>,
    /// Pairs in the list that differ by that sound alone: the word that has it, the foil.
    pub pairs: Vec<(String, String)>,
}

/// Foil sounds of one list.
const FOILS: usize = 3;

struct PronouncedWord {
    word: &'static str,
    sounds: Vec<SoundId>,
    /// How little young children know it: less is better.
    rank: u8,
}

impl Contrast {
    /// What to listen for: `/ʃ/ as in ship, at the start`.
    #[must_use]
    pub fn heading(&self) -> String {
        format!("/{}/ as in {}, {}", self.ipa, self.key, self.position.phrase())
    }

    /// The same list, with the sound named by the pattern that a lesson teaches: *the igh of night*, not *the i_e of time*.
    #[must_use]
    pub fn named_by(mut self, taught: &TaughtSound) -> Contrast {
        if let Some((letters, key)) = &taught.named {
            self.letters.clone_from(letters);
            self.key.clone_from(key);
        }
        self
    }

    /// The same without IPA: `the sh of ship, at the start`.
    #[must_use]
    pub fn plain_heading(&self) -> String {
        if self.letters.is_empty() {
            return self.heading();
        }
        format!("the {} of {}, {}", self.letters, self.key, self.position.phrase())
    }
}

/// Reads the name of a sound: IPA between slashes, or a spelling (`sh`, `i as in sit`).
///
/// # Errors
/// A sentence, if it does not name one sound.
pub fn sound_named(written: &str, reader: &Reader) -> Result<SoundId, String> {
    if written.starts_with('/') {
        let sound = SoundId::from_ipa(written, reader.accent()).next();
        return sound.ok_or_else(|| {
            format!("there is no sound {}; untaught patterns lists them", untaught::messages::excerpt(written))
        });
    }
    let id = match &Pattern::parse(written, reader)? {
        Pattern::One(id, _) => Some(*id),
        Pattern::Bare(spelling) => {
            let mut known: Vec<_> = spelled_in(spelling, reader.accent()).collect();
            known.sort_by_key(|id| id.get().grade);
            known.first().copied()
        }
        Pattern::Chunk(_) | Pattern::Skill(_) => None,
    };
    let single = id
        .map(|id| id.get().sound)
        .filter(|sound| sound.get().name.split(' ').count() == 1 || sound.get().kind.is_vowel());
    single.ok_or_else(|| format!("{written} is not one sound; name one such as `sh` or `i as in sit`"))
}

/// Makes a listening list of `count` words with a sound and as many foils. Without a position it is the start for a consonant that begins
/// enough words, and the middle for a vowel. `rivals`: sounds to be heard apart from it before all others.
///
/// # Errors
/// A sentence, if there are too few words.
pub fn contrast(
    reader: &Reader,
    sound: SoundId,
    position: Option<WordPosition>,
    rivals: &[SoundId],
    count: usize,
    seed: u64,
) -> Result<Contrast, CannotMake> {
    let accent = reader.accent();
    let sound = accent.heard(sound);
    let places = match position {
        Some(position) => vec![position],
        None if is_vowel(sound) => vec![WordPosition::Middle, WordPosition::End, WordPosition::Start],
        None => vec![WordPosition::Start, WordPosition::End],
    };
    // Longer words only for sounds that short ones lack there: *measure*, *happy*.
    for syllables in 1..=2 {
        let spoken: Vec<PronouncedWord> = spoken(reader, sound, syllables);
        let made = places.iter().find_map(|position| list(&spoken, sound, accent, *position, rivals, count, seed));
        if let Some(made) = made {
            return Ok(Contrast { letters: letters_of(reader, sound), ..made });
        }
    }
    let sound = sound.get();
    let place = if places.len() == 1 { format!(" {}", places[0].phrase()) } else { String::new() };
    let r =
        if sound.name == "R" && places == [WordPosition::End] { "; an r at the end belongs to its vowel" } else { "" };
    Err(CannotMake(format!(
        "no list fits, because fewer than {count} common short words have /{}/ as in {}{place}{r}",
        sound.ipa(accent),
        sound.key(accent)
    )))
}

/// The letters that spell a sound in its key word: the `sh` of *ship*.
fn letters_of(reader: &Reader, sound: SoundId) -> String {
    let key = reader.read(sound.get().key(reader.accent()));
    let parts = key.readings.first().map_or(&[][..], |reading| &reading.parts);
    let has = |part: &&untaught::Part| part.id().is_some_and(|id| reader.accent().heard(id.get().sound) == sound);
    parts.iter().find(has).map_or_else(String::new, |part| part.spelling().to_owned())
}

/// The common words of so many syllables at most, each with the sounds of its first reading; words of several readings are left out, and so are
/// those that some speakers have with the sound and others without.
fn spoken(reader: &Reader, sound: SoundId, syllables: usize) -> Vec<PronouncedWord> {
    let words = reader
        .common(Vocabulary::default().class)
        .filter(|(word, _)| word.len() > 1 && !word.contains('\'') && is_fit(word, Purpose::Listed));
    let words = words.filter_map(|(word, class)| {
        let readings = reader.read(word).readings;
        let [reading] = readings.as_slice() else { return None };
        let heard = heard_apart(reading)
            .filter(|heard| reading.syllables() <= syllables && (2..=2 + 2 * syllables).contains(&heard.len()))?;
        if is_doubtful(reading, sound) {
            return None;
        }
        let plain = is_fit_as_heard(word, &heard, Purpose::Listed) && !reader.is_inflected(word, reading);
        // A word that is only heard must be known. Words that young children know go before words that are common among adults.
        let age = known_from(word);
        let rank = 6 * (age - 5) + class / 10;
        (plain && age < OLDER).then(|| PronouncedWord { word, sounds: heard.iter().map(|h| h.sound).collect(), rank })
    });
    let mut words: Vec<PronouncedWord> = words.collect();
    words.sort_by_key(|word| (word.rank, word.word));
    words
}

/// Whether Americans differ on whether a word has a sound: *hawk* has the vowel of *hot* for some, *dog* that of *saw*.
fn is_doubtful(reading: &Reading, sound: SoundId) -> bool {
    let mut sounds = reading.parts.iter().filter_map(|part| part.id().map(|id| id.get()));
    let other = match sound {
        OPEN => BROAD,
        BROAD => OPEN,
        _ => return false,
    };
    reading.accent == Accent::GeneralAmerican
        && sounds.any(|part| part.sound == other || part.sound == BROAD && part.spelling == "o")
}

/// The index of a sound in a word, if the word has it at a position and nowhere else.
fn index_at(word: &PronouncedWord, sound: SoundId, position: WordPosition) -> Option<usize> {
    let mut at = (0..word.sounds.len()).filter(|at| word.sounds[*at] == sound);
    let (Some(place), None) = (at.next(), at.next()) else { return None };
    let here = match position {
        WordPosition::Start => place == 0,
        WordPosition::End => place + 1 == word.sounds.len(),
        WordPosition::Middle => place > 0 && place + 1 < word.sounds.len(),
    };
    here.then_some(place)
}

fn list(
    spoken: &[PronouncedWord],
    sound: SoundId,
    accent: Accent,
    position: WordPosition,
    rivals: &[SoundId],
    count: usize,
    seed: u64,
) -> Option<Contrast> {
    let mut rng = Rng::with_seed(seed);
    // The weak vowel of *ever* is that of *up*, only weaker: who hears it there is not wrong.
    let weak = (sound == CUP).then_some(WEAK);
    let without = |word: &&PronouncedWord| !word.sounds.iter().any(|heard| *heard == sound || Some(*heard) == weak);
    let mut foils: Vec<SoundId> = Vec::new();
    let near = rivals.iter().copied().chain(confusions(sound)).chain(by_closeness(sound));
    for foil in near.map(|foil| accent.heard(foil)) {
        if foils.len() == FOILS {
            break;
        }
        let same = accent == Accent::GeneralAmerican && [sound, foil].iter().all(|sound| [OPEN, BROAD].contains(sound));
        let alike = is_vowel(foil) == is_vowel(sound);
        let stands = || spoken.iter().filter(|word| index_at(word, foil, position).is_some()).nth(FOILS - 1).is_some();
        if foil != sound && alike && !same && foil.get().is_in(accent) && !foils.contains(&foil) && stands() {
            foils.push(foil);
        }
    }
    let with: Vec<(&PronouncedWord, usize)> =
        spoken.iter().filter_map(|word| index_at(word, sound, position).map(|at| (word, at))).collect();
    let mut by_sounds: HashMap<&[SoundId], &PronouncedWord> = HashMap::new();
    for word in spoken.iter().rev() {
        by_sounds.insert(&word.sounds, word);
    }
    // Minimal pairs first: for each word with the sound the foils that differ by it alone.
    let mut pairs: Vec<(u32, &PronouncedWord, &PronouncedWord, SoundId)> = Vec::new();
    for (word, at) in &with {
        for (rank, foil) in foils.iter().enumerate() {
            let mut sounds = word.sounds.clone();
            sounds[*at] = *foil;
            if let Some(other) = by_sounds.get(sounds.as_slice()).filter(|other| without(other)) {
                // The classic confusion and the commoner words are liked best.
                let dislike = rank as u32 * 4 + u32::from(word.rank / 3) + u32::from(other.rank / 3) + rng.u32(0..3);
                pairs.push((dislike, word, other, *foil));
            }
        }
    }
    pairs.sort_by_key(|(dislike, word, other, _)| (*dislike, word.word, other.word));
    let mut items: Vec<ContrastItem> = Vec::new();
    let mut chosen_sounds: HashSet<Vec<SoundId>> = HashSet::new();
    let mut chosen_pairs: Vec<(String, String)> = Vec::new();
    for (_, word, other, foil) in pairs {
        // Half of the list: single words keep it from being a game of guessing the partner.
        if chosen_pairs.len() * 2 >= count {
            break;
        }
        if chosen_sounds.contains(&word.sounds) || chosen_sounds.contains(&other.sounds) {
            continue;
        }
        chosen_sounds.extend([word.sounds.clone(), other.sounds.clone()]);
        items.push(ContrastItem { word: word.word.to_owned(), has: true, foil: None });
        items.push(ContrastItem { word: other.word.to_owned(), has: false, foil: Some(foil.get().ipa(accent)) });
        chosen_pairs.push((word.word.to_owned(), other.word.to_owned()));
    }
    let mut rest: Vec<&PronouncedWord> = with.iter().map(|(word, _)| *word).collect();
    shuffle_by_class(&mut rest, &mut rng);
    for word in rest {
        if items.iter().filter(|item| item.has).count() < count && chosen_sounds.insert(word.sounds.clone()) {
            items.push(ContrastItem { word: word.word.to_owned(), has: true, foil: None });
        }
    }
    for number in 0..foils.len() * count {
        if items.iter().filter(|item| !item.has).count() >= count {
            break;
        }
        let foil = foils[number % foils.len()];
        let mut near: Vec<&PronouncedWord> =
            spoken.iter().filter(|w| index_at(w, foil, position).is_some()).filter(without).collect();
        shuffle_by_class(&mut near, &mut rng);
        if let Some(word) = near.into_iter().find(|word| !chosen_sounds.contains(&word.sounds)) {
            chosen_sounds.insert(word.sounds.clone());
            items.push(ContrastItem { word: word.word.to_owned(), has: false, foil: Some(foil.get().ipa(accent)) });
        }
    }
    let has = items.iter().filter(|item| item.has).count();
    if has < count || items.len() - has < count {
        return None;
    }
    mix(&mut items, &mut rng);
    Some(Contrast {
        ipa: sound.get().ipa(accent),
        sound,
        key: sound.get().key(accent).to_owned(),
        letters: String::new(),
        position,
        items,
        pairs: chosen_pairs,
    })
}

/// Answers that may be the same one after the other: a child who only guesses on is found out.
const ALIKE: usize = 3;

/// Shuffles until no more answers than that are alike in a row; more than half of all orders are such, so a few tries are enough.
fn mix(items: &mut [ContrastItem], rng: &mut Rng) {
    for _ in 0..60 {
        shuffle(items, rng);
        if items.chunk_by(|one, other| one.has == other.has).all(|row| row.len() <= ALIKE) {
            break;
        }
    }
}

/// In random order, but the commonest first.
fn shuffle_by_class(words: &mut [&PronouncedWord], rng: &mut Rng) {
    shuffle(words, rng);
    words.sort_by_key(|word| word.rank);
}

#[cfg(test)]
mod tests {
    use super::*;

    /// *Hawk* is neither a yes nor a no for *hot*, because Americans differ; in Britain *saw* and *sore* sound alike.
    #[test]
    fn accents_decide_what_is_a_yes() {
        let american = Reader::default();
        let sound = |name: &str| SoundId::named(name).unwrap();
        for seed in 0..10 {
            for (name, other) in [("AA", "AO"), ("AO", "AA")] {
                let made = contrast(&american, sound(name), None, &[], 8, seed).unwrap();
                for item in &made.items {
                    let heard = heard_apart(&american.read(&item.word).readings[0]).unwrap();
                    assert!(heard.iter().all(|heard| heard.sound != sound(other)), "{name}: {}", item.word);
                }
            }
            let british = american.in_accent(Accent::SouthernBritish);
            let made = contrast(british, sound("AO R"), None, &[], 8, seed).unwrap();
            assert_eq!(made.ipa, "ɔː");
            for item in &made.items {
                let heard = heard_apart(&british.read(&item.word).readings[0]).unwrap();
                assert_eq!(heard.iter().any(|heard| heard.sound == BROAD), item.has, "{}", item.word);
            }
        }
    }

    #[test]
    fn lists_are_balanced_and_true() {
        let reader = Reader::default();
        for (name, position) in
            [("SH", None), ("TH", None), ("IH", None), ("EY", None), ("NG", Some(WordPosition::End))]
        {
            let sound = SoundId::named(name).unwrap();
            let made = contrast(&reader, sound, position, &[], 6, 7).unwrap_or_else(|e| panic!("{name}: {e}"));
            assert_eq!(made.items.len(), 12, "{name}");
            assert_eq!(made.items.iter().filter(|item| item.has).count(), 6, "{name}");
            for item in &made.items {
                let sounds = heard_apart(&reader.read(&item.word).readings[0]).unwrap();
                assert_eq!(sounds.iter().any(|heard| heard.sound == sound), item.has, "{name}: {}", item.word);
            }
            assert_eq!(made, contrast(&reader, sound, position, &[], 6, 7).unwrap(), "the same seed, the same list");
        }
    }
}
