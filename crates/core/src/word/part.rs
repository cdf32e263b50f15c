//! Parts and readings.

use untaught_phonics::{CorrespondenceId, SoundId, SoundKind};

/// Where the readings of a word come from.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Origin {
    /// The dictionary has the word.
    Dictionary,
    /// Derived from words of the dictionary: an inflection, a compound, a lengthened word.
    Derived,
    /// Read by its letters alone.
    Letters,
}

impl Origin {
    /// The origin's name in machine formats.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Origin::Dictionary => "dictionary",
            Origin::Derived => "derived",
            Origin::Letters => "letters",
        }
    }
}

/// One correspondence where it stands in a word.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Part {
    /// A correspondence of the catalogue.
    Known {
        /// The correspondence.
        id: CorrespondenceId,
        /// The base of the word lost the e of this spelling to an ending: the o of *hoping*, which is `o_e as in hope`.
        e_dropped: bool,
    },
    /// Letters that no correspondence explains.
    Odd {
        /// The letters.
        letters: Box<str>,
        /// The sounds, in ARPAbet.
        phones: Box<str>,
    },
}

/// One pronunciation, cut into parts.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Reading {
    /// The parts in the order of their first letter.
    pub parts: Vec<Part>,
    /// The part with the main stress, where the dictionary gives it.
    pub stressed: Option<usize>,
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

    /// The spelling as it stands in the word, split spellings in scope notation: `a_e`; `o` for the o of *hoping*.
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

    /// The letters that the part covers where it stands, without the e of a split spelling.
    pub(crate) fn letters(&self) -> &str {
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

    /// The sound in IPA, without slashes.
    #[must_use]
    pub fn ipa(&self) -> String {
        Reading { parts: vec![self.clone()], stressed: None }.ipa()
    }

    /// Whether the part makes a syllable.
    #[must_use]
    pub fn is_vowel(&self) -> bool {
        self.id().is_none_or(|id| id.get().sound.get().kind.is_vowel())
    }

    /// Whether another part is spelled and sounds like this one, weak vowels aside.
    pub(crate) fn is_like(&self, other: &Part) -> bool {
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

    /// Whether the part is a split spelling whose e stands in the word.
    pub(crate) fn is_split(&self) -> bool {
        matches!(self, Part::Known { id, e_dropped: false } if id.get().is_split())
    }
}

const WEAK: SoundId = SoundId::known("AX");
const SHORT_I: SoundId = SoundId::known("IH");

/// Whether two stretches of parts are spelled alike and sound alike, weak vowels aside.
pub(crate) fn alike(first: &[Part], second: &[Part]) -> bool {
    first.len() == second.len() && first.iter().zip(second).all(|(one, other)| one.is_like(other))
}

impl Reading {
    /// Number of syllables: of parts with a vowel in them.
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
            match part {
                Part::Known { id, .. } => out.push_str(id.get().sound.get().ipa[0]),
                Part::Odd { phones, .. } if phones.is_empty() => out.push('?'),
                Part::Odd { phones, .. } => phones.split(' ').for_each(|phone| out.push_str(phone_ipa(phone))),
            }
        }
        out
    }

    /// The first part of the syllable around a vowel: one consonant before it, or a usual cluster.
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

    /// Number of sounds: of parts, `x` and `qu` counting as the two sounds they are.
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

/// IPA of one phone of an oddity.
fn phone_ipa(phone: &str) -> &str {
    let name = match phone {
        "IX" => "IH",
        other => other,
    };
    untaught_phonics::SoundId::named(name).map_or(phone, |sound| sound.get().ipa[0])
}
