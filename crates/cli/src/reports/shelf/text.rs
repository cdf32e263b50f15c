//! The shelf for people: about a screenful, and the lists in full if they are asked for.

use std::fmt::Write as _;

use untaught::{LessonIndex, messages, percent};

use crate::analysis::{Book, PatternSeries, Shelf, SightSeries, Timing, Trace, new_words};
use crate::args::ShelfList;
use crate::output::sheets::Table;
use crate::output::{DIM, STRONG, UNTAUGHT, count, one_line};

use super::tables::{self, called};
use crate::reports::comparison;

/// New words named for a reader.
const NEW: usize = 12;

/// Readers with a row of their own in the summary.
const ROWS: usize = 40;

/// Letters of a line of the summary.
const LINE: usize = 110;

/// The report on a shelf.
pub(super) fn report(shelf: &Shelf, show: &[ShelfList]) -> String {
    let mut out = String::new();
    // Nothing fails here: it is written into a text.
    let _ = summary(&mut out, shelf);
    let shows = |list: ShelfList| show.contains(&list) || show.contains(&ShelfList::All);
    if shows(ShelfList::Readers) {
        let _ = readers(&mut out, shelf);
    }
    for (list, table) in [
        (ShelfList::Words, tables::words as fn(&Shelf) -> Table<'_>),
        (ShelfList::Patterns, tables::patterns),
        (ShelfList::Lessons, tables::lessons),
    ] {
        if shows(list) {
            let _ = in_full(&mut out, table(shelf));
        }
    }
    out
}

fn summary(out: &mut String, shelf: &Shelf) -> std::fmt::Result {
    let readers = count(shelf.books.len(), "reader");
    let by = shelf.scope.map_or_else(String::new, |scope| format!(" by {}", scope.title()));
    write!(out, "{STRONG}{readers}{STRONG:#}{}", one_line(&by))?;
    if shelf.books.is_empty() {
        return writeln!(out, "\n");
    }
    let (words, different) = (shelf.running_words(), shelf.series.words.len());
    writeln!(out, ": {}, {different} different\n", count(words, "word"))?;
    rows(out, shelf)?;
    misplaced(out, shelf)?;
    lessons(out, shelf)?;
    patterns(out, shelf)?;
    sight_words(out, shelf)?;
    once(out, shelf)?;
    if let Some((_, other)) = &shelf.other {
        let readers = shelf.books.iter().filter_map(|book| Some((&*book.name, &book.fit, book.refit.as_ref()?)));
        let there = |lesson| shelf.other_id(lesson);
        *out += &comparison::sits_otherwise(readers, other, |lesson| shelf.id(lesson), there);
    }
    order(out, shelf)
}

/// A row for each reader.
fn rows(out: &mut String, shelf: &Shelf) -> std::fmt::Result {
    let lesson = |book: &Book| match (shelf.id(book.fit.meant_for), shelf.id(book.fit.first)) {
        (Some(id), _) => id.to_owned(),
        (None, Some(first)) => format!("from {first}"),
        (None, None) => "never".to_owned(),
    };
    let wide = shelf.books.iter().take(ROWS).map(|book| lesson(book).chars().count()).max().unwrap_or(0).max(6);
    writeln!(out, "  {DIM}{:>wide$}  words  readable  decodable   new  so far  reader{DIM:#}", "lesson")?;
    let mut so_far = 0;
    for (number, book) in shelf.books.iter().enumerate().take(ROWS) {
        let new = shelf.series.new_words[number];
        so_far += new;
        let mark = match book.fit.timing() {
            Timing::Early | Timing::Late => format!("{UNTAUGHT}✗{UNTAUGHT:#}"),
            Timing::Right | Timing::Unknown => " ".to_owned(),
        };
        let title = book.title.as_ref().map_or(String::new(), |title| format!(" ({title})"));
        let [readable, decodable] = [book.fit.percent_readable, book.fit.percent_decodable].map(messages::percent);
        writeln!(
            out,
            "{mark} {:>wide$}  {:>5}  {readable:>8}  {decodable:>9}  {new:>4}  {so_far:>6}  {}{}",
            one_line(&lesson(book)),
            book.words,
            one_line(&book.name),
            one_line(&title)
        )?;
    }
    if let Some(more) = shelf.books.len().checked_sub(ROWS).filter(|more| *more > 0) {
        writeln!(out, "  {DIM}and {more} more: --format csv has a row for each{DIM:#}")?;
    }
    writeln!(out)
}

fn misplaced(out: &mut String, shelf: &Shelf) -> std::fmt::Result {
    let mut amiss = shelf.misplaced().peekable();
    if amiss.peek().is_none() {
        return Ok(());
    }
    writeln!(out, "{STRONG}Out of place{STRONG:#}")?;
    for book in amiss.by_ref().take(ROWS) {
        let first = shelf.id(book.fit.first).map_or("at no lesson".to_owned(), |id| format!("from lesson {id}"));
        let more = match book.fit.timing() {
            Timing::Late => ", and it practises nothing its lesson teaches",
            _ => "",
        };
        writeln!(
            out,
            "  {UNTAUGHT}✗{UNTAUGHT:#} {} comes {}: meant for lesson {}, readable {}{more}",
            one_line(&book.name),
            book.fit.timing().name(),
            one_line(shelf.id(book.fit.meant_for).unwrap_or_default()),
            one_line(&first)
        )?;
        let missing = shelf.untaught(book).into_iter().map(|(word, lesson)| match shelf.id(lesson) {
            Some(id) => format!("{word} (lesson {id})"),
            None => format!("{word} (never)"),
        });
        let missing: Vec<String> = missing.collect();
        if !missing.is_empty() && book.fit.timing() == Timing::Early {
            writeln!(out, "      {DIM}untaught: {}{DIM:#}", one_line(&listed(&missing, LINE - 16)))?;
        }
    }
    let more = amiss.count();
    if more > 0 {
        writeln!(out, "  and {more} more")?;
    }
    writeln!(out)
}

fn lessons(out: &mut String, shelf: &Shelf) -> std::fmt::Result {
    let lacks = &shelf.lacks;
    let (Some(scope), Some(last)) = (shelf.scope, lacks.last) else { return Ok(()) };
    let ranges = |lessons: &[LessonIndex]| -> String {
        let ends = consecutive(lessons).into_iter().map(|(first, last)| match first == last {
            true => scope.id(first).to_owned(),
            false => format!("{} to {}", scope.id(first), scope.id(last)),
        });
        ends.collect::<Vec<_>>().join(", ")
    };
    let last = scope.id(last);
    if !lacks.lessons.is_empty() {
        let named = one_line(&ranges(&lacks.lessons)).into_owned();
        writeln!(out, "{STRONG}Lessons without a reader{STRONG:#}  {named} {DIM}(up to lesson {last}){DIM:#}")?;
    }
    if !lacks.lessons_to_come.is_empty() {
        let n = count(lacks.lessons_to_come.len(), "lesson");
        let named = one_line(&ranges(&lacks.lessons_to_come)).into_owned();
        writeln!(out, "{STRONG}Still to come{STRONG:#}  {n} of the scope: {named}")?;
    }
    if lacks.lessons.is_empty() && lacks.lessons_to_come.is_empty() {
        writeln!(out, "{STRONG}Every lesson has a reader{STRONG:#}")?;
    }
    Ok(())
}

/// Runs of lessons that follow each other.
fn consecutive(lessons: &[LessonIndex]) -> Vec<(LessonIndex, LessonIndex)> {
    let mut runs: Vec<(LessonIndex, LessonIndex)> = Vec::new();
    for lesson in lessons {
        match runs.last_mut() {
            Some((_, last)) if last.get() + 1 == lesson.get() => *last = *lesson,
            _ => runs.push((*lesson, *lesson)),
        }
    }
    runs
}

fn patterns(out: &mut String, shelf: &Shelf) -> std::fmt::Result {
    let all = &shelf.series.patterns;
    let by_then = all.iter().filter(|row| shelf.lacks.last.is_some_and(|last| row.lesson <= last));
    writeln!(out)?;
    heading(out, &format!("Patterns: {} taught by the last reader", by_then.clone().count()), "--show patterns")?;
    let id = |lesson: LessonIndex| shelf.id(Some(lesson)).unwrap_or_default();
    let little = shelf.lacks.patterns.iter().map(|number| &all[*number]);
    let little = little.map(|row| (row.practice.times, format!("{} (lesson {})", row.label, id(row.lesson))));
    line(out, &format!("practised fewer than {} times", shelf.enough), &by_times(little))?;
    let mut gone: Vec<(usize, &PatternSeries)> = by_then
        .clone()
        .filter_map(|row| Some((row.practice.since(shelf.books.len())?, row)))
        .filter(|(since, _)| *since >= shelf.long_gap())
        .collect();
    gone.sort_by_key(|(since, _)| std::cmp::Reverse(*since));
    let gone = gone.iter().map(|(since, row)| format!("{} (for {since} readers)", row.label)).collect::<Vec<_>>();
    line(out, "not met lately", &gone)?;
    let only_later = by_then.filter(|row| row.at == 0 && row.practice.times > 0);
    let only_later = only_later.filter(|row| shelf.series.lessons[row.lesson.get()].readers > 0);
    let only_later: Vec<String> = only_later.map(|row| format!("{} (lesson {})", row.label, id(row.lesson))).collect();
    line(out, "not in the readers of its own lesson", &only_later)
}

fn sight_words(out: &mut String, shelf: &Shelf) -> std::fmt::Result {
    let by_then = shelf.series.sight.iter().filter(|row| shelf.lacks.last.is_some_and(|last| row.lesson <= last));
    let total = by_then.clone().count();
    if total == 0 {
        return Ok(());
    }
    heading(out, &format!("Sight words: {total} taught by the last reader"), "--show words")?;
    let trace = |row: &SightSeries| row.number.map_or_else(Trace::default, |number| shelf.trace(number));
    let little = shelf.lacks.sight.iter().map(|number| &shelf.series.sight[*number]);
    let little = little.map(|row| (trace(row).times, row.word.clone()));
    line(out, &format!("fewer than {} times", shelf.enough), &by_times(little))?;
    let mut gaps: Vec<(usize, &SightSeries)> = by_then
        .clone()
        .map(|row| (trace(row), row))
        .filter_map(|(trace, row)| Some((trace.longest_gap.max(trace.since(shelf.books.len())?), row)))
        .filter(|(gap, _)| *gap >= shelf.long_gap())
        .collect();
    gaps.sort_by_key(|(gap, _)| std::cmp::Reverse(*gap));
    let gaps: Vec<String> = gaps.iter().map(|(gap, row)| format!("{} ({gap} readers)", row.word)).collect();
    line(out, "longest gaps", &gaps)?;
    let early = by_then.filter(|row| row.before > 0);
    let early: Vec<String> =
        early.map(|row| format!("{} (lesson {})", row.word, shelf.id(Some(row.lesson)).unwrap_or_default())).collect();
    line(out, "used before their lesson", &early)
}

fn once(out: &mut String, shelf: &Shelf) -> std::fmt::Result {
    let once = shelf.series.words.iter().filter(|trace| trace.times == 1).count();
    let different = shelf.series.words.len();
    let share = messages::percent(percent(once, different));
    writeln!(out, "{STRONG}Words that come only once{STRONG:#}  {once} of {different} ({share})\n")
}

fn order(out: &mut String, shelf: &Shelf) -> std::fmt::Result {
    let Some(order) = &shelf.order else { return Ok(()) };
    writeln!(
        out,
        "{STRONG}Suggested order{STRONG:#} {DIM}(by the first lesson at which each can be read, then by fewest new words){DIM:#}"
    )?;
    for (at, number) in order.iter().enumerate() {
        let book = &shelf.books[*number];
        let first = shelf.id(book.fit.first).map_or("at no lesson".to_owned(), |id| format!("from lesson {id}"));
        writeln!(out, "  {:>3}. {}  {DIM}{}{DIM:#}", at + 1, one_line(&book.name), one_line(&first))?;
    }
    writeln!(out)
}

/// What comes seldom, the least often first: `qu (lesson 8) never`, `said 3`.
fn by_times(rows: impl Iterator<Item = (usize, String)>) -> Vec<String> {
    let mut rows: Vec<(usize, String)> = rows.collect();
    rows.sort_by_key(|(times, _)| *times);
    let shown = |(times, name): (usize, String)| match times {
        0 => format!("{name} never"),
        times => format!("{name} {times}"),
    };
    rows.into_iter().map(shown).collect()
}

fn heading(out: &mut String, heading: &str, more: &str) -> std::fmt::Result {
    writeln!(out, "{STRONG}{heading}{STRONG:#} {DIM}({more} for all){DIM:#}")
}

/// A line of the summary: how many, and as many of them as the line has room for.
fn line(out: &mut String, what: &str, rows: &[String]) -> std::fmt::Result {
    if rows.is_empty() {
        return Ok(());
    }
    let before = format!("  {what}: {}  ", rows.len());
    let named = listed(rows, LINE.saturating_sub(before.chars().count()));
    writeln!(out, "  {what}: {STRONG}{}{STRONG:#}  {}", rows.len(), one_line(&named))
}

/// As many as there is room for, at least one.
fn listed(rows: &[String], room: usize) -> String {
    let mut named = String::new();
    for row in rows {
        if !named.is_empty() {
            if named.chars().count() + row.chars().count() + 5 > room {
                return named + ", …";
            }
            named += ", ";
        }
        named += row;
    }
    named
}

/// What each reader practises, and its new words.
fn readers(out: &mut String, shelf: &Shelf) -> std::fmt::Result {
    writeln!(out, "{STRONG}Readers{STRONG:#}\n")?;
    for (number, new) in new_words(&shelf.books, 0..shelf.books.len()) {
        let book = &shelf.books[number];
        let lesson = match shelf.id(book.fit.meant_for) {
            Some(id) => format!("lesson {id}, {} readable", messages::percent(book.fit.percent_readable)),
            None => shelf
                .id(book.fit.first)
                .map_or("not readable at any lesson".to_owned(), |id| format!("readable from lesson {id}")),
        };
        let words = count(book.words, "word");
        writeln!(out, "  {STRONG}{}{STRONG:#}  {}, {words}", one_line(&called(book)), one_line(&lesson))?;
        let mut practised: Vec<(usize, &PatternSeries)> =
            shelf.practised(book).into_iter().zip(&shelf.series.patterns).filter(|(n, _)| *n > 0).collect();
        // What was taught last tells most.
        practised.sort_by_key(|(_, row)| std::cmp::Reverse(row.lesson));
        let listed: Vec<String> = practised.iter().take(8).map(|(n, row)| format!("{} ({n})", row.label)).collect();
        if !listed.is_empty() {
            let more = if practised.len() > listed.len() { ", …" } else { "" };
            writeln!(out, "      practises {}{more}", one_line(&listed.join(", ")))?;
        }
        let named: Vec<&str> = new.iter().take(NEW).map(|word| shelf.word(*word)).collect();
        let more = if new.len() > named.len() { ", …" } else { "" };
        match new.len() {
            0 => writeln!(out, "      no new words")?,
            n => writeln!(out, "      {}: {}{more}", count(n, "new word"), one_line(&named.join(", ")))?,
        }
        writeln!(out)?;
    }
    Ok(())
}

/// A table with all its rows, in columns.
fn in_full(out: &mut String, table: Table<'_>) -> std::fmt::Result {
    let heads = table.columns.iter().map(|column| column.name.replace('_', " "));
    let rows: Vec<Vec<String>> =
        table.rows.map(|row| row.iter().map(|cell| one_line(&cell.text()).into_owned()).collect()).collect();
    let mut lines: Vec<Vec<String>> = vec![heads.collect()];
    lines.extend(rows);
    let columns = table.columns.len();
    let width = |at: usize| lines.iter().filter_map(|line| Some(line.get(at)?.chars().count())).max().unwrap_or(0);
    let widths: Vec<usize> = (0..columns).map(width).collect();
    writeln!(out, "{STRONG}{}{STRONG:#}\n", table.name)?;
    for (number, line) in lines.iter().enumerate() {
        let cells = line.iter().zip(&widths).map(|(cell, width)| format!("{cell:<width$}"));
        let joined = cells.collect::<Vec<_>>().join("  ");
        match number {
            0 => writeln!(out, "  {DIM}{}{DIM:#}", joined.trim_end())?,
            _ => writeln!(out, "  {}", joined.trim_end())?,
        }
    }
    writeln!(out)
}
