//! The sounds of a word one after the other, as a child counts them: `x` and `qu` are two.

use untaught::Reading;
use untaught_phonics::{Accent, SoundId, SoundKind};

/// A sound as it is heard in a word.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct SpokenSound {
    /// The sound.
    pub sound: SoundId,
    /// The number of the part that spells it.
    pub part: usize,
}

/// The sounds of a reading in order, as listeners know them; none if a part of it is irregular.
#[must_use]
pub fn heard(reading: &Reading) -> Option<Vec<SpokenSound>> {
    let mut heard = heard_apart(reading)?;
    for one in &mut heard {
        one.sound = merged(one.sound, reading.accent);
    }
    Some(heard)
}

/// The same with the vowels of *cot* and *caught* apart.
pub(crate) fn heard_apart(reading: &Reading) -> Option<Vec<SpokenSound>> {
    let mut heard = Vec::with_capacity(reading.parts.len() + 1);
    for (part, one) in reading.parts.iter().enumerate() {
        let sound = one.id()?.get().sound;
        if !is_countable(sound) {
            return None;
        }
        if sound.get().kind == SoundKind::Cluster {
            for name in sound.get().name.split(' ') {
                heard.push(SpokenSound { sound: SoundId::named(name)?, part });
            }
        } else {
            heard.push(SpokenSound { sound: reading.accent.heard(sound), part });
        }
    }
    Some(heard)
}

pub(crate) const BROAD: SoundId = SoundId::known("AO");
pub(crate) const CUP: SoundId = SoundId::known("AH");
pub(crate) const WEAK: SoundId = SoundId::known("AX");
pub(crate) const OPEN: SoundId = SoundId::known("AA");

/// A sound as listeners of an accent know it. Most Americans have one vowel in *cot* and *caught*, and teachers teach *dog* with
/// *hot*, so chains keep to that; in British accents *saw* rhymes with *sore*.
fn merged(sound: SoundId, accent: Accent) -> SoundId {
    if accent == Accent::GeneralAmerican && sound == BROAD { OPEN } else { sound }
}

/// Whether a sound is counted as one, or as the two of a cluster: not the /wʌ/ that one letter of *one* spells.
pub(crate) fn is_countable(sound: SoundId) -> bool {
    let sound = sound.get();
    sound.kind == SoundKind::Cluster || !["W ", "M ", "EH K"].iter().any(|start| sound.name.starts_with(start))
}

/// Whether a sound is a vowel.
pub(crate) fn is_vowel(sound: SoundId) -> bool {
    sound.get().kind.is_vowel()
}
