//! What the page says of one story.

use serde::Serialize;
use untaught::{Counts, FocusCount, Report, Status, percent};

use super::running::{self, Entry, Line, Mark};
use super::{Checked, html, lesson_id, shown};
use crate::page::count;
use crate::texts::Said;

#[derive(Serialize)]
pub(super) struct Story {
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
    verdicts: Vec<Sentence>,
    legend: Vec<Entry>,
    marks: Vec<Mark>,
    paragraphs: Vec<Vec<Line>>,
    /// What its places count.
    units: &'static str,
    untaught: Vec<Untaught>,
    two_readings: Vec<TwoReadings>,
    practice: Vec<Practice>,
    lists: Vec<List>,
    counts: Vec<Row>,
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
struct Sentence {
    good: bool,
    text: String,
}

#[derive(Serialize)]
struct Untaught {
    note: usize,
    word: String,
    count: usize,
    at: String,
    needs: Vec<Need>,
    remarks: Vec<&'static str>,
}

#[derive(Serialize)]
struct Need {
    what: String,
    when: String,
}

#[derive(Serialize)]
struct TwoReadings {
    note: usize,
    word: String,
    at: String,
    counted: String,
    counted_sounds: String,
    other: String,
    other_sounds: String,
}

#[derive(Serialize)]
struct Practice {
    verb: &'static str,
    patterns: String,
    tokens: usize,
    whole: String,
    percent: String,
    words: Vec<Times>,
}

#[derive(Serialize)]
struct Times {
    word: String,
    count: usize,
}

#[derive(Serialize)]
struct List {
    label: &'static str,
    words: Vec<Times>,
    more: bool,
}

#[derive(Serialize)]
struct Row {
    label: &'static str,
    sum: bool,
    tokens: usize,
    percent: String,
    types: usize,
    types_percent: String,
}

pub(super) fn of(checked: &Checked) -> Story {
    let (report, plan) = (&checked.report, &checked.plan);
    let (title, file) = html::titles(checked);
    let running = running::text(checked);
    let spots = checked.spots(lists(report));
    let at: Vec<String> = spots.iter().zip(counted(report)).map(|(spots, n)| on_lines(spots, n)).collect();
    let (of_untaught, of_readings) = at.split_at(report.findings.len());
    let (bars, bar_label) = bars(&report.tokens);
    Story {
        title,
        file,
        lesson: lesson_id(checked, Some(report.lesson)).unwrap_or_default(),
        lesson_title: plan.scope.lesson(report.lesson).map_or("", |lesson| lesson.title.as_str()),
        scope: &plan.scope.title,
        last_lesson: plan.lesson_said == Said::Default,
        words: report.tokens.words,
        figures: figures(report),
        bars,
        bar_label,
        verdicts: verdicts(checked),
        legend: running.legend,
        marks: running.marks,
        paragraphs: running.paragraphs,
        units: if checked.unit() == "line" { "Lines" } else { "Paragraphs" },
        untaught: untaught(checked, of_untaught),
        two_readings: two_readings(checked, of_readings),
        practice: practice(report),
        lists: other_words(report),
        counts: counts(report),
    }
}

/// Where untaught words and words with two readings stand.
fn lists(report: &Report) -> impl Iterator<Item = &[std::ops::Range<usize>]> + Clone {
    let of_findings = report.findings.iter().map(|finding| &finding.places[..]);
    of_findings.chain(report.two_readings.iter().map(|two| &two.places[..]))
}

fn counted(report: &Report) -> impl Iterator<Item = usize> {
    report.findings.iter().map(|finding| finding.count).chain(report.two_readings.iter().map(|two| two.count))
}

/// `1, 4, 9 …`: each line once.
fn on_lines(spots: &[super::found::Spot], count: usize) -> String {
    let mut lines: Vec<usize> = spots.iter().map(|spot| spot.line).collect();
    lines.dedup();
    let listed: Vec<String> = lines.iter().map(ToString::to_string).collect();
    let more = if count > spots.len() { " …" } else { "" };
    listed.join(", ") + more
}

fn figures(report: &Report) -> Vec<Figure> {
    let counts = &report.tokens;
    let Counts { words, decodable, sight, story, untaught, .. } = *counts;
    let readable = format!("{} of {}: {decodable} decodable", words - untaught, count(words, "word"));
    let readable = format!("{readable} + {sight} sight + {story} told beforehand");
    let note = format!("{decodable} of {}", count(words, "word"));
    vec![
        Figure { percent: shown(counts.percent_decodable()), label: "decodable", note },
        Figure { percent: shown(counts.percent_readable()), label: "readable", note: readable },
    ]
}

fn bars(counts: &Counts) -> (Vec<Bar>, String) {
    let Counts { words, decodable, sight, story, untaught, .. } = *counts;
    let shares = [
        ("d", decodable, "decodable"),
        ("s", sight, "sight"),
        ("t", story, "told beforehand"),
        ("u", untaught, "untaught"),
    ];
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
fn verdicts(checked: &Checked) -> Vec<Sentence> {
    let (report, lesson) = (&checked.report, checked.lesson_id());
    let (words, n, types) = (report.tokens.words, report.tokens.untaught, report.types.untaught);
    let mut all = Vec::new();
    if n == 0 {
        all.push(Sentence { good: true, text: format!("Every word can be read at lesson {lesson}.") });
    } else {
        let are = if n == 1 { "is" } else { "are" };
        let of = if types == n { String::new() } else { format!(" ({types} different)") };
        let text = format!("{n} of {} {are} untaught at lesson {lesson}{of}.", count(words, "word"));
        all.push(Sentence { good: false, text });
    }
    let thresholds = &checked.plan.thresholds;
    for short in &checked.shortfalls {
        let (percent, what, least) = (shown(Some(short.percent)), short.what, short.least);
        all.push(Sentence {
            good: false,
            text: format!("It falls short: {percent} {what} where {least} % are wanted."),
        });
    }
    if checked.met() && n > 0 {
        let mut wanted = format!("{} % readable", thresholds.readable);
        if let Some(least) = thresholds.decodable {
            wanted.push_str(&format!(" and {least} % decodable"));
        }
        all.push(Sentence { good: true, text: format!("It meets what is wanted: {wanted}.") });
    }
    all
}

/// The untaught words, those first that can be read soonest.
fn untaught(checked: &Checked, at: &[String]) -> Vec<Untaught> {
    let report = &checked.report;
    let never = u16::MAX;
    let last = |finding: &untaught::Finding| finding.needs.iter().map(|need| need.lesson.unwrap_or(never)).max();
    let mut order: Vec<usize> = (0..report.findings.len()).collect();
    order.sort_by_key(|number| {
        let finding = &report.findings[*number];
        (last(finding).unwrap_or(never), &finding.needs, *number)
    });
    let one = |number: usize| {
        let finding = &report.findings[number];
        let mut remarks = Vec::new();
        if finding.likely_name {
            remarks.push("Looks like a name: if the children are told it, declare it.");
        }
        if finding.by_letters {
            remarks.push("Not in the dictionary: read by its letters.");
        }
        let needs = finding.needs.iter().map(|need| Need {
            what: need.label.clone(),
            when: lesson_id(checked, need.lesson).map_or("never taught".to_owned(), |id| format!("lesson {id}")),
        });
        Untaught {
            note: finding.type_number,
            word: checked.text()[finding.places[0].clone()].to_owned(),
            count: finding.count,
            at: at[number].clone(),
            needs: needs.collect(),
            remarks,
        }
    };
    order.into_iter().map(one).collect()
}

fn two_readings(checked: &Checked, at: &[String]) -> Vec<TwoReadings> {
    let one = |(two, at): (&untaught::TwoReadings, &String)| TwoReadings {
        note: two.type_number,
        word: two.word.clone(),
        at: format!("{}{} {at}", checked.unit(), if at.contains([',', '…']) { "s" } else { "" }),
        counted: two.patterns.0.clone(),
        counted_sounds: two.counted.clone(),
        other: two.patterns.1.clone(),
        other_sounds: two.other.clone(),
    };
    checked.report.two_readings.iter().zip(at).map(one).collect()
}

fn times(report: &Report, number: usize) -> Times {
    let word = &report.distinct[number];
    Times { word: word.verdict.word.text.clone(), count: word.count }
}

fn practice(report: &Report) -> Vec<Practice> {
    let counted = [("practises", &report.focus), ("reviews", &report.review)];
    let one = |(verb, focus): (&'static str, &FocusCount)| Practice {
        verb,
        patterns: focus.labels.join(", "),
        tokens: focus.tokens,
        whole: count(report.tokens.words, "word"),
        percent: shown(percent(focus.tokens, report.tokens.words)),
        words: focus.types.iter().map(|number| times(report, *number)).collect(),
    };
    let any = report.tokens.words > 0;
    counted.into_iter().filter(|(_, focus)| any && !focus.labels.is_empty()).map(one).collect()
}

/// Words that the marks show, and what no mark can show.
fn other_words(report: &Report) -> Vec<List> {
    let of = |keep: &dyn Fn(&untaught::Type) -> bool| -> Vec<Times> {
        let kept = report.distinct.iter().enumerate().filter(|(_, word)| keep(word));
        kept.map(|(number, _)| times(report, number)).collect()
    };
    let plain = |words: &[String]| words.iter().map(|word| Times { word: word.clone(), count: 1 }).collect();
    let lists = [
        ("Sight words", of(&|word| word.status == Status::Sight), false),
        ("Told beforehand", of(&|word| word.status == Status::Story), false),
        (
            "Decodable by its letters, but not in the dictionary",
            of(&|word| word.status == Status::Decodable && word.verdict.by_letters()),
            false,
        ),
        ("Not counted", plain(&report.uncounted), report.types.uncounted > report.uncounted.len()),
        ("To be told beforehand, but not in the story", plain(&report.not_in_text), false),
    ];
    let list = |(label, words, more)| List { label, words, more };
    lists.into_iter().map(list).filter(|list: &List| !list.words.is_empty()).collect()
}

fn counts(report: &Report) -> Vec<Row> {
    let (tokens, types) = (&report.tokens, &report.types);
    let row = |label, sum, of: fn(&Counts) -> usize| Row {
        label,
        sum,
        tokens: of(tokens),
        percent: shown(percent(of(tokens), tokens.words)),
        types: of(types),
        types_percent: shown(percent(of(types), types.words)),
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
    rows.push(Row { percent: String::new(), types_percent: String::new(), ..not_counted });
    rows
}
