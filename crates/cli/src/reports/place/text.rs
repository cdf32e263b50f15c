//! Places for people.

use std::fmt::Write as _;

use untaught::json::MilestoneReport;
use untaught::{LessonIndex, messages};

use crate::analysis::Placement;
use crate::output::{DIM, STRONG, TAUGHT, UNTAUGHT, count, one_line};

/// Words that can never be read, named at most.
const WORDS: usize = 8;

/// The curve in one line: the percent readable from lesson to lesson, between the lowest block for nothing and the highest for all.
fn sparkline(placement: &Placement) -> String {
    const BLOCKS: [char; 8] = ['▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'];
    let curve = &placement.curve;
    let last = curve.readable.len();
    // No wider than a line of a terminal.
    let step = last.div_ceil(60).max(1);
    let block = |index: usize| {
        let percent = untaught::percent(curve.readable[index], curve.words).unwrap_or(100.0);
        // Only all is shown as all.
        let level = if percent >= 100.0 { 7 } else { ((percent / 100.0 * 7.0) as usize).min(6) };
        BLOCKS[level]
    };
    (0..last).filter(|index| (index + 1) % step == 0 || index + 1 == last).map(block).collect()
}

/// The ids of some lessons, below their blocks in the curve.
fn scale(placement: &Placement) -> String {
    /// Blocks from one id to the next.
    const APART: usize = 10;
    let lessons = placement.checked.plan.scope.lessons();
    let step = lessons.len().div_ceil(60).max(1);
    let mut out = String::new();
    let mut width = 0;
    for number in (APART..).step_by(APART).take_while(|number| number * step < lessons.len()) {
        let id = one_line(&lessons[number * step - 1].id).into_owned();
        // The last character is below the block.
        let pad = number.saturating_sub(width + id.chars().count());
        if pad > 0 || width == 0 {
            out += &" ".repeat(pad);
            width += pad + id.chars().count();
            out += &id;
        }
    }
    out
}

/// The report on one text.
pub(super) fn piece(placement: &Placement) -> String {
    let mut out = String::new();
    let (checked, plan) = (&placement.checked, &placement.checked.plan);
    let name = if checked.source.name == "-" { "The story" } else { &checked.source.name };
    let title = |lesson: Option<LessonIndex>| {
        let title = lesson.and_then(|lesson| plan.scope.lesson(lesson)).map_or("", |lesson| lesson.title.as_str());
        if title.is_empty() { String::new() } else { format!(" ({title})") }
    };
    let pretaught = placement.never.as_ref().map(|never| {
        let mut words: Vec<&str> = never.words.iter().map(String::as_str).take(WORDS).collect();
        if never.words.len() > words.len() {
            words.push("…");
        }
        let are = if never.words.len() == 1 { "is" } else { "are" };
        (format!("{} {are} pre-taught", words.join(", ")), never.lesson)
    });
    let _ = match checked.id(placement.first) {
        _ if placement.curve.words == 0 => writeln!(out, "{STRONG}{}{STRONG:#} has no words", one_line(name)),
        Some(id) => writeln!(
            out,
            "{STRONG}{}{STRONG:#} can be read from lesson {STRONG}{}{STRONG:#}{} of {}",
            one_line(name),
            one_line(id),
            one_line(&title(placement.first)),
            one_line(plan.scope.title())
        ),
        None => writeln!(
            out,
            "{STRONG}{}{STRONG:#} cannot be read at any lesson of {}: {} readable, {} decodable at the last",
            one_line(name),
            one_line(plan.scope.title()),
            messages::percent(placement.curve.percent_readable(plan.scope.last())),
            messages::percent(placement.curve.percent_decodable(plan.scope.last()))
        ),
    };
    if placement.curve.words == 0 {
        return out + "\n";
    }
    let first = plan.scope.lessons().first().map_or("", |lesson| lesson.id.as_str());
    let last = plan.scope.lessons().last().map_or("", |lesson| lesson.id.as_str());
    let _ = writeln!(
        out,
        "  {DIM}lesson {}{DIM:#} {} {DIM}{}   readable, from ▁ 0 % to █ 100 %{DIM:#}",
        one_line(first),
        sparkline(placement),
        one_line(last)
    );
    let _ = writeln!(
        out,
        "  {DIM}       {:width$} {}{DIM:#}",
        "",
        scale(placement),
        width = one_line(first).chars().count()
    );
    let reached = MilestoneReport::all(&placement.curve, plan.scope);
    let mut parts: Vec<String> = Vec::new();
    for MilestoneReport { percent, lesson } in &reached {
        let Some(lesson) = lesson else { continue };
        // Several percentages that one lesson reaches are named once, the highest.
        parts.retain(|part| !part.ends_with(&format!(" lesson {lesson}")));
        parts.push(format!("{percent} % from lesson {lesson}"));
    }
    if !parts.is_empty() {
        let _ = writeln!(out, "  readable: {}", one_line(&parts.join(", ")));
    }
    if let Some((condition, lesson)) = &pretaught {
        let _ = writeln!(out, "  if {}: 100 % from lesson {}", one_line(condition), one_line(plan.scope.id(*lesson)));
    }
    let (readable, decodable) = (plan.settings.min_readable.value, plan.min_decodable());
    let at = |lesson| match checked.id(Some(lesson)) {
        Some(id) => format!(
            "at lesson {id} {} readable, {} decodable",
            messages::percent(placement.curve.percent_readable(lesson)),
            messages::percent(placement.curve.percent_decodable(lesson))
        ),
        None => String::new(),
    };
    if let Some(meant) = placement.meant_for() {
        let (style, mark) = if placement.is_late() { (UNTAUGHT, "✗") } else { (TAUGHT, "✓") };
        let _ = writeln!(
            out,
            "  {style}{mark}{style:#} meant for lesson {}: {}",
            one_line(plan.scope.id(plan.lesson)),
            one_line(&at(meant))
        );
    } else if placement.first.is_some_and(|first| first > LessonIndex::FIRST) {
        let _ = writeln!(out, "  {}", one_line(&at(placement.at)));
    }
    if readable < 100.0 || decodable.is_some() {
        let from = |first| checked.id(first).map_or("at no lesson".to_owned(), |id| format!("from lesson {id}"));
        let decodable =
            decodable.map_or_else(String::new, |least| format!(", {least} % decodable, {}", from(placement.decodable)));
        let readable = format!("required: {readable} % readable, {}{decodable}", from(placement.first));
        let _ = writeln!(out, "  {DIM}{}{DIM:#}", one_line(&readable));
    }
    if !placement.obstacles.is_empty() && (placement.is_late() || placement.meant_for().is_none()) {
        let _ = writeln!(
            out,
            "  untaught at lesson {}, most frequent first:",
            one_line(checked.id(Some(placement.at)).unwrap_or_default())
        );
        for obstacle in &placement.obstacles {
            let when =
                checked.id(obstacle.need.lesson()).map_or("never taught".to_owned(), |id| format!("lesson {id}"));
            let times = count(obstacle.words, "word");
            let mut types: Vec<&str> = obstacle.types.iter().map(String::as_str).take(6).collect();
            if obstacle.types.len() > types.len() {
                types.push("…");
            }
            let _ = writeln!(
                out,
                "    {}, {}: {times} ({})",
                one_line(&obstacle.label(checked.plan.scope)),
                one_line(&when),
                one_line(&types.join(", "))
            );
        }
    }
    out + "\n"
}
