//! What is shown beside the words of a story, in a teacher's words.

use std::collections::HashMap;
use std::rc::Rc;

use lsp_types::{DiagnosticRelatedInformation, DiagnosticSeverity, Location, Position, Range, Uri};
use untaught::yaml::first;
use untaught::{Fault, Finding, LessonIndex, Need, Report, Status, messages};

use crate::buffer::Buffer;
use crate::client::Client;
use crate::list::{List, Said};
use crate::place;
use crate::positions::LineIndex;
use crate::shelf::Loaded;
use crate::story::{REMEMBERED, Story};

/// The diagnostics of a checked story. Untaught words are warnings; a word that can be read by its letters alone, or in one reading
/// only, is a hint. Cost: grows with the number of such words.
pub(crate) fn story(buffer: &Buffer, story: &Story, client: &Client, list: &mut List) {
    for note in &story.notes {
        let start = buffer.lines.offset_of(&buffer.text, note.at);
        let line = buffer.lines.to_position(start).line as usize;
        let severity = if note.mild { DiagnosticSeverity::INFORMATION } else { DiagnosticSeverity::ERROR };
        let end = buffer.lines.line(line).end.max(start);
        list.push(buffer.lines.range(&(start..end)), &Said::new(severity, &note.message));
    }
    let (Some(report), Some(loaded)) = (&story.report, &story.plan.scope) else { return };
    let said = of_types(story, report, loaded, client);
    list.expect(story.words.iter().filter_map(|(_, number)| said[*number].as_deref()));
    for (span, number) in &story.words {
        if let Some(said) = &said[*number] {
            list.push(buffer.lines.range(span), said);
        }
    }
}

/// What is said of untaught words at one lesson of a scope: most of them were there before the last keystroke.
#[derive(Debug, Default)]
pub(crate) struct Sayings {
    lesson: LessonIndex,
    /// By word; first of those that do not look like names.
    known: [HashMap<Box<str>, Rc<Said>>; 2],
}

impl Sayings {
    fn of(&mut self, finding: &Finding, lesson: LessonIndex, make: impl FnOnce() -> Said) -> Rc<Said> {
        if self.lesson != lesson {
            *self = Sayings { lesson, ..Sayings::default() };
        }
        let known = &mut self.known[usize::from(finding.likely_name)];
        if let Some(said) = known.get(finding.word()) {
            return Rc::clone(said);
        }
        // Each beginning of a word that is typed is spoken of.
        if known.len() >= REMEMBERED {
            known.clear();
        }
        let said = Rc::new(make());
        known.insert(finding.word().into(), Rc::clone(&said));
        said
    }
}

/// What is said of each different word.
fn of_types(story: &Story, report: &Report, loaded: &Loaded, client: &Client) -> Vec<Option<Rc<Said>>> {
    let scope = &loaded.scope;
    let uri = scope_uri(loaded, client);
    let untaught = |finding: &Finding| {
        let code = finding.needs.first().map(|need| messages::need(need, scope));
        let related = uri.as_ref().map(|uri| related(&finding.needs, loaded, uri)).unwrap_or_default();
        Said::with(
            DiagnosticSeverity::WARNING,
            &messages::untaught(finding, scope, report.lesson),
            code.as_deref(),
            &related,
        )
    };
    let mut sayings = loaded.sayings.borrow_mut();
    let of_type = report.distinct.iter().zip(&story.finding_of).map(|(word, finding)| {
        if let Some(finding) = finding.map(|number| &report.findings[number]) {
            return Some(sayings.of(finding, report.lesson, || untaught(finding)));
        }
        let guessed = word.status == Status::Decodable && word.verdict.by_letters();
        guessed.then(|| Said::new(DiagnosticSeverity::HINT, &messages::by_letters(&word.verdict.word.text)).into())
    });
    let mut of_type: Vec<Option<Rc<Said>>> = of_type.collect();
    for two in &report.two_readings {
        let said = Said::with(
            DiagnosticSeverity::HINT,
            &messages::two_readings(two, scope),
            Some(&two.differ_in(scope)[1]),
            &[],
        );
        of_type[two.type_number] = Some(said.into());
    }
    of_type
}

/// The URI of the scope's file, if the client shows related places.
fn scope_uri(loaded: &Loaded, client: &Client) -> Option<Uri> {
    let (path, _) = loaded.file.as_ref().filter(|_| client.related_information)?;
    place::uri(path)
}

/// Where the scope file teaches what is missing: the whole line, so that it is right in any encoding.
fn related(needs: &[Need], loaded: &Loaded, uri: &Uri) -> Vec<DiagnosticRelatedInformation> {
    let shown = needs.iter().filter_map(|need| {
        let lesson = loaded.scope.lesson(need.lesson()?)?;
        let line = taught_at(loaded, need)?.line.saturating_sub(1) as u32;
        let range = Range::new(Position::new(line, 0), Position::new(line + 1, 0));
        let message = format!("lesson {} teaches {}", lesson.id, messages::need(need, &loaded.scope));
        Some(DiagnosticRelatedInformation { location: Location { uri: uri.clone(), range }, message })
    });
    shown.collect()
}

/// Where the scope file teaches what a word needs: the entry itself, or its lesson.
pub(crate) fn taught_at(loaded: &Loaded, need: &Need) -> Option<untaught::Position> {
    let (_, outline) = loaded.file.as_ref()?;
    let number = need.lesson()?.get().to_string();
    Some(match loaded.scope.entry_of(need) {
        Some((key, at)) => outline.position(&["lessons", &number, key, &at.to_string()]),
        None => outline.position(&["lessons", &number]),
    })
}

/// Faults of a file that are shown; the others are counted.
const FAULTS: usize = 100;

/// The faults of a scope file or settings file, each at its place: to the end of the entry that begins there.
pub(crate) fn faults(text: &str, lines: &LineIndex, faults: &[Fault], list: &mut List) {
    for fault in &first(faults, FAULTS) {
        let start = lines.offset_of(text, fault.position);
        let line = lines.line(lines.to_position(start).line as usize);
        let rest = &text[start..line.end.max(start)];
        let entry = rest.find([',', ']', '}', '#']).unwrap_or(rest.len());
        let length =
            if entry == 0 { rest.chars().next().map_or(0, char::len_utf8) } else { rest[..entry].trim_end().len() };
        list.push(lines.range(&(start..start + length)), &Said::new(DiagnosticSeverity::ERROR, &fault.message));
    }
}
