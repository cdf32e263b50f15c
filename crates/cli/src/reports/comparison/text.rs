//! The comparison for people.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use untaught::{Change, LessonIndex, Move, messages};

use super::{ComparedReader, Comparison};
use crate::analysis::{Fit, Refit};
use crate::output::{DIM, STRONG, TAUGHT, UNTAUGHT, count, one_line};

/// Letters of a line.
const LINE: usize = 110;

/// Rows of a list, and words named in a row.
const ROWS: usize = 12;
const WORDS: usize = 8;

/// The report on a comparison.
pub(crate) fn text(comparison: &Comparison) -> String {
    let mut out = String::new();
    // Nothing fails here: it is written into a text.
    let _ = all(&mut out, comparison);
    out
}

fn all(out: &mut String, comparison: &Comparison) -> std::fmt::Result {
    let (old, new) = (comparison.old, comparison.new);
    let [old_name, new_name] = &comparison.names;
    writeln!(
        out,
        "{STRONG}{}{STRONG:#} against {}: {}, before {}\n",
        one_line(new_name),
        one_line(old_name),
        count(new.lessons().len(), "lesson"),
        old.lessons().len()
    )?;
    lessons(out, comparison)?;
    moves(out, comparison, "Patterns and skills", &comparison.found.patterns)?;
    moves(out, comparison, "Sight words", &comparison.found.sight)?;
    words(out, comparison)?;
    if let Some(readers) = &comparison.readers {
        self::readers(out, comparison, readers)?;
    }
    Ok(())
}

/// What to know where lessons do not correspond.
fn lessons(out: &mut String, comparison: &Comparison) -> std::fmt::Result {
    let [gone, added] = comparison.map.without_counterpart();
    let ids = |lessons: &[LessonIndex], id: &dyn Fn(LessonIndex) -> &'static str| -> String {
        let mut ids: Vec<&str> = lessons.iter().take(ROWS).map(|lesson| id(*lesson)).collect();
        if lessons.len() > ROWS {
            ids.push("…");
        }
        one_line(&ids.join(", ")).into_owned()
    };
    if !added.is_empty() {
        let ids = ids(&added, &|lesson| comparison.new.id(lesson));
        writeln!(out, "Lessons only in the new scope: {ids}")?;
    }
    if !gone.is_empty() {
        let ids = ids(&gone, &|lesson| comparison.old.id(lesson));
        writeln!(out, "Lessons only in the old scope: {ids}")?;
        writeln!(
            out,
            "{DIM}Lessons correspond by their ids. If these are others by now: --map-lessons OLD=NEW{DIM:#}"
        )?;
    }
    if !comparison.map.is_in_order() {
        writeln!(out, "Lessons with the same id come in another order; sooner and later go by the place in the list.")?;
    }
    if !(added.is_empty() && gone.is_empty() && comparison.map.is_in_order()) {
        writeln!(out)?;
    }
    Ok(())
}

fn moves(out: &mut String, comparison: &Comparison, what: &str, moves: &[Move]) -> std::fmt::Result {
    if moves.is_empty() {
        return writeln!(out, "{STRONG}{what}{STRONG:#}: none moves\n");
    }
    writeln!(out, "{STRONG}{what}{STRONG:#}: {} moved", moves.len())?;
    for change in [Change::Sooner, Change::Later, Change::Added, Change::Gone] {
        let rows: Vec<&Move> = moves.iter().filter(|row| row.change == change).collect();
        for (way, rows) in grouped(comparison, &rows) {
            let names: Vec<&str> = rows.iter().map(|row| row.name.as_str()).collect();
            writeln!(out, "  {:<7} {way}  {}", name(change), one_line(&listed(&names, usize::MAX)))?;
        }
    }
    writeln!(out)
}

fn words(out: &mut String, comparison: &Comparison) -> std::fmt::Result {
    let all = [Change::Sooner, Change::Later, Change::Added, Change::Gone];
    let numbers = all.map(|change| comparison.number_of_words(change));
    writeln!(
        out,
        "{STRONG}The {} commonest words{STRONG:#}: {} readable sooner, {} later, {} only now, {} no longer",
        messages::thousands(comparison.found.compared),
        numbers[0],
        numbers[1],
        numbers[2],
        numbers[3]
    )?;
    for change in all {
        let known = comparison.words(change);
        let mut groups = grouped(comparison, &known);
        groups.sort_by_key(|(_, rows)| std::cmp::Reverse(rows.len()));
        let more = groups.len().saturating_sub(ROWS);
        for (way, rows) in groups.into_iter().take(ROWS) {
            let names: Vec<&str> = rows.iter().map(|row| row.name.as_str()).collect();
            writeln!(out, "  {:<7} {way}  {}", name(change), one_line(&listed(&names, WORDS)))?;
        }
        if more > 0 {
            writeln!(out, "  {:<7} {DIM}and {more} more such moves: --format json has all{DIM:#}", name(change))?;
        }
    }
    writeln!(out)
}

