//! A base with an ending joined on, compared with a word without being put together.

use untaught_phonics::CorrespondenceId;

use super::derive::part;
use super::ending::{Change, Ending};
use super::part::alike;
use super::{Part, Reading};

/// Parts of the longest ending.
pub(crate) const LONGEST_TAIL: usize = 4;

/// What stays of a base, what the ending changed of it, and the ending's own parts.
pub(super) struct Joined<'b> {
    base: &'b Reading,
    kept: usize,
    changed: Vec<Part>,
    tail: &'static [CorrespondenceId],
}

impl Joined<'_> {
    pub(super) fn len(&self) -> usize {
        self.kept + self.changed.len() + self.tail.len()
    }

    /// The parts of the ending.
    pub(super) fn tail(&self) -> impl Iterator<Item = Part> + use<> {
        self.tail.iter().copied().map(plain)
    }

    /// Whether some parts are these, weak vowels aside.
    pub(super) fn is(&self, parts: &[Part]) -> bool {
        if parts.len() != self.len() {
            return false;
        }
        let (kept, rest) = parts.split_at(self.kept);
        let (changed, tail) = rest.split_at(self.changed.len());
        alike(&self.base.parts[..self.kept], kept)
            && alike(&self.changed, changed)
            && self.tail().zip(tail).all(|(own, part)| own.is_like(part))
    }

    pub(super) fn reading(&self) -> Reading {
        let mut parts = Vec::with_capacity(self.len());
        parts.extend_from_slice(&self.base.parts[..self.kept]);
        parts.extend_from_slice(&self.changed);
        parts.extend(self.tail());
        Reading { parts, stressed: self.base.stressed }
    }
}

/// A correspondence as a part that has all of its letters.
pub(super) fn plain(id: CorrespondenceId) -> Part {
    Part::Known { id, e_dropped: false }
}

/// The parts of endings; whatever the catalogue lacks of them stops the build.
const fn id(spelling: &str, sound: &str) -> CorrespondenceId {
    CorrespondenceId::known(spelling, sound)
}

/// Joins an ending to a base; none where they do not fit.
pub(super) fn join(base: &Reading, ending: Ending, change: Change) -> Option<Joined<'_>> {
    let last = base.parts.last()?;
    let last_sound = last.id()?.get().sound.get().name;
    let mut joined = Joined { base, kept: base.parts.len(), changed: Vec::new(), tail: &[] };
    match change {
        // *Really*: both of the l are one part; not of *stalely*, where an e stands between them.
        Change::None if ending == Ending::Ly && last.spelling() == "l" && !ends_split(base) => {
            joined.kept -= 1;
            joined.changed.push(part("ll", "L")?);
            joined.tail = const { &[id("y", "IY")] };
            return Some(joined);
        }
        Change::None => {}
        Change::DropE if ending == Ending::Ly => {
            if last.spelling() != "le" {
                return None;
            }
            joined.kept -= 1;
            joined.tail = const { &[id("l", "L"), id("y", "IY")] };
            return Some(joined);
        }
        // *Nibbled*, *agreed*, *canoed*: the e stays with the base.
        Change::DropE
            if ending == Ending::Ed && last.is_vowel() && !last.is_split() && last.spelling().ends_with('e') =>
        {
            joined.tail = const { &[id("d", "D")] };
            return Some(joined);
        }
        // *Giggling*, *wobbly*: the l opens the next syllable.
        Change::DropE if last.spelling() == "le" && ending != Ending::Ed => {
            joined.kept -= 1;
            joined.changed.push(part("l", "L")?);
        }
        Change::DropE => joined.drop_e()?,
        Change::Double => {
            let last = last.id()?.get();
            let double = last.spelling.repeat(2);
            joined.kept -= 1;
            joined.changed.push(plain(CorrespondenceId::find(&double, last.sound)?));
        }
        Change::YToI => {
            joined.kept -= 1;
            // cried, cries: one part with the e; happily, happier: the i alone.
            if matches!(ending, Ending::Ed | Ending::Es) {
                joined.changed.push(part("ie", last_sound)?);
                joined.tail = if ending == Ending::Ed { const { &[id("d", "D")] } } else { const { &[id("s", "Z")] } };
                return Some(joined);
            }
            let weak = last_sound == "IY" && matches!(ending, Ending::Ly | Ending::Ful | Ending::Less);
            joined.changed.push(part("i", if weak { "AX" } else { last_sound })?);
        }
    }
    let hissing = matches!(last_sound, "S" | "Z" | "SH" | "ZH" | "CH" | "JH" | "K S");
    let voiceless = matches!(last_sound, "P" | "T" | "K" | "F" | "TH" | "S" | "SH" | "CH" | "K S");
    joined.tail = match ending {
        Ending::S | Ending::Possessive if hissing && ending == Ending::Possessive => const { &[id("s", "AX Z")] },
        // hoses, horses: the e of the base is heard.
        Ending::S if hissing => {
            joined.drop_e()?;
            const { &[id("e", "AX"), id("s", "Z")] }
        }
        Ending::S | Ending::Possessive if voiceless => const { &[id("s", "S")] },
        Ending::S | Ending::Possessive => const { &[id("s", "Z")] },
        Ending::Es if hissing => const { &[id("e", "AX"), id("s", "Z")] },
        // *Goes*, *heroes*: the e stays silent.
        Ending::Es if last.spelling() == "o" && last_sound == "OW" => {
            joined.kept -= 1;
            joined.changed.push(part("oe", "OW")?);
            const { &[id("s", "Z")] }
        }
        Ending::Es => return None,
        Ending::Ed if matches!(last_sound, "T" | "D") => const { &[id("ed", "AX D")] },
        Ending::Ed if voiceless => const { &[id("ed", "T")] },
        Ending::Ed => const { &[id("ed", "D")] },
        Ending::Ing => const { &[id("i", "IH"), id("ng", "NG")] },
        Ending::Er => const { &[id("er", "ER")] },
        Ending::Est => const { &[id("e", "AX"), id("s", "S"), id("t", "T")] },
        Ending::Ly => const { &[id("l", "L"), id("y", "IY")] },
        Ending::Y => const { &[id("y", "IY")] },
        Ending::Ful => const { &[id("f", "F"), id("u", "AX"), id("l", "L")] },
        Ending::Less => const { &[id("l", "L"), id("e", "AX"), id("ss", "S")] },
        Ending::Ness => const { &[id("n", "N"), id("e", "AX"), id("ss", "S")] },
        Ending::Ment => const { &[id("m", "M"), id("e", "AX"), id("n", "N"), id("t", "T")] },
        Ending::Able => const { &[id("a", "AX"), id("b", "B"), id("le", "AX L")] },
        Ending::Ally => const { &[id("a", "AX"), id("ll", "L"), id("y", "IY")] },
    };
    Some(joined)
}

/// Whether the last letter of a base is the e of a split spelling.
fn ends_split(base: &Reading) -> bool {
    base.parts.iter().nth_back(1).is_some_and(Part::is_split)
}

impl Joined<'_> {
    /// Marks the part whose e the ending took away.
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
