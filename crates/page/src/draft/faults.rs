//! From the places in the scope file that was written back to the fields of the page.

use std::collections::HashMap;

use serde::de::IgnoredAny;
use untaught::Fault;
use untaught::yaml::{self, Position};

use super::{FieldFault, File};

/// A field and the entry in it.
type Field = (Option<usize>, &'static str, Option<usize>);

/// The field of each fault of a scope file that was written from `file`.
pub(super) fn fields_of(faults: &[Fault], text: &str, file: &File) -> Vec<FieldFault> {
    let places = places(text, file);
    let field = |fault: &Fault| {
        let (lesson, field, entry) = places.get(&at(fault.position)).copied().unwrap_or((None, "lessons", None));
        FieldFault { lesson, field, entry, message: fault.message.clone() }
    };
    faults.iter().map(field).collect()
}

fn at(position: Position) -> (usize, usize) {
    (position.line, position.column)
}

/// Where each field is in the text. An id that is not written is where its lesson begins.
fn places(text: &str, file: &File) -> HashMap<(usize, usize), Field> {
    let mut found = HashMap::new();
    let Ok((_, outline)) = yaml::read::<IgnoredAny>(text) else { return found };
    for word in file.pronounce.keys() {
        found.entry(at(outline.position(&["pronounce", word]))).or_insert((None, "pronounce", None));
    }
    for (number, lesson) in file.lessons.iter().enumerate() {
        let place = number.to_string();
        let lists = [
            ("teach", &lesson.teach),
            ("sight", &lesson.sight),
            ("skills", &lesson.skills),
            ("review", &lesson.review),
        ];
        for (key, entries) in lists.into_iter().filter(|(_, entries)| !entries.is_empty()) {
            for entry in 0..entries.len() {
                let position = outline.position(&["lessons", &place, key, &entry.to_string()]);
                found.entry(at(position)).or_insert((Some(number), key, Some(entry)));
            }
            found.entry(at(outline.position(&["lessons", &place, key]))).or_insert((Some(number), key, None));
        }
        if lesson.title.is_some() {
            found.entry(at(outline.position(&["lessons", &place, "title"]))).or_insert((Some(number), "title", None));
        }
        found.entry(at(outline.position(&["lessons", &place, "id"]))).or_insert((Some(number), "id", None));
    }
    let own = [("title", file.title.is_some()), ("accent", file.accent.is_some()), ("age", file.age.is_some())];
    for (key, _) in own.into_iter().filter(|(_, is_written)| *is_written) {
        found.entry(at(outline.position(&[key]))).or_insert((None, key, None));
    }
    found
}
