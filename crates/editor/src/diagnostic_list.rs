//! Diagnostics as the JSON text that the client gets.

use lsp_types::{DiagnosticRelatedInformation, DiagnosticSeverity, Position, Range};
use serde::Serialize;

use crate::wire::json;

/// A diagnostic without its range.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct DiagnosticFields<'a> {
    severity: DiagnosticSeverity,
    #[serde(skip_serializing_if = "Option::is_none")]
    code: Option<&'a str>,
    source: &'static str,
    message: &'a str,
    #[serde(skip_serializing_if = "<[_]>::is_empty")]
    related_information: &'a [DiagnosticRelatedInformation],
}

/// A diagnostic without its range, as JSON: written once, however often it appears.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct DiagnosticText(String);

impl DiagnosticText {
    pub(crate) fn new(severity: DiagnosticSeverity, message: &str) -> DiagnosticText {
        DiagnosticText::with(severity, message, None, &[])
    }

    pub(crate) fn with(
        severity: DiagnosticSeverity,
        message: &str,
        code: Option<&str>,
        related_information: &[DiagnosticRelatedInformation],
    ) -> DiagnosticText {
        DiagnosticText(json(&DiagnosticFields { severity, code, source: "untaught", message, related_information }))
    }
}

/// Diagnostics in their order, being written into the message that they are for: a JSON array.
#[derive(Debug)]
pub(crate) struct DiagnosticList {
    out: String,
    /// Where the first begins.
    start: usize,
}

impl DiagnosticList {
    /// A list that stands after the head of a message.
    pub(crate) fn after(head: String) -> DiagnosticList {
        let out = head + "[";
        DiagnosticList { start: out.len(), out }
    }

    /// Makes room for as many, so that the text is not moved while it grows.
    pub(crate) fn expect<'s>(&mut self, all: impl Iterator<Item = &'s DiagnosticText>) {
        self.out.reserve(all.map(|text| text.0.len() + RANGE).sum());
    }

    /// Adds one. Cost: its text is copied.
    pub(crate) fn push(&mut self, range: Range, text: &DiagnosticText) {
        let out = &mut self.out;
        out.push_str(if out.len() == self.start { "{\"range\":{\"start\":" } else { ",{\"range\":{\"start\":" });
        position(out, range.start);
        out.push_str(",\"end\":");
        position(out, range.end);
        out.push_str("},");
        // Without its opening brace: the range is inside.
        out.push_str(&text.0[1..]);
    }

    /// The message, with what follows the list.
    pub(crate) fn end(self, tail: &str) -> String {
        self.out + "]" + tail
    }
}

/// The longest range, in bytes.
const RANGE: usize = 110;

fn position(out: &mut String, position: Position) {
    out.push_str("{\"line\":");
    number(out, position.line);
    out.push_str(",\"character\":");
    number(out, position.character);
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
    out.push_str(std::str::from_utf8(&digits[at..]).unwrap_or_default());
}

#[cfg(test)]
mod tests {
    use super::*;
    use lsp_types::{Diagnostic, NumberOrString};

    #[test]
    fn a_list_is_what_the_protocol_has_for_it() {
        let list = || DiagnosticList::after("{\"items\":".to_owned());
        assert_eq!(list().end("}"), "{\"items\":[]}");
        let mut said = list();
        let numbers = [0, 7, 10, 199, 65_536, u32::MAX];
        let mut meant = Vec::new();
        for (count, line) in numbers.into_iter().enumerate() {
            let range = Range::new(Position::new(line, 0), Position::new(line, numbers[numbers.len() - 1 - count]));
            said.push(
                range,
                &DiagnosticText::with(DiagnosticSeverity::HINT, "“a\"\\\n", Some("ea as in \u{1}eat"), &[]),
            );
            meant.push(Diagnostic {
                range,
                severity: Some(DiagnosticSeverity::HINT),
                source: Some("untaught".to_owned()),
                message: "“a\"\\\n".to_owned(),
                code: Some(NumberOrString::String("ea as in \u{1}eat".to_owned())),
                ..Diagnostic::default()
            });
        }
        let said: serde_json::Value = serde_json::from_str(&said.end("}")).unwrap();
        assert_eq!(serde_json::from_value::<Vec<Diagnostic>>(said["items"].clone()).unwrap(), meant);
    }
}
