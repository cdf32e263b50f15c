//! The report for a teacher.

use std::io::{self, Write};

use untaught::{Counts, measures, messages};

use super::format::{Format, RunTotals};
use super::{plan, untaught_words};
use crate::analysis::{CheckedText, Detail, Threshold};
use crate::output::{DIM, STRONG, TAUGHT, UNTAUGHT, count, link, one_line};

/// Sections for each text, and a sentence over several.
pub(super) struct Text {
    pub(super) suggest: bool,
    pub(super) plan: bool,
    pub(super) quiet: bool,
    pub(super) measures: bool,
}

impl Format for Text {
    fn detail(&self) -> Detail {
        Detail { suggestions: self.suggest || self.plan, mending: self.plan, ..Detail::default() }
    }

    fn piece(&self, checked: &CheckedText) -> io::Result<Vec<u8>> {
        let mut out = Vec::new();
        if !(self.quiet && checked.met()) {
            self.print(&mut out, checked)?;
        }
        Ok(out)
    }

    /// One line over several texts.
    fn tail(&self, totals: &RunTotals) -> io::Result<Vec<u8>> {
        let texts = totals.texts + totals.failed;
        if self.quiet || texts < 2 {
            return Ok(Vec::new());
        }
        let mut line = match totals.short {
            0 => format!("{texts} stories, none below threshold"),
            1 => format!("{texts} stories, 1 below threshold"),
            short => format!("{texts} stories, {short} below threshold"),
        };
        if totals.failed > 0 {
            line += &format!(", {} could not be checked", totals.failed);
        }
        Ok(format!("{line}.\n").into_bytes())
    }
}

/// Lines named for each word.
const LINES: usize = 8;

/// Words named that practise something: what one takes in at a look.
const PRACTISING: usize = 24;

impl Text {
    fn print(&self, out: &mut Vec<u8>, checked: &CheckedText) -> io::Result<()> {
        let scope = checked.plan.scope;
        let report = &checked.report;
        let lesson = checked.lesson_id();
        let title = scope.lesson(report.lesson).map_or("", |lesson| lesson.title.as_str());
        let title = if title.is_empty() { String::new() } else { format!(" ({title})") };
        let name = if checked.source.name == "-" { "The story" } else { &checked.source.name };
        writeln!(
            out,
            "{STRONG}{}{STRONG:#} at lesson {}{} of {}",
            link(&one_line(name), checked.source.path.as_deref()),
            one_line(lesson),
            one_line(&title),
            one_line(scope.title())
        )?;
        if checked.plan.set_lesson().is_none() {
            writeln!(out, "{DIM}No lesson was given, so the last one is used; choose one with --lesson ID.{DIM:#}")?;
        }
        let counts = &report.tokens;
        if counts.words == 0 {
            writeln!(out, "It has no words.\n")?;
            return Ok(());
        }
        writeln!(out)?;
        row(out, "decodable", counts.decodable, counts)?;
        row(out, "readable", counts.words - counts.untaught, counts)?;
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
            messages::percent(types.percent_decodable()),
            types.words - types.untaught,
            messages::percent(types.percent_readable())
        )?;
        if counts.uncounted > 0 {
            let more = if types.uncounted > report.uncounted.len() { ", …" } else { "" };
            writeln!(out, "  not counted: {} ({}{more})", counts.uncounted, one_line(&report.uncounted.join(", ")))?;
        }
        writeln!(out)?;
        untaught_words::print(out, checked, self.suggest)?;
        notes(out, checked)?;
        if self.measures {
            published(out, checked)?;
        }
        if let Some(mending) = &checked.mending {
            plan::print(out, checked, mending)?;
        }
        summary(out, checked, lesson)
    }
}

fn row(out: &mut impl Write, label: &str, n: usize, counts: &Counts) -> io::Result<()> {
    let percent = messages::percent(untaught::percent(n, counts.words));
    writeln!(out, "  {label:<10} {STRONG}{percent:>7}{STRONG:#}  {n} of {}", count(counts.words, "word"))?;
    Ok(())
}

