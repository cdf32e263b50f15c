//! What is shown beside the words of a story, in a teacher's words.

use std::ops::Range;

use lsp_types::{
    Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity, Location, NumberOrString, Position, Range as Lines,
    Uri,
};
use untaught::{Fault, Need, Status, say};

use crate::buffer::Buffer;
use crate::client::Client;
use crate::place;
use crate::positions::LineIndex;
use crate::shelf::Loaded;
use crate::story::Story;

/// Who says so.
const SOURCE: &str = "untaught";

/// The diagnostics of a checked story. Untaught words are warnings; a word that can be read by its letters alone, or in one reading
/// only, is a hint. Cost: grows with the number of such words.
pub(crate) fn story(buffer: &Buffer, story: &Story, client: &Client) -> Vec<Diagnostic> {
    let mut found: Vec<Diagnostic> = story
        .notes
        .iter()
        .map(|note| {
            let start = buffer.lines.offset_of(&buffer.text, note.at);
            let line = buffer.lines.to_position(start).line as usize;
            let severity = if note.mild { DiagnosticSeverity::INFORMATION } else { DiagnosticSeverity::ERROR };
            at(&buffer.lines, &(start..buffer.lines.line(line).end.max(start)), severity, note.message.clone())
        })
        .collect();
    let (Some(report), Some(loaded)) = (&story.report, &story.plan.scope) else { return found };
    let scope = &loaded.scope;
    let uri = scope_uri(loaded, client);
    let mut of_type: Vec<Option<Diagnostic>> = report
        .distinct
        .iter()
        .zip(&story.finding_of)
        .map(|(word, finding)| {
            let empty = |severity, message| at(&buffer.lines, &(0..0), severity, message);
            if let Some(finding) = finding.map(|number| &report.findings[number]) {
                let mut made = empty(DiagnosticSeverity::WARNING, say::untaught(finding, scope, report.lesson));
                made.code = finding.needs.first().map(|need| NumberOrString::String(need.label.clone()));
                made.related_information = uri.as_ref().map(|uri| related(&finding.needs, loaded, uri));
                return Some(made);
            }
            let read = matches!(word.status, Status::Decodable);
            (read && word.verdict.by_letters())
                .then(|| empty(DiagnosticSeverity::HINT, say::by_letters(&word.verdict.word.text)))
        })
        .collect();
    for two in &report.two_readings {
        let mut made = at(&buffer.lines, &(0..0), DiagnosticSeverity::HINT, say::two_readings(two));
        made.code = Some(NumberOrString::String(two.patterns.1.clone()));
        of_type[two.type_number] = Some(made);
    }
    for (span, number) in &story.words {
        if let Some(of_type) = &of_type[*number] {
            found.push(Diagnostic { range: buffer.lines.range(span), ..of_type.clone() });
        }
    }
    found
}

fn at(lines: &LineIndex, span: &Range<usize>, severity: DiagnosticSeverity, message: String) -> Diagnostic {
    let (severity, source) = (Some(severity), Some(SOURCE.to_owned()));
    Diagnostic { range: lines.range(span), severity, source, message, ..Diagnostic::default() }
}

/// The URI of the scope's file, if the client shows related places.
fn scope_uri(loaded: &Loaded, client: &Client) -> Option<Uri> {
    let (path, _) = loaded.file.as_ref().filter(|_| client.related_information)?;
    place::uri(path)
}

/// Where the scope file teaches what is missing: the whole line, so that it is right in any encoding.
fn related(needs: &[Need], loaded: &Loaded, uri: &Uri) -> Vec<DiagnosticRelatedInformation> {
    let shown = needs.iter().filter_map(|need| {
        let lesson = loaded.scope.lesson(need.lesson?)?;
        let line = taught_at(loaded, need)?.line.saturating_sub(1) as u32;
        let range = Lines::new(Position::new(line, 0), Position::new(line + 1, 0));
        let message = format!("lesson {} teaches {}", lesson.id, need.label);
        Some(DiagnosticRelatedInformation { location: Location { uri: uri.clone(), range }, message })
    });
    shown.collect()
}

/// Where the scope file teaches what a word needs: the entry itself, or its lesson.
pub(crate) fn taught_at(loaded: &Loaded, need: &Need) -> Option<untaught::Position> {
    let (_, outline) = loaded.file.as_ref()?;
    let place = need.lesson?;
    let lesson = loaded.scope.lesson(place)?;
    let number = place.to_string();
    let spelling = need.label.split(" as in ").next().unwrap_or(&need.label);
    let pattern = lesson.patterns.iter().position(|pattern| pattern.label() == need.label);
    let pattern = pattern.or_else(|| lesson.patterns.iter().position(|pattern| pattern.label() == spelling));
    let skill = || lesson.skills.iter().position(|skill| skill.label() == need.label);
    let entry = pattern.map(|at| ("teach", at)).or_else(|| skill().map(|at| ("skills", at)));
    Some(match entry {
        Some((key, at)) => outline.position(&["lessons", &number, key, &at.to_string()]),
        None => outline.position(&["lessons", &number]),
    })
}

/// The faults of a scope file or settings file, each at its place: to the end of the entry that begins there.
pub(crate) fn faults(text: &str, lines: &LineIndex, faults: &[Fault]) -> Vec<Diagnostic> {
    let shown = faults.iter().map(|fault| {
        let start = lines.offset_of(text, fault.position);
        let line = lines.line(lines.to_position(start).line as usize);
        let rest = &text[start..line.end.max(start)];
        let entry = rest.find([',', ']', '}', '#']).unwrap_or(rest.len());
        let length =
            if entry == 0 { rest.chars().next().map_or(0, char::len_utf8) } else { rest[..entry].trim_end().len() };
        at(lines, &(start..start + length), DiagnosticSeverity::ERROR, fault.message.clone())
    });
    shown.collect()
}
