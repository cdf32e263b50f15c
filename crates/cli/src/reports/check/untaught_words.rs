//! The untaught words of a text as a table for a teacher: the word, how often and where, from which lesson it can be read, and
//! what it needs. Words that need the same stand together, and their needs stand once.

use std::io::{self, Write};

use untaught::{Finding, LessonIndex, Need, messages};
use untaught_lists::{Swap, Swaps};

use crate::analysis::CheckedText;
use crate::output::{DIM, STRONG, UNTAUGHT, one_line};

/// Lines named for each word.
const LINES: usize = 4;

/// The widest that the columns of words and lines may be, in scalar values.
const WIDEST: usize = 24;

struct Row<'r> {
    number: usize,
    finding: &'r Finding,
    word: String,
    lines: String,
    needs: String,
    /// The line of each place.
    on: Vec<usize>,
}

pub(super) fn print(out: &mut impl Write, checked: &CheckedText, suggest: bool) -> io::Result<()> {
    let report = &checked.report;
    let lines = checked.lines(report.findings.iter().map(|finding| &finding.places[..]));
    let mut rows: Vec<Row<'_>> = Vec::new();
    for ((number, finding), at) in report.findings.iter().enumerate().zip(lines) {
        let word = shortened(&one_line(&checked.text()[finding.places[0].clone()]));
        let lines = on_lines(&at, finding.count);
        rows.push(Row { number, word, lines, needs: needs(finding, checked), finding, on: at });
    }
    if rows.is_empty() {
        return Ok(());
    }
    // In the order of the lesson from which the word can be read; words that no lesson reaches come last.
    rows.sort_by(|one, other| {
        let key = |row: &Row<'_>| (row.finding.last_lesson(), row.needs.clone());
        key(one).cmp(&key(other)).then(other.finding.count.cmp(&one.finding.count))
    });
    let width = |column: for<'r> fn(&'r Row<'_>) -> &'r str, head: &str| {
        let widest = rows.iter().map(|row| column(row).chars().count()).max().unwrap_or_default();
        widest.max(head.len()).min(WIDEST)
    };
    let unit = format!("{}s", checked.unit());
    let (words, places) = (width(|row| &row.word, "word"), width(|row| &row.lines, &unit));
    writeln!(out, "    {DIM}{:words$}  times  {unit:places$}  lesson  needs{DIM:#}", "word")?;
    for (at, row) in rows.iter().enumerate() {
        let lesson = checked.id(row.finding.last_lesson().1).unwrap_or("never");
        let again = at > 0 && rows[at - 1].needs == row.needs;
        let needs = if again { "\"" } else { row.needs.as_str() };
        let mut notes = Vec::new();
        if row.finding.likely_name {
            notes.push("possibly a name: declare it with --names");
        }
        if row.finding.by_letters && !row.finding.likely_name {
            notes.push("not in the dictionary: sounded out from its letters");
        }
        let notes = if notes.is_empty() { String::new() } else { format!("  {DIM}({}){DIM:#}", notes.join("; ")) };
        let pad = " ".repeat(words.saturating_sub(row.word.chars().count()));
        writeln!(
            out,
            "  {UNTAUGHT}✗ {STRONG}{}{STRONG:#}{UNTAUGHT:#}{pad}  {:>5}  {:places$}  {:<6}  {}{notes}",
            row.word,
            row.finding.count,
            row.lines,
            one_line(lesson),
            one_line(needs)
        )?;
        let offers = checked.suggestions.as_ref().filter(|_| suggest);
        if let Some(offers) = offers.and_then(|all| all.get(row.number)) {
            // What fits only further on says where.
            let line = row.on.get(offers.place).filter(|_| offers.place > 0);
            let place = line.map(|line| format!(", in {} {line}", checked.unit())).unwrap_or_default();
            instead(out, &offers.swaps, &place, words)?;
        }
    }
    writeln!(out)
}

/// What may take the place of a word. `place` says which, if it is not the first.
fn instead(out: &mut impl Write, swaps: &Swaps, place: &str, indent: usize) -> io::Result<()> {
    let mut line = |label: &str, text: &str| match text.is_empty() {
        true => Ok(()),
        false => writeln!(out, "    {:indent$}  {DIM}{label}{place}:{DIM:#} {}", "", one_line(text)),
    };
    line("or", &or_none(listed(&swaps.same), swaps))?;
    line("or change it to", &listed(&swaps.of_the_kind))?;
    swaps.rewordings.chunk_by(|one, other| one.old == other.old).try_for_each(|made| {
        let new: Vec<&str> = made.iter().map(|made| if made.new.is_empty() { LEAVE_OUT } else { &made.new }).collect();
        line(&format!("or for “{}”", made[0].old), &new.join(", "))
    })
}

/// Stands where words may simply go.
const LEAVE_OUT: &str = "leave it out";

/// What is offered, and that the word may go where it may.
pub(super) fn or_none(listed: String, swaps: &Swaps) -> String {
    match (swaps.leave_out, listed.is_empty()) {
        (false, _) => listed,
        (true, true) => LEAVE_OUT.to_owned(),
        (true, false) => format!("{listed}; {LEAVE_OUT}"),
    }
}

/// Swaps in a row, those of each meaning after its name.
pub(super) fn listed(swaps: &[Swap]) -> String {
    let by_sense = swaps.chunk_by(|one, other| one.sense == other.sense).map(|swaps| {
        let texts: Vec<String> = swaps.iter().map(Swap::with_article).collect();
        let texts = texts.join(", ");
        if swaps[0].sense.is_empty() { texts } else { format!("({}) {texts}", swaps[0].sense) }
    });
    by_sense.collect::<Vec<_>>().join("; ")
}

/// What a word needs, in the order of the lessons; each with its own lesson where there are several.
fn needs(finding: &Finding, checked: &CheckedText) -> String {
    let scope = checked.plan.scope;
    let mut needs: Vec<&Need> = finding.needs.iter().collect();
    needs.sort_by_key(|need| need.lesson().map_or((true, LessonIndex::FIRST), |lesson| (false, lesson)));
    let several = needs.len() > 1;
    let described = needs.into_iter().map(|need| {
        let what = messages::need(need, scope);
        match checked.id(need.lesson()) {
            Some(id) if several => format!("{what} ({id})"),
            Some(_) => what,
            None if need.is_whole_word() => what,
            None => format!("{what} (never taught)"),
        }
    });
    described.collect::<Vec<_>>().join(", ")
}

/// A word as it is printed: no longer than its column may be.
fn shortened(word: &str) -> String {
    if word.chars().count() <= WIDEST {
        return word.to_owned();
    }
    word.chars().take(WIDEST - 1).chain(['…']).collect()
}

fn on_lines(at: &[usize], count: usize) -> String {
    let mut distinct = at.to_vec();
    distinct.dedup();
    let listed: Vec<String> = distinct.iter().take(LINES).map(ToString::to_string).collect();
    let more = if distinct.len() > LINES || count > at.len() { " …" } else { "" };
    format!("{}{more}", listed.join(", "))
}
