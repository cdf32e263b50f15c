//! The skills that a reading requires in addition to its spellings.

use untaught_phonics::formation::affixes::{ED, ES, EST, POSSESSIVE, S};
use untaught_phonics::formation::{is_contraction, is_possessive};
use untaught_phonics::{Formation, Part, Reading};

use crate::{Reader, Skill, Word};

/// Returns the skills that a reading of a word requires, in the order of [`Skill::ALL`]. *Schwa* is judged part by part
/// instead, but is listed if an unstressed vowel letter does not have its short sound.
#[must_use]
pub fn skills_demanded(reader: &Reader, word: &Word, reading: &Reading) -> Vec<Skill> {
    Skill::ALL.into_iter().filter(|skill| demands(reader, &word.text, reading, *skill)).collect()
}

/// Whether a reading of a word requires a skill.
pub(crate) fn demands(reader: &Reader, word: &str, reading: &Reading, skill: Skill) -> bool {
    // *Shh*, *brr*: a sound, not a word with a blend.
    let has_vowel = || reading.parts.iter().any(Part::is_vowel);
    match skill {
        Skill::InitialBlends => has_vowel() && reading.parts.iter().take_while(|part| !part.is_vowel()).count() > 1,
        Skill::FinalBlends => has_vowel() && !is_contraction(word) && has_final_blend(reading),
        Skill::TwoSyllableWords => reading.syllables() == 2,
        Skill::LongerWords => reading.syllables() > 2,
        Skill::CompoundWords => is_compound(reader, word, reading),
        Skill::Contractions => is_contraction(word),
        Skill::Possessives => is_possessive(word),
        Skill::Schwa => reading.syllables() > 1 && reading.parts.iter().any(is_schwa),
    }
}

fn is_schwa(part: &Part) -> bool {
    part.id().is_some_and(|id| id.get().is_vowel_letter() && id.get().sound.get().name == "AX")
}

/// Whether the word or, if it is inflected, its base ends in two consonants: *lamps*, but not *cats*.
fn has_final_blend(reading: &Reading) -> bool {
    let tail = reading.parts.iter().rev().take_while(|part| !part.is_vowel()).count();
    let ending = match reading.made {
        Some(Formation::Affixed { affix: EST, .. }) => return false,
        Some(Formation::Affixed { affix: S | ES | POSSESSIVE | ED, .. }) => 1,
        // The part `ed` is always the suffix.
        _ => usize::from(reading.parts.last().is_some_and(|part| part.spelling() == "ed")),
    };
    tail > 1 + ending
}

/// Whether the word is two words written as one, or a form of such a word.
fn is_compound(reader: &Reader, word: &str, reading: &Reading) -> bool {
    match reading.made {
        Some(Formation::Compound { .. }) => true,
        // *backfired* is one if *backfire* is.
        Some(Formation::Affixed { .. }) => reader
            .base(word, reading)
            .is_some_and(|base| base.is_inflected() && is_compound(reader, &base.word.text, base.reading())),
        None => false,
    }
}
