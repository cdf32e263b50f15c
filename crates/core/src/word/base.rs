//! Follows what a word is made of: *unlocked* is *unlock* with -ed, and *unlock* is *lock* with un-.

use untaught_lexicon::PackedPart;
use untaught_phonics::accent::{Outline, second_stress};
use untaught_phonics::formation::affixes::{ALLY, ER, ES, EST, LY, S};
use untaught_phonics::formation::{AffixId, Change, Class, Side};
use untaught_phonics::{Formation, Reading};

use super::{Reader, Word};

/// The base of a word, with its reading in that word.
#[derive(Debug)]
pub(crate) struct Base {
    /// The base word with this one reading.
    pub(crate) word: Word,
    /// The affix that forms the word from it.
    pub(crate) affix: AffixId,
}

impl Base {
    pub(crate) fn reading(&self) -> &Reading {
        &self.word.readings[0]
    }

    /// Whether the word is a form of its base, and so never easier than it: a plural, a verb form, a possessive. This
    /// excludes -er and -est, because a comparative and a new noun look the same (*faster*, *hunter*).
    pub(crate) fn is_form(&self) -> bool {
        self.is_inflected() && !matches!(self.affix, ER | EST)
    }

    /// Whether the word is an inflected form of its base rather than a new word.
    pub(crate) fn is_inflected(&self) -> bool {
        self.affix.get().class == Class::Inflection
    }
}

impl Reader {
    /// Returns the base of a word in this reading, if the word has a suffix or a prefix and its base is a word.
    pub(crate) fn base(&self, word: &str, reading: &Reading) -> Option<Base> {
        let Some(Formation::Affixed { affix, change, base }) = reading.made else { return None };
        let text = change.base_of(word, affix)?;
        let word = self.with_reading(&text, usize::from(base))?;
        Some(Base { word, affix })
    }

    /// The part that has the stress of the second word in a compound or a form of one.
    pub(super) fn second_stress(&self, word: &str, reading: &Reading) -> Option<usize> {
        let is_vowel = |part| match part {
            PackedPart::Known { id, .. } => id.get().sound.get().kind.is_vowel(),
            PackedPart::Odd(_) => false,
        };
        second_stress(word, reading.made, |word, number| {
            let packed = self.lexicon.get(word)?.readings().nth(usize::from(number))?;
            let stressed = packed.stressed().or_else(|| packed.parts().position(is_vowel));
            Some(Outline { parts: packed.parts().count(), stressed, made: packed.made() })
        })
    }

    /// Returns the two words of a compound, each with its reading in the compound.
    pub(crate) fn halves(&self, word: &str, reading: &Reading) -> Option<[Word; 2]> {
        let Some(Formation::Compound { seam, readings: [one, two] }) = reading.made else { return None };
        let (first, second) = word.split_at_checked(usize::from(seam))?;
        Some([self.with_reading(first, usize::from(one))?, self.with_reading(second, usize::from(two))?])
    }

    fn with_reading(&self, text: &str, number: usize) -> Option<Word> {
        if let Some(entry) = self.lexicon.get(text) {
            let reading = self.readings_of(&entry).into_iter().nth(number)?;
            return Some(Word {
                text: text.to_owned(),
                origin: super::WordOrigin::Dictionary,
                readings: vec![reading],
            });
        }
        let mut word = self.read(text);
        // A word read by its letters is not a base.
        let derived = word.origin == super::WordOrigin::Derived && number < word.readings.len();
        derived.then(|| {
            word.readings = vec![word.readings.swap_remove(number)];
            word
        })
    }

    /// Whether a word in this reading is formed with an affix: its last suffix, or any prefix.
    pub(crate) fn has_affix(&self, word: &str, reading: &Reading, wanted: AffixId) -> bool {
        let Some(made) = reading.made else { return false };
        match made {
            Formation::Affixed { affix, change, .. } if affix.get().side() == Side::After => {
                if wanted.get().side() == Side::After {
                    return is_ending(word, reading, affix, change, wanted);
                }
                // *unlocked* begins with un- as *unlock* does.
                self.base(word, reading).is_some_and(|base| self.has_affix(&base.word.text, base.reading(), wanted))
            }
            Formation::Affixed { affix, .. } => affix == wanted,
            // *overcoat* begins with over-.
            Formation::Compound { seam, .. } => {
                wanted.get().side() == Side::Before && word.get(..usize::from(seam)) == Some(wanted.get().letters())
            }
        }
    }

    /// Returns the word that this one is an inflected form of: a plural, a verb form, a comparative or superlative.
    #[must_use]
    pub fn inflected_of(&self, word: &str, reading: &Reading) -> Option<String> {
        self.base(word, reading).filter(Base::is_inflected).map(|base| base.word.text)
    }

    /// Whether a word in this reading is inflected.
    #[must_use]
    pub fn is_inflected(&self, word: &str, reading: &Reading) -> bool {
        self.inflected_of(word, reading).is_some()
    }

    /// Returns every ordinary word formed with an affix (`-er`, `un-`) and its base, in alphabetical order. Cost: a pass over the
    /// dictionary.
    pub fn made_with(&self, affix: &str) -> impl Iterator<Item = (&'static str, String)> {
        let wanted = AffixId::named(affix);
        let entries = self.lexicon.entries().filter(|entry| entry.is_spelled_in(self.accent));
        entries.filter(|entry| entry.commonness().is_some()).filter_map(move |entry| {
            let word = self.word_of(&entry);
            let made = word.readings.iter().find(|reading| self.has_affix(entry.word(), reading, wanted.unwrap_or(S)));
            let base = self.base(entry.word(), made.filter(|_| wanted.is_some())?)?;
            Some((entry.word(), base.word.text))
        })
    }
}

/// Whether a suffix also counts as another one: the -es of *babies* and *goes* sounds like -s; the -s of *cases* also counts
/// as -es.
fn is_ending(word: &str, reading: &Reading, affix: AffixId, change: Change, wanted: AffixId) -> bool {
    if affix == ES && wanted != affix {
        return wanted == S && is_silent(word, change);
    }
    if affix == ES {
        return !is_silent(word, change);
    }
    // *magically* ends in -ly, whether it comes from *magic* or *magical*.
    if affix == ALLY && wanted == LY {
        return true;
    }
    let heard = || matches!(reading.parts.as_slice(), [.., e, s] if e.spelling() == "e" && s.spelling() == "s");
    affix == wanted || affix == S && wanted == ES && heard()
}

/// Whether the e of -es is silent.
fn is_silent(word: &str, change: Change) -> bool {
    change == Change::YToI || word.ends_with("oes")
}
