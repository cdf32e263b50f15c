//! What is shown for the word under the pointer: how it is cut, its sounds, what is missing and when that is taught.

use std::fmt::Write as _;

use lsp_types::{Hover, HoverContents, MarkupContent, MarkupKind, Position};
use untaught::{Judge, Origin, Part, Reading, Scope, Status, Type, say};

use crate::buffer::Buffer;
use crate::client::Client;
use crate::shelf::READER;
use crate::story::Story;

/// The hover of a story at a place; none between words.
pub(crate) fn hover(buffer: &Buffer, story: &Story, client: &Client, at: Position) -> Option<Hover> {
    let (span, word) = story.word_at(buffer.lines.to_offset(at))?;
    let scope = &story.plan.scope.as_ref()?.scope;
    let lesson = story.plan.lesson;
    let judge = Judge { reader: &READER, scope };
    let id = scope.lesson(lesson).map_or("", |lesson| lesson.id.as_str());
    let mut out = format!("**{}**: {}\n", word.verdict.word.text, standing(word, id));
    let other = word.verdict.other_reading(lesson);
    if let Some(first) = word.verdict.word.readings.first() {
        reading(&mut out, &judge, word, first);
    }
    if word.status == Status::Untaught {
        let needs = judge.needs(&word.verdict, lesson);
        let missing: Vec<String> = needs.iter().map(|need| say::need(need, scope)).collect();
        if !missing.is_empty() {
            let _ = write!(out, "\nMissing: {}\n", missing.join(", "));
        }
        if let Some(first) = word.verdict.first_readable().and_then(|place| scope.lesson(place)) {
            let _ = write!(out, "\nIt can be read from lesson {}.\n", first.id);
        }
    }
    if let Some(other) = other {
        out += "\nAnother reading, which cannot be sounded out yet:\n";
        reading(&mut out, &judge, word, other);
    }
    out += match word.verdict.word.origin {
        Origin::Dictionary => "",
        Origin::Derived => "\nMade of words of the dictionary.\n",
        Origin::Letters => "\nNot in the dictionary: read by its letters.\n",
    };
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
        Status::Story => "told to the child beforehand".to_owned(),
        Status::Untaught => format!("untaught at lesson {lesson}"),
    }
}

/// `ch·o·p /tʃɒp/`, then a line for each part with its sound, its key word and its lesson.
fn reading(out: &mut String, judge: &Judge<'_>, word: &Type, reading: &Reading) {
    let cut: Vec<&str> = reading.parts.iter().map(Part::spelling).collect();
    let _ = write!(out, "\n{} /{}/\n\n", cut.join("·"), reading.ipa());
    let cover = judge.cover(&word.verdict.word, reading);
    let mut parts = reading.parts.iter();
    for step in &cover.steps {
        let lesson = lesson(judge.scope, step.lesson);
        for part in parts.by_ref().take(step.parts) {
            let sound = Reading { parts: vec![part.clone()], stressed: None }.ipa();
            let key = part.id().map_or_else(String::new, |id| format!(" as in {}", id.get().key));
            let by = if step.parts > 1 { format!(" by {}", step.label) } else { String::new() };
            let _ = writeln!(out, "- `{}` /{sound}/{key}, {lesson}{by}", part.spelling());
        }
    }
    for (skill, place) in &cover.skills {
        let _ = writeln!(out, "- {}, {}", skill.label(), lesson(judge.scope, *place));
    }
}

fn lesson(scope: &Scope, place: untaught::Place) -> String {
    scope.lesson(place).map_or_else(|| "never taught".to_owned(), |lesson| format!("lesson {}", lesson.id))
}
