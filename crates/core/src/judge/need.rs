//! What a word still needs: reasons as types. [`crate::messages`] makes the words that people read of them.

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
    /// The y of a base that an ending turned into i: *bunny*, *bunnies*.
    ChangedY {
        /// The y of the base.
        y: CorrespondenceId,
        /// What it has become.
        into: CorrespondenceId,
        /// The lesson that teaches either, if any does.
        lesson: Option<LessonIndex>,
    },
    /// A chunk, an ending or a beginning that the scope teaches: `amp as in stamp`, `-ing`.
    Chunk {
        /// The chunk.
        chunk: ChunkId,
        /// The lesson that teaches it.
        lesson: Option<LessonIndex>,
    },
    /// A skill: consonants together, several syllables.
    Skill {
        /// The skill.
        skill: Skill,
        /// The lesson that teaches it, if any does.
        lesson: Option<LessonIndex>,
    },
    /// The word is taught whole in a later lesson.
    SightWord {
        /// That lesson.
        lesson: LessonIndex,
    },
    /// The word is a form of one that is taught whole: *looked* of *look*.
    SightForm {
        /// The sight word.
        base: Box<str>,
        /// The lesson that teaches it.
        base_lesson: LessonIndex,
        /// The ending.
        affix: AffixId,
        /// The lesson from which the ending is known.
        affix_lesson: LessonIndex,
    },
    /// The word is put together of words that can be read or are taught whole: *someone*.
    SightCompound {
        /// The two words.
        words: [Box<str>; 2],
        /// The lesson from which both can be read.
        lesson: LessonIndex,
    },
    /// Letters that are read so in hardly any other word: the word is to be taught whole.
    Irregular {
        /// The letters, in the notation of scope files.
        letters: Box<str>,
    },
    /// Consonants that stand for more than their letters: *Dr*, *km*.
    Abbreviation,
}

impl Need {
    /// The lesson from which it is met; none if the scope never teaches it.
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

    /// Whether it is the word itself that is to be taught, rather than a pattern or a skill.
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

    /// Its kind, for machine formats.
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
