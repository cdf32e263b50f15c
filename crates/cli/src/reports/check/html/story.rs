//! What the page says of one story.

use serde::Serialize;
use untaught::{Counts, FocusCount, Report, Status, Type, messages, percent};

use super::notes::{self, TwoReadingsNote, UntaughtNote};
use super::running_text::{self, LegendEntry, StoryLine, WordMark};
use crate::analysis::CheckedText;
use crate::output::count;
use crate::reports::titles;

#[derive(Serialize)]
pub(super) struct StorySection {
    title: String,
    file: Option<String>,
    lesson: &'static str,
    lesson_title: &'static str,
    scope: &'static str,
    /// Whether no lesson was named, so that it is the last one.
    last_lesson: bool,
    words: usize,
    figures: Vec<Figure>,
    bars: Vec<Bar>,
    bar_label: String,
    verdicts: Vec<VerdictLine>,
    legend: Vec<LegendEntry>,
    marks: Vec<WordMark>,
    paragraphs: Vec<Vec<StoryLine>>,
    /// What its places count.
    units: &'static str,
    untaught: Vec<UntaughtNote>,
    two_readings: Vec<TwoReadingsNote>,
    practice: Vec<PracticeLine>,
    lists: Vec<LabelledWords>,
    counts: Vec<CountRow>,
}

#[derive(Serialize)]
struct Figure {
    percent: String,
    label: &'static str,
    note: String,
}

/// A share of the words as a bar, in percent of its width.
#[derive(Serialize)]
struct Bar {
    class: &'static str,
    x: f64,
    width: f64,
}

#[derive(Serialize)]
struct VerdictLine {
    good: bool,
    text: String,
}

#[derive(Serialize)]
struct PracticeLine {
    verb: &'static str,
    patterns: String,
    tokens: usize,
    whole: String,
    percent: String,
    words: Vec<WordCount>,
}

#[derive(Serialize)]
struct WordCount {
    word: String,
    count: usize,
}

#[derive(Serialize)]
struct LabelledWords {
    label: &'static str,
    words: Vec<WordCount>,
    more: bool,
}

#[derive(Serialize)]
struct CountRow {
    label: &'static str,
    sum: bool,
    tokens: usize,
    percent: String,
    types: usize,
    types_percent: String,
}

pub(super) fn of(checked: &CheckedText) -> StorySection {
    let (report, plan) = (&checked.report, &checked.plan);
    let (title, file) = titles::of(checked);
    let running = running_text::of(checked);
    let (untaught, two_readings) = notes::of(checked);
    let (bars, bar_label) = bars(&report.tokens);
    StorySection {
        title,
        file,
        lesson: checked.lesson_id(),
        lesson_title: plan.scope.lesson(report.lesson).map_or("", |lesson| lesson.title.as_str()),
        scope: plan.scope.title(),
        last_lesson: plan.set_lesson().is_none(),
        words: report.tokens.words,
        figures: figures(report),
        bars,
        bar_label,
        verdicts: verdicts(checked),
        legend: running.legend,
        marks: running.marks,
        paragraphs: running.paragraphs,
        units: if checked.unit() == "line" { "Lines" } else { "Paragraphs" },
        untaught,
        two_readings,
        practice: practice(report),
        lists: other_words(report),
        counts: counts(report),
    }
}

fn figures(report: &Report) -> Vec<Figure> {
    let counts = &report.tokens;
    let Counts { words, decodable, sight, story, untaught, .. } = *counts;
    let readable = format!("{} of {}: {decodable} decodable", words - untaught, count(words, "word"));
    let readable = format!("{readable} + {sight} sight + {story} pre-taught");
    let note = format!("{decodable} of {}", count(words, "word"));
    vec![
        Figure { percent: messages::percent(counts.percent_decodable()), label: "decodable", note },
        Figure { percent: messages::percent(counts.percent_readable()), label: "readable", note: readable },
    ]
}

fn bars(counts: &Counts) -> (Vec<Bar>, String) {
    let Counts { words, decodable, sight, story, untaught, .. } = *counts;
    let shares =
        [("d", decodable, "decodable"), ("s", sight, "sight"), ("t", story, "pre-taught"), ("u", untaught, "untaught")];
    let (mut bars, mut said, mut before) = (Vec::new(), Vec::new(), 0);
    let hundredths = |n: usize| (percent(n, words).unwrap_or_default() * 100.0).round() / 100.0;
    for (class, n, label) in shares.into_iter().filter(|(_, n, _)| *n > 0) {
        bars.push(Bar { class, x: hundredths(before), width: hundredths(n) });
        said.push(format!("{n} {label}"));
        before += n;
    }
    (bars, said.join(", "))
}