/// What depends on the reading, and how much the focus patterns are practised.
fn notes(out: &mut impl Write, checked: &CheckedText) -> io::Result<()> {
    let report = &checked.report;
    let lines = checked.lines(report.two_readings.iter().map(|two| &two.places[..]));
    for (two, at) in report.two_readings.iter().zip(lines) {
        let [counted, other] = two.differ_in(checked.plan.scope);
        writeln!(
            out,
            "  ? {}  {}: can be read with {} (/{}/), but not yet with {} (/{}/)",
            one_line(two.word()),
            on_lines(&at, two.count, checked.unit()),
            one_line(&counted),
            one_line(&two.counted),
            one_line(&other),
            one_line(&two.other)
        )?;
    }
    if !report.two_readings.is_empty() {
        writeln!(out)?;
    }
    if !report.not_in_text.is_empty() {
        writeln!(out, "  pre-taught, but not in the story: {}\n", one_line(&report.not_in_text.join(", ")))?;
    }
    let counted = [("practises", &report.focus), ("reviews", &report.review)];
    let counted = counted.into_iter().filter(|(_, focus)| !focus.labels.is_empty());
    let mut any = false;
    for (verb, focus) in counted {
        let percent = messages::percent(untaught::percent(focus.tokens, report.tokens.words));
        let times = |number: &usize| match &report.distinct[*number] {
            word if word.count > 1 => format!("{} ({})", word.verdict.word.text, word.count),
            word => word.verdict.word.text.clone(),
        };
        let listed: Vec<String> = focus.types.iter().map(times).collect();
        let more = listed.len().saturating_sub(PRACTISING);
        let more = if more > 0 { format!(" and {more} more") } else { String::new() };
        let shown = &listed[..listed.len().min(PRACTISING)];
        let list = if shown.is_empty() { String::new() } else { format!(": {}{more}", shown.join(", ")) };
        let (labels, whole) = (focus.labels.join(", "), count(report.tokens.words, "word"));
        writeln!(out, "  {verb} {} in {} of {whole} ({percent}){}", one_line(&labels), focus.tokens, one_line(&list))?;
        any = true;
    }
    if any {
        writeln!(out)?;
    }
    Ok(())
}

/// The published measures, by name and source.
fn published(out: &mut impl Write, checked: &CheckedText) -> io::Result<()> {
    for measure in measures(&checked.report) {
        let (percent, whole) = (messages::percent(measure.percent()), count(measure.whole, "word"));
        writeln!(out, "  {}: {percent}  ({} of {whole})", measure.name, measure.part)?;
        writeln!(out, "      {DIM}{}{DIM:#}", measure.source)?;
    }
    writeln!(out)?;
    Ok(())
}

fn on_lines(at: &[usize], count: usize, unit: &str) -> String {
    let mut distinct = at.to_vec();
    distinct.dedup();
    let listed: Vec<String> = distinct.iter().take(LINES).map(ToString::to_string).collect();
    let more = if distinct.len() > LINES || count > at.len() { " …" } else { "" };
    let times = if count > 1 { format!(" ({count} times)") } else { String::new() };
    let s = if distinct.len() == 1 { "" } else { "s" };
    format!("{unit}{s} {}{more}{times}", listed.join(", "))
}

fn summary(out: &mut impl Write, checked: &CheckedText, lesson: &str) -> io::Result<()> {
    let counts = &checked.report.tokens;
    let lesson = one_line(lesson);
    if counts.untaught == 0 {
        writeln!(out, "{TAUGHT}✓{TAUGHT:#} Every word can be read at lesson {lesson}.")?;
    } else {
        let (n, types) = (counts.untaught, checked.report.types.untaught);
        let are = if n == 1 { "is" } else { "are" };
        let of = if types == n { String::new() } else { format!(" ({types} different)") };
        writeln!(
            out,
            "{UNTAUGHT}✗{UNTAUGHT:#} {n} of {} {are} untaught at lesson {lesson}{of}.",
            count(counts.words, "word")
        )?;
    }
    for short in &checked.shortfalls {
        // Short of 100 % readable is what the line above says.
        if short.what == Threshold::Readable && short.least >= 100.0 {
            continue;
        }
        let (percent, what, least) = (messages::percent(Some(short.percent)), short.what.predicate(), short.least);
        writeln!(out, "{UNTAUGHT}✗{UNTAUGHT:#} {percent} of words {what}; {least} % is required.")?;
    }
    writeln!(out)?;
    Ok(())
}
