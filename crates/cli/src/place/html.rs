//! Places on one page, with the curves drawn.

use serde::Serialize;

use super::Placed;
use super::chart::{self, Chart};
use crate::check::{lesson_id, shown, titles};
use crate::output::{Failed, Failure};
use crate::page;

/// Words named of what stands in the way.
const TYPES: usize = 12;

#[derive(Serialize)]
struct Page<'a> {
    title: String,
    complaints: &'a [Failed],
    texts: Vec<Text>,
}

#[derive(Serialize)]
struct Text {
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
    obstacles: Vec<Way>,
}

#[derive(Serialize)]
struct Way {
    what: String,
    when: String,
    words: String,
    types: String,
}

pub(super) fn page(placed: &[Placed], failed: &[Failed]) -> Result<String, Failure> {
    let late = placed.iter().filter(|placed| placed.is_late()).count();
    let mut title = page::count(placed.len(), "text");
    title += &match late {
        0 => ", each readable in time".to_owned(),
        1 => ", 1 not readable in time".to_owned(),
        late => format!(", {late} not readable in time"),
    };
    if !failed.is_empty() {
        title += &format!(", {} could not be checked", failed.len());
    }
    let page = Page { title, complaints: failed, texts: placed.iter().map(text).collect() };
    Ok(page::render("place.html", page)?)
}

fn text(placed: &Placed) -> Text {
    let checked = &placed.checked;
    let (title, file) = titles(checked);
    let words = placed.curve.words;
    Text {
        scope: &checked.plan.scope.title(),
        meant_for: lesson_id(checked, placed.meant_for()),
        first: lesson_id(checked, placed.first),
        words,
        late: placed.is_late(),
        sentence: sentence(placed),
        chart: (words > 0).then(|| chart::draw(placed, &title)),
        at: lesson_id(checked, Some(placed.at)).unwrap_or_default(),
        obstacles: ways(placed),
        title,
        file,
    }
}

fn sentence(placed: &Placed) -> String {
    let (checked, scope) = (&placed.checked, placed.checked.plan.scope);
    if placed.curve.words == 0 {
        return "There are no words in it.".to_owned();
    }
    let named = |place: Option<untaught::LessonIndex>| -> String {
        let title = place.and_then(|place| scope.lesson(place)).map_or("", |lesson| lesson.title.as_str());
        let id = lesson_id(checked, place).unwrap_or_default();
        if title.is_empty() { format!("lesson {id}") } else { format!("lesson {id} ({title})") }
    };
    let first = match placed.first {
        Some(first) => format!("It can be read from {}.", named(Some(first))),
        None => {
            let at_last = shown(placed.curve.percent_readable(scope.last()));
            format!("It cannot be read at any lesson: {at_last} of its words are readable at the last.")
        }
    };
    match placed.meant_for() {
        Some(meant) => {
            let readable = shown(placed.curve.percent_readable(meant));
            format!("{first} It is meant for {}, where {readable} of its words are readable.", named(Some(meant)))
        }
        None => first,
    }
}

fn ways(placed: &Placed) -> Vec<Way> {
    let one = |obstacle: &untaught::Obstacle| {
        let mut types: Vec<&str> = obstacle.types.iter().map(String::as_str).take(TYPES).collect();
        if obstacle.types.len() > types.len() {
            types.push("…");
        }
        Way {
            what: obstacle.label(placed.checked.plan.scope),
            when: lesson_id(&placed.checked, obstacle.need.lesson())
                .map_or("never taught".to_owned(), |id| format!("lesson {id}")),
            words: page::count(obstacle.words, "word"),
            types: types.join(", "),
        }
    };
    placed.obstacles.iter().map(one).collect()
}
