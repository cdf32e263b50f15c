//! Verdicts: for every word, the earliest lesson at which it can be read.
//!
//! Everything else follows from that one number: a verdict at a lesson is a comparison, one pass over a text gives its percentages
//! at every lesson, a bank of words is a filter over the dictionary.

mod cover;
mod demands;
mod sight;

pub use cover::{Cover, Step};
pub use demands::demands;

use crate::scope::NEVER;
use crate::word::{Bases, is_vowelless};
use crate::{Origin, Place, Reader, Reading, Scope, Skill, Word};

/// What a word is at a lesson.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Status {
    /// All of its parts and skills have been taught.
    Decodable,
    /// It has been taught whole.
    Sight,
    /// The text declares it as told to the child beforehand.
    Story,
    /// None of these.
    Untaught,
}

impl Status {
    /// The status' name in machine formats.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Status::Decodable => "decodable",
            Status::Sight => "sight",
            Status::Story => "story",
            Status::Untaught => "untaught",
        }
    }
}

/// A word against a scope.
#[derive(Debug)]
pub struct Verdict {
    /// The word and its readings; the one that counts comes first.
    pub word: Word,
    decodable: Place,
    sight: Place,
    /// The earliest lesson of each reading.
    earliest: Vec<Place>,
}

/// What a word needs that is soonest known whole.
pub(crate) const WHOLE: &str = "a sight word";

/// What an abbreviation needs: *Dr*, *km*.
const ABBREVIATION: &str = "teaching whole, as an abbreviation";

/// What a word still needs at a lesson.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Need {
    /// The lesson that teaches it, if any does.
    pub lesson: Option<Place>,
    /// What it is, for people: `igh as in night`, `consonants together at the end`, or that the word must be taught whole.
    pub label: String,
}

/// Judges words against a scope.
#[derive(Debug)]
pub struct Judge<'a> {
    /// How words are read.
    pub reader: &'a Reader,
    /// The scope.
    pub scope: &'a Scope,
}

impl Judge<'_> {
    /// Judges a word, folded as by [`crate::fold_word`]. Never fails: every string gets a verdict.
    /// Cost: under a microsecond for a word of the dictionary.
    #[must_use]
    pub fn judge(&self, word: &str) -> Verdict {
        let (word, earliest, ()) = self.sound_out(self.reader.read(word), |_, _| ());
        let decodable = earliest.first().copied().unwrap_or(NEVER);
        let sight = self.sight(&word.text);
        Verdict { word, decodable, sight, earliest }
    }

    /// The earliest lesson of each reading of a word, the reading that counts first; `look` is shown that lesson, and of what the
    /// reading is made.
    pub(crate) fn sound_out<T>(
        &self,
        mut word: Word,
        look: impl FnOnce(Place, &Bases<'_>) -> T,
    ) -> (Word, Vec<Place>, T) {
        let bases: Vec<Bases<'_>> =
            word.readings.iter().map(|reading| Bases::new(self.reader, &word.text, reading)).collect();
        let mut earliest: Vec<Place> = bases.iter().map(|bases| self.earliest(&word, bases)).collect();
        // Of readings that are equally early, the first.
        let at = (0..earliest.len()).min_by_key(|at| earliest[*at]).unwrap_or(0);
        let seen = look(earliest[at], &bases[at]);
        drop(bases);
        // The reading that counts comes first; the others keep their order.
        word.readings[..=at].rotate_right(1);
        earliest[..=at].rotate_right(1);
        (word, earliest, seen)
    }

    /// The earliest lesson at which one reading of a word can be sounded out.
    #[must_use]
    pub fn first_decodable(&self, word: &Word, reading: &Reading) -> Option<Place> {
        known(self.earliest(word, &Bases::new(self.reader, &word.text, reading)))
    }

    /// The word without its s, and its earliest lesson, where that is what holds a reading back: none is easier with an s than without.
    #[must_use]
    pub fn held_back_by(&self, word: &Word, reading: &Reading) -> Option<(String, Option<Place>)> {
        let cover = self.cover(word, reading);
        let own = cover.steps.iter().map(|step| step.lesson).chain(cover.skills.iter().map(|(_, lesson)| *lesson));
        let base = self.reader.without_s(&word.text, reading)?;
        let first = self.first_decodable(&base, &base.readings[0]);
        (first.unwrap_or(NEVER) > own.max().unwrap_or(0)).then_some((base.text, first))
    }

    /// What a word still needs at a lesson, in the order of its letters, skills last. Empty once it is decodable.
    #[must_use]
    pub fn needs(&self, verdict: &Verdict, at: Place) -> Vec<Need> {
        if verdict.decodable <= at {
            return Vec::new();
        }
        // A word that is soonest known whole needs just that.
        if let Some(lesson) = known(verdict.sight).filter(|sight| *sight < verdict.decodable) {
            return vec![Need { lesson: Some(lesson), label: self.sight_need(&verdict.word.text).to_owned() }];
        }
        if verdict.is_abbreviation() {
            return vec![Need { lesson: None, label: ABBREVIATION.to_owned() }];
        }
        // The reading that is soonest covered says what to teach; of those that never are, the one that lacks least.
        let lists = verdict.word.readings.iter().zip(&verdict.earliest).map(|(reading, earliest)| {
            let mut needs = self.unmet(&self.cover(&verdict.word, reading), at);
            if needs.is_empty()
                && let Some(base) = self.reader.without_s(&verdict.word.text, reading)
            {
                needs = self.unmet(&self.cover(&base, &base.readings[0]), at);
            }
            let never = needs.iter().filter(|need| need.lesson.is_none()).count();
            (*earliest, never, needs.len(), needs)
        });
        lists
            .min_by_key(|(earliest, never, count, _)| (*earliest, *never, *count))
            .map(|(.., needs)| needs)
            .unwrap_or_default()
    }

    fn unmet(&self, cover: &Cover, at: Place) -> Vec<Need> {
        let mut needs: Vec<Need> = Vec::new();
        for step in cover.steps.iter().filter(|step| step.lesson > at) {
            needs.push(Need { lesson: known(step.lesson), label: step.label.clone() });
        }
        for (skill, lesson) in cover.skills.iter().filter(|(skill, lesson)| *lesson > at && *skill != Skill::Schwa) {
            needs.push(Need { lesson: known(*lesson), label: skill.label().to_owned() });
        }
        let mut seen = Vec::new();
        needs.retain(|need| {
            !seen.contains(need) && {
                seen.push(need.clone());
                true
            }
        });
        needs
    }
}

