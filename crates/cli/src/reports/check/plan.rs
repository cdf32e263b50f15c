//! The plan of a story, for people: what to pre-teach or change, and from which lesson it can be read as it is.

use std::io::{self, Write};

use untaught::{MendingPlan, MendingStep, Remedy, messages};
use untaught_lists::{Swap, Swaps};

use super::untaught_words::{listed, or_none};
use crate::analysis::{CheckedText, Mending};
use crate::output::{DIM, STRONG, count, one_line};

/// Steps that are shown.
const STEPS: usize = 12;

/// Swaps that are shown for a step.
const SWAPS: usize = 4;

pub(super) fn print(out: &mut impl Write, checked: &CheckedText, mending: &Mending) -> io::Result<()> {
    if let Some(plan) = &mending.plan {
        steps(out, checked, plan)?;
    }
    if !mending.practise.is_empty() {
        let labels = checked.report.focus.labels.join(", ");
        writeln!(out, "  It hardly practises {}. Readable words that do:", one_line(&labels))?;
        writeln!(out, "    {}\n", one_line(&mending.practise.join(", ")))?;
    }
    Ok(())
}

fn steps(out: &mut impl Write, checked: &CheckedText, plan: &MendingPlan) -> io::Result<()> {
    let (now, goal) = (messages::percent(Some(plan.now)), plan.goal);
    let n = count(plan.steps.len(), "word");
    writeln!(out, "  {STRONG}Plan{STRONG:#}: from {now} to {goal} % readable with {n}")?;
    for step in plan.steps.iter().take(STEPS) {
        let MendingStep { remedy, count, reason, readable, finding, .. } = step;
        let word = shown(checked, step);
        let (what, why) = match remedy {
            Remedy::Name => ("pre-teach the name", String::new()),
            Remedy::Whole => ("pre-teach or change", reason.clone()),
            _ => ("change or pre-teach", reason.clone()),
        };
        let times = if *count > 1 { format!(" ({count} times)") } else { String::new() };
        let offers = checked.suggestions.as_ref().and_then(|all| all.get(*finding));
        let offers = offers.filter(|offers| !offers.swaps.is_empty());
        let instead = offers.map_or_else(String::new, |offers| {
            // What fits only further on says where.
            let places = &checked.report.findings[*finding].places;
            let place = places.get(offers.place..=offers.place).filter(|_| offers.place > 0);
            let line = place.and_then(|place| checked.lines(std::iter::once(place)).concat().first().copied());
            let place = line.map(|line| format!(", in {} {line}", checked.unit())).unwrap_or_default();
            format!("; or{place}: {}", few(&offers.swaps))
        });
        let why = if why.is_empty() { instead } else { format!(": it {why}{instead}") };
        let readable = messages::percent(Some(*readable));
        writeln!(
            out,
            "    {what} {STRONG}{}{STRONG:#}{times}{}  {DIM}{readable}{DIM:#}",
            one_line(word),
            one_line(&why)
        )?;
    }
    if plan.steps.len() > STEPS {
        writeln!(out, "    {DIM}and {} more{DIM:#}", count(plan.steps.len() - STEPS, "word"))?;
    }
    let scope = checked.plan.scope;
    match (plan.lesson, plan.lesson_if_pretaught) {
        (Some(lesson), _) => writeln!(out, "  As it is, it can be used from lesson {}.", one_line(scope.id(lesson)))?,
        (None, Some(lesson)) => writeln!(
            out,
            "  With the names and the words that no lesson teaches pre-taught, from lesson {}.",
            one_line(scope.id(lesson))
        )?,
        (None, None) => {}
    }
    to_paste(out, checked, plan)
}

/// The first few swaps of a word, those of the same meaning first, and whether it may go.
fn few(swaps: &Swaps) -> String {
    let shown: Vec<Swap> = swaps.same.iter().chain(&swaps.of_the_kind).take(SWAPS).cloned().collect();
    let here = or_none(listed(&shown), swaps);
    let wider = swaps.rewordings.iter().find(|made| !made.new.is_empty());
    let wider = wider.map(|made| format!("“{}” for “{}”", made.new, made.old));
    [Some(here).filter(|here| !here.is_empty()), wider].into_iter().flatten().collect::<Vec<_>>().join("; ")
}

/// A word as it is shown: a name as it is written in the text.
fn shown<'c>(checked: &'c CheckedText, step: &'c MendingStep) -> &'c str {
    let place = checked.report.findings[step.finding].places.first();
    match step.remedy {
        Remedy::Name => place.map_or(step.word.as_str(), |place| &checked.text()[place.clone()]),
        _ => &step.word,
    }
}

/// The options and the front matter that pre-teach every word of the plan.
fn to_paste(out: &mut impl Write, checked: &CheckedText, plan: &MendingPlan) -> io::Result<()> {
    let words = |names: bool| -> Vec<&str> {
        let steps = plan.steps.iter().filter(|step| (step.remedy == Remedy::Name) == names);
        steps.map(|step| shown(checked, step)).collect()
    };
    let (names, others) = (words(true), words(false));
    let options = [("--names", &names), ("--story-words", &others)];
    let options = options.iter().filter(|(_, words)| !words.is_empty());
    let line: Vec<String> = options.map(|(option, words)| format!("{option} {}", words.join(","))).collect();
    writeln!(out, "  To pre-teach them all: {}", one_line(&line.join(" ")))?;
    writeln!(out, "  or at the top of the story:")?;
    writeln!(out, "    ---")?;
    for (key, words) in [("names", &names), ("story-words", &others)] {
        if !words.is_empty() {
            writeln!(out, "    {key}: [{}]", one_line(&words.join(", ")))?;
        }
    }
    writeln!(out, "    ---\n")
}
