//! A scope: its lessons, and advice about them.

use std::io::{BufWriter, Write};

use serde::Serialize;
use untaught::{Advice, FEW, Lesson, LessonIndex, Pattern, Scope, Skill};

use crate::output::{self, DIM, Failure, STRONG, count, one_line};

#[derive(Serialize)]
struct ScopeReport<'a> {
    format: u32,
    title: &'a str,
    accent: &'static str,
    lessons: Vec<LessonReport<'a>>,
    advice: AdviceReport<'a>,
}

#[derive(Serialize)]
struct AdviceReport<'a> {
    sight_words_decodable: Vec<DecodableSightWord<'a>>,
    hard_to_write_for: Vec<RarePattern<'a>>,
    never_taught: Vec<MissingPattern<'a>>,
    nothing_new: Vec<&'a str>,
    further_sounds: Vec<FurtherSounds<'a>>,
    titles: Vec<UntaughtTitle<'a>>,
}

#[derive(Serialize)]
struct UntaughtTitle<'a> {
    lesson: &'a str,
    spellings: &'a [String],
}

#[derive(Serialize)]
struct DecodableSightWord<'a> {
    word: &'a str,
    lesson: &'a str,
    decodable: &'a str,
}

#[derive(Serialize)]
struct RarePattern<'a> {
    pattern: &'a str,
    lesson: &'a str,
    words: usize,
}

#[derive(Serialize)]
struct MissingPattern<'a> {
    pattern: &'a str,
    words: usize,
    examples: &'a [String],
}

#[derive(Serialize)]
struct FurtherSounds<'a> {
    spelling: &'a str,
    lesson: &'a str,
    sounds: &'a [String],
}

#[derive(Serialize)]
struct LessonReport<'a> {
    id: &'a str,
    title: &'a str,
    patterns: Vec<String>,
    sight: &'a [String],
    skills: Vec<&'static str>,
    review: &'a [String],
}

/// Prints a scope for programs.
pub(crate) fn json(scope: &Scope, advice: &Advice) -> Result<(), Failure> {
    let lessons = scope.lessons().iter().map(lesson).collect();
    let advice = advice_report(advice, scope);
    output::json(&ScopeReport { format: 1, title: scope.title(), accent: scope.accent().name(), lessons, advice })
}

/// Prints a scope for people.
pub(crate) fn text(scope: &Scope, advice: &Advice) -> Result<(), Failure> {
    let lessons: Vec<LessonReport<'_>> = scope.lessons().iter().map(lesson).collect();
    let mut out = BufWriter::new(anstream::stdout().lock());
    writeln!(out, "{STRONG}{}{STRONG:#}", one_line(scope.title()))?;
    if let Some(source) = scope.source() {
        let source: Vec<&str> = source.split_whitespace().collect();
        writeln!(out, "{DIM}source: {}{DIM:#}", one_line(&source.join(" ")))?;
    }
    if scope.accent().is_british() {
        writeln!(out, "{DIM}accent: {}{DIM:#}", scope.accent())?;
    }
    let patterns = lessons.iter().map(|lesson| lesson.patterns.len()).sum();
    let sight = lessons.iter().map(|lesson| lesson.sight.len()).sum();
    writeln!(
        out,
        "{}, {}, {}: no faults found",
        count(lessons.len(), "lesson"),
        count(patterns, "pattern"),
        count(sight, "sight word")
    )?;
    print_advice(&mut out, &advice_report(advice, scope))?;
    for lesson in &lessons {
        writeln!(out, "\n{STRONG}{}  {}{STRONG:#}", one_line(lesson.id), one_line(lesson.title))?;
        let skills: Vec<String> = lesson.skills.iter().map(ToString::to_string).collect();
        let rows = [
            ("patterns", &lesson.patterns[..]),
            ("sight", lesson.sight),
            ("skills", &skills),
            ("review", lesson.review),
        ];
        for (label, row) in rows.into_iter().filter(|(_, row)| !row.is_empty()) {
            writeln!(out, "    {DIM}{label:<9}{DIM:#}{}", one_line(&row.join(", ")))?;
        }
    }
    out.flush()?;
    Ok(())
}

