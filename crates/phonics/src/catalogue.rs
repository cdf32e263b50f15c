//! The catalogue of correspondences.

use crate::sound::same;
use crate::{BY_SPELLING, CORRESPONDENCES, Phone, SoundId};

/// The place of a correspondence in [`CORRESPONDENCES`].
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct CorrespondenceId(pub u16);

/// How ordinary a correspondence is.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Grade {
    /// Taught by the bare spelling.
    Everyday,
    /// In many words, but taught on its own.
    Common,
    /// In few words.
    Rare,
    /// In one word and its family.
    Odd,
}

/// Where a spelling may be used. Letters are masks: bit 0 is `a`.
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
    /// Its last e is mute: it never follows a single vowel letter, where a split spelling does that work.
    pub mute: bool,
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
    /// The letters, `_` standing for the consonant inside a split spelling.
    pub spelling: &'static str,
    /// The sound.
    pub sound: SoundId,
    /// The key word.
    pub key: &'static str,
    /// How ordinary it is.
    pub grade: Grade,
    /// Where it may be used.
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

    /// The correspondence of that spelling and sound. Cost: a look-up.
    #[must_use]
    pub fn find(spelling: &str, sound: SoundId) -> Option<CorrespondenceId> {
        spelled(spelling).find(|id| id.get().sound == sound)
    }

    /// The correspondence of a spelling and a sound that the catalogue is known to have; for constants.
    ///
    /// # Panics
    /// Where it has none: in a constant, that stops the build.
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

    /// What an ending that takes its e leaves of it: `o` for `o_e`, `c` for `ce`, with the same sound; itself where the catalogue has
    /// no such spelling.
    #[must_use]
    pub fn without_e(self) -> CorrespondenceId {
        let part = self.get();
        let bare = part.spelling.strip_suffix('e').map(|bare| bare.trim_end_matches('_'));
        bare.and_then(|bare| CorrespondenceId::find(bare, part.sound)).unwrap_or(self)
    }

    /// Its place, for indexing a table as long as the catalogue.
    #[must_use]
    pub fn index(self) -> usize {
        usize::from(self.0)
    }
}

/// Every correspondence of a spelling (`a_e`), in catalogue order. Cost: a look-up.
pub fn spelled(spelling: &str) -> impl Iterator<Item = CorrespondenceId> {
    let of = |id: &u16| CORRESPONDENCES[usize::from(*id)].spelling;
    let from = BY_SPELLING.partition_point(|id| of(id) < spelling);
    BY_SPELLING[from..].iter().take_while(move |id| of(id) == spelling).map(|id| CorrespondenceId(*id))
}