fn readers(out: &mut String, comparison: &Comparison, readers: &[ComparedReader]) -> std::fmt::Result {
    let short = readers.iter().filter(|reader| reader.falls_short()).count();
    let right = readers.iter().filter(|reader| reader.comes_right()).count();
    writeln!(
        out,
        "{STRONG}{}{STRONG:#}: {short} {} short in the new scope only, {right} in the old only",
        count(readers.len(), "reader"),
        if short == 1 { "falls" } else { "fall" }
    )?;
    for reader in readers.iter().filter(|reader| reader.falls_short() || reader.comes_right()) {
        let (mark, words, label) = match reader.falls_short() {
            true => (format!("{UNTAUGHT}✗{UNTAUGHT:#}"), &reader.new.untaught_there, "now untaught"),
            false => (format!("{TAUGHT}✓{TAUGHT:#}"), &reader.new.untaught_here, "no longer untaught"),
        };
        let [old, new] = [reader.old.percent_readable, reader.new.fit.percent_readable].map(messages::percent);
        writeln!(
            out,
            "  {mark} {}  lesson {}: {old} → {new} readable; {} % is required; from lesson {}",
            one_line(&reader.name),
            one_line(comparison.new_id(reader.new.fit.meant_for).unwrap_or_default()),
            reader.least,
            one_line(comparison.new_id(reader.new.fit.first).unwrap_or("–"))
        )?;
        let words: Vec<&str> = words.iter().map(String::as_str).collect();
        if !words.is_empty() {
            writeln!(out, "      {DIM}{label}: {}{DIM:#}", one_line(&listed(&words, ROWS)))?;
        }
    }
    let lost: Vec<&ComparedReader> = readers.iter().filter(|reader| reader.new.no_lesson).collect();
    if !lost.is_empty() {
        let mut ids: Vec<&str> = lost.iter().filter_map(|reader| comparison.old_id(reader.old.meant_for)).collect();
        ids.dedup();
        writeln!(out, "  {}", one_line(&no_counterpart(lost.len(), &ids, &comparison.names[1])))?;
    }
    writeln!(out)
}

/// The sentence about readers whose lessons another scope does not have.
fn no_counterpart(readers: usize, ids: &[&str], scope: &str) -> String {
    let were = if readers == 1 { "was" } else { "were" };
    let (lessons, has) = if ids.len() == 1 { ("lesson", "has") } else { ("lessons", "have") };
    format!(
        "{} {were} not compared: {lessons} {} {has} no counterpart in {scope}. Name it with --map-lessons, or compare lessons in \
         order with --map-lessons order",
        count(readers, "reader"),
        ids.join(", ")
    )
}

/// Readers of a shelf that sit otherwise under the scope it is compared with, in a paragraph each. `here` and `there` show a lesson.
pub(crate) fn sits_otherwise<'a>(
    readers: impl Iterator<Item = (&'a str, &'a Fit, &'a Refit)>,
    title: &str,
    here: impl Fn(Option<LessonIndex>) -> Option<&'static str>,
    there: impl Fn(Option<LessonIndex>) -> Option<&'static str>,
) -> String {
    let mut out = format!("{STRONG}Against {}{STRONG:#}\n", one_line(title));
    let (mut same, mut lost, mut ids) = (0, 0, Vec::new());
    for (name, fit, other) in readers {
        if other.no_lesson {
            lost += 1;
            ids.extend(here(fit.meant_for));
            continue;
        }
        if fit.timing() == other.fit.timing() {
            same += 1;
            continue;
        }
        let [now, before] = [fit.percent_readable, other.fit.percent_readable].map(messages::percent);
        let _ = writeln!(
            out,
            "  {}  {} here ({now} readable at lesson {}), {} there ({before} at lesson {})",
            one_line(name),
            fit.timing().name(),
            one_line(here(fit.meant_for).unwrap_or("–")),
            other.fit.timing().name(),
            one_line(there(other.fit.meant_for).unwrap_or("–"))
        );
        for (label, words) in
            [("untaught here only", &other.untaught_here), ("untaught there only", &other.untaught_there)]
        {
            let words: Vec<&str> = words.iter().map(String::as_str).collect();
            if !words.is_empty() {
                let _ = writeln!(out, "      {DIM}{label}: {}{DIM:#}", one_line(&listed(&words, ROWS)));
            }
        }
    }
    let _ = writeln!(out, "  {} the same under both", count(same, "reader"));
    if lost > 0 {
        ids.dedup();
        let _ = writeln!(out, "  {}", one_line(&no_counterpart(lost, &ids, title)));
    }
    out + "\n"
}

/// Moves from one lesson to another together, in the order in which they first come: `lesson 33 → 28`.
fn grouped<'a>(comparison: &Comparison, moves: &[&'a Move]) -> Vec<(String, Vec<&'a Move>)> {
    let mut groups: BTreeMap<(Option<LessonIndex>, Option<LessonIndex>), Vec<&Move>> = BTreeMap::new();
    for one in moves {
        groups.entry((one.new, one.old)).or_default().push(one);
    }
    let way =
        |(new, old): (Option<LessonIndex>, Option<LessonIndex>)| match (comparison.old_id(old), comparison.new_id(new))
        {
            (Some(old), Some(new)) => format!("lesson {} → {}", one_line(old), one_line(new)),
            (None, Some(new)) => format!("in lesson {}", one_line(new)),
            (Some(old), None) => format!("was in lesson {}", one_line(old)),
            (None, None) => String::new(),
        };
    groups.into_iter().map(|(lessons, rows)| (way(lessons), rows)).collect()
}

/// Some of the names, as many as are wanted and as a line has room for.
fn listed(names: &[&str], most: usize) -> String {
    let mut shown = String::new();
    for (number, name) in names.iter().enumerate() {
        if number >= most || (number > 0 && shown.chars().count() + name.chars().count() > LINE - 30) {
            let _ = write!(shown, ", … ({})", names.len());
            break;
        }
        if number > 0 {
            shown += ", ";
        }
        shown += name;
    }
    shown
}

fn name(change: Change) -> &'static str {
    match change {
        Change::Sooner => "sooner",
        Change::Later => "later",
        Change::Added => "new",
        Change::Gone => "gone",
    }
}
