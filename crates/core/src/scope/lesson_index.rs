//! Where a lesson is in its scope.

use serde::{Deserialize, Serialize};

/// The index of a lesson in its scope, counted from 0.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Default, Serialize, Deserialize)]
#[serde(try_from = "usize", into = "usize")]
pub struct LessonIndex(u16);

impl From<LessonIndex> for usize {
    fn from(lesson: LessonIndex) -> usize {
        lesson.get()
    }
}

impl TryFrom<usize> for LessonIndex {
    type Error = &'static str;

    fn try_from(index: usize) -> Result<LessonIndex, &'static str> {
        LessonIndex::new(index).ok_or("no scope has so many lessons")
    }
}

impl LessonIndex {
    /// The first lesson.
    pub const FIRST: LessonIndex = LessonIndex(0);

    /// The lesson at an index; none for one that no scope can have.
    #[must_use]
    pub fn new(index: usize) -> Option<LessonIndex> {
        u16::try_from(index).ok().filter(|index| *index != u16::MAX).map(LessonIndex)
    }

    /// The lesson so many before this one; none before the first.
    #[must_use]
    pub fn back(self, lessons: usize) -> Option<LessonIndex> {
        self.get().checked_sub(lessons).and_then(LessonIndex::new)
    }

    /// The index, for a table with an entry for each lesson.
    #[must_use]
    pub fn get(self) -> usize {
        usize::from(self.0)
    }
}

/// The earliest lesson at which something can be read, or never: the cost of a covering. Never is later than every lesson.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub(crate) struct When(u16);

impl When {
    pub(crate) const FIRST: When = When(0);
    pub(crate) const NEVER: When = When(u16::MAX);

    pub(crate) fn at(lesson: LessonIndex) -> When {
        When(lesson.0)
    }

    pub(crate) fn lesson(self) -> Option<LessonIndex> {
        (self != When::NEVER).then_some(LessonIndex(self.0))
    }

    /// A number that grows with the lesson; of never, the greatest.
    pub(crate) fn rank(self) -> u64 {
        u64::from(self.0)
    }

    /// Whether that is by a lesson.
    pub(crate) fn by(self, lesson: LessonIndex) -> bool {
        self <= When::at(lesson)
    }
}

impl From<Option<LessonIndex>> for When {
    fn from(lesson: Option<LessonIndex>) -> When {
        lesson.map_or(When::NEVER, When::at)
    }
}
