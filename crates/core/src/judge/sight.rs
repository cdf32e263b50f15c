//! Sight words, their forms once a suffix has been taught (*look*, *looked*), and their compounds (*someone*).

use untaught_phonics::formation::affixes::{ED, ER, ES, EST, ING, LY, POSSESSIVE, S, Y};
use untaught_phonics::formation::{AffixId, Dictionary as _, Side, is_contraction, shortened};
use untaught_phonics::{CorrespondenceId, Part, Reading, spelled};

use super::{Judge, Need};
use crate::scope::When;
use crate::word::Base;
use crate::{LessonIndex, Skill, Word};

impl Judge<'_> {
    /// Returns what a word needs to become a sight word, with the lesson; `None` if it never does.
    pub(super) fn sight(&self, word: &Word) -> Option<Need> {
        let text = word.text.as_str();
        if let Some(lesson) = self.scope.sight_lesson(text) {
            return Some(Need::SightWord { lesson });
        }
        if let Some(lesson) = shortened(text, self.reader).and_then(|short| self.scope.sight_lesson(&short)) {
            return Some(Need::SightWord { lesson });
        }
        if is_contraction(text) {
            return self.contraction(text);
        }
        let ways =
            word.readings.iter().flat_map(|reading| [self.form(word, reading), self.put_together(word, reading)]);
        ways.flatten().min_by_key(Need::lesson)
    }

    /// The lesson from which a word is a sight word.
    fn sight_lesson(&self, word: &Word) -> Option<LessonIndex> {
        self.sight(word)?.lesson()
    }

    /// Recognises a form of a sight word, known once its suffix or prefix is taught: *looked*, *redo*.
    fn form(&self, word: &Word, reading: &Reading) -> Option<Need> {
        let Base { word: base, affix, .. } = self.reader.base(&word.text, reading)?;
        if base.text.len() < 2 {
            return None;
        }
        // *lonesome*, *friendship*: the suffix can be read like a word.
        if matches!(affix.get().name, "-some" | "-hood" | "-ship") {
            let ending = self.reader.read(affix.get().letters());
            return self.both([self.sight_lesson(&base), self.scope.sight_lesson(&ending.text)], [&base, &ending]);
        }
        let base_lesson = self.sight_lesson(&base)?;
        let affix_lesson = self.affix_lesson(affix).lesson()?;
        Some(Need::SightForm { base: base.text.into(), base_lesson, affix, affix_lesson })
    }

    /// Recognises a compound of a sight word and another readable word: *someone*, *doorstep*. If the scope names compounds,
    /// they must have been taught.
    fn put_together(&self, word: &Word, reading: &Reading) -> Option<Need> {
        let halves = self.reader.halves(&word.text, reading)?;
        let [first, second] = &halves;
        let need = self.both(halves.each_ref().map(|half| self.sight_lesson(half)), [first, second])?;
        match self.scope.skill_lesson(Skill::CompoundWords) {
            Some(skill) if Some(skill) > need.lesson() => {
                Some(Need::Skill { skill: Skill::CompoundWords, lesson: Some(skill) })
            }
            _ => Some(need),
        }
    }

    /// Two readable words, at least one of which is a sight word.
    fn both(&self, sight: [Option<LessonIndex>; 2], words: [&Word; 2]) -> Option<Need> {
        if sight == [None, None] {
            return None;
        }
        let readable = |at: usize| sight[at].or_else(|| self.earliest(words[at], &words[at].readings[0]).lesson());
        let lesson = readable(0)?.max(readable(1)?);
        Some(Need::SightCompound { words: words.map(|word| word.text.as_str().into()), lesson })
    }

    /// Recognises a contraction of a sight word, known once contractions are taught: *she's*, *they're*.
    fn contraction(&self, word: &str) -> Option<Need> {
        let at = word.find('\'')?;
        let base = word.strip_suffix("n't").unwrap_or(&word[..at]);
        // *don't* does not sound like *do*: it is a separate word.
        if word.ends_with("n't") && !self.same_first_vowel(word, base) {
            return None;
        }
        let base = self.scope.sight_lesson(base)?;
        if let Some(skill) = self.scope.skill_lesson(Skill::Contractions) {
            let need = Need::Skill { skill: Skill::Contractions, lesson: Some(skill) };
            return Some(if skill > base { need } else { Need::SightWord { lesson: base } });
        }
        let table = self.scope.table();
        let letter = |letter: &str| spelled(letter).map(|id| table.lesson(id)).min().unwrap_or(When::FIRST);
        let letters = word[at + 1..].char_indices().map(|(n, c)| letter(&word[at + 1 + n..at + 1 + n + c.len_utf8()]));
        let lesson = letters.fold(When::at(base), When::max).lesson()?;
        Some(Need::SightWord { lesson })
    }

    fn same_first_vowel(&self, one: &str, other: &str) -> bool {
        let first = |word: &str| -> Vec<CorrespondenceId> {
            let vowel = |reading: &Reading| reading.parts.iter().find(|part| part.is_vowel()).and_then(Part::id);
            self.reader.readings(word).iter().filter_map(vowel).collect()
        };
        let others = first(other);
        first(one).iter().any(|id| others.contains(id))
    }

    /// The lesson of an affix: the one that names it, otherwise the one by which its parts are known.
    fn affix_lesson(&self, ending: AffixId) -> When {
        let table = self.scope.table();
        let by_parts = || {
            // Suffixes such as -less and -ful form new words: they count as taught only if the scope names them.
            let ends = ending.get().side() == Side::After;
            if ends && !matches!(ending, S | ES | POSSESSIVE | ED | ING | ER | EST | LY | Y) {
                return When::NEVER;
            }
            let cuts = ending.get().cut.iter();
            let latest = |cut: &&[CorrespondenceId]| cut.iter().map(|id| table.weak(*id)).max().unwrap_or(When::NEVER);
            match ending {
                // The silent e of *goes* belongs to the base.
                ES => cuts.take(1).map(latest).min().unwrap_or(When::NEVER),
                _ => cuts.map(latest).min().unwrap_or(When::NEVER),
            }
        };
        let named = table.affixes().filter(|(_, affix, _)| *affix == ending).map(|(.., lesson)| lesson).min();
        let lesson = named.unwrap_or_else(by_parts);
        match (ending, self.scope.skill_lesson(Skill::Possessives)) {
            (POSSESSIVE, Some(skill)) => lesson.max(When::at(skill)),
            _ => lesson,
        }
    }
}
