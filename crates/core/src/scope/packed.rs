//! The scopes that come with the program, packed when it is built.

use super::file::{LessonEntry, ScopeFile};
use crate::yaml::Id;

pub(super) struct PackedScope {
    pub(super) name: &'static str,
    pub(super) text: &'static str,
    pub(super) title: &'static str,
    accent: Option<&'static str>,
    age: Option<u8>,
    about: Option<&'static str>,
    source: Option<&'static str>,
    lessons: &'static [PackedLesson],
}

struct PackedLesson {
    id: Option<&'static str>,
    title: &'static str,
    teach: &'static [&'static str],
    sight: &'static [&'static str],
    skills: &'static [&'static str],
    review: &'static [&'static str],
}

include!(concat!(env!("OUT_DIR"), "/scopes.rs"));

/// The scopes, in the order in which they are offered.
pub(super) fn all() -> &'static [PackedScope] {
    &PACKED
}

impl PackedScope {
    /// The file as it would have been read.
    pub(super) fn unpack(&self) -> ScopeFile {
        let owned = |list: &[&str]| list.iter().map(|text| (*text).to_owned()).collect();
        let lesson = |lesson: &PackedLesson| LessonEntry {
            id: lesson.id.map(|id| Id(id.to_owned())),
            title: Some(lesson.title.to_owned()),
            teach: owned(lesson.teach),
            sight: owned(lesson.sight),
            skills: owned(lesson.skills),
            review: owned(lesson.review),
        };
        ScopeFile {
            format: 1,
            title: Some(self.title.to_owned()),
            accent: self.accent.map(str::to_owned),
            about: self.about.map(str::to_owned),
            source: self.source.map(str::to_owned),
            age: self.age,
            pronounce: std::collections::BTreeMap::new(),
            lessons: self.lessons.iter().map(lesson).collect(),
        }
    }
}
