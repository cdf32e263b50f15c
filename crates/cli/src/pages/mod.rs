//! Pages for people: one file each, without scripts and without anything from elsewhere.

use std::io;
use std::sync::OnceLock;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use minijinja::syntax::SyntaxConfig;
use minijinja::value::Serde;
use minijinja::{Environment, Error, Output, State, UndefinedBehavior, Value, escape_formatter};
use serde::Serialize;

use crate::output::{is_unsafe, safe};

const TEMPLATES: [(&str, &str); 10] = [
    ("base.html", include_str!("templates/base.html")),
    ("parts.html", include_str!("templates/parts.html")),
    ("check.html", include_str!("templates/check.html")),
    ("story.html", include_str!("templates/story.html")),
    ("place.html", include_str!("templates/place.html")),
    ("shelf.html", include_str!("templates/shelf.html")),
    ("shelf-readers.html", include_str!("templates/shelf-readers.html")),
    ("shelf-new.html", include_str!("templates/shelf-new.html")),
    ("shelf-plots.html", include_str!("templates/shelf-plots.html")),
    ("pack.html", include_str!("templates/pack.html")),
];

/// Stands in a piece for the number of its story, which only the end of the run knows. No text has it: control characters are
/// shown as codes.
const HERE: char = '\0';

/// Stands in a page for the pieces, which are put there one after the other, so that they need not lie in memory together. No text has
/// it either.
const PIECES: char = '\u{1}';

/// A page in which pieces are still missing: what stands before and after them.
pub(crate) fn around_pieces(page: &[u8]) -> (&[u8], &[u8]) {
    let at = page.iter().position(|b| *b == PIECES as u8).unwrap_or(page.len());
    (&page[..at], page.get(at + 1..).unwrap_or_default())
}

/// A page in which pieces are missing at several places: what stands before, between and after them.
pub(crate) fn between_pieces(page: &[u8]) -> impl Iterator<Item = &[u8]> {
    page.split(|b| *b == PIECES as u8)
}

/// A piece with the number of its story put where it belongs.
pub(crate) fn numbered(piece: &[u8], number: usize) -> Vec<u8> {
    let number = number.to_string();
    piece.split(|b| *b == HERE as u8).collect::<Vec<_>>().join(number.as_bytes())
}

/// Fills in a template. Text is escaped; control characters and marks of direction in it are shown as codes.
pub(crate) fn render(template: &str, data: impl Serialize) -> io::Result<String> {
    static ENVIRONMENT: OnceLock<Environment<'static>> = OnceLock::new();
    let environment = ENVIRONMENT.get_or_init(environment);
    // What the template reads is made of the data, which is then in memory once and not twice.
    let values = Value::from(Serde(&data));
    drop(data);
    environment.get_template(template).and_then(|template| template.render(values)).map_err(io::Error::other)
}

fn environment() -> Environment<'static> {
    let mut environment = Environment::new();
    environment.set_undefined_behavior(UndefinedBehavior::Strict);
    // What was given here is valid.
    let syntax = SyntaxConfig::builder().trim_blocks(true).lstrip_blocks(true).build();
    environment.set_syntax(syntax.unwrap_or_default());
    environment.set_formatter(harmless);
    // All that the templates use of the library's built-ins, which would take longer to compile than the rest of it.
    environment.add_test("none", |value: &Value| value.is_none());
    environment.add_filter("length", |list: &Value| list.len());
    environment.add_filter("join", |list: Vec<String>, between: &str| list.join(between));
    environment.add_function("range", |count: u32| (0..count).collect::<Vec<u32>>());
    environment.add_global("style", Value::from_safe_string(include_str!("templates/style.css").to_owned()));
    environment.add_global("pack_style", Value::from_safe_string(include_str!("templates/pack.css").to_owned()));
    environment.add_global("font", Value::from_safe_string(font()));
    environment.add_global("here", Value::from_safe_string(HERE.to_string()));
    environment.add_global("pieces", Value::from_safe_string(PIECES.to_string()));
    environment.add_global("version", env!("CARGO_PKG_VERSION"));
    for (name, source) in TEMPLATES {
        // A template that cannot be read is found missing when it is asked for; the tests ask for all.
        let _ = environment.add_template(name, source);
    }
    environment
}

/// A typeface made for beginning readers: its a and its g have one storey. Its licence is beside it.
fn font() -> String {
    STANDARD.encode(include_bytes!("fonts/andika-latin.woff2"))
}

fn harmless(out: &mut Output<'_>, state: &mut State<'_, '_>, value: &Value) -> Result<(), Error> {
    match value.as_str().filter(|text| !value.is_safe() && text.contains(is_unsafe)) {
        Some(text) => escape_formatter(out, state, &Value::from(safe(text).to_string())),
        None => escape_formatter(out, state, value),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_template_can_be_read() {
        let environment = environment();
        for (name, source) in TEMPLATES {
            assert!(
                environment.get_template(name).is_ok(),
                "{name}: {:?}",
                Environment::new().add_template(name, source)
            );
        }
    }
}
