//! Scopes as the page shows them.

use serde::Serialize;
use untaught::{Pattern, Scope};

/// A scope that comes with the program.
#[derive(Serialize)]
pub(crate) struct Named {
    name: &'static str,
    title: &'static str,
}

/// The scopes that come with the program, the usual one first.
pub(crate) fn all() -> Vec<Named> {
    let mut named: Vec<Named> = Scope::embedded_titles().map(|(name, title)| Named { name, title }).collect();
    named.sort_by_key(|scope| scope.name != "starter");
    named
}

/// What a scope teaches.
#[derive(Serialize)]
pub(crate) struct Lessons<'a> {
    title: &'a str,
    about: Option<&'a str>,
    source: Option<&'a str>,
    lessons: Vec<Lesson<'a>>,
}

#[derive(Serialize)]
struct Lesson<'a> {
    id: &'a str,
    title: &'a str,
    patterns: Vec<String>,
    sight: &'a [String],
    skills: Vec<&'static str>,
}

/// The lessons of a scope.
pub(crate) fn lessons(scope: &Scope) -> Lessons<'_> {
    let lessons = scope.lessons().iter().map(|lesson| Lesson {
        id: &lesson.id,
        title: &lesson.title,
        patterns: lesson.patterns.iter().map(Pattern::label).collect(),
        sight: &lesson.sight,
        skills: lesson.skills.iter().map(|skill| skill.label()).collect(),
    });
    Lessons { title: scope.title(), about: scope.about(), source: scope.source(), lessons: lessons.collect() }
}
