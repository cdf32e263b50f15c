//! Sounds, as a reading teacher counts them.

use crate::SOUNDS;

/// The index of a sound in [`SOUNDS`].
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct SoundId(pub(crate) u8);

/// The kind of a sound.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum SoundKind {
    /// A short vowel: *cat, bed, sit, hot, cup*.
    Short,
    /// A long vowel: *rain, see, time, boat, moon, cube*.
    Long,
    /// Another vowel: *saw, out, coin, book*.
    Other,
    /// A vowel with r: *car, her, fork*.
    R,
    /// An unstressed vowel, or a syllable around one: *about*, the last part of *apple*.
    Weak,
    /// A consonant.
    Consonant,
    /// Two consonants with one spelling: *box, queen*.
    Cluster,
}

/// A sound.
#[derive(Debug)]
pub struct Sound {
    /// Its name in the catalogue: ARPAbet symbols, with `AX` for schwa.
    pub name: &'static str,
    /// Its ARPAbet base symbols (`AH` for schwa too).
    pub arpabet: &'static str,
    /// IPA, without slashes: the form shown, then the others accepted.
    pub ipa: &'static [&'static str],
    /// A key word.
    pub key: &'static str,
    /// Its kind.
    pub kind: SoundKind,
}

impl SoundId {
    /// The sound itself.
    #[must_use]
    pub fn get(self) -> &'static Sound {
        &SOUNDS[usize::from(self.0)]
    }

    /// Finds the sound with this catalogue name (`AA R`).
    #[must_use]
    pub fn named(name: &str) -> Option<SoundId> {
        let index = SOUNDS.iter().position(|sound| sound.name == name)?;
        u8::try_from(index).ok().map(SoundId)
    }

    /// Returns the sound with this catalogue name, which must exist. For constants.
    ///
    /// # Panics
    /// If it does not exist. In a constant, that stops the build.
    #[must_use]
    pub const fn known(name: &str) -> SoundId {
        let mut id = 0;
        while id < SOUNDS.len() {
            if same(SOUNDS[id].name, name) {
                return SoundId(id as u8);
            }
            id += 1;
        }
        panic!("there is no such sound")
    }

    /// The sounds that this IPA can mean, with or without slashes; there are several where accents differ.
    pub fn from_ipa(ipa: &str) -> impl Iterator<Item = SoundId> {
        let ipa = ipa.trim().trim_matches('/').replace(['ː', ':', 'ˈ'], "");
        (0u8..).zip(&SOUNDS).filter_map(move |(id, sound)| {
            sound.ipa.iter().any(|form| form.replace('ː', "") == ipa).then_some(SoundId(id))
        })
    }
}

/// Whether two strings are equal. For constants.
pub(crate) const fn same(one: &str, other: &str) -> bool {
    let (one, other) = (one.as_bytes(), other.as_bytes());
    let mut at = 0;
    while at < one.len() && at < other.len() && one[at] == other[at] {
        at += 1;
    }
    at == one.len() && at == other.len()
}

impl SoundKind {
    /// Whether a sound of this kind forms a syllable.
    #[must_use]
    pub fn is_vowel(self) -> bool {
        !matches!(self, SoundKind::Consonant | SoundKind::Cluster)
    }
}
