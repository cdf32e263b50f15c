//! The check of a story in plain text, to be pasted into a letter.

use std::fmt::Write as _;

use serde::Serialize;
use untaught::{Reader, Status, messages};

use crate::ask::StoryQuestion;
use crate::known_scope::KnownScope;
use crate::mark::is_guessed;

/// The report.
#[derive(Serialize)]
pub(crate) struct ReportText {
    text: String,
}

pub(crate) fn report(reader: &Reader, known: &mut KnownScope, asked: &StoryQuestion) -> Result<ReportText, String> {
    let report = known.check(reader, asked)?;
    let scope = &known.scope;
    let lesson = scope.lesson(report.lesson);
    let (id, title) = lesson.map_or(("", ""), |lesson| (lesson.id.as_str(), lesson.title.as_str()));
    let counts = &report.tokens;
    let mut out = String::new();
    if !asked.title.trim().is_empty() {
        let _ = writeln!(out, "{}", asked.title.trim());
    }
    let title = if title.is_empty() { String::new() } else { format!(" ({title})") };
    let _ = writeln!(out, "Lesson {id}{title} of {}\n", scope.title());
    let of = |n: usize| format!("{n} of {} words", counts.words);
    let _ = writeln!(out, "decodable: {}, {}", messages::percent(counts.percent_decodable()), of(counts.decodable));
    let readable = counts.words - counts.untaught;
    let _ = writeln!(
        out,
        "readable: {}, {} ({} decodable + {} sight + {} pre-taught)",
        messages::percent(counts.percent_readable()),
        of(readable),
        counts.decodable,
        counts.sight,
        counts.story
    );
    if !report.focus.labels.is_empty() {
        let _ = writeln!(out, "practises {}: {}", report.focus.labels.join(", "), of(report.focus.tokens));
    }
    let told: Vec<&str> = report
        .distinct
        .iter()
        .filter(|word| word.status == Status::Story)
        .map(|word| word.verdict.word.text.as_str())
        .collect();
    if !told.is_empty() {
        let _ = writeln!(out, "pre-taught: {}", told.join(", "));
    }
    if !report.findings.is_empty() {
        let _ = writeln!(out, "\nUntaught:");
    }
    for finding in &report.findings {
        let times = if finding.count > 1 { format!(" ({} times)", finding.count) } else { String::new() };
        let _ = writeln!(out, "- {}{times}: {}", finding.word(), messages::needs(&finding.needs, scope));
    }
    let guessed = report.distinct.iter().filter(|word| is_guessed(word));
    let guessed = guessed.map(|word| messages::by_letters(&word.verdict.word.text));
    let remarks: Vec<String> =
        report.two_readings.iter().map(|two| messages::two_readings(two, scope)).chain(guessed).collect();
    if !remarks.is_empty() {
        let _ = writeln!(out, "\nCheck these:");
    }
    for remark in remarks {
        let _ = writeln!(out, "- {remark}");
    }
    let _ = writeln!(out, "\nChecked by untaught. The teacher decides.");
    Ok(ReportText { text: out })
}
