//! The summary of a story at its top: how much of it is decodable and readable, and how often it practises its lesson.

use lsp_types::{CodeLens, Command, InlayHint, InlayHintLabel, Position, Range};
use untaught::Report;

use crate::buffer::Buffer;
use crate::story::CheckedStory;

/// `lesson 12: 88.2 % decodable, 94.1 % readable, 3 focus words`; none for a story without words.
fn sentence(story: &CheckedStory) -> Option<String> {
    let report: &Report = story.report.as_ref()?;
    let lesson = &story.plan.scope.as_ref()?.scope.lesson(report.lesson)?.id;
    // Nothing is rounded up to 100.
    let shown = |percent: f64| if percent < 100.0 { format!("{:.1}", percent.min(99.9)) } else { "100".to_owned() };
    let (decodable, readable) = (report.tokens.percent_decodable()?, report.tokens.percent_readable()?);
    let s = if report.focus.tokens == 1 { "" } else { "s" };
    let focus = match report.focus.labels.is_empty() {
        true => String::new(),
        false => format!(", {} focus word{s}", report.focus.tokens),
    };
    Some(format!("lesson {lesson}: {} % decodable, {} % readable{focus}", shown(decodable), shown(readable)))
}

/// The summary as a hint at the end of the first line.
pub(crate) fn hints(buffer: &Buffer, story: &CheckedStory) -> Vec<InlayHint> {
    let hint = |text| InlayHint {
        position: buffer.lines.to_position(buffer.lines.line(0).end),
        label: InlayHintLabel::String(text),
        kind: None,
        text_edits: None,
        tooltip: None,
        padding_left: Some(true),
        padding_right: None,
        data: None,
    };
    sentence(story).map(hint).into_iter().collect()
}

/// The summary as a lens above the first line. Its command does nothing: a lens must have one to be shown.
pub(crate) fn lenses(story: &CheckedStory) -> Vec<CodeLens> {
    let lens = |title| CodeLens {
        range: Range::new(Position::new(0, 0), Position::new(0, 0)),
        command: Some(Command { title, command: String::new(), arguments: None }),
        data: None,
    };
    sentence(story).map(lens).into_iter().collect()
}
