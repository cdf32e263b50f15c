//! The curve of a text as a drawing: lessons from left to right, percent of its words upwards.

use serde::Serialize;
use untaught::{LessonIndex, messages};

use crate::analysis::Placement;

/// The drawing in its own units; a phone shows about three quarters of a pixel of each.
const WIDTH: f64 = 420.0;
const LEFT: f64 = 46.0;
const RIGHT: f64 = 380.0;
const TOP: f64 = 38.0;
const BOTTOM: f64 = 190.0;
/// A letter of a label, about.
const LETTER: f64 = 6.5;

#[derive(Serialize)]
pub(super) struct Chart {
    readable: String,
    decodable: String,
    across: Vec<Tick>,
    up: Vec<Tick>,
    /// What is wanted: at these heights.
    wanted: Vec<Tick>,
    wanted_label: String,
    meant_for: Option<Flag>,
    first: Option<Flag>,
    title: String,
    about: String,
}

#[derive(Serialize)]
struct Tick {
    at: f64,
    label: String,
}

/// A lesson that is pointed out.
#[derive(Serialize)]
struct Flag {
    x: f64,
    /// Where the curve of what is readable is there.
    y: f64,
    /// To which side its label goes.
    anchor: &'static str,
    label: String,
}

pub(super) fn draw(placement: &Placement, title: &str) -> Chart {
    let (curve, plan) = (&placement.curve, &placement.checked.plan);
    let lessons = plan.scope.lessons();
    let points = |percent: &dyn Fn(LessonIndex) -> Option<f64>| -> String {
        let point =
            |lesson: LessonIndex| format!("{},{}", x(lesson, lessons.len()), y(percent(lesson).unwrap_or_default()));
        let all: Vec<String> = plan.scope.indexed_lessons().map(|(index, _)| point(index)).collect();
        all.join(" ")
    };
    let flag = |lesson: LessonIndex, what: &str| {
        let x = x(lesson, lessons.len());
        let anchor = match x {
            x if x < LEFT + 100.0 => "start",
            x if x > RIGHT - 100.0 => "end",
            _ => "middle",
        };
        let label = format!("{what} lesson {}", short(plan.scope.id(lesson)));
        Flag { x, y: y(curve.percent_readable(lesson).unwrap_or_default()), anchor, label }
    };
    let (readable, decodable) = (plan.settings.min_readable.value, plan.min_decodable());
    let mut heights = vec![readable];
    heights.extend(decodable.filter(|least| (least - readable).abs() > 5.0));
    let and_decodable = decodable.map_or_else(String::new, |least| format!(" and {least} % decodable"));
    Chart {
        readable: points(&|lesson| curve.percent_readable(lesson)),
        decodable: points(&|lesson| curve.percent_decodable(lesson)),
        across: across(placement),
        up: [0.0, 25.0, 50.0, 75.0, 100.0].map(|at| Tick { at: y(at), label: at.to_string() }).into(),
        wanted: heights.into_iter().map(|at| Tick { at: y(at), label: format!("{at} %") }).collect(),
        wanted_label: format!("required: {} % readable{and_decodable}", readable),
        meant_for: placement.meant_for().map(|lesson| flag(lesson, "meant for")),
        first: placement.first.map(|lesson| flag(lesson, "readable from")),
        title: format!("Percent of the words of {title} that are readable and decodable, lesson by lesson"),
        about: about(placement),
    }
}

/// The curve in words.
fn about(placement: &Placement) -> String {
    let last = placement.checked.plan.scope.last();
    let mut places = vec![Some(LessonIndex::FIRST), placement.meant_for(), placement.first, Some(last)];
    places.retain(Option::is_some);
    places.sort_unstable();
    places.dedup();
    let at = |lesson: LessonIndex| {
        let id = placement.checked.id(Some(lesson)).unwrap_or_default();
        let (readable, decodable) =
            (placement.curve.percent_readable(lesson), placement.curve.percent_decodable(lesson));
        format!("lesson {id}: {} readable, {} decodable", messages::percent(readable), messages::percent(decodable))
    };
    places.into_iter().flatten().map(at).collect::<Vec<_>>().join("; ") + "."
}

/// The lessons named below the drawing: as many as there is room for, with the first and the last.
fn across(placement: &Placement) -> Vec<Tick> {
    let lessons = placement.checked.plan.scope.lessons();
    let longest = lessons.iter().map(|lesson| short(&lesson.id).chars().count()).max().unwrap_or(1);
    let room = ((RIGHT - LEFT) / (longest as f64 * LETTER + 14.0)).max(2.0) as usize;
    let step = lessons.len().div_ceil(room).max(1);
    let last = lessons.len() - 1;
    let kept = |at: &usize| *at == last || at.is_multiple_of(step) && *at + step <= last;
    let tick = |at: usize| Tick { at: x_of(at, lessons.len()), label: short(&lessons[at].id) };
    (0..lessons.len()).filter(kept).map(tick).collect()
}

fn short(id: &str) -> String {
    let short: String = id.chars().take(10).collect();
    if short.len() < id.len() { short + "…" } else { short }
}

fn x(lesson: LessonIndex, lessons: usize) -> f64 {
    x_of(lesson.get(), lessons)
}

fn x_of(index: usize, lessons: usize) -> f64 {
    let share = if lessons > 1 { index as f64 / (lessons - 1) as f64 } else { 0.5 };
    tenths(LEFT + share * (RIGHT - LEFT))
}

fn y(percent: f64) -> f64 {
    tenths(BOTTOM - percent / 100.0 * (BOTTOM - TOP))
}

fn tenths(at: f64) -> f64 {
    (at.clamp(0.0, WIDTH) * 10.0).round() / 10.0
}
