//! Places for people, for programs and for spreadsheets.

use std::fmt::Write as _;
use std::io;

use serde::Serialize;
use untaught::{LessonIndex, Obstacle};

use super::Placed;
use crate::args::PlaceFormat;
use crate::check::{lesson_id, rounded, shown};
use crate::output::{DIM, Failed, STRONG, TAUGHT, UNTAUGHT, json_bytes, one_line, table};

pub(super) fn head(format: PlaceFormat) -> &'static str {
    match format {
        PlaceFormat::Text | PlaceFormat::Html => "",
        PlaceFormat::Json => "{\"format\":1,\"texts\":[",
        PlaceFormat::Csv => {
            "file,scope,meant for lesson,readable from lesson,words,percent readable at its lesson,stands in the way\r\n"
        }
    }
}

pub(super) fn piece(format: PlaceFormat, placed: &Placed) -> io::Result<Vec<u8>> {
    match format {
        PlaceFormat::Text | PlaceFormat::Html => Ok(text(placed).into_bytes()),
        PlaceFormat::Json => json_bytes(&json(placed)),
        PlaceFormat::Csv => csv(placed),
    }
}

/// What ends the report for programs.
pub(super) fn json_tail(failed: &[Failed]) -> io::Result<Vec<u8>> {
    Ok([b"],\"errors\":", &json_bytes(&failed)?[..], b"}\n"].concat())
}

#[derive(Serialize)]
struct Text<'a> {
    file: &'a str,
    scope: &'a str,
    lesson: Option<&'a str>,
    meant_for: Option<&'a str>,
    words: usize,
    curve: Vec<Point<'a>>,
    /// The lesson at which these stand in the way.
    obstacles_at: Option<&'a str>,
    obstacles: Vec<Way<'a>>,
}

#[derive(Serialize)]
struct Point<'a> {
    lesson: &'a str,
    decodable: Option<f64>,
    readable: Option<f64>,
}

#[derive(Serialize)]
struct Way<'a> {
    pattern: String,
    lesson: Option<&'a str>,
    words: usize,
    types: &'a [String],
}

fn json(placed: &Placed) -> Text<'_> {
    let (checked, curve) = (&placed.checked, &placed.curve);
    let scope = checked.plan.scope;
    let points = scope.indexed_lessons().map(|(place, lesson)| Point {
        lesson: &lesson.id,
        decodable: rounded(curve.percent_decodable(place)),
        readable: rounded(curve.percent_readable(place)),
    });
    let way = |obstacle: &'_ Obstacle| -> Option<&'static str> { lesson_id(checked, obstacle.need.lesson()) };
    Text {
        file: &checked.source.name,
        scope: scope.title(),
        lesson: lesson_id(checked, placed.first),
        meant_for: lesson_id(checked, placed.meant_for()),
        words: curve.words,
        curve: points.collect(),
        obstacles_at: lesson_id(checked, Some(placed.at)),
        obstacles: placed
            .obstacles
            .iter()
            .map(|o| Way { pattern: o.label(scope), lesson: way(o), words: o.words, types: &o.types })
            .collect(),
    }
}

/// The curve in one line: the percent readable from lesson to lesson, between the lowest block for nothing and the highest for all.
pub(super) fn sparkline(placed: &Placed) -> String {
    const BLOCKS: [char; 8] = ['▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'];
    let curve = &placed.curve;
    let last = curve.readable.len();
    // No wider than a line of a terminal.
    let step = last.div_ceil(60).max(1);
    let block = |place: usize| {
        let percent = untaught::percent(curve.readable[place], curve.words).unwrap_or(100.0);
        // Only all is shown as all.
        let level = if percent >= 100.0 { 7 } else { ((percent / 100.0 * 7.0) as usize).min(6) };
        BLOCKS[level]
    };
    (0..last).filter(|place| (place + 1) % step == 0 || place + 1 == last).map(block).collect()
}

