//! The steps of a chain: what changes between two words one sound apart.

use std::ops::Range;

use untaught_phonics::SoundId;

use crate::BankWord;

/// What one step changes. Places count sounds from 0, in the longer of the two words.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum SoundChange {
    /// One sound is swapped for another.
    Swap {
        /// Which.
        at: usize,
    },
    /// A sound is added.
    Add {
        /// Where in the new word.
        at: usize,
    },
    /// A sound is dropped.
    Drop {
        /// Where in the old word.
        at: usize,
    },
}

/// The sounds of a word, without what else is known of them.
pub(super) fn ids(word: &BankWord) -> Vec<SoundId> {
    word.sounds.iter().map(|heard| heard.sound).collect()
}

impl SoundChange {
    /// The change between two words one sound apart; none for any other two.
    #[must_use]
    pub fn between(from: &[SoundId], to: &[SoundId]) -> Option<SoundChange> {
        let same = from.iter().zip(to).take_while(|(a, b)| a == b).count();
        match to.len().cmp(&from.len()) {
            std::cmp::Ordering::Equal => {
                (same < from.len() && from[same + 1..] == to[same + 1..]).then_some(SoundChange::Swap { at: same })
            }
            std::cmp::Ordering::Greater => {
                (to.len() == from.len() + 1 && from[same..] == to[same + 1..]).then_some(SoundChange::Add { at: same })
            }
            std::cmp::Ordering::Less => {
                (from.len() == to.len() + 1 && from[same + 1..] == to[same..]).then_some(SoundChange::Drop { at: same })
            }
        }
    }

    /// Where it changes something.
    #[must_use]
    pub fn at(self) -> usize {
        match self {
            SoundChange::Swap { at } | SoundChange::Add { at } | SoundChange::Drop { at } => at,
        }
    }

    /// `swap`, `add` or `drop`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            SoundChange::Swap { .. } => "swap",
            SoundChange::Add { .. } => "add",
            SoundChange::Drop { .. } => "drop",
        }
    }
}

/// What differs between two words: the sounds between those that both begin and end with, spelled alike.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct Difference {
    /// The places of the sounds in the old word and in the new one.
    old: Range<usize>,
    new: Range<usize>,
    /// The parts that spell them.
    old_parts: Range<usize>,
    new_parts: Range<usize>,
}

impl Difference {
    pub(super) fn between(old: &BankWord, new: &BankWord) -> Difference {
        let alike = |a: usize, b: usize| {
            let (heard_a, heard_b) = (&old.sounds[a], &new.sounds[b]);
            heard_a.sound == heard_b.sound && spelling(old, heard_a.part) == spelling(new, heard_b.part)
        };
        let most = old.sounds.len().min(new.sounds.len());
        let mut start = (0..most).take_while(|at| alike(*at, *at)).count();
        let ends = |from: &usize| alike(old.sounds.len() - 1 - from, new.sounds.len() - 1 - from);
        let end = (0..most - start).take_while(ends).count();
        // A part with two sounds, such as `qu`, is changed as a whole.
        let inside = |word: &BankWord, at: usize| {
            at > 0 && at < word.sounds.len() && word.sounds[at - 1].part == word.sounds[at].part
        };
        while start > 0 && (inside(old, start) || inside(new, start)) {
            start -= 1;
        }
        let ranges = [old, new].map(|word| {
            let sounds = start..word.sounds.len() - end;
            let parts = match word.sounds.get(sounds.clone()) {
                Some([first, .., last]) => first.part..last.part + 1,
                Some([only]) => only.part..only.part + 1,
                _ => 0..0,
            };
            (sounds, parts)
        });
        let [(old, old_parts), (new, new_parts)] = ranges;
        Difference { old, new, old_parts, new_parts }
    }

    /// Whether at most one part gives way to at most one.
    pub(super) fn is_one_part(&self) -> bool {
        self.old_parts.len() <= 1 && self.new_parts.len() <= 1
    }
}

fn spelling(word: &BankWord, part: usize) -> &str {
    word.reading.parts[part].spelling()
}

/// A step of a chain.
#[derive(Clone, Debug)]
pub struct ChainStep {
    /// What it changes.
    pub change: SoundChange,
    /// `first`, `last`, or the place between: `second`, `third` …
    pub place: &'static str,
    /// The spelling before and after; none where there was or is none.
    pub from: Option<String>,
    /// The same in the new word.
    pub to: Option<String>,
    /// Whether it changes a spelling with two sounds, such as `qu` or `x`: it is changed as a whole.
    pub whole: bool,
}

impl ChainStep {
    pub(super) fn of(from: &BankWord, to: &BankWord) -> Option<ChainStep> {
        let change = SoundChange::between(&ids(from), &ids(to))?;
        let difference = Difference::between(from, to);
        let whole = difference.old.len() > 1 || difference.new.len() > 1;
        if whole && difference.is_one_part() {
            let part = |word: &BankWord, parts: &Range<usize>| {
                parts.clone().next().map(|part| spelling(word, part).to_owned())
            };
            let place = if difference.old.start == 0 { "first" } else { "last" };
            let (old, new) = (part(from, &difference.old_parts), part(to, &difference.new_parts));
            return Some(ChainStep { change, place, from: old, to: new, whole });
        }
        let spelling = |word: &BankWord| spelling(word, word.sounds[change.at()].part).to_owned();
        let longer = from.sounds.len().max(to.sounds.len());
        let place = match change.at() {
            0 => "first",
            at if at + 1 == longer => "last",
            1 => "second",
            2 => "third",
            3 => "fourth",
            4 => "fifth",
            _ => "next",
        };
        let (from, to) = match change {
            SoundChange::Swap { .. } => (Some(spelling(from)), Some(spelling(to))),
            SoundChange::Add { .. } => (None, Some(spelling(to))),
            SoundChange::Drop { .. } => (Some(spelling(from)), None),
        };
        Some(ChainStep { change, place, from, to, whole: false })
    }
}

impl std::fmt::Display for ChainStep {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let (name, place) = (self.change.name(), self.place);
        match (&self.from, &self.to) {
            (Some(from), Some(to)) if self.whole => write!(f, "change {from} to {to}"),
            (Some(from), Some(to)) => write!(f, "{name} the {place} sound: {from} → {to}"),
            (None, Some(to)) => write!(f, "{name} a {place} sound: {to}"),
            (Some(from), None) => write!(f, "{name} the {place} sound: {from}"),
            (None, None) => f.write_str(name),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sounds(names: &str) -> Vec<SoundId> {
        names.split(' ').map(|name| SoundId::named(name).unwrap()).collect()
    }

    #[test]
    fn one_sound_apart_is_one_change() {
        let between = |a: &str, b: &str| SoundChange::between(&sounds(a), &sounds(b));
        assert_eq!(between("K AE T", "HH AE T"), Some(SoundChange::Swap { at: 0 }));
        assert_eq!(between("K AE T", "K AE P"), Some(SoundChange::Swap { at: 2 }));
        assert_eq!(between("AE T", "K AE T"), Some(SoundChange::Add { at: 0 }));
        assert_eq!(between("S T AA P", "T AA P"), Some(SoundChange::Drop { at: 0 }));
        assert_eq!(between("T AA P", "T AA P S"), Some(SoundChange::Add { at: 3 }));
        assert_eq!(between("K AE T", "K AE T"), None);
        assert_eq!(between("K AE T", "D AA G"), None);
        assert_eq!(between("K AE T", "T AE K"), None);
    }
}
