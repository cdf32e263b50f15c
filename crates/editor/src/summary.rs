//! The summary of a story at its top: how much of it is decodable and readable, and how often it practises its lesson.

use lsp_types::{CodeLens, Command, InlayHint, InlayHintLabel, InlayHintTooltip, Position, Range};
use serde_json::json;
use untaught::Report;

use crate::buffer::Buffer;
use crate::story::CheckedStory;
use crate::wire;

/// `lesson 12: 88.2 % decodable, 94.1 % readable, 3 focus words`; none for a story without words.
pub(crate) fn sentence(story: &CheckedStory) -> Option<String> {
    let report: &Report = story.report.as_ref()?;
    // Nothing is rounded up to 100.
    let shown = |percent: f64| if percent < 100.0 { format!("{:.1}", percent.min(99.9)) } else { "100".to_owned() };
    let s = if report.focus.tokens == 1 { "" } else { "s" };
    let focus = match report.focus.labels.is_empty() {
        true => String::new(),
        false => format!(", {} focus word{s}", report.focus.tokens),
    };
    Some(with_percentages(story, shown)? + &focus)
}

/// `lesson 12: 88 % decodable, 94 % readable`: short enough for editors that cut long hints, the smaller whole number each.
fn short(story: &CheckedStory) -> Option<String> {
    with_percentages(story, |percent| format!("{:.0}", percent.floor()))
}

fn with_percentages(story: &CheckedStory, shown: impl Fn(f64) -> String) -> Option<String> {
    let report = story.report.as_ref()?;
    let lesson = &story.plan.scope.as_ref()?.scope.lesson(report.lesson)?.id;
    let (decodable, readable) = (report.tokens.percent_decodable()?, report.tokens.percent_readable()?);
    Some(format!("lesson {lesson}: {} % decodable, {} % readable", shown(decodable), shown(readable)))
}

/// The summary as a hint at the end of the first line: short, and in full under the pointer.
pub(crate) fn hints(buffer: &Buffer, story: &CheckedStory) -> Vec<InlayHint> {
    let hint = |text| InlayHint {
        position: buffer.lines.to_position(buffer.lines.line(0).end),
        label: InlayHintLabel::String(text),
        kind: None,
        text_edits: None,
        tooltip: sentence(story).map(InlayHintTooltip::String),
        padding_left: Some(true),
        padding_right: None,
        data: None,
    };
    short(story).map(hint).into_iter().collect()
}

/// The message with a new summary, or that there is none any more, for clients that have it sent.
pub(crate) fn notification(uri: &str, summary: Option<&str>) -> String {
    wire::notification("untaught/summary", &json!({ "uri": uri, "summary": summary }))
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