/// Whether it meets what is wanted of it, in sentences.
fn verdicts(checked: &CheckedText) -> Vec<VerdictLine> {
    let (report, lesson) = (&checked.report, checked.lesson_id());
    let (words, n, types) = (report.tokens.words, report.tokens.untaught, report.types.untaught);
    let mut all = Vec::new();
    if n == 0 {
        all.push(VerdictLine { good: true, text: format!("Every word can be read at lesson {lesson}.") });
    } else {
        let are = if n == 1 { "is" } else { "are" };
        let of = if types == n { String::new() } else { format!(" ({types} different)") };
        let text = format!("{n} of {} {are} untaught at lesson {lesson}{of}.", count(words, "word"));
        all.push(VerdictLine { good: false, text });
    }
    let plan = &checked.plan;
    for short in &checked.shortfalls {
        let (percent, what, least) = (messages::percent(Some(short.percent)), short.what.predicate(), short.least);
        all.push(VerdictLine { good: false, text: format!("{percent} of words {what}; {least} % is required.") });
    }
    if checked.met() && n > 0 {
        let mut wanted = format!("{} % readable", plan.settings.min_readable.value);
        if let Some(least) = plan.min_decodable() {
            wanted.push_str(&format!(" and {least} % decodable"));
        }
        all.push(VerdictLine { good: true, text: format!("It meets its thresholds: {wanted}.") });
    }
    all
}

fn times(report: &Report, number: usize) -> WordCount {
    let word = &report.distinct[number];
    WordCount { word: word.verdict.word.text.clone(), count: word.count }
}

fn practice(report: &Report) -> Vec<PracticeLine> {
    let counted = [("practises", &report.focus), ("reviews", &report.review)];
    let one = |(verb, focus): (&'static str, &FocusCount)| PracticeLine {
        verb,
        patterns: focus.labels.join(", "),
        tokens: focus.tokens,
        whole: count(report.tokens.words, "word"),
        percent: messages::percent(percent(focus.tokens, report.tokens.words)),
        words: focus.types.iter().map(|number| times(report, *number)).collect(),
    };
    let any = report.tokens.words > 0;
    counted.into_iter().filter(|(_, focus)| any && !focus.labels.is_empty()).map(one).collect()
}

/// Words that the marks show, and what no mark can show.
fn other_words(report: &Report) -> Vec<LabelledWords> {
    let of = |keep: &dyn Fn(&Type) -> bool| -> Vec<WordCount> {
        let kept = report.distinct.iter().enumerate().filter(|(_, word)| keep(word));
        kept.map(|(number, _)| times(report, number)).collect()
    };
    let plain = |words: &[String]| words.iter().map(|word| WordCount { word: word.clone(), count: 1 }).collect();
    let lists = [
        ("Sight words", of(&|word| word.status == Status::Sight), false),
        ("Told beforehand", of(&|word| word.status == Status::Story), false),
        (
            "Not in the dictionary: decodable from its letters",
            of(&|word| word.status == Status::Decodable && word.verdict.by_letters()),
            false,
        ),
        ("Not counted", plain(&report.uncounted), report.types.uncounted > report.uncounted.len()),
        ("Pre-taught, but not in the story", plain(&report.not_in_text), false),
    ];
    let list = |(label, words, more)| LabelledWords { label, words, more };
    lists.into_iter().map(list).filter(|list: &LabelledWords| !list.words.is_empty()).collect()
}

fn counts(report: &Report) -> Vec<CountRow> {
    let (tokens, types) = (&report.tokens, &report.types);
    let row = |label, sum, of: fn(&Counts) -> usize| CountRow {
        label,
        sum,
        tokens: of(tokens),
        percent: messages::percent(percent(of(tokens), tokens.words)),
        types: of(types),
        types_percent: messages::percent(percent(of(types), types.words)),
    };
    let mut rows = vec![
        row("Decodable", false, |counts| counts.decodable),
        row("Sight words", false, |counts| counts.sight),
        row("Told beforehand", false, |counts| counts.story),
        row("Readable", true, |counts| counts.words - counts.untaught),
        row("Untaught", false, |counts| counts.untaught),
        row("All", true, |counts| counts.words),
    ];
    let not_counted = row("Not counted", false, |counts| counts.uncounted);
    rows.push(CountRow { percent: String::new(), types_percent: String::new(), ..not_counted });
    rows
}
