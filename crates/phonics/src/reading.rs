//! Readings: one pronunciation of a word, cut into parts.

use crate::accent::shown;
use crate::formation::affixes::{AffixId, Change};
use crate::{Accent, CorrespondenceId, SoundId, SoundKind};

/// One part of a word.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Part {
    /// A correspondence of the catalogue.
    Known {
        /// The correspondence.
        id: CorrespondenceId,
        /// Whether an ending removed the e of this spelling: the o of *hoping* is `o_e as in hope`.
        e_dropped: bool,
    },
    /// Letters that do not match any correspondence.
    Odd {
        /// The letters.
        letters: Box<str>,
        /// The sounds, in ARPAbet.
        phones: Box<str>,
    },
}

/// One pronunciation, cut into parts.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Reading {
    /// The parts in the order of their first letter.
    pub parts: Vec<Part>,
    /// The index of the part with the main stress, if the dictionary gives it.
    pub stressed: Option<usize>,
    /// What the word is made of in this reading; `None` if it is not made of other words.
    pub made: Option<Formation>,
    /// The accent.
    pub accent: Accent,
}

/// What a word is made of.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Formation {
    /// A base with a suffix or a prefix: *hoping* is *hope* and *-ing*.
    Affixed {
        /// The affix.
        affix: AffixId,
        /// How the base changed.
        change: Change,
        /// The index of the base's reading, in the order of the dictionary.
        base: u8,
    },
    /// Two words: *bathtub*.
    Compound {
        /// The byte offset at which the second word begins.
        seam: u8,
        /// The indices of the two words' readings.
        readings: [u8; 2],
    },
}

impl Part {
    /// The correspondence, if the part has one.
    #[must_use]
    pub fn id(&self) -> Option<CorrespondenceId> {
        match self {
            Part::Known { id, .. } => Some(*id),
            Part::Odd { .. } => None,
        }
    }

    /// The spelling as it is in the word, with split spellings in scope notation: `a_e`; `o` for the o of *hoping*.
    #[must_use]
    pub fn spelling(&self) -> &str {
        match self {
            Part::Known { id, e_dropped: false } => id.get().spelling,
            Part::Known { id, e_dropped: true } => {
                let spelling = id.get().spelling;
                spelling.strip_suffix('e').unwrap_or(spelling).trim_end_matches('_')
            }
            Part::Odd { letters, .. } => letters,
        }
    }

    /// The adjacent letters that the part covers, without the e of a split spelling.
    #[must_use]
    pub fn letters(&self) -> &str {
        match self {
            Part::Known { id, .. } if id.get().is_split() => &id.get().spelling[..1],
            _ => self.spelling(),
        }
    }

    /// The sound in ARPAbet base symbols.
    #[must_use]
    pub fn arpabet(&self) -> &str {
        match self {
            Part::Known { id, .. } => id.get().sound.get().arpabet,
            Part::Odd { phones, .. } => phones,
        }
    }

    /// Whether the part forms a syllable.
    #[must_use]
    pub fn is_vowel(&self) -> bool {
        self.id().is_none_or(|id| id.get().sound.get().kind.is_vowel())
    }

    /// Whether another part has the same spelling and sound, treating all weak vowels as equal.
    #[must_use]
    pub fn is_like(&self, other: &Part) -> bool {
        if self == other {
            return true;
        }
        let weak = |sound: SoundId| sound == WEAK || sound == SHORT_I;
        let sounds_like = match (self.id(), other.id()) {
            (Some(one), Some(other)) => {
                let (one, other) = (one.get().sound, other.get().sound);
                one == other || weak(one) && weak(other)
            }
            (one, other) => one.is_none() && other.is_none(),
        };
        sounds_like && self.letters() == other.letters()
    }

    /// Whether the part is a split spelling and the word contains its e.
    #[must_use]
    pub fn is_split(&self) -> bool {
        matches!(self, Part::Known { id, e_dropped: false } if id.get().is_split())
    }
}

const WEAK: SoundId = SoundId::known("AX");
const SHORT_I: SoundId = SoundId::known("IH");
const R: SoundId = SoundId::known("R");

