//! What a word still needs, as types. [`crate::messages`] turns them into sentences for people.

use untaught_phonics::CorrespondenceId;
use untaught_phonics::formation::AffixId;

use crate::{ChunkId, LessonIndex, Skill};

/// What a word needs, or a part of one.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
#[non_exhaustive]
pub enum Need {
    /// A correspondence: `igh as in night`.
    Correspondence {
        /// The correspondence.
        id: CorrespondenceId,
        /// The lesson that teaches it, if any does.
        lesson: Option<LessonIndex>,
    },
    /// The y of a base that a suffix changed to i: *bunny*, *bunnies*.
    ChangedY {
        /// The y of the base.
        y: CorrespondenceId,
        /// The correspondence it changed to.
        into: CorrespondenceId,
        /// The lesson that teaches either, if any does.
        lesson: Option<LessonIndex>,
    },
    /// A chunk, suffix or prefix that the scope teaches: `ank as in bank`, `-ing`.
    Chunk {
        /// The chunk.
        chunk: ChunkId,
        /// The lesson that teaches it.
        lesson: Option<LessonIndex>,
    },
    /// A skill, such as consonant blends or several syllables.
    Skill {
        /// The skill.
        skill: Skill,
        /// The lesson that teaches it, if any does.
        lesson: Option<LessonIndex>,
    },
    /// A later lesson teaches the whole word.
    SightWord {
        /// That lesson.
        lesson: LessonIndex,
    },
    /// The word is a form of one that is taught whole: *looked* comes from *look*.
    SightForm {
        /// The sight word.
        base: Box<str>,
        /// The lesson that teaches it.
        base_lesson: LessonIndex,
        /// The affix.
        affix: AffixId,
        /// The lesson from which the affix is known.
        affix_lesson: LessonIndex,
    },
    /// The word is a compound of words that can be read or are taught whole: *someone*.
    SightCompound {
        /// The two words.
        words: [Box<str>; 2],
        /// The lesson from which both can be read.
        lesson: LessonIndex,
    },
    /// Letters that almost no other word reads this way: the word must be taught whole.
    Irregular {
        /// The letters, in the notation of scope files.
        letters: Box<str>,
    },
    /// An abbreviation in consonants: *Dr*, *km*.
    Abbreviation,
}

impl Need {
    /// The lesson from which the need is met; `None` if the scope never meets it.
    #[must_use]
    pub fn lesson(&self) -> Option<LessonIndex> {
        match self {
            Need::Correspondence { lesson, .. }
            | Need::ChangedY { lesson, .. }
            | Need::Chunk { lesson, .. }
            | Need::Skill { lesson, .. } => *lesson,
            Need::SightWord { lesson } | Need::SightCompound { lesson, .. } => Some(*lesson),
            Need::SightForm { base_lesson, affix_lesson, .. } => Some(*base_lesson.max(affix_lesson)),
            Need::Irregular { .. } | Need::Abbreviation => None,
        }
    }

    /// Whether the word itself must be taught, rather than a pattern or a skill.
    #[must_use]
    pub fn is_whole_word(&self) -> bool {
        matches!(
            self,
            Need::SightWord { .. }
                | Need::SightForm { .. }
                | Need::SightCompound { .. }
                | Need::Irregular { .. }
                | Need::Abbreviation
        )
    }

    /// The name of its kind in machine formats.
    #[must_use]
    pub fn kind(&self) -> &'static str {
        match self {
            Need::Correspondence { .. } | Need::ChangedY { .. } | Need::Chunk { .. } => "pattern",
            Need::Skill { .. } => "skill",
            Need::SightWord { .. } | Need::SightForm { .. } | Need::SightCompound { .. } => "sight-word",
            Need::Irregular { .. } => "irregular",
            Need::Abbreviation => "abbreviation",
        }
    }
}
