//! What is shown beside the words of a story, in a teacher's words.

use std::rc::Rc;

use lsp_types::{DiagnosticRelatedInformation, DiagnosticSeverity, Location, Position, Range, Uri};
use untaught::yaml::first;
use untaught::{Fault, Finding, Need, Report, Status, messages};

use crate::buffer::Buffer;
use crate::client::{Client, SummaryPlace};
use crate::diagnostic_list::{DiagnosticList, DiagnosticText};
use crate::positions::LineIndex;
use crate::shared_files::LoadedScope;
use crate::story::CheckedStory;
use crate::{summary, uri};

/// The diagnostics of a checked story: first its summary, where the client shows it no other way. Untaught words are warnings; a word that can be read by its letters alone, or in one reading
/// only, is a hint. Cost: grows with the number of such words.
pub(crate) fn story(buffer: &Buffer, story: &CheckedStory, client: &Client, list: &mut DiagnosticList) {
    for note in &story.notes {
        let start = buffer.lines.offset_of(&buffer.text, note.at);
        let line = buffer.lines.to_position(start).line as usize;
        let severity = if note.mild { DiagnosticSeverity::INFORMATION } else { DiagnosticSeverity::ERROR };
        let end = buffer.lines.line(line).end.max(start);
        list.push(buffer.lines.range(&(start..end)), &DiagnosticText::new(severity, &note.message));
    }
    let (Some(report), Some(loaded)) = (&story.report, &story.plan.scope) else { return };
    if client.summary == SummaryPlace::Diagnostic
        && let Some(summary) = summary::sentence(story)
    {
        let end = buffer.lines.line(0).end;
        list.push(buffer.lines.range(&(end..end)), &DiagnosticText::new(DiagnosticSeverity::INFORMATION, &summary));
    }
    let texts = of_types(story, report, loaded, client);
    list.expect(story.words.iter().filter_map(|(_, number)| texts[*number].as_deref()));
    for (span, number) in &story.words {
        if let Some(text) = &texts[*number] {
            list.push(buffer.lines.range(span), text);
        }
    }
}

/// The diagnostic of each distinct word, if it has one.
fn of_types(
    story: &CheckedStory,
    report: &Report,
    loaded: &LoadedScope,
    client: &Client,
) -> Vec<Option<Rc<DiagnosticText>>> {
    let scope = &loaded.scope;
    let scope_uri = scope_uri(loaded, client);
    let untaught = |finding: &Finding| {
        let code = finding.needs.first().map(|need| messages::need(need, scope));
        let related = scope_uri.as_ref().map(|uri| related(&finding.needs, loaded, uri)).unwrap_or_default();
        DiagnosticText::with(
            DiagnosticSeverity::WARNING,
            &messages::untaught(finding, scope, report.lesson),
            code.as_deref(),
            &related,
        )
    };
    let mut diagnostics = loaded.diagnostics.borrow_mut();
    let of_type = report.distinct.iter().zip(&story.finding_of).map(|(word, finding)| {
        if let Some(finding) = finding.map(|number| &report.findings[number]) {
            return Some(diagnostics.of(finding, report.lesson, || untaught(finding)));
        }
        let guessed = word.status == Status::Decodable && word.verdict.by_letters();
        guessed.then(|| {
            DiagnosticText::new(DiagnosticSeverity::HINT, &messages::by_letters(&word.verdict.word.text)).into()
        })
    });
    let mut of_type: Vec<Option<Rc<DiagnosticText>>> = of_type.collect();
    for two in &report.two_readings {
        let text = DiagnosticText::with(
            DiagnosticSeverity::HINT,
            &messages::two_readings(two, scope),
            Some(&two.differ_in(scope)[1]),
            &[],
        );
        of_type[two.type_number] = Some(text.into());
    }
    of_type
}

/// The URI of the scope's file, if the client shows related places.
fn scope_uri(loaded: &LoadedScope, client: &Client) -> Option<Uri> {
    let (path, _) = loaded.file.as_ref().filter(|_| client.related_information)?;
    uri::from_path(path)
}

/// Where the scope file teaches what is missing: the whole line, so that it is right in any encoding.
fn related(needs: &[Need], loaded: &LoadedScope, uri: &Uri) -> Vec<DiagnosticRelatedInformation> {
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
pub(crate) fn taught_at(loaded: &LoadedScope, need: &Need) -> Option<untaught::Position> {
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
pub(crate) fn faults(text: &str, lines: &LineIndex, faults: &[Fault], list: &mut DiagnosticList) {
    for fault in &first(faults, FAULTS) {
        let start = lines.offset_of(text, fault.position);
        let line = lines.line(lines.to_position(start).line as usize);
        let rest = &text[start..line.end.max(start)];
        let entry = rest.find([',', ']', '}', '#']).unwrap_or(rest.len());
        let length =
            if entry == 0 { rest.chars().next().map_or(0, char::len_utf8) } else { rest[..entry].trim_end().len() };
        list.push(
            lines.range(&(start..start + length)),
            &DiagnosticText::new(DiagnosticSeverity::ERROR, &fault.message),
        );
    }
}
