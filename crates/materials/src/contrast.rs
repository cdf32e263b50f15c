//! Listening lists: words with a sound, and foils that differ from it by one close sound. They are heard, not read, so the spelling
//! need not have been taught; but the words must be common.

use std::collections::{HashMap, HashSet};

use fastrand::Rng;
use untaught::{Pattern, Reader};
use untaught_phonics::{SoundId, spelled};

use crate::features::confusions;
use crate::lot::shuffle;
use crate::sounds::{heard, is_vowel};
use crate::{Lacking, Position, USUAL, fit};

/// A word to be heard.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Item {
    /// The word.
    pub word: String,
    /// Whether it has the sound.
    pub has: bool,
    /// In a foil, the close sound.
    pub foil: Option<SoundId>,
}

/// A listening list.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Contrast {
    /// The sound to listen for.
    pub sound: SoundId,
    /// Where in the words it stands.
    pub position: Position,
    /// The words in the order in which they are said: as many with the sound as without.
    pub items: Vec<Item>,
    /// Pairs in the list that differ by that sound alone: the word that has it, the foil.
    pub pairs: Vec<(String, String)>,
}

/// Foil sounds of one list.
const FOILS: usize = 3;

struct Spoken {
    word: &'static str,
    sounds: Vec<SoundId>,
    class: u8,
}

impl Contrast {
    /// What to listen for: `/ʃ/ as in ship, at the start`.
    #[must_use]
    pub fn heading(&self) -> String {
        let sound = self.sound.get();
        let place = match self.position {
            Position::Start => "at the start",
            Position::Middle => "in the middle",
            Position::End => "at the end",
        };
        format!("/{}/ as in {}, {place}", sound.ipa[0], sound.key)
    }
}

/// The sound that somebody names: in IPA between slashes, or by a spelling (`sh`, `i as in sit`).
///
/// # Errors
/// A sentence where that is not one sound.
pub fn sound_named(written: &str, reader: &Reader) -> Result<SoundId, String> {
    if written.starts_with('/') {
        let sound = SoundId::from_ipa(written).next();
        return sound.ok_or_else(|| {
            format!("there is no sound {}; untaught patterns lists them", untaught::messages::excerpt(written))
        });
    }
    let id = match &Pattern::parse(written, reader)? {
        Pattern::One(id, _) => Some(*id),
        Pattern::Bare(spelling) => spelled(spelling).next(),
        Pattern::Chunk(_) => None,
    };
    let single = id
        .map(|id| id.get().sound)
        .filter(|sound| sound.get().name.split(' ').count() == 1 || sound.get().kind.is_vowel());
    single.ok_or_else(|| format!("{written} is not one sound; name one such as `sh` or `i as in sit`"))
}

/// Makes a listening list of `count` words with a sound and as many foils, at the start, in the middle or at the end of words; where
/// nothing is said, at the start for a consonant that begins enough words, and in the middle for a vowel.
///
/// # Errors
/// A sentence where there are too few words.
pub fn contrast(
    reader: &Reader,
    sound: SoundId,
    position: Option<Position>,
    count: usize,
    seed: u64,
) -> Result<Contrast, Lacking> {
    let spoken: Vec<Spoken> = spoken(reader);
    let places = match position {
        Some(position) => vec![position],
        None if is_vowel(sound) => vec![Position::Middle, Position::End, Position::Start],
        None => vec![Position::Start, Position::End],
    };
    let mut lists = places.into_iter().filter_map(|position| list(&spoken, sound, position, count, seed));
    lists.next().ok_or_else(|| {
        let sound = sound.get();
        Lacking(format!(
            "there are fewer than {count} common short words with /{}/ as in {} there, or too few with sounds close to it",
            sound.ipa[0], sound.key
        ))
    })
}

/// The common words of one syllable, each with the sounds of its first reading; words of several readings are left out.
fn spoken(reader: &Reader) -> Vec<Spoken> {
    let words = reader.common(USUAL).filter(|(word, _)| word.len() > 1 && !word.contains('\'') && fit::is_fit(word));
    let words = words.filter_map(|(word, class)| {
        let readings = reader.read(word).readings;
        let [reading] = readings.as_slice() else { return None };
        let heard = heard(reading).filter(|heard| reading.syllables() == 1 && (2..=4).contains(&heard.len()))?;
        let plain = fit::sounds_fit(&heard) && !reader.is_inflected(word, reading);
        // What children know goes before what is common among adults.
        let class = if crate::dictation::is_childlike(word) { 5 } else { class };
        plain.then(|| Spoken { word, sounds: heard.iter().map(|h| h.sound).collect(), class })
    });
    let mut words: Vec<Spoken> = words.collect();
    words.sort_by_key(|word| (word.class, word.word));
    words
}

