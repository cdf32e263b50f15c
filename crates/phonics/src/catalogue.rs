//! The catalogue of correspondences.

use crate::sound::same;
use crate::{Accent, BY_SPELLING, CORRESPONDENCES, Phone, SoundId};

/// The index of a correspondence in [`CORRESPONDENCES`].
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct CorrespondenceId(pub u16);

/// How common a correspondence is.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Grade {
    /// A bare spelling in a scope file teaches it.
    Everyday,
    /// In many words, but must be named to be taught.
    Common,
    /// In few words.
    Rare,
    /// In one word and its family.
    Odd,
}

/// Where in a word a spelling may occur. Sets of letters are bit masks: bit 0 is `a`.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Context {
    /// Only at the start of a word.
    pub start: bool,
    /// Only at the end of a word.
    pub end: bool,
    /// Only before a vowel letter.
    pub open: bool,
    /// Never before a vowel letter.
    pub closed: bool,
    /// Its final e is silent: it never follows a single vowel letter, because the e then belongs to a split spelling.
    pub mute: bool,
    /// Only in General American.
    pub american: bool,
    /// Only in British accents.
    pub british: bool,
    /// Only before one of these letters (0: any).
    pub before: u32,
    /// Only after one of these letters (0: any).
    pub after: u32,
}

/// One way the dictionary writes the sound of a correspondence.
#[derive(Debug)]
pub struct Transcription {
    /// The phones.
    pub phones: &'static [Phone],
    /// The phone that must follow, if any.
    pub next: Option<Phone>,
}

/// One spelling with one sound.
#[derive(Debug)]
pub struct Correspondence {
    /// The letters; `_` marks the consonant inside a split spelling.
    pub spelling: &'static str,
    /// The sound.
    pub sound: SoundId,
    /// The key word.
    pub key: &'static str,
    /// How common it is.
    pub grade: Grade,
    /// Where in a word it may occur.
    pub context: Context,
    /// How the dictionary writes it.
    pub heard: &'static [Transcription],
}

impl Correspondence {
    /// Whether this is a split spelling such as `a_e`.
    #[must_use]
    pub fn is_split(&self) -> bool {
        matches!(self.spelling.as_bytes(), [_, b'_', ..])
    }

    /// Whether words have it in an accent.
    #[must_use]
    pub fn is_in(&self, accent: Accent) -> bool {
        if accent == Accent::GeneralAmerican { !self.context.british } else { !self.context.american }
    }

    /// Whether the spelling is one letter twice.
    #[must_use]
    pub fn is_doubled(&self) -> bool {
        matches!(self.spelling.as_bytes(), [a, b] if a == b && !b"aeiou".contains(a))
    }

    /// The spelling with a single consonant, for one that ends in a doubled consonant: `l` for `ll`, `ur` for `urr`.
    #[must_use]
    pub fn undoubled(&self) -> Option<&'static str> {
        let r_vowel = matches!(self.spelling.as_bytes(), [_, b'r', b'r']);
        (self.is_doubled() || r_vowel).then(|| &self.spelling[..self.spelling.len() - 1])
    }

    /// Whether the spelling is one vowel letter.
    #[must_use]
    pub fn is_vowel_letter(&self) -> bool {
        self.spelling.len() == 1 && self.sound.get().kind.is_vowel()
    }
}

impl CorrespondenceId {
    /// The correspondence itself.
    #[must_use]
    pub fn get(self) -> &'static Correspondence {
        &CORRESPONDENCES[usize::from(self.0)]
    }

    /// Every correspondence, in catalogue order.
    pub fn all() -> impl Iterator<Item = CorrespondenceId> {
        (0..CORRESPONDENCES.len()).filter_map(|id| u16::try_from(id).ok().map(CorrespondenceId))
    }

    /// Finds the correspondence with this spelling and sound. Cost: a look-up.
    #[must_use]
    pub fn find(spelling: &str, sound: SoundId) -> Option<CorrespondenceId> {
        spelled(spelling).find(|id| id.get().sound == sound)
    }

    /// Returns the correspondence with this spelling and sound, which the catalogue must have. For constants.
    ///
    /// # Panics
    /// If the catalogue does not have it. In a constant, that stops the build.
    #[must_use]
    pub const fn known(spelling: &str, sound: &str) -> CorrespondenceId {
        let sound = SoundId::known(sound);
        let mut id = 0;
        while id < CORRESPONDENCES.len() {
            let one = &CORRESPONDENCES[id];
            if one.sound.0 == sound.0 && same(one.spelling, spelling) {
                return CorrespondenceId(id as u16);
            }
            id += 1;
        }
        panic!("the catalogue has no such correspondence")
    }

    /// The correspondence that remains when an ending removes its e: `o` for `o_e`, `c` for `ce`, with the same sound. Returns
    /// itself if the catalogue does not have that spelling.
    #[must_use]
    pub fn without_e(self) -> CorrespondenceId {
        let part = self.get();
        let bare = part.spelling.strip_suffix('e').map(|bare| bare.trim_end_matches('_'));
        bare.and_then(|bare| CorrespondenceId::find(bare, part.sound)).unwrap_or(self)
    }

    /// Its number, for indexing a table as long as the catalogue.
    #[must_use]
    pub fn index(self) -> usize {
        usize::from(self.0)
    }
}

/// Every correspondence with this spelling in an accent. Cost: a look-up.
pub fn spelled_in(spelling: &str, accent: Accent) -> impl Iterator<Item = CorrespondenceId> {
    spelled(spelling).filter(move |id| id.get().is_in(accent))
}

/// Every correspondence with this spelling (`a_e`), in catalogue order. Cost: a look-up.
pub fn spelled(spelling: &str) -> impl Iterator<Item = CorrespondenceId> {
    let of = |id: &u16| CORRESPONDENCES[usize::from(*id)].spelling;
    let from = BY_SPELLING.partition_point(|id| of(id) < spelling);
    BY_SPELLING[from..].iter().take_while(move |id| of(id) == spelling).map(|id| CorrespondenceId(*id))
}
