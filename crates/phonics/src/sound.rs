//! Sounds, as a reading teacher counts them.

use std::borrow::Cow;

use crate::{Accent, SOUNDS};

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
    /// IPA in General American, without slashes: the form shown, then the others accepted.
    pub(crate) ipa: &'static [&'static str],
    /// IPA in southern British and northern English; `(r)` is sounded only before a vowel.
    pub(crate) british: [&'static str; 2],
    /// A key word in General American and in British accents.
    pub(crate) keys: [&'static str; 2],
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

    /// The sounds that this IPA can mean in an accent, with or without slashes: those shown so first, then those for which it
    /// is another common symbol.
    pub fn from_ipa(ipa: &str, accent: Accent) -> impl Iterator<Item = SoundId> {
        let ipa = ipa.trim().trim_matches('/').replace(':', "ː").replace('ˈ', "");
        let short = ipa.replace('ː', "");
        let all = || (0u8..).map(SoundId).zip(&SOUNDS);
        let shown = all().filter(|(_, sound)| sound.is_shown_as(&ipa, accent)).map(|(id, _)| id);
        let accepted = all().filter(|(_, sound)| {
            !sound.is_shown_as(&ipa, accent) && sound.ipa.iter().any(|form| form.replace('ː', "") == short)
        });
        shown.chain(accepted.map(|(id, _)| id)).collect::<Vec<_>>().into_iter()
    }
}

impl Sound {
    /// Its IPA by itself in an accent, without slashes.
    #[must_use]
    pub fn ipa(&self, accent: Accent) -> &'static str {
        let shown = self.shown(accent);
        shown.strip_suffix("(r)").unwrap_or(shown)
    }

    /// Its IPA before a vowel of the same word, with the r that is sounded only there.
    #[must_use]
    pub fn ipa_before_vowel(&self, accent: Accent) -> Cow<'static, str> {
        match self.shown(accent).strip_suffix("(r)") {
            Some(vowel) => Cow::Owned(format!("{vowel}r")),
            None => Cow::Borrowed(self.shown(accent)),
        }
    }

    /// A key word in an accent.
    #[must_use]
    pub fn key(&self, accent: Accent) -> &'static str {
        self.keys[usize::from(accent.is_british())]
    }

    /// Whether words have it in an accent.
    #[must_use]
    pub fn is_in(&self, accent: Accent) -> bool {
        accent.is_british() || !matches!(self.name, "OH" | "EA")
    }

    fn shown(&self, accent: Accent) -> &'static str {
        match accent {
            Accent::GeneralAmerican => self.ipa[0],
            Accent::SouthernBritish => self.british[0],
            Accent::NorthernEnglish => self.british[1],
        }
    }

    fn is_shown_as(&self, ipa: &str, accent: Accent) -> bool {
        self.ipa(accent) == ipa || *self.ipa_before_vowel(accent) == *ipa
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
