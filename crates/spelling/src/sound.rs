//! Sounds: what a reading teacher counts as one.

use crate::SOUNDS;

/// The place of a sound in [`SOUNDS`].
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct SoundId(pub(crate) u8);

/// What sort of sound it is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum SoundKind {
    /// A short vowel: *cat, bed, sit, hot, cup*.
    Short,
    /// A long vowel: *rain, see, time, boat, moon, cube*.
    Long,
    /// Another vowel: *saw, out, coin, book*.
    Other,
    /// A vowel with its r: *car, her, fork*.
    R,
    /// An unstressed vowel, or a syllable around one: *about*, the last part of *apple*.
    Weak,
    /// A consonant.
    Consonant,
    /// Two consonants under one spelling: *box, queen*.
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
    /// What sort of sound it is.
    pub kind: SoundKind,
}

impl SoundId {
    /// The sound itself.
    #[must_use]
    pub fn get(self) -> &'static Sound {
        &SOUNDS[usize::from(self.0)]
    }

    /// The sound of that catalogue name (`AA R`).
    #[must_use]
    pub fn named(name: &str) -> Option<SoundId> {
        let place = SOUNDS.iter().position(|sound| sound.name == name)?;
        u8::try_from(place).ok().map(SoundId)
    }

    /// The sounds that are written so in IPA, with or without slashes; several where accents differ.
    pub fn from_ipa(ipa: &str) -> impl Iterator<Item = SoundId> {
        let ipa = ipa.trim().trim_matches('/').replace(['ː', ':', 'ˈ'], "");
        (0u8..).zip(&SOUNDS).filter_map(move |(id, sound)| {
            sound.ipa.iter().any(|form| form.replace('ː', "") == ipa).then_some(SoundId(id))
        })
    }
}

impl SoundKind {
    /// Whether a sound of this kind makes a syllable.
    #[must_use]
    pub fn is_vowel(self) -> bool {
        !matches!(self, SoundKind::Consonant | SoundKind::Cluster)
    }
}