/// Whether a word has a sound at a place and nowhere else; the place.
fn stands(word: &Spoken, sound: SoundId, position: Position) -> Option<usize> {
    let mut at = (0..word.sounds.len()).filter(|at| word.sounds[*at] == sound);
    let (Some(place), None) = (at.next(), at.next()) else { return None };
    let here = match position {
        Position::Start => place == 0,
        Position::End => place + 1 == word.sounds.len(),
        Position::Middle => place > 0 && place + 1 < word.sounds.len(),
    };
    here.then_some(place)
}

fn list(spoken: &[Spoken], sound: SoundId, position: Position, count: usize, seed: u64) -> Option<Contrast> {
    let mut rng = Rng::with_seed(seed);
    let foils: Vec<SoundId> = confusions(sound).into_iter().take(FOILS).collect();
    let with: Vec<(&Spoken, usize)> =
        spoken.iter().filter_map(|word| stands(word, sound, position).map(|at| (word, at))).collect();
    let mut by_sounds: HashMap<&[SoundId], &Spoken> = HashMap::new();
    for word in spoken.iter().rev() {
        by_sounds.insert(&word.sounds, word);
    }
    // Minimal pairs first: for each word with the sound the foils that differ by it alone.
    let mut pairs: Vec<(u32, &Spoken, &Spoken, SoundId)> = Vec::new();
    for (word, at) in &with {
        for (rank, foil) in foils.iter().enumerate() {
            let mut sounds = word.sounds.clone();
            sounds[*at] = *foil;
            if let Some(other) = by_sounds.get(sounds.as_slice()) {
                // The classic confusion and the commoner words are liked best.
                let dislike = rank as u32 * 4 + u32::from(word.class / 3) + u32::from(other.class / 3) + rng.u32(0..3);
                pairs.push((dislike, word, other, *foil));
            }
        }
    }
    pairs.sort_by_key(|(dislike, word, other, _)| (*dislike, word.word, other.word));
    let mut items: Vec<Item> = Vec::new();
    let mut said: HashSet<Vec<SoundId>> = HashSet::new();
    let mut chosen: Vec<(String, String)> = Vec::new();
    for (_, word, other, foil) in pairs {
        // Half of the list: single words keep it from being a game of guessing the partner.
        if chosen.len() * 2 >= count {
            break;
        }
        if said.contains(&word.sounds) || said.contains(&other.sounds) {
            continue;
        }
        said.extend([word.sounds.clone(), other.sounds.clone()]);
        items.push(Item { word: word.word.to_owned(), has: true, foil: None });
        items.push(Item { word: other.word.to_owned(), has: false, foil: Some(foil) });
        chosen.push((word.word.to_owned(), other.word.to_owned()));
    }
    let mut rest: Vec<&Spoken> = with.iter().map(|(word, _)| *word).collect();
    shuffle_by_class(&mut rest, &mut rng);
    for word in rest {
        if items.iter().filter(|item| item.has).count() < count && said.insert(word.sounds.clone()) {
            items.push(Item { word: word.word.to_owned(), has: true, foil: None });
        }
    }
    let without = |word: &&Spoken| !word.sounds.contains(&sound);
    for number in 0..foils.len() * count {
        if items.iter().filter(|item| !item.has).count() >= count {
            break;
        }
        let foil = foils[number % foils.len()];
        let mut near: Vec<&Spoken> =
            spoken.iter().filter(|w| stands(w, foil, position).is_some()).filter(without).collect();
        shuffle_by_class(&mut near, &mut rng);
        if let Some(word) = near.into_iter().find(|word| !said.contains(&word.sounds)) {
            said.insert(word.sounds.clone());
            items.push(Item { word: word.word.to_owned(), has: false, foil: Some(foil) });
        }
    }
    let has = items.iter().filter(|item| item.has).count();
    if has < count || items.len() - has < count {
        return None;
    }
    shuffle(&mut items, &mut rng);
    Some(Contrast { sound, position, items, pairs: chosen })
}

/// By lot, but the commonest first.
fn shuffle_by_class(words: &mut [&Spoken], rng: &mut Rng) {
    shuffle(words, rng);
    words.sort_by_key(|word| word.class);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lists_are_balanced_and_true() {
        let reader = Reader::default();
        for (name, position) in [("SH", None), ("TH", None), ("IH", None), ("EY", None), ("NG", Some(Position::End))] {
            let sound = SoundId::named(name).unwrap();
            let made = contrast(&reader, sound, position, 6, 7).unwrap_or_else(|e| panic!("{name}: {e}"));
            assert_eq!(made.items.len(), 12, "{name}");
            assert_eq!(made.items.iter().filter(|item| item.has).count(), 6, "{name}");
            for item in &made.items {
                let sounds = heard(&reader.read(&item.word).readings[0]).unwrap();
                assert_eq!(sounds.iter().any(|heard| heard.sound == sound), item.has, "{name}: {}", item.word);
            }
            assert_eq!(made, contrast(&reader, sound, position, 6, 7).unwrap(), "the same seed, the same list");
        }
    }
}
