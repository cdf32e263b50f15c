//! Places on one page, with the curves drawn.

use std::io;

use serde::Serialize;
use untaught::json::ErrorReport;
use untaught::{LessonIndex, Obstacle, messages};

use super::chart::{self, Chart};
use crate::analysis::Placement;
use crate::output::count;
use crate::pages;
use crate::reports::titles;

/// Number of words named for each obstacle.
const TYPES: usize = 12;

#[derive(Serialize)]
struct PlacePage<'a> {
    title: String,
    complaints: &'a [ErrorReport],
    texts: Vec<PlacedStory>,
}

#[derive(Serialize)]
struct PlacedStory {
    title: String,
    file: Option<String>,
    scope: &'static str,
    meant_for: Option<&'static str>,
    first: Option<&'static str>,
    words: usize,
    late: bool,
    sentence: String,
    chart: Option<Chart>,
    at: &'static str,
    obstacles: Vec<ObstacleRow>,
}

#[derive(Serialize)]
struct ObstacleRow {
    what: String,
    when: String,
    words: String,
    types: String,
}

pub(super) fn page(placement: &[Placement], errors: &[ErrorReport]) -> io::Result<String> {
    let late = placement.iter().filter(|placement| placement.is_late()).count();
    let mut title = count(placement.len(), "text");
    title += &match late {
        0 => ", each readable in time".to_owned(),
        1 => ", 1 not readable in time".to_owned(),
        late => format!(", {late} not readable in time"),
    };
    if !errors.is_empty() {
        title += &format!(", {} could not be checked", errors.len());
    }
    let page = PlacePage { title, complaints: errors, texts: placement.iter().map(text).collect() };
    pages::render("place.html", page)
}

fn text(placement: &Placement) -> PlacedStory {
    let checked = &placement.checked;
    let (title, file) = titles::of(checked);
    let words = placement.curve.words;
    PlacedStory {
        scope: checked.plan.scope.title(),
        meant_for: checked.id(placement.meant_for()),
        first: checked.id(placement.first),
        words,
        late: placement.is_late(),
        sentence: sentence(placement),
        chart: (words > 0).then(|| chart::draw(placement, &title)),
        at: checked.id(Some(placement.at)).unwrap_or_default(),
        obstacles: ways(placement),
        title,
        file,
    }
}

fn sentence(placement: &Placement) -> String {
    let (checked, scope) = (&placement.checked, placement.checked.plan.scope);
    if placement.curve.words == 0 {
        return "It has no words.".to_owned();
    }
    let named = |lesson: Option<LessonIndex>| -> String {
        let title = lesson.and_then(|lesson| scope.lesson(lesson)).map_or("", |lesson| lesson.title.as_str());
        let id = checked.id(lesson).unwrap_or_default();
        if title.is_empty() { format!("lesson {id}") } else { format!("lesson {id} ({title})") }
    };
    let first = match placement.first {
        Some(first) => format!("It can be read from {}.", named(Some(first))),
        None => {
            let at_last = messages::percent(placement.curve.percent_readable(scope.last()));
            format!("It cannot be read at any lesson: {at_last} of its words are readable at the last.")
        }
    };
    match placement.meant_for() {
        Some(meant) => {
            let readable = messages::percent(placement.curve.percent_readable(meant));
            format!("{first} It is meant for {}, where {readable} of its words are readable.", named(Some(meant)))
        }
        None => first,
    }
}

fn ways(placement: &Placement) -> Vec<ObstacleRow> {
    let one = |obstacle: &Obstacle| {
        let mut types: Vec<&str> = obstacle.types.iter().map(String::as_str).take(TYPES).collect();
        if obstacle.types.len() > types.len() {
            types.push("…");
        }
        ObstacleRow {
            what: obstacle.label(placement.checked.plan.scope),
            when: placement
                .checked
                .id(obstacle.need.lesson())
                .map_or("never taught".to_owned(), |id| format!("lesson {id}")),
            words: count(obstacle.words, "word"),
            types: types.join(", "),
        }
    };
    placement.obstacles.iter().map(one).collect()
}
