//! Joins a suffix to a base.

use super::affixes::{self, AffixId, Change};
use crate::reading::{Part, Reading};
use crate::{CorrespondenceId, SoundId};

/// The unchanged parts of a base, the parts that the suffix changed, and the suffix's own parts.
struct Join<'b> {
    base: &'b Reading,
    kept: usize,
    changed: Vec<Part>,
    tail: &'static [CorrespondenceId],
}

impl Join<'_> {
    fn len(&self) -> usize {
        self.kept + self.changed.len() + self.tail.len()
    }

    /// The parts of the suffix.
    fn tail(&self) -> impl Iterator<Item = Part> + use<> {
        self.tail.iter().copied().map(plain)
    }

    fn reading(&self) -> Reading {
        let mut parts = Vec::with_capacity(self.len());
        parts.extend_from_slice(&self.base.parts[..self.kept]);
        parts.extend_from_slice(&self.changed);
        parts.extend(self.tail());
        Reading { parts, stressed: self.base.stressed, made: None, accent: self.base.accent }
    }
}

/// The correspondence with this spelling and sound as a part, if the catalogue has it.
pub(super) fn part(spelling: &str, sound: &str) -> Option<Part> {
    Some(plain(CorrespondenceId::find(spelling, SoundId::named(sound)?)?))
}

/// A correspondence as a part that has all of its letters.
pub(super) fn plain(id: CorrespondenceId) -> Part {
    Part::Known { id, e_dropped: false }
}

/// A part of a suffix. If the catalogue does not have it, the build stops.
const fn id(spelling: &str, sound: &str) -> CorrespondenceId {
    CorrespondenceId::known(spelling, sound)
}

/// Returns the reading of a base with a suffix; `None` if they do not fit.
#[must_use]
pub fn join(base: &Reading, ending: AffixId, change: Change) -> Option<Reading> {
    joined(base, ending, change).map(|joined| joined.reading())
}

fn joined(base: &Reading, ending: AffixId, change: Change) -> Option<Join<'_>> {
    let last = base.parts.last()?;
    let last_sound = last.id()?.get().sound.get().name;
    let mut joined = Join { base, kept: base.parts.len(), changed: Vec::new(), tail: &[] };
    match change {
        // *Really*: the two letters l are one part; not in *stalely*, where there is an e between them.
        Change::None if ending == affixes::LY && last.spelling() == "l" && !ends_split(base) => {
            joined.kept -= 1;
            joined.changed.push(part("ll", "L")?);
            joined.tail = const { &[id("y", "IY")] };
            return Some(joined);
        }
        Change::None => {}
        Change::DropLe => {
            if last.spelling() != "le" {
                return None;
            }
            joined.kept -= 1;
            joined.tail = const { &[id("l", "L"), id("y", "IY")] };
            return Some(joined);
        }
        // *Nibbled*, *agreed*, *canoed*: the e stays with the base.
        Change::DropE
            if ending == affixes::ED && last.is_vowel() && !last.is_split() && last.spelling().ends_with('e') =>
        {
            joined.tail = const { &[id("d", "D")] };
            return Some(joined);
        }
        // *Giggling*, *wobbly*: the l opens the next syllable.
        Change::DropE if last.spelling() == "le" && ending != affixes::ED => {
            joined.kept -= 1;
            joined.changed.push(part("l", "L")?);
        }
        Change::DropE => joined.drop_e()?,
        Change::Double => {
            let last = last.id()?.get();
            let double = if last.spelling == "c" { "ck".to_owned() } else { last.spelling.repeat(2) };
            joined.kept -= 1;
            joined.changed.push(plain(CorrespondenceId::find(&double, last.sound)?));
        }
        Change::IeToY => {
            joined.kept -= 1;
            joined.changed.push(part("y", last_sound)?);
        }
        Change::YToI => {
            joined.kept -= 1;
            // *cried*, *cries*: the i and the e are one part; *happily*, *happier*: the i alone is.
            if matches!(ending, affixes::ED | affixes::ES) {
                joined.changed.push(part("ie", last_sound)?);
                joined.tail = if ending == affixes::ED { const { &[id("d", "D")] } } else { const { &[id("s", "Z")] } };
                return Some(joined);
            }
            let weak = last_sound == "IY" && matches!(ending, affixes::LY | affixes::FUL | affixes::LESS);
            joined.changed.push(part("i", if weak { "AX" } else { last_sound })?);
        }
    }
    let hissing = matches!(last_sound, "S" | "Z" | "SH" | "ZH" | "CH" | "JH" | "K S");
    let voiceless = matches!(last_sound, "P" | "T" | "K" | "F" | "TH" | "S" | "SH" | "CH" | "K S");
    joined.tail = match ending {
        affixes::S | affixes::POSSESSIVE if hissing && ending == affixes::POSSESSIVE => const { &[id("s", "AX Z")] },
        // hoses, horses: the e of the base is heard.
        affixes::S if hissing => {
            joined.drop_e()?;
            const { &[id("e", "AX"), id("s", "Z")] }
        }
        affixes::S | affixes::POSSESSIVE if voiceless => const { &[id("s", "S")] },
        affixes::S | affixes::POSSESSIVE => const { &[id("s", "Z")] },
        affixes::ES if hissing => const { &[id("e", "AX"), id("s", "Z")] },
        // *Goes*, *heroes*: the e stays silent.
        affixes::ES if last.spelling() == "o" && last_sound == "OW" => {
            joined.kept -= 1;
            joined.changed.push(part("oe", "OW")?);
            const { &[id("s", "Z")] }
        }
        affixes::ES => return None,
        affixes::ED if matches!(last_sound, "T" | "D") => const { &[id("ed", "AX D")] },
        affixes::ED if voiceless => const { &[id("ed", "T")] },
        affixes::ED => const { &[id("ed", "D")] },
        other => other.get().cut.first().copied()?,
    };
    Some(joined)
}

/// Whether a base ends in the e of a split spelling.
fn ends_split(base: &Reading) -> bool {
    base.parts.iter().nth_back(1).is_some_and(Part::is_split)
}

impl Join<'_> {
    /// Marks the part whose e the suffix removed.
    fn drop_e(&mut self) -> Option<()> {
        let parts = &self.base.parts[..self.kept];
        let split = parts.iter().rposition(Part::is_split);
        let last = parts.len().checked_sub(1)?;
        let at = match split {
            Some(at) if at + 3 > last && parts[at + 1..].iter().all(|part| !part.is_vowel()) => at,
            _ => last,
        };
        let id = parts[at].id().filter(|id| id.get().spelling.ends_with('e'))?;
        self.kept = at;
        self.changed.push(Part::Known { id, e_dropped: true });
        self.changed.extend_from_slice(&parts[at + 1..]);
        Some(())
    }
}