/// A place, unless it is never.
pub(crate) fn known(place: Place) -> Option<Place> {
    (place != NEVER).then_some(place)
}

impl Verdict {
    /// The earliest lesson at which the word can be sounded out.
    #[must_use]
    pub fn first_decodable(&self) -> Option<Place> {
        known(self.decodable)
    }

    /// The earliest lesson at which the word can be read, sounded out or known whole.
    #[must_use]
    pub fn first_readable(&self) -> Option<Place> {
        known(self.decodable.min(self.sight))
    }

    /// What the word is at a lesson; `declared`: whether the text declares it as a story word or name.
    #[must_use]
    pub fn status(&self, at: Place, declared: bool) -> Status {
        if self.decodable <= at {
            Status::Decodable
        } else if self.sight <= at {
            Status::Sight
        } else if declared {
            Status::Story
        } else {
            Status::Untaught
        }
    }

    /// A reading that the word also has and that cannot be sounded out yet at a lesson at which another can: *wind* in *wind the clock*.
    /// Differences of accent and of weak vowels do not count.
    #[must_use]
    pub fn other_reading(&self, at: Place) -> Option<&Reading> {
        let first = self.word.readings.first().filter(|_| self.decodable <= at && self.sight > at)?;
        let others = self.word.readings.iter().zip(&self.earliest).skip(1);
        others.filter(|(_, earliest)| **earliest > at).map(|(reading, _)| reading).find(|other| differ(first, other))
    }

    /// Whether the word stands for more than its letters: these are consonants, and do not sound like that.
    fn is_abbreviation(&self) -> bool {
        let odd = |reading: &Reading| reading.parts.iter().any(|part| part.id().is_none());
        is_vowelless(&self.word.text) && self.word.readings.iter().all(odd)
    }

    /// Whether the word was read by its letters, for want of better; an abbreviation is not read at all.
    #[must_use]
    pub fn by_letters(&self) -> bool {
        self.word.origin == Origin::Letters && !self.is_abbreviation()
    }
}

impl Word {
    /// Whether the word has two readings that differ in more than accent and weak vowels, whatever has been taught: *lead*, *wind*.
    #[must_use]
    pub fn is_homograph(&self) -> bool {
        let mut readings = self.readings.iter();
        readings.next().is_some_and(|first| readings.any(|other| differ(first, other)))
    }
}

/// Whether two readings of a word differ in more than accent and weak vowels.
fn differ(one: &Reading, other: &Reading) -> bool {
    let sounds = |reading: &Reading| -> Vec<&'static str> {
        let names = reading.parts.iter().map(|part| part.id().map_or("", |id| id.get().sound.get().name));
        names.map(|name| if name == "AO" { "AA" } else { name }).collect()
    };
    let (one, other) = (sounds(one), sounds(other));
    one.len() != other.len() || one.iter().zip(&other).any(|(a, b)| a != b && *a != "AX" && *b != "AX")
}

/// Skills that a scope may name, with the lesson of each that it does.
pub(crate) fn named_skills(scope: &Scope) -> impl Iterator<Item = (Skill, Place)> {
    Skill::ALL.into_iter().map(|skill| (skill, scope.skill_lesson(skill))).filter(|(_, lesson)| *lesson != NEVER)
}
