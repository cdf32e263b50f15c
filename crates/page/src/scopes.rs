//! Scopes as the page shows them.

use serde::Serialize;
use untaught::{Pattern, Scope};

/// A scope that comes with the program.
#[derive(Serialize)]
pub(crate) struct ScopeName {
    name: &'static str,
    title: &'static str,
}

/// The scopes that come with the program, the usual one first.
pub(crate) fn all() -> Vec<ScopeName> {
    let mut named: Vec<ScopeName> = Scope::embedded_titles().map(|(name, title)| ScopeName { name, title }).collect();
    named.sort_by_key(|scope| scope.name != "starter");
    named
}

/// What a scope teaches.
#[derive(Serialize)]
pub(crate) struct ScopeLessons<'a> {
    title: &'a str,
    about: Option<&'a str>,
    source: Option<&'a str>,
    lessons: Vec<LessonAnswer<'a>>,
}

#[derive(Serialize)]
struct LessonAnswer<'a> {
    id: &'a str,
    title: &'a str,
    patterns: Vec<String>,
    sight: &'a [String],
    skills: Vec<&'static str>,
}

/// The lessons of a scope.
pub(crate) fn lessons(scope: &Scope) -> ScopeLessons<'_> {
    let lessons = scope.lessons().iter().map(|lesson| LessonAnswer {
        id: &lesson.id,
        title: &lesson.title,
        patterns: lesson.patterns.iter().map(Pattern::label).collect(),
        sight: &lesson.sight,
        skills: lesson.skills.iter().map(|skill| skill.label()).collect(),
    });
    ScopeLessons { title: scope.title(), about: scope.about(), source: scope.source(), lessons: lessons.collect() }
}
