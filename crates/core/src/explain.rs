//! Explains a word: how it is cut, what each part needs, and when it can be read. The command, the page and the editor all
//! use it; serialised, it is the output of `untaught explain --format json`.

use serde::Serialize;
use untaught_phonics::{Formation, Reading};

use crate::{Judge, LessonIndex, Need, Skill, Verdict, WordOrigin, messages, skills_demanded};

/// The explanation of a word against a scope.
#[derive(Clone, Debug, Serialize)]
pub struct Explanation<'s> {
    /// The word as written.
    pub word: String,
    /// The accent in which it is read, as named in scope files.
    pub accent: &'static str,
    /// Where its readings come from, as named in machine formats.
    pub origin: &'static str,
    /// The id of the earliest lesson at which it can be sounded out.
    pub first_decodable: Option<&'s str>,
    /// The id of the earliest lesson at which it can be read, either sounded out or as a sight word.
    pub first_readable: Option<&'s str>,
    /// Its readings, starting with the one that the verdict is based on.
    pub readings: Vec<ReadingExplanation<'s>>,
    /// The verdict that it explains.
    #[serde(skip)]
    pub verdict: Verdict,
}

/// The explanation of one reading.
#[derive(Clone, Debug, Serialize)]
pub struct ReadingExplanation<'s> {
    /// The pronunciation in IPA, without slashes; empty for an abbreviation, which is not sounded out.
    pub ipa: String,
    /// Its parts in the order of their first letter.
    pub parts: Vec<PartExplanation<'s>>,
    /// The skills it requires, as named in scope files.
    pub skills: Vec<&'static str>,
    /// The id of the earliest lesson at which it can be sounded out.
    pub first_decodable: Option<&'s str>,
    /// What the word is made of: `hope + -ing`, `bath + tub`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub made_of: Option<String>,
    /// The skills it requires, each with its lesson if the scope names it.
    #[serde(skip)]
    pub demands: Vec<(Skill, Option<LessonIndex>)>,
    /// The base word that holds it back, with that word's earliest lesson: a form is never easier than its base.
    #[serde(skip)]
    pub held_back_by: Option<(String, Option<LessonIndex>)>,
}

/// The explanation of one part.
#[derive(Clone, Debug, Serialize)]
pub struct PartExplanation<'s> {
    /// Its spelling in the notation of scope files.
    pub spelling: String,
    /// Its sound in ARPAbet.
    pub sound: String,
    /// Its sound in IPA.
    pub ipa: String,
    /// What it needs, for people.
    pub pattern: String,
    /// The id of the lesson that teaches it.
    pub lesson: Option<&'s str>,
    /// What it needs.
    #[serde(skip)]
    pub need: Need,
}

impl<'s> Judge<'s> {
    /// Explains a word, given as written. Cost: a judgement, and a cover for each reading.
    #[must_use]
    pub fn explain(&self, written: &str) -> Explanation<'s> {
        let verdict = self.judge(written);
        let id = |lesson: Option<LessonIndex>| lesson.map(|lesson| self.scope().id(lesson));
        Explanation {
            word: written.to_owned(),
            accent: self.reader().accent().name(),
            origin: verdict.word.origin.name(),
            first_decodable: id(verdict.first_decodable()),
            first_readable: id(verdict.first_readable()),
            readings: verdict.word.readings.iter().map(|reading| self.explain_as(written, &verdict, reading)).collect(),
            verdict,
        }
    }

    /// Explains one reading of a judged word.
    #[must_use]
    pub fn explain_reading(&self, verdict: &Verdict, reading: &Reading) -> ReadingExplanation<'s> {
        self.explain_as(&verdict.word.text, verdict, reading)
    }

    fn explain_as(&self, written: &str, verdict: &Verdict, reading: &Reading) -> ReadingExplanation<'s> {
        let (scope, word) = (self.scope(), &verdict.word);
        let id = |lesson: Option<LessonIndex>| lesson.map(|lesson| scope.id(lesson));
        let cover = self.cover(word, reading);
        let sounded = word.origin != WordOrigin::Abbreviation;
        let shown = reading.parts_with_ipa().map(|(_, ipa)| ipa);
        let parts = cover.parts(reading).zip(shown).map(|((part, step), ipa)| PartExplanation {
            spelling: part.spelling().to_owned(),
            sound: part.arpabet().to_owned(),
            ipa: if sounded { ipa } else { String::new() },
            pattern: messages::need(&step.need, scope),
            lesson: id(step.need.lesson()),
            need: step.need.clone(),
        });
        let skills = skills_demanded(self.reader(), word, reading);
        ReadingExplanation {
            ipa: if sounded { reading.ipa() } else { String::new() },
            parts: parts.collect(),
            skills: skills.iter().map(|skill| skill.name()).collect(),
            first_decodable: id(self.first_decodable(word, reading)),
            made_of: made_of(written, &word.text, reading),
            demands: skills.into_iter().map(|skill| (skill, scope.skill_lesson(skill))).collect(),
            held_back_by: self.held_back_by(word, reading),
        }
    }
}

