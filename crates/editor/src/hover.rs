//! What is shown for the word under the pointer: how it is cut, its sounds, what is missing and when that is taught.

use std::fmt::Write as _;

use lsp_types::{Hover, HoverContents, MarkupContent, MarkupKind, Position};
use untaught::{Judge, LessonIndex, Need, Part, Reading, Scope, Status, Type, messages};

use crate::buffer::Buffer;
use crate::client::Client;
use crate::shared_files::READER;
use crate::story::CheckedStory;

/// The hover of a story at a place; none between words.
pub(crate) fn hover(buffer: &Buffer, story: &CheckedStory, client: &Client, at: Position) -> Option<Hover> {
    let (span, word) = story.word_at(buffer.lines.to_offset(at))?;
    let scope = &story.plan.scope.as_ref()?.scope;
    let lesson = story.plan.lesson;
    let judge = Judge::new(&READER, scope);
    let id = scope.id(lesson);
    let mut out = format!("**{}**: {}\n", word.verdict.word.text, standing(word, id));
    let other = word.verdict.other_reading(lesson);
    // A name that the children are told is not sounded out: its sounds would be a guess.
    let is_told = word.status == Status::Story && word.verdict.by_letters();
    if let Some(first) = word.verdict.word.readings.first().filter(|_| !is_told) {
        reading(&mut out, &judge, word, first);
    }
    if word.status == Status::Untaught {
        let needs = judge.needs(&word.verdict, lesson);
        let missing: Vec<String> = needs.iter().map(|need| messages::need_at(need, scope)).collect();
        if !missing.is_empty() {
            let _ = write!(out, "\nMissing: {}\n", missing.join(", "));
        }
        if let Some(first) = word.verdict.first_readable().and_then(|lesson| scope.lesson(lesson)) {
            let _ = write!(out, "\nIt can be read from lesson {}.\n", first.id);
        }
    }
    if let Some(other) = other {
        out += "\nAnother pronunciation, which cannot be sounded out yet:\n";
        reading(&mut out, &judge, word, other);
    }
    if let Some(origin) = word.verdict.word.origin.describe().filter(|_| !is_told) {
        let _ = write!(out, "\n{}.\n", capitalised(origin));
    }
    Some(content(client, out, Some(buffer.lines.range(&span))))
}

/// A hover in the kind of text that the client shows.
pub(crate) fn content(client: &Client, markdown: String, range: Option<lsp_types::Range>) -> Hover {
    let value = match client.hover {
        MarkupKind::Markdown => markdown,
        MarkupKind::PlainText => markdown.replace("**", "").replace('`', ""),
    };
    Hover { contents: HoverContents::Markup(MarkupContent { kind: client.hover.clone(), value }), range }
}

fn standing(word: &Type, lesson: &str) -> String {
    match word.status {
        Status::Decodable => format!("decodable at lesson {lesson}"),
        Status::Sight => format!("a sight word at lesson {lesson}"),
        Status::Story => "pre-taught".to_owned(),
        Status::Untaught => format!("untaught at lesson {lesson}"),
    }
}

/// `ch·o·p /tʃɒp/`, then a line for each part with its sound, its key word and its lesson.
fn reading(out: &mut String, judge: &Judge<'_>, word: &Type, reading: &Reading) {
    let explained = judge.explain_reading(&word.verdict, reading);
    let cut: Vec<&str> = reading.parts.iter().map(Part::spelling).collect();
    let _ = write!(out, "\n{} /{}/\n\n", cut.join("·"), explained.ipa);
    for (part, explained) in reading.parts.iter().zip(&explained.parts) {
        let key = part.id().map_or_else(String::new, |id| format!(" as in {}", id.get().key));
        let by = match &explained.need {
            Need::Chunk { .. } => format!(" by {}", explained.pattern),
            _ => String::new(),
        };
        let lesson = lesson(judge.scope(), explained.need.lesson());
        let _ = writeln!(out, "- `{}` /{}/{key}, {lesson}{by}", explained.spelling, explained.ipa);
    }
    for (skill, taught) in explained.demands.iter().filter(|(_, lesson)| lesson.is_some()) {
        let _ = writeln!(out, "- {}, {}", skill.label(), lesson(judge.scope(), *taught));
    }
}

fn capitalised(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

fn lesson(scope: &Scope, lesson: Option<LessonIndex>) -> String {
    lesson.map_or_else(|| "never taught".to_owned(), |lesson| format!("lesson {}", scope.id(lesson)))
}