fn advice_report<'a>(advice: &'a Advice, scope: &'a Scope) -> AdviceReport<'a> {
    let id = |lesson: LessonIndex| scope.id(lesson);
    let sight = advice.sight.iter().map(|(word, lesson, decodable)| DecodableSightWord {
        word,
        lesson: id(*lesson),
        decodable: id(*decodable),
    });
    let thin =
        advice.thin.iter().map(|(pattern, lesson, words)| RarePattern { pattern, lesson: id(*lesson), words: *words });
    let missing =
        advice.missing.iter().map(|(pattern, words, examples)| MissingPattern { pattern, words: *words, examples });
    let ambiguous = advice.ambiguous.iter().map(|(spelling, lesson, sounds)| FurtherSounds {
        spelling,
        lesson: id(*lesson),
        sounds,
    });
    AdviceReport {
        sight_words_decodable: sight.collect(),
        hard_to_write_for: thin.collect(),
        never_taught: missing.collect(),
        nothing_new: advice.idle.iter().map(|lesson| id(*lesson)).collect(),
        further_sounds: ambiguous.collect(),
        titles: advice
            .titles
            .iter()
            .map(|(lesson, spellings)| UntaughtTitle { lesson: id(*lesson), spellings })
            .collect(),
    }
}

/// Advice, not faults: each list with what it means.
fn print_advice(out: &mut impl Write, advice: &AdviceReport<'_>) -> Result<(), Failure> {
    let mut list = |heading: &str, rows: Vec<String>| -> Result<(), Failure> {
        if !rows.is_empty() {
            writeln!(out, "\n{STRONG}{heading}{STRONG:#}")?;
            for row in rows {
                writeln!(out, "    {}", one_line(&row))?;
            }
        }
        Ok(())
    };
    let sight = advice.sight_words_decodable.iter();
    list(
        "Sight words that can be sounded out",
        sight
            .map(|s| format!("{}: taught whole in lesson {}, decodable from {}", s.word, s.lesson, s.decodable))
            .collect(),
    )?;
    let thin = advice.hard_to_write_for.iter();
    list(
        &format!("Hard to write for: fewer than {FEW} common words practise these at their lesson"),
        thin.map(|t| format!("{}, lesson {}: {}", t.pattern, t.lesson, t.words)).collect(),
    )?;
    let missing = advice.never_taught.iter();
    list(
        "Never taught: what keeps most of the commonest words from being read",
        missing.map(|m| format!("{}: {} words, such as {}", m.pattern, m.words, m.examples.join(", "))).collect(),
    )?;
    let idle = advice.nothing_new.iter();
    list(
        "Lessons that teach patterns, and with which no common word becomes decodable",
        idle.map(|lesson| format!("lesson {lesson}")).collect(),
    )?;
    let titles = advice.titles.iter();
    list(
        "Titles that name what no lesson has taught by then",
        titles.map(|t| format!("lesson {}: {}", t.lesson, t.spellings.join(", "))).collect(),
    )?;
    let further = advice.further_sounds.iter();
    list(
        "Bare spellings with further common sounds that no lesson names",
        further.map(|a| format!("{}, lesson {}: {}", a.spelling, a.lesson, a.sounds.join(", "))).collect(),
    )
}

fn lesson(lesson: &Lesson) -> LessonReport<'_> {
    LessonReport {
        id: &lesson.id,
        title: &lesson.title,
        patterns: lesson.patterns.iter().map(Pattern::label).collect(),
        sight: &lesson.sight,
        skills: lesson.skills.iter().map(|skill: &Skill| skill.name()).collect(),
        review: &lesson.review,
    }
}
