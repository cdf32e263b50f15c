//! The report for a teacher.

use std::collections::BTreeMap;
use std::io::Write as _;

use untaught::{Counts, Finding, Lines, Need, Scope, measures};

use super::Checked;
use super::json::lesson_id;
use crate::args::Check;
use crate::output::{DIM, Failure, STRONG, TAUGHT, UNTAUGHT, safe};

/// Lines named for each word.
const LINES: usize = 8;

pub(super) fn print(checked: &Checked, args: &Check) -> Result<(), Failure> {
    let scope = &*checked.scope;
    let mut out = std::io::BufWriter::new(anstream::stdout().lock());
    let report = &checked.report;
    let lesson = lesson_id(scope, Some(report.lesson)).unwrap_or_default();
    let title = scope.lesson(report.lesson).map_or("", |lesson| lesson.title.as_str());
    let title = if title.is_empty() { String::new() } else { format!(" ({title})") };
    let name = if checked.name == "-" { "The story" } else { &checked.name };
    writeln!(
        out,
        "{STRONG}{}{STRONG:#} at lesson {}{} of {}",
        safe(name),
        safe(lesson),
        safe(&title),
        safe(&scope.title)
    )?;
    if checked.lesson_assumed {
        writeln!(out, "{DIM}No lesson was named, so this is the last one; --lesson ID chooses another.{DIM:#}")?;
    }
    let counts = &report.tokens;
    if counts.words == 0 {
        writeln!(out, "There are no words in it.\n")?;
        out.flush()?;
        return Ok(());
    }
    writeln!(out)?;
    row(&mut out, "decodable", counts.decodable, counts)?;
    row(&mut out, "readable", counts.words - counts.untaught, counts)?;
    writeln!(
        out,
        "             {DIM}({} decodable + {} sight + {} story){DIM:#}",
        counts.decodable, counts.sight, counts.story
    )?;
    let types = &report.types;
    writeln!(
        out,
        "  different words: {} of {} decodable ({}), {} readable ({})",
        types.decodable,
        types.words,
        shown(types.percent_decodable()),
        types.words - types.untaught,
        shown(types.percent_readable())
    )?;
    if counts.uncounted > 0 {
        let more = if types.uncounted > report.uncounted.len() { ", …" } else { "" };
        writeln!(out, "  not counted: {} ({}{more})", counts.uncounted, safe(&report.uncounted.join(", ")))?;
    }
    writeln!(out)?;
    findings(&mut out, checked, scope)?;
    notes(&mut out, checked)?;
    if args.measures {
        published(&mut out, checked)?;
    }
    summary(&mut out, checked, args, lesson)?;
    out.flush()?;
    Ok(())
}

fn words(n: usize) -> String {
    format!("{n} {}", if n == 1 { "word" } else { "words" })
}

fn shown(percent: Option<f64>) -> String {
    // Nothing is rounded up to 100.
    let shown = |percent: f64| if percent < 100.0 { percent.min(99.94) } else { percent };
    percent.map_or_else(|| "–".to_owned(), |percent| format!("{:.1} %", (shown(percent) * 10.0).round() / 10.0))
}

fn row(out: &mut impl std::io::Write, label: &str, n: usize, counts: &Counts) -> Result<(), Failure> {
    let percent = shown(untaught::percent(n, counts.words));
    writeln!(out, "  {label:<10} {STRONG}{percent:>7}{STRONG:#}  {n} of {}", words(counts.words))?;
    Ok(())
}

/// A word as it is printed: no longer than a line.
fn shortened(word: &str) -> String {
    let short: String = word.chars().take(60).collect();
    if short.len() < word.len() { short + "…" } else { short }
}

/// An untaught word with the lines it stands on.
type Found<'r> = (&'r Finding, Vec<usize>);

/// The untaught words by what they need, the earliest to be taught first.
fn findings(out: &mut impl std::io::Write, checked: &Checked, scope: &Scope) -> Result<(), Failure> {
    let report = &checked.report;
    let lines = Lines::new(&checked.text);
    let offsets: Vec<usize> = report.findings.iter().flat_map(|f| f.places.iter().map(|span| span.start)).collect();
    let mut positions = lines.positions(&offsets).into_iter();
    // In the order of the lesson at which the word's last need is met; words that no lesson reaches come last.
    let mut groups: BTreeMap<(u16, Vec<Need>), Vec<Found<'_>>> = BTreeMap::new();
    for finding in &report.findings {
        let at: Vec<usize> = positions.by_ref().take(finding.places.len()).map(|(line, _)| line).collect();
        let last = finding.needs.iter().map(|need| need.lesson.unwrap_or(u16::MAX)).max().unwrap_or(u16::MAX);
        groups.entry((last, finding.needs.clone())).or_default().push((finding, at));
    }
    for ((_, needs), words) in &groups {
        let heading: Vec<String> = needs.iter().map(|need| describe(need, scope)).collect();
        writeln!(out, "  {STRONG}{}{STRONG:#}", safe(&heading.join("  +  ")))?;
        for (finding, at) in words {
            let mut notes = Vec::new();
            if finding.likely_name {
                notes.push("looks like a name: --names declares it");
            }
            if finding.by_letters {
                notes.push("not in the dictionary: read by its letters");
            }
            let notes = if notes.is_empty() { String::new() } else { format!("  {DIM}({}){DIM:#}", notes.join("; ")) };
            let word = &checked.text[finding.places[0].clone()];
            writeln!(
                out,
                "    {UNTAUGHT}✗ {}{UNTAUGHT:#}  {}{notes}",
                safe(&shortened(word)),
                on_lines(at, finding.count)
            )?;
        }
    }
    if !groups.is_empty() {
        writeln!(out)?;
    }
    Ok(())
}

