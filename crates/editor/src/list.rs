//! Diagnostics as the JSON text that the client gets.

use std::hash::{DefaultHasher, Hasher as _};

use lsp_types::{DiagnosticRelatedInformation, DiagnosticSeverity, Position, Range};
use serde::Serialize;

use crate::wire::json;

/// What a diagnostic says, wherever it stands.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Words<'a> {
    severity: DiagnosticSeverity,
    #[serde(skip_serializing_if = "Option::is_none")]
    code: Option<&'a str>,
    source: &'static str,
    message: &'a str,
    #[serde(skip_serializing_if = "<[_]>::is_empty")]
    related_information: &'a [DiagnosticRelatedInformation],
}

/// What a diagnostic says, written once for all places where it is said.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Said(String);

impl Said {
    pub(crate) fn new(severity: DiagnosticSeverity, message: &str) -> Said {
        Said::with(severity, message, None, &[])
    }

    pub(crate) fn with(
        severity: DiagnosticSeverity,
        message: &str,
        code: Option<&str>,
        related_information: &[DiagnosticRelatedInformation],
    ) -> Said {
        Said(json(&Words { severity, code, source: "untaught", message, related_information }))
    }
}

/// Diagnostics in their order: a JSON array at any time.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct List(String);

impl List {
    pub(crate) fn new() -> List {
        List("[]".to_owned())
    }

    /// Adds one. Cost: its text is copied.
    pub(crate) fn push(&mut self, range: Range, said: &Said) {
        let out = &mut self.0;
        out.pop();
        out.push_str(if out.len() == 1 { "{\"range\":{\"start\":" } else { ",{\"range\":{\"start\":" });
        place(out, range.start);
        out.push_str(",\"end\":");
        place(out, range.end);
        out.push_str("},");
        // Without its opening brace: the range is inside.
        out.push_str(&said.0[1..]);
        out.push(']');
    }

    pub(crate) fn json(&self) -> &str {
        &self.0
    }

    /// The same for the same diagnostics.
    pub(crate) fn fingerprint(&self) -> String {
        let mut state = DefaultHasher::new();
        state.write(self.0.as_bytes());
        format!("{:016x}", state.finish())
    }
}

fn place(out: &mut String, place: Position) {
    out.push_str("{\"line\":");
    number(out, place.line);
    out.push_str(",\"character\":");
    number(out, place.character);
    out.push('}');
}

/// Writes a number. There are four to each diagnostic: the formatter of the standard library takes longer than all the rest.
fn number(out: &mut String, mut number: u32) {
    let mut digits = [b'0'; 10];
    let mut at = digits.len();
    loop {
        at -= 1;
        digits[at] += (number % 10) as u8;
        number /= 10;
        if number == 0 {
            break;
        }
    }
    digits[at..].iter().for_each(|digit| out.push(char::from(*digit)));
}

#[cfg(test)]
mod tests {
    use super::*;
    use lsp_types::{Diagnostic, NumberOrString};

    #[test]
    fn a_list_is_what_the_protocol_has_for_it() {
        let mut list = List::new();
        assert_eq!(list.json(), "[]");
        let numbers = [0, 7, 10, 199, 65_536, u32::MAX];
        let mut meant = Vec::new();
        for (count, line) in numbers.into_iter().enumerate() {
            let range = Range::new(Position::new(line, 0), Position::new(line, numbers[numbers.len() - 1 - count]));
            list.push(range, &Said::with(DiagnosticSeverity::HINT, "“a\"\\\n", Some("ea as in \u{1}eat"), &[]));
            meant.push(Diagnostic {
                range,
                severity: Some(DiagnosticSeverity::HINT),
                source: Some("untaught".to_owned()),
                message: "“a\"\\\n".to_owned(),
                code: Some(NumberOrString::String("ea as in \u{1}eat".to_owned())),
                ..Diagnostic::default()
            });
            assert_eq!(serde_json::from_str::<Vec<Diagnostic>>(list.json()).unwrap(), meant);
        }
        assert_ne!(list.fingerprint(), List::new().fingerprint());
    }
}
