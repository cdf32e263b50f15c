//! `untaught scope`.

use std::io::Write as _;

use serde::Serialize;
use untaught::{Lesson, Reader, Skill};

use crate::args::{Format, ScopeArgs};
use crate::output::{self, DIM, Failure, STRONG, safe};
use crate::{Outcome, input};

#[derive(Serialize)]
struct ScopeOut<'a> {
    format: u32,
    title: &'a str,
    lessons: Vec<LessonOut<'a>>,
}

#[derive(Serialize)]
struct LessonOut<'a> {
    id: &'a str,
    title: &'a str,
    patterns: Vec<String>,
    sight: &'a [String],
    skills: Vec<&'static str>,
    review: &'a [String],
}

pub(crate) fn run(args: &ScopeArgs) -> Result<Outcome, Failure> {
    let reader = Reader::default();
    let scope = input::scope(args.scope.as_deref(), &reader)?;
    let lessons: Vec<LessonOut<'_>> = scope.lessons.iter().map(lesson).collect();
    match args.format {
        Format::Json => output::json(&ScopeOut { format: 1, title: &scope.title, lessons })?,
        Format::Text => {
            let mut out = std::io::BufWriter::new(anstream::stdout().lock());
            writeln!(out, "{STRONG}{}{STRONG:#}", safe(&scope.title))?;
            if let Some(source) = &scope.source {
                writeln!(out, "{DIM}source: {}{DIM:#}", safe(source))?;
            }
            for lesson in &lessons {
                writeln!(out, "\n{STRONG}{}  {}{STRONG:#}", safe(lesson.id), safe(lesson.title))?;
                let skills: Vec<String> = lesson.skills.iter().map(ToString::to_string).collect();
                let rows = [
                    ("patterns", &lesson.patterns[..]),
                    ("sight", lesson.sight),
                    ("skills", &skills),
                    ("review", lesson.review),
                ];
                for (label, row) in rows.into_iter().filter(|(_, row)| !row.is_empty()) {
                    writeln!(out, "    {DIM}{label:<9}{DIM:#}{}", safe(&row.join(", ")))?;
                }
            }
            let count = |n: usize, what: &str| format!("{n} {what}{}", if n == 1 { "" } else { "s" });
            let patterns = lessons.iter().map(|lesson| lesson.patterns.len()).sum();
            let sight = lessons.iter().map(|lesson| lesson.sight.len()).sum();
            writeln!(
                out,
                "\n{}, {}, {}: no faults found",
                count(lessons.len(), "lesson"),
                count(patterns, "pattern"),
                count(sight, "sight word")
            )?;
            out.flush()?;
        }
    }
    Ok(Outcome::Met)
}

fn lesson(lesson: &Lesson) -> LessonOut<'_> {
    LessonOut {
        id: &lesson.id,
        title: &lesson.title,
        patterns: lesson.patterns.iter().map(untaught::Pattern::label).collect(),
        sight: &lesson.sight,
        skills: lesson.skills.iter().map(|skill: &Skill| skill.name()).collect(),
        review: &lesson.review,
    }
}
