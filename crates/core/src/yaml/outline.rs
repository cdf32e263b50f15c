//! Where everything stands in a YAML file: the reader that fills the structures keeps no places, so the events are walked once
//! more. Doubled keys are found on the way.

use std::collections::{BTreeMap, HashMap, HashSet};

use saphyr_parser::{Event, Parser, Span};

use super::bounds::LARGEST;
use super::{Fault, Position};
use crate::messages::{excerpt, thousands};

/// Levels of lists and keys; four are needed.
const DEEPEST: usize = 12;

/// Values and keys of a file, those that an alias stands for among them: each takes some hundred bytes.
const ENTRIES: usize = 100_000;

/// The longest key, in characters: each value is kept with the keys that lead to it.
const LONGEST_KEY: usize = 64;

/// Places of all values, by path: `lessons/3/teach/0`.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Outline {
    places: BTreeMap<String, Position>,
}

enum Level {
    List(usize),
    Map { keys: HashSet<String>, key: Option<String> },
}

/// How much has been read, with what aliases stand for.
#[derive(Clone, Copy, Default)]
struct Size {
    entries: usize,
    bytes: usize,
}

/// Keeps count of what is read. A list of a thousand entries that is named and then stands in a list a thousand times is a million.
#[derive(Default)]
struct Count {
    size: Size,
    /// What was read before each open list or map, with the number of its anchor.
    open: Vec<(usize, Size)>,
    /// The size of everything that has a name, by the number of its anchor.
    named: HashMap<usize, Size>,
}

impl Count {
    /// Whether an event keeps what has been read within bounds.
    fn is_bounded(&mut self, event: &Event<'_>) -> Result<(), String> {
        let before = self.size;
        match event {
            Event::Scalar(value, _, anchor, _) => {
                self.size.bytes += value.len();
                if *anchor > 0 {
                    self.named.insert(*anchor, Size { entries: 1, bytes: value.len() });
                }
            }
            Event::SequenceStart(anchor, _) | Event::MappingStart(anchor, _) => self.open.push((*anchor, before)),
            Event::SequenceEnd | Event::MappingEnd => {
                if let Some((anchor, before)) = self.open.pop() {
                    let (entries, bytes) = (self.size.entries - before.entries, self.size.bytes - before.bytes);
                    self.named.insert(anchor, Size { entries, bytes });
                }
                return Ok(());
            }
            Event::Alias(anchor) => {
                let named = self.named.get(anchor).filter(|_| self.open.iter().all(|(open, _)| open != anchor));
                let named = named.ok_or("this alias stands for something that it is part of")?;
                self.size.entries += named.entries;
                self.size.bytes += named.bytes;
                if self.size.entries > ENTRIES || self.size.bytes > LARGEST {
                    return Err("aliases (`*name`) repeat too much here; write out what is needed".to_owned());
                }
            }
            _ => return Ok(()),
        }
        self.size.entries += 1;
        if self.size.entries > ENTRIES {
            return Err(format!("it has more than {} entries", thousands(ENTRIES)));
        }
        Ok(())
    }
}

fn position(span: &Span) -> Position {
    Position { line: span.start.line(), column: span.start.col() + 1 }
}

impl Outline {
    pub(super) fn read(text: &str) -> Result<Outline, Fault> {
        let mut outline = Outline::default();
        let mut levels: Vec<Level> = Vec::new();
        let mut count = Count::default();
        let mut documents = 0;
        for event in Parser::new_from_str(text) {
            let (event, span) = event.map_err(|error| {
                let place = Position { line: error.marker().line(), column: error.marker().col() + 1 };
                malformed(text, place, error.info())
            })?;
            let place = position(&span);
            if levels.len() > DEEPEST {
                return Err(Fault::new(place, "lists are nested too deeply"));
            }
            count.is_bounded(&event).map_err(|message| Fault::new(place, &message))?;
            match &event {
                Event::DocumentStart(_) => {
                    documents += 1;
                    if documents > 1 {
                        return Err(Fault::new(place, "a second document begins here; there may be only one"));
                    }
                }
                Event::Scalar(value, ..) => {
                    if let Some(Level::Map { keys, key: key @ None }) = levels.last_mut() {
                        if value.chars().nth(LONGEST_KEY).is_some() {
                            let message =
                                format!("a key has at most {LONGEST_KEY} characters, unlike `{}`", excerpt(value));
                            return Err(Fault::new(place, &message));
                        }
                        if !keys.insert(value.to_string()) {
                            return Err(Fault::new(place, &format!("duplicate key `{value}`")));
                        }
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
                    levels.push(Level::Map { keys: HashSet::new(), key: None });
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
    if info.contains("recursion limit") {
        return Fault::new(place, "lists are nested too deeply");
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
