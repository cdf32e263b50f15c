//! Where everything stands in a YAML file: the reader that fills the structures keeps no places, so the events are walked once
//! more. Doubled keys are found on the way.

use std::collections::BTreeMap;

use saphyr_parser::{Event, Parser, Span};

use super::{Fault, Position};

/// Levels of lists and keys; three are needed.
const DEEPEST: usize = 12;

/// Places of all values, by path: `lessons/3/teach/0`.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Outline {
    places: BTreeMap<String, Position>,
}

enum Level {
    List(usize),
    Map { keys: Vec<String>, key: Option<String> },
}

fn position(span: &Span) -> Position {
    Position { line: span.start.line(), column: span.start.col() + 1 }
}

impl Outline {
    pub(super) fn read(text: &str) -> Result<Outline, Fault> {
        let mut outline = Outline::default();
        let mut levels: Vec<Level> = Vec::new();
        let mut documents = 0;
        for event in Parser::new_from_str(text) {
            let (event, span) = event.map_err(|error| {
                let place = Position { line: error.marker().line(), column: error.marker().col() + 1 };
                malformed(text, place, error.info())
            })?;
            let place = position(&span);
            if levels.len() > DEEPEST {
                return Err(Fault::new(place, "lists stand in lists here, deeper than anything here needs"));
            }
            match &event {
                Event::DocumentStart(_) => {
                    documents += 1;
                    if documents > 1 {
                        return Err(Fault::new(place, "a second document begins here; there may be only one"));
                    }
                }
                Event::Scalar(value, ..) => {
                    if let Some(Level::Map { keys, key: key @ None }) = levels.last_mut() {
                        if keys.iter().any(|known| known == value) {
                            return Err(Fault::new(place, &format!("the key `{value}` stands twice here")));
                        }
                        keys.push(value.to_string());
                        *key = Some(value.to_string());
                    } else {
                        outline.value(&mut levels, place);
                    }
                }
                Event::Alias(_) => outline.value(&mut levels, place),
                Event::SequenceStart(..) => {
                    outline.enter(&levels, place);
                    levels.push(Level::List(0));
                }
                Event::MappingStart(..) => {
                    outline.enter(&levels, place);
                    levels.push(Level::Map { keys: Vec::new(), key: None });
                }
                Event::SequenceEnd | Event::MappingEnd => {
                    levels.pop();
                    next(&mut levels);
                }
                _ => {}
            }
        }
        Ok(outline)
    }

    fn enter(&mut self, levels: &[Level], place: Position) {
        self.places.insert(path(levels), place);
    }

    fn value(&mut self, levels: &mut [Level], place: Position) {
        self.enter(levels, place);
        next(levels);
    }

    /// The place of a value by the keys and numbers (from 0) that lead to it, or of the nearest level above it.
    #[must_use]
    pub fn position(&self, path: &[&str]) -> Position {
        (0..=path.len()).rev().find_map(|n| self.places.get(&path[..n].join("/")).copied()).unwrap_or(Position::START)
    }
}

/// What is wrong where YAML cannot be read at all: the commonest slips by name.
fn malformed(text: &str, place: Position, info: &str) -> Fault {
    let indented = |line: &&str| line.trim_start_matches(' ').starts_with('\t');
    if let Some(number) = text.lines().position(|line| indented(&line)) {
        let column = text.lines().nth(number).map_or(0, |line| line.len() - line.trim_start_matches(' ').len()) + 1;
        return Fault::new(Position { line: number + 1, column }, "a tab begins this line; YAML wants spaces");
    }
    if info.contains("mapping values") {
        return Fault::new(
            place,
            "a colon with a space after it begins a value; put the whole text in quotes if it is part of it",
        );
    }
    Fault::new(place, &format!("this is not well-formed YAML: {info}"))
}

fn next(levels: &mut [Level]) {
    match levels.last_mut() {
        Some(Level::List(number)) => *number += 1,
        Some(Level::Map { key, .. }) => *key = None,
        None => {}
    }
}

fn path(levels: &[Level]) -> String {
    let steps = levels.iter().map(|level| match level {
        Level::List(number) => number.to_string(),
        Level::Map { key, .. } => key.clone().unwrap_or_default(),
    });
    steps.collect::<Vec<_>>().join("/")
}
