//! Verdicts: the earliest lesson at which each word can be read.
//!
//! Everything else is derived from this lesson: the status at a lesson is a comparison, one pass over a text gives its
//! percentages at every lesson, and a word bank is a filter over the dictionary.

mod cover;
mod need;
mod sight;
mod skills;

pub use cover::{Cover, CoverStep};
pub use need::Need;
pub(crate) use skills::demands;
pub use skills::skills_demanded;

use untaught_phonics::Reading;
use untaught_phonics::formation::affixes::POSSESSIVE;
use untaught_phonics::formation::{Change, join};

use crate::scope::When;
use crate::{LessonIndex, Reader, Scope, Skill, Word, WordOrigin};

/// The status of a word at a lesson.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Status {
    /// All of its parts and skills have been taught.
    Decodable,
    /// It has been taught as a whole word.
    Sight,
    /// The text declares it as a word that the child already knows.
    Story,
    /// None of these.
    Untaught,
}

impl Status {
    /// The name of the status in machine formats.
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

/// The judgement of a word against a scope.
#[derive(Clone, Debug)]
pub struct Verdict {
    /// The word and its readings, starting with the one that the verdict is based on.
    pub word: Word,
    decodable: When,
    sight: When,
    /// How it becomes a sight word, if it does.
    whole: Option<Need>,
    /// The earliest lesson of each reading.
    earliest: Vec<When>,
}

/// Judges words against a scope.
#[derive(Clone, Copy, Debug)]
pub struct Judge<'a> {
    reader: &'a Reader,
    scope: &'a Scope,
}

impl<'a> Judge<'a> {
    /// Creates a judge for a scope, which reads words as the scope does, in its accent.
    #[must_use]
    pub fn new(reader: &'a Reader, scope: &'a Scope) -> Judge<'a> {
        Judge { reader: reader.for_scope(scope), scope }
    }

    /// The reader, which knows how words are pronounced and spelled.
    #[must_use]
    pub fn reader(&self) -> &'a Reader {
        self.reader
    }

    /// The scope.
    #[must_use]
    pub fn scope(&self) -> &'a Scope {
        self.scope
    }

    /// Judges a word. Never fails: every string gets a verdict. Cost: a few microseconds for a word in the dictionary.
    #[must_use]
    pub fn judge(&self, word: &str) -> Verdict {
        let (word, earliest) = self.sound_out(self.read(word));
        let decodable = earliest.first().copied().unwrap_or(When::NEVER);
        let whole = self.sight(&word);
        let sight = whole.as_ref().and_then(Need::lesson).into();
        Verdict { word, decodable, sight, whole, earliest }
    }

    /// Reads a word as the scope says, or as the dictionary does.
    fn read(&self, word: &str) -> Word {
        let mut read = self.reader.read(word);
        if let Some(own) = self.scope.pronounced(&read.text) {
            read.readings = vec![own.clone()];
            read.origin = WordOrigin::Dictionary;
        } else if let Some(stem) = read.text.strip_suffix("'s")
            && let Some(own) = self.scope.pronounced(stem)
            && let Some(own) = join(own, POSSESSIVE, Change::None)
        {
            read.readings = vec![own];
            read.origin = WordOrigin::Derived;
        }
        read
    }

    /// Returns the earliest lesson of each reading of a word, starting with the reading that the verdict is based on.
    pub(crate) fn sound_out(&self, mut word: Word) -> (Word, Vec<When>) {
        let mut earliest: Vec<When> = word.readings.iter().map(|reading| self.earliest(&word, reading)).collect();
        // If several readings are equally early, use the first.
        let at = (0..earliest.len()).min_by_key(|at| earliest[*at]).unwrap_or(0);
        // Move that reading to the front; the others keep their order.
        word.readings[..=at].rotate_right(1);
        earliest[..=at].rotate_right(1);
        (word, earliest)
    }

    /// The earliest lesson at which one reading of a word can be sounded out.
    #[must_use]
    pub fn first_decodable(&self, word: &Word, reading: &Reading) -> Option<LessonIndex> {
        self.earliest(word, reading).lesson()
    }

    /// Returns the base word and its earliest lesson, if that holds the reading back: a form is never easier than its base.
    #[must_use]
    pub fn held_back_by(&self, word: &Word, reading: &Reading) -> Option<(String, Option<LessonIndex>)> {
        let cover = self.cover(word, reading);
        let steps = cover.steps.iter().map(|step| When::from(step.need.lesson()));
        let own = steps.chain(cover.skills.iter().map(|(_, lesson)| When::at(*lesson))).max();
        let base = self.form_of(word, reading)?;
        let first = self.earliest(&base, &base.readings[0]);
        (first > own.unwrap_or(When::FIRST)).then(|| (base.text, first.lesson()))
    }

    /// Returns what a word still needs at a lesson, in the order of its letters, skills last. Empty if it is decodable.
    #[must_use]
    pub fn needs(&self, verdict: &Verdict, at: LessonIndex) -> Vec<Need> {
        if verdict.decodable.by(at) {
            return Vec::new();
        }
        // A word that is taught whole before it is decodable needs only that.
        if let Some(whole) = verdict.whole.as_ref().filter(|_| verdict.sight < verdict.decodable) {
            return vec![whole.clone()];
        }
        // The reading that is covered earliest decides what to teach; if none ever is, the one with the fewest needs.
        let lists = verdict.word.readings.iter().zip(&verdict.earliest).map(|(reading, earliest)| {
            let mut needs = self.unmet(&self.cover(&verdict.word, reading), at);
            let mut base = self.form_of(&verdict.word, reading);
            // Where the word has to wait for the one that it is a form of, what that needs counts too.
            let reached = |needs: &[Need]| needs.iter().map(|need| When::from(need.lesson())).max();
            while reached(&needs) < Some(*earliest)
                && let Some(word) = base
            {
                let more = self.unmet(&self.cover(&word, &word.readings[0]), at);
                needs.extend(more.into_iter().filter(|need| !needs.contains(need)).collect::<Vec<_>>());
                base = self.form_of(&word, &word.readings[0]);
            }
            let never = needs.iter().filter(|need| need.lesson().is_none()).count();
            (*earliest, never, needs.len(), needs)
        });
        let least = lists.min_by_key(|(earliest, never, count, _)| (*earliest, *never, *count));
        least.map(|(.., needs)| needs).unwrap_or_default()
    }

    fn unmet(&self, cover: &Cover, at: LessonIndex) -> Vec<Need> {
        let steps = cover.steps.iter().map(|step| step.need.clone());
        let skills = cover.skills.iter().filter(|(skill, _)| *skill != Skill::Schwa);
        let skills = skills.map(|(skill, lesson)| Need::Skill { skill: *skill, lesson: Some(*lesson) });
        let mut needs: Vec<Need> = Vec::new();
        for need in steps.chain(skills).filter(|need| need.lesson().is_none_or(|lesson| lesson > at)) {
            if !needs.contains(&need) {
                needs.push(need);
            }
        }
        needs
    }
}