fn text(placed: &Placed) -> String {
    let mut out = String::new();
    let (checked, plan) = (&placed.checked, &placed.checked.plan);
    let name = if checked.source.name == "-" { "The story" } else { &checked.source.name };
    let title = |place: Option<untaught::LessonIndex>| {
        let title = place.and_then(|place| plan.scope.lesson(place)).map_or("", |lesson| lesson.title.as_str());
        if title.is_empty() { String::new() } else { format!(" ({title})") }
    };
    let _ = match lesson_id(checked, placed.first) {
        _ if placed.curve.words == 0 => writeln!(out, "{STRONG}{}{STRONG:#} has no words", one_line(name)),
        Some(id) => writeln!(
            out,
            "{STRONG}{}{STRONG:#} can be read from lesson {STRONG}{}{STRONG:#}{} of {}",
            one_line(name),
            one_line(id),
            one_line(&title(placed.first)),
            one_line(&plan.scope.title())
        ),
        None => writeln!(
            out,
            "{STRONG}{}{STRONG:#} cannot be read at any lesson of {}: {} readable at the last",
            one_line(name),
            one_line(&plan.scope.title()),
            shown(placed.curve.percent_readable(plan.scope.last()))
        ),
    };
    if placed.curve.words == 0 {
        return out + "\n";
    }
    let first = plan.scope.lessons().first().map_or("", |lesson| lesson.id.as_str());
    let last = plan.scope.lessons().last().map_or("", |lesson| lesson.id.as_str());
    let _ = writeln!(
        out,
        "  {DIM}lesson {}{DIM:#} {} {DIM}{}   percent readable{DIM:#}",
        one_line(first),
        sparkline(placed),
        one_line(last)
    );
    let (readable, decodable) = (plan.settings.min_readable.value, plan.min_decodable());
    let at = |place| match lesson_id(checked, Some(place)) {
        Some(id) => format!(
            "at lesson {id} {} readable, {} decodable",
            shown(placed.curve.percent_readable(place)),
            shown(placed.curve.percent_decodable(place))
        ),
        None => String::new(),
    };
    if let Some(meant) = placed.meant_for() {
        let (style, mark) = if placed.is_late() { (UNTAUGHT, "✗") } else { (TAUGHT, "✓") };
        let _ = writeln!(
            out,
            "  {style}{mark}{style:#} meant for lesson {}: {}",
            one_line(plan_id(placed)),
            one_line(&at(meant))
        );
    } else if placed.first.is_some_and(|first| first > LessonIndex::FIRST) {
        let _ = writeln!(out, "  {}", one_line(&at(placed.at)));
    }
    if readable < 100.0 || decodable.is_some() {
        let decodable = decodable.map_or_else(String::new, |least| format!(", {least} % decodable"));
        let _ = writeln!(out, "  {DIM}wanted: {} % readable{decodable}{DIM:#}", readable);
    }
    if !placed.obstacles.is_empty() && (placed.is_late() || placed.meant_for().is_none()) {
        let _ = writeln!(
            out,
            "  in its way at lesson {}:",
            one_line(lesson_id(checked, Some(placed.at)).unwrap_or_default())
        );
        for obstacle in &placed.obstacles {
            let when = lesson_id(checked, obstacle.need.lesson())
                .map_or("never taught".to_owned(), |id| format!("lesson {id}"));
            let times = if obstacle.words == 1 { "1 word".to_owned() } else { format!("{} words", obstacle.words) };
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

fn plan_id(placed: &Placed) -> &'static str {
    lesson_id(&placed.checked, Some(placed.checked.plan.lesson)).unwrap_or_default()
}

fn csv(placed: &Placed) -> io::Result<Vec<u8>> {
    let checked = &placed.checked;
    let meant = placed.meant_for();
    let percent = meant.and_then(|place| rounded(placed.curve.percent_readable(place)));
    let ways: Vec<String> =
        placed.obstacles.iter().map(|o| format!("{} ({})", o.label(checked.plan.scope), o.words)).collect();
    table::row(&[
        &checked.source.name,
        checked.plan.scope.title(),
        lesson_id(checked, meant).unwrap_or_default(),
        lesson_id(checked, placed.first).unwrap_or("never"),
        &placed.curve.words.to_string(),
        &percent.map_or_else(String::new, |percent| percent.to_string()),
        &ways.join("; "),
    ])
}
