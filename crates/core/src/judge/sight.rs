//! Sight words, inflected once their ending has been taught (*look*, *looked*).

use untaught_phonics::{CorrespondenceId, SoundId, spelled};

use super::Judge;
use super::demands::is_contraction;
use crate::scope::NEVER;
use crate::word::{Ending, strip};
use crate::{Place, Skill};

/// Letters of the longest compound that children meet: a longer word is not taken apart.
const LONGEST: usize = 20;

impl Judge<'_> {
    /// The lesson from which a word is known whole.
    pub(super) fn sight(&self, word: &str) -> Place {
        if let Some(place) = self.scope.sight_lesson(word) {
            return place;
        }
        if let Some(place) = self.reader.shortened(word).and_then(|short| self.scope.sight_lesson(&short)) {
            return place;
        }
        if is_contraction(word) {
            return self.contraction(word);
        }
        let inflected = strip(word).filter_map(|(base, ending, change)| {
            let lesson = self.scope.sight_lesson(&base).filter(|_| base.len() > 1)?;
            let form = self.reader.is_form(word, &base, ending, change);
            form.then(|| lesson.max(self.ending_lesson(ending)))
        });
        inflected.min().unwrap_or(NEVER).min(self.put_together(word))
    }

    /// A sight word and another that can be read, put together: *someone*, *doorstep*; once the scope has taught compounds, if it
    /// names them. Both must be heard in it: *today* is not *to* and *day*.
    fn put_together(&self, word: &str) -> Place {
        if word.len() > LONGEST {
            return NEVER;
        }
        let is_sight = |part: &str| self.scope.sight_lesson(part).is_some();
        let seams = (2..word.len().saturating_sub(1)).filter(|at| word.is_char_boundary(*at));
        let found = seams.filter_map(|at| {
            let (first, second) = word.split_at(at);
            if !(is_sight(first) || is_sight(second)) || !self.reader.is_joined(word, first, second) {
                return None;
            }
            let lesson = |part: &str| self.scope.sight_lesson(part).or_else(|| self.judge(part).first_readable());
            Some(lesson(first)?.max(lesson(second)?))
        });
        let Some(place) = found.min() else { return NEVER };
        match self.scope.skill_lesson(Skill::CompoundWords) {
            NEVER => place,
            skill => place.max(skill),
        }
    }

    /// What a word needs that is soonest known whole: the word itself, or contractions where only these are lacking.
    pub(super) fn sight_need(&self, word: &str) -> &'static str {
        let own = self.scope.sight_lesson(word).is_some();
        let lacks = |skill: Skill| !own && self.sight(word) == self.scope.skill_lesson(skill);
        if is_contraction(word) && lacks(Skill::Contractions) {
            Skill::Contractions.label()
        } else if lacks(Skill::CompoundWords) && self.put_together(word) != NEVER {
            Skill::CompoundWords.label()
        } else {
            super::WHOLE
        }
    }

    /// A sight word with a shortened one, once contractions are taught: *she's*, *they're*.
    fn contraction(&self, word: &str) -> Place {
        let Some(at) = word.find('\'') else { return NEVER };
        let base = word.strip_suffix("n't").unwrap_or(&word[..at]);
        // *don't* does not sound like *do*: it is a word of its own.
        if word.ends_with("n't") && !self.same_first_vowel(word, base) {
            return NEVER;
        }
        let Some(base) = self.scope.sight_lesson(base) else { return NEVER };
        let lesson = match self.scope.skill_lesson(Skill::Contractions) {
            NEVER => {
                let table = self.scope.table();
                let letter = |letter: char| {
                    let everyday = spelled(match letter {
                        'm' => "m",
                        'r' => "r",
                        'v' => "v",
                        'l' => "l",
                        'd' => "d",
                        's' => "s",
                        'n' => "n",
                        't' => "t",
                        _ => return 0,
                    });
                    everyday.map(|id| table.lesson(id)).min().unwrap_or(NEVER)
                };
                word[at..].chars().map(letter).max().unwrap_or(NEVER)
            }
            skill => skill,
        };
        base.max(lesson)
    }

    fn same_first_vowel(&self, one: &str, other: &str) -> bool {
        let first = |word: &str| -> Vec<CorrespondenceId> {
            let vowel = |reading: &crate::Reading| reading.parts.iter().find(|part| part.is_vowel())?.id();
            self.reader.known(word).iter().filter_map(vowel).collect()
        };
        let others = first(other);
        first(one).iter().any(|id| others.contains(id))
    }

    /// The lesson of an ending: the one that names it, else the one by which its parts are known.
    fn ending_lesson(&self, ending: Ending) -> Place {
        let hyphened = format!("-{}", ending.spelling());
        let scope = self.scope;
        let named = (0..).zip(&scope.lessons).filter(|(_, lesson)| {
            lesson.patterns.iter().any(|pattern| {
                let label = pattern.label();
                label == hyphened || label.split(" as in ").next() == Some(&hyphened)
            })
        });
        let named = named.map(|(place, _): (Place, _)| place).min();
        let table = scope.table();
        let part = |spelling: &str, sound: &str| {
            let id = SoundId::named(sound).and_then(|sound| CorrespondenceId::find(spelling, sound));
            id.map_or(NEVER, |id| table.weak(id))
        };
        let by_parts = || match ending {
            Ending::S | Ending::Possessive => part("s", "S").min(part("s", "Z")),
            Ending::Es => part("e", "AX").max(part("s", "Z")),
            Ending::Ed => part("ed", "T").min(part("ed", "D")).min(part("ed", "AX D")),
            Ending::Ing => part("i", "IH").max(part("ng", "NG")),
            Ending::Er => part("er", "ER"),
            Ending::Est => part("e", "AX").max(part("s", "S")).max(part("t", "T")),
            Ending::Ly => part("l", "L").max(part("y", "IY")),
            Ending::Y => part("y", "IY"),
            // Less and ful and the like make new words: taught only where the scope says so.
            Ending::Ful | Ending::Less | Ending::Ness | Ending::Ment | Ending::Able | Ending::Ally => NEVER,
        };
        let lesson = named.unwrap_or_else(by_parts);
        match ending {
            Ending::Possessive => match scope.skill_lesson(Skill::Possessives) {
                NEVER => lesson,
                skill => lesson.max(skill),
            },
            _ => lesson,
        }
    }
}