impl Verdict {
    /// The earliest lesson at which the word can be sounded out.
    #[must_use]
    pub fn first_decodable(&self) -> Option<LessonIndex> {
        self.decodable.lesson()
    }

    /// The earliest lesson at which the word can be read, either sounded out or as a sight word.
    #[must_use]
    pub fn first_readable(&self) -> Option<LessonIndex> {
        self.decodable.min(self.sight).lesson()
    }

    /// How the word becomes a sight word: taught whole, or as a form of a word that is. `None` if it never does.
    #[must_use]
    pub fn known_whole(&self) -> Option<&Need> {
        self.whole.as_ref()
    }

    /// The status of the word at a lesson. `declared`: whether the text declares it as a story word or name.
    #[must_use]
    pub fn status(&self, at: LessonIndex, declared: bool) -> Status {
        if self.decodable.by(at) {
            Status::Decodable
        } else if self.sight.by(at) {
            Status::Sight
        } else if declared {
            Status::Story
        } else {
            Status::Untaught
        }
    }

    /// Returns another reading that is not yet decodable at a lesson although the first is: *wind* in *wind the clock*.
    /// Only words that are two words, with two meanings, count: whether *either* begins as in *see* or as in *pie*, the child has read it.
    #[must_use]
    pub fn other_reading(&self, at: LessonIndex) -> Option<&Reading> {
        let first = self.word.readings.first().filter(|_| self.decodable.by(at) && !self.sight.by(at))?;
        if !is_two_words(&self.word.text) {
            return None;
        }
        let others = self.word.readings.iter().zip(&self.earliest).skip(1);
        others.filter(|(_, earliest)| !earliest.by(at)).map(|(reading, _)| reading).find(|other| differ(first, other))
    }

    /// Whether the word was read by its letters because it is not in the dictionary. False for an abbreviation, which is not
    /// read.
    #[must_use]
    pub fn by_letters(&self) -> bool {
        self.word.origin == WordOrigin::Letters
    }
}

impl Word {
    /// Whether the word has two readings that differ in more than accent and weak vowels: *lead*, *wind*. Independent of any
    /// lesson.
    #[must_use]
    pub fn is_homograph(&self) -> bool {
        let mut readings = self.readings.iter();
        readings.next().is_some_and(|first| readings.any(|other| differ(first, other)))
    }
}

/// Words that are two words, each with its meaning and its sounds, and their forms. Common knowledge, no source; chosen from all words
/// of the dictionary with readings that differ. Sorted.
const TWO_WORDS: [&str; 48] = [
    "abuse", "abuses", "aged", "bass", "basses", "beloved", "bow", "bowed", "bowing", "bows", "buffet", "buffeted",
    "buffets", "close", "desert", "deserts", "diffuse", "excise", "excuse", "excuses", "lead", "live", "lives",
    "misread", "misuse", "misuses", "moped", "perfect", "polish", "present", "presents", "read", "record", "records",
    "refuse", "resume", "resumes", "sow", "sowed", "tear", "tearing", "tears", "use", "uses", "wind", "winded",
    "winds", "wound",
];

fn is_two_words(word: &str) -> bool {
    let word = word.strip_suffix("'s").unwrap_or(word);
    TWO_WORDS.binary_search(&word).is_ok()
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

/// The skills that a scope names, with their lessons.
pub(crate) fn named_skills(scope: &Scope) -> impl Iterator<Item = (Skill, LessonIndex)> {
    Skill::ALL.into_iter().filter_map(|skill| Some((skill, scope.skill_lesson(skill)?)))
}
