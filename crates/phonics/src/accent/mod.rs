//! Accents: General American, in which the dictionary is written, and two British ones, whose readings come from its cuts
//! [by rule](british) and from a reviewed list.

pub mod british;
pub(crate) mod shown;
pub mod weak_r;

use crate::formation::Side;
use crate::{Formation, SoundId};

/// An accent of English.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Default)]
pub enum Accent {
    /// North America: an r wherever one is written, *bath* with the vowel of *cat*.
    #[default]
    GeneralAmerican,
    /// The accent of British dictionaries: r only before a vowel, *bath* with the vowel of *father*.
    SouthernBritish,
    /// As southern British, but *bath* has the vowel of *cat*, and *cup* that of *put*.
    NorthernEnglish,
}

impl Accent {
    /// Every accent.
    pub const ALL: [Accent; 3] = [Accent::GeneralAmerican, Accent::SouthernBritish, Accent::NorthernEnglish];

    /// Its name in scope files and on the command line.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Accent::GeneralAmerican => "general-american",
            Accent::SouthernBritish => "southern-british",
            Accent::NorthernEnglish => "northern-english",
        }
    }

    /// Its name for people.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Accent::GeneralAmerican => "General American",
            Accent::SouthernBritish => "southern British",
            Accent::NorthernEnglish => "northern English",
        }
    }

    /// The accent with this name.
    #[must_use]
    pub fn named(name: &str) -> Option<Accent> {
        Accent::ALL.into_iter().find(|accent| accent.name() == name)
    }

    /// Whether it is a British one.
    #[must_use]
    pub fn is_british(self) -> bool {
        self != Accent::GeneralAmerican
    }

    /// The sound by which a listener knows this one, where the accent makes no difference between the two: in British accents
    /// *saw* rhymes with *sore*. The sound itself otherwise.
    #[must_use]
    pub fn heard(self, sound: SoundId) -> SoundId {
        const MERGED: [(SoundId, SoundId); 4] = [
            (SoundId::known("AA R"), SoundId::known("AA")),
            (SoundId::known("AO R"), SoundId::known("AO")),
            (SoundId::known("UH R"), SoundId::known("AO")),
            (SoundId::known("AX R"), SoundId::known("AX")),
        ];
        const CUP: SoundId = SoundId::known("AH");
        const PUT: SoundId = SoundId::known("UH");
        match self {
            Accent::GeneralAmerican => sound,
            Accent::NorthernEnglish if sound == CUP => PUT,
            _ => MERGED.iter().find(|(from, _)| *from == sound).map_or(sound, |(_, into)| *into),
        }
    }
}

/// What is known of a word in a dictionary before it is read: enough to find the stress of a compound's second word.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Outline {
    /// Number of parts.
    pub parts: usize,
    /// The part with the stress, or the only vowel.
    pub stressed: Option<usize>,
    /// What it is made of.
    pub made: Option<Formation>,
}

/// The part that has the stress of the second word, in a compound or a form of one: the `ur` of *outburst* and *outbursts*. `outline` looks up
/// a word and the number of one of its readings.
pub fn second_stress(
    word: &str,
    made: Option<Formation>,
    outline: impl Fn(&str, u8) -> Option<Outline>,
) -> Option<usize> {
    let (word, made) = match made? {
        Formation::Affixed { affix, change, base } if affix.get().side() == Side::After => {
            let text = change.base_of(word, affix)?;
            let made = outline(&text, base)?.made?;
            (text, made)
        }
        made => (word.to_owned(), made),
    };
    let Formation::Compound { seam, readings: [first, second] } = made else { return None };
    let (before, after) = word.split_at_checked(usize::from(seam))?;
    Some(outline(before, first)?.parts + outline(after, second)?.stressed?)
}

impl std::fmt::Display for Accent {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.label())
    }
}