/// Whether two sequences of parts have the same spellings and sounds, treating all weak vowels as equal.
#[must_use]
pub fn alike(first: &[Part], second: &[Part]) -> bool {
    first.len() == second.len() && first.iter().zip(second).all(|(one, other)| one.is_like(other))
}

impl Reading {
    /// Number of syllables, which is the number of parts with a vowel sound; at least 1.
    #[must_use]
    pub fn syllables(&self) -> usize {
        self.parts.iter().filter(|part| part.is_vowel()).count().max(1)
    }

    /// The reading in IPA, without slashes, with the main stress marked in words of several syllables.
    #[must_use]
    pub fn ipa(&self) -> String {
        let mut out = String::new();
        let mark = self.stressed.filter(|_| self.syllables() > 1).map(|at| self.onset(at));
        for (at, part) in self.parts.iter().enumerate() {
            if mark == Some(at) {
                out.push('ˈ');
            }
            out.push_str(&self.part_ipa(at, part));
        }
        out
    }

    /// Its parts with the IPA of each, without slashes or stress.
    pub fn parts_with_ipa(&self) -> impl Iterator<Item = (&Part, String)> {
        self.parts.iter().enumerate().map(|(at, part)| (part, self.part_ipa(at, part)))
    }

    fn part_ipa(&self, at: usize, part: &Part) -> String {
        let sound = match part {
            Part::Known { id, .. } => id.get().sound,
            Part::Odd { phones, .. } if phones.is_empty() => return "?".to_owned(),
            Part::Odd { phones, .. } => return phones.split(' ').map(|phone| phone_ipa(phone, self.accent)).collect(),
        };
        let next = self.parts.get(at + 1);
        if self.accent.is_british() {
            let weak = self.stressed != Some(at) && self.syllables() > 1;
            let before_r = next.and_then(Part::id).is_some_and(|id| id.get().sound == R);
            if let Some(sound) = shown::before_r(sound, weak).filter(|_| before_r) {
                return sound.get().ipa(self.accent).to_owned();
            }
            // An r is sounded only before a vowel.
            if sound == R && !next.is_some_and(Part::is_vowel) {
                return String::new();
            }
            let before = next.filter(|next| next.is_vowel()).map(|_| self.stressed == Some(at + 1));
            if weak && shown::is_happy(part.spelling(), sound, before) {
                return "i".to_owned();
            }
        }
        match next {
            Some(next) if next.is_vowel() && !next.arpabet().starts_with("Y ") => {
                sound.get().ipa_before_vowel(self.accent).into_owned()
            }
            _ => sound.get().ipa(self.accent).to_owned(),
        }
    }

    /// The index of the first part of a vowel's syllable: one consonant before it, or a common cluster.
    fn onset(&self, vowel: usize) -> usize {
        let name = |at: usize| self.parts[at].id().map_or("", |id| id.get().sound.get().name);
        let mut start = vowel;
        while start > 0 && !self.parts[start - 1].is_vowel() {
            let joins = start == vowel && !matches!(name(start - 1), "NG" | "K S")
                || matches!((name(start - 1), name(start)), ("P" | "B" | "K" | "G" | "F", "L" | "R"))
                || matches!((name(start - 1), name(start)), ("T" | "D" | "TH", "R"))
                || matches!((name(start - 1), name(start)), ("S", "P" | "T" | "K" | "L" | "M" | "N" | "W" | "K W"));
            if !joins {
                break;
            }
            start -= 1;
        }
        start
    }

    /// Number of sounds: one per part, but two for `x` and `qu`.
    #[must_use]
    pub fn sounds(&self) -> usize {
        let count = |part: &Part| match part {
            Part::Known { id, .. } if id.get().sound.get().kind == SoundKind::Cluster => 2,
            Part::Known { .. } => 1,
            Part::Odd { phones, .. } => phones.split(' ').count(),
        };
        self.parts.iter().map(count).sum()
    }
}

/// The IPA symbol for one phone of an odd part.
fn phone_ipa(phone: &str, accent: Accent) -> &str {
    let name = match phone {
        "IX" => "IH",
        other => other,
    };
    SoundId::named(name).map_or(phone, |sound| sound.get().ipa(accent))
}