/// `hope + -ing`, `un- + lock`, `bath + tub`; with the capitals of the word as written: `Tam + -'s`.
fn made_of(written: &str, word: &str, reading: &Reading) -> Option<String> {
    match reading.made? {
        Formation::Affixed { affix, change, .. } => {
            let (base, name) = (change.base_of(word, affix)?, affix.get().name);
            Some(match name.ends_with('-') {
                true => format!("{name} + {base}"),
                false => format!("{} + {name}", with_capitals(&base, written)),
            })
        }
        Formation::Compound { seam, .. } => {
            let (first, second) = word.split_at_checked(usize::from(seam))?;
            Some(format!("{} + {second}", with_capitals(first, written)))
        }
    }
}

/// The beginning of a word with a capital if the word is written with one.
fn with_capitals(base: &str, written: &str) -> String {
    let mut letters = base.chars();
    match letters.next() {
        Some(first) if written.starts_with(char::is_uppercase) => first.to_uppercase().chain(letters).collect(),
        _ => base.to_owned(),
    }
}

impl Explanation<'_> {
    /// When the word can be read, as a phrase: `decodable from lesson 33`.
    #[must_use]
    pub fn when(&self) -> String {
        match (self.first_decodable, self.first_readable) {
            (Some(first), Some(readable)) if first == readable => format!("decodable from lesson {first}"),
            (Some(first), Some(readable)) => {
                format!("sight word from lesson {readable}, decodable from lesson {first}")
            }
            (None, Some(readable)) => format!("sight word from lesson {readable}, never decodable"),
            (_, None) => "untaught: never readable in this scope".to_owned(),
        }
    }

    /// Where the word comes from, if not simply from the dictionary.
    #[must_use]
    pub fn where_from(&self) -> Option<&'static str> {
        self.verdict.word.origin.describe()
    }
}

impl ReadingExplanation<'_> {
    /// What the reading requires in addition to its parts, as short phrases: `two syllables, lesson 25`.
    #[must_use]
    pub fn also(&self, scope: &crate::Scope) -> Vec<String> {
        let skills = self.demands.iter().map(|(skill, lesson)| match lesson {
            Some(lesson) => format!("{}, lesson {}", skill.label(), scope.id(*lesson)),
            None => skill.label().to_owned(),
        });
        let held = self.held_back_by.iter().map(|(base, lesson)| match lesson {
            Some(lesson) => format!("not before {base}, lesson {}", scope.id(*lesson)),
            None => format!("not before {base}, which is never taught"),
        });
        skills.chain(held).collect()
    }
}

#[cfg(test)]
mod tests {
    use crate::{Judge, Reader, Scope};

    #[test]
    fn rare_key_words_are_irregular_themselves_and_capitals_are_kept() {
        let reader = Reader::default();
        let scope = Scope::parse("format: 1\nlessons:\n- teach: [s, d, g, i, n, r, a]\n", &reader).unwrap();
        let judge = Judge::new(&reader, &scope);
        let part = |word: &str, at: usize| judge.explain(word).readings[0].parts[at].pattern.clone();
        assert_eq!([part("said", 1), part("oh", 0)], ["irregular: teach it as a whole word"; 2]);
        assert_eq!(part("again", 2), "ai as in said");
        let made = |word: &str| judge.explain(word).readings[0].made_of.clone().unwrap();
        assert_eq!(
            [made("Tam's"), made("dogs"), made("Bathtub"), made("Unlock")],
            ["Tam + -'s", "dog + -s", "Bath + tub", "un- + lock"]
        );
    }
}