/// What depends on the reading, and how much the focus patterns are practised.
fn notes(out: &mut impl std::io::Write, checked: &Checked) -> Result<(), Failure> {
    let report = &checked.report;
    let lines = Lines::new(&checked.text);
    for two in &report.two_readings {
        let offsets: Vec<usize> = two.places.iter().map(|span| span.start).collect();
        let at: Vec<usize> = lines.positions(&offsets).into_iter().map(|(line, _)| line).collect();
        writeln!(
            out,
            "  ? {}  {}: read with {} (/{}/) it can be sounded out, with {} (/{}/) not yet",
            safe(&two.word),
            on_lines(&at, two.count),
            safe(&two.patterns.0),
            safe(&two.counted),
            safe(&two.patterns.1),
            safe(&two.other)
        )?;
    }
    if !report.two_readings.is_empty() {
        writeln!(out)?;
    }
    if !report.not_in_text.is_empty() {
        writeln!(out, "  told beforehand, but not in the story: {}\n", safe(&report.not_in_text.join(", ")))?;
    }
    let counted = [("practises", &report.focus), ("reviews", &report.review)];
    let counted = counted.into_iter().filter(|(_, focus)| !focus.labels.is_empty());
    let mut any = false;
    for (verb, focus) in counted {
        let percent = shown(untaught::percent(focus.tokens, report.tokens.words));
        let times = |number: &usize| match &report.distinct[*number] {
            word if word.count > 1 => format!("{} ({})", word.verdict.word.text, word.count),
            word => word.verdict.word.text.clone(),
        };
        let listed: Vec<String> = focus.types.iter().map(times).collect();
        let list = if listed.is_empty() { String::new() } else { format!(": {}", listed.join(", ")) };
        let (labels, whole) = (focus.labels.join(", "), words(report.tokens.words));
        writeln!(out, "  {verb} {} in {} of {whole} ({percent}){}", safe(&labels), focus.tokens, safe(&list))?;
        any = true;
    }
    if any {
        writeln!(out)?;
    }
    Ok(())
}

/// The published measures, by name and source.
fn published(out: &mut impl std::io::Write, checked: &Checked) -> Result<(), Failure> {
    for measure in measures(&checked.report) {
        let (percent, whole) = (shown(measure.percent()), words(measure.whole));
        writeln!(out, "  {}: {percent}  ({} of {whole})", measure.name, measure.part)?;
        writeln!(out, "      {DIM}{}{DIM:#}", measure.source)?;
    }
    writeln!(out)?;
    Ok(())
}

fn describe(need: &Need, scope: &Scope) -> String {
    match lesson_id(scope, need.lesson) {
        Some(id) => format!("{}, lesson {id}", need.label),
        None => format!("{}, never taught", need.label),
    }
}

fn on_lines(at: &[usize], count: usize) -> String {
    let mut distinct = at.to_vec();
    distinct.dedup();
    let listed: Vec<String> = distinct.iter().take(LINES).map(ToString::to_string).collect();
    let more = if distinct.len() > LINES || count > at.len() { " …" } else { "" };
    let times = if count > 1 { format!(" ({count} times)") } else { String::new() };
    let lines = if distinct.len() == 1 { "line" } else { "lines" };
    format!("{lines} {}{more}{times}", listed.join(", "))
}

fn summary(out: &mut impl std::io::Write, checked: &Checked, args: &Check, lesson: &str) -> Result<(), Failure> {
    let counts = &checked.report.tokens;
    let lesson = safe(lesson);
    if counts.untaught == 0 {
        writeln!(out, "{TAUGHT}✓{TAUGHT:#} Every word can be read at lesson {lesson}.")?;
    } else {
        let (n, types) = (counts.untaught, checked.report.types.untaught);
        let are = if n == 1 { "is" } else { "are" };
        let of = if types == n { String::new() } else { format!(" ({types} different)") };
        writeln!(out, "{UNTAUGHT}✗{UNTAUGHT:#} {n} of {} {are} untaught at lesson {lesson}{of}.", words(counts.words))?;
    }
    let wanted = [
        (args.min_decodable.unwrap_or(0.0), counts.percent_decodable(), "decodable"),
        (args.min_readable, counts.percent_readable(), "readable"),
    ];
    for (least, percent, what) in wanted {
        // Short of 100 % readable is what the line above says.
        let said = what == "readable" && least >= 100.0;
        if !said && percent.is_some_and(|percent| percent + 1e-9 < least) {
            let percent = shown(percent);
            writeln!(out, "{UNTAUGHT}✗{UNTAUGHT:#} It falls short: {percent} {what} where {least} % are wanted.")?;
        }
    }
    writeln!(out)?;
    Ok(())
}

/// One line over several texts.
pub(super) fn closing(texts: usize, short: usize, failed: usize) -> Result<(), Failure> {
    let mut out = anstream::stdout().lock();
    let mut line = match short {
        0 => format!("{texts} stories, none falls short"),
        1 => format!("{texts} stories, 1 falls short"),
        _ => format!("{texts} stories, {short} fall short"),
    };
    if failed > 0 {
        line += &format!(", {failed} could not be checked");
    }
    writeln!(out, "{line}.")?;
    Ok(())
}
