//! What can be done about an untaught word: another word, a declaration, a later lesson.

use std::collections::HashMap;
use std::ops::Range;

use lsp_types::{
    CodeAction, CodeActionKind, CodeActionParams, DocumentChanges, OneOf, OptionalVersionedTextDocumentIdentifier,
    TextDocumentEdit, TextEdit, WorkspaceEdit,
};
use untaught::{Judge, MendingStep, Remedy, Status, mending_plan};
use untaught_lists::{Around, swaps};

use crate::buffer::Buffer;
use crate::client::Client;
use crate::front::{self, DeclaredList, TextChange};
use crate::shared_files::READER;
use crate::story::CheckedStory;

/// Words whose actions are offered at once: more cannot be told apart in a menu.
const WORDS: usize = 4;

/// Words that the title of an action names.
const NAMED: usize = 4;

/// The actions for the untaught words in a range.
pub(crate) fn actions(
    buffer: &Buffer,
    story: &CheckedStory,
    client: &Client,
    params: &CodeActionParams,
) -> Vec<CodeAction> {
    let wanted = |kind: &CodeActionKind| kind.as_str().is_empty() || *kind == CodeActionKind::QUICKFIX;
    if params.context.only.as_ref().is_some_and(|only| !only.iter().any(wanted)) {
        return Vec::new();
    }
    let (start, end) = (buffer.lines.to_offset(params.range.start), buffer.lines.to_offset(params.range.end));
    let touched = story.words.iter().filter(|(span, _)| span.start <= end.max(start) && span.end >= start.min(end));
    let untaught = touched.filter(|(_, number)| story.finding_of.get(*number).is_some_and(Option::is_some));
    let mut made: Vec<CodeAction> =
        untaught.take(WORDS).flat_map(|(span, number)| for_word(buffer, story, client, span, *number)).collect();
    if !made.is_empty() {
        made.extend(for_story(buffer, story, client));
    }
    made
}

/// What can be done about all untaught words at once.
fn for_story(buffer: &Buffer, story: &CheckedStory, client: &Client) -> Vec<CodeAction> {
    let (Some(loaded), Some(report)) = (&story.plan.scope, &story.report) else { return Vec::new() };
    let Some(plan) = mending_plan(report, &loaded.scope, 100.0) else { return Vec::new() };
    let declared = |step: &MendingStep| match report.findings[step.finding].places.first() {
        Some(place) if step.remedy == Remedy::Name => {
            (DeclaredList::Names, bare(&buffer.text[place.clone()]).to_owned())
        }
        _ => (DeclaredList::StoryWords, step.word.clone()),
    };
    let all: Vec<(DeclaredList, String)> = plan.steps.iter().map(declared).collect();
    let names: Vec<(DeclaredList, String)> =
        all.iter().filter(|(list, _)| *list == DeclaredList::Names).cloned().collect();
    let mut made = Vec::new();
    let mut offer = |words: &[(DeclaredList, String)], title: String| {
        let change = front::add_all(&buffer.text, words).filter(|_| words.len() > 1);
        made.extend(change.map(|change| action(buffer, client, title, vec![change])));
    };
    let listed = |words: &[(DeclaredList, String)]| {
        let mut shown: Vec<&str> = words.iter().take(NAMED).map(|(_, word)| word.as_str()).collect();
        if shown.len() < words.len() {
            shown.push("…");
        }
        shown.join(", ")
    };
    if names.len() < all.len() {
        offer(&names, format!("Pre-teach all {} names: {}", names.len(), listed(&names)));
    }
    offer(&all, format!("Pre-teach all {} untaught words: {}", all.len(), listed(&all)));
    made
}

fn for_word(
    buffer: &Buffer,
    story: &CheckedStory,
    client: &Client,
    span: &Range<usize>,
    number: usize,
) -> Vec<CodeAction> {
    let (Some(loaded), Some(report)) = (&story.plan.scope, &story.report) else { return Vec::new() };
    let Some(word) = report.distinct.get(number).filter(|word| word.status == Status::Untaught) else {
        return Vec::new();
    };
    let scope = &loaded.scope;
    let judge = Judge::new(&READER, scope);
    let text = &buffer.text;
    let written = &text[span.clone()];
    let name = story.finding_of[number].is_some_and(|finding| report.findings[finding].likely_name);
    let mut made: Vec<(String, Vec<TextChange>)> = Vec::new();
    // A word that is marked up inside is left to the writer, and a name is no word to swap.
    let plain = !written.contains(|c: char| !c.is_alphabetic() && !matches!(c, '\'' | '\u{2019}'));
    if plain && !name {
        let found = swaps(written, Around::of(text, span), &judge, story.plan.lesson);
        let of_the_kind = found.of_the_kind.iter().map(|swap| ("Change", "to", swap));
        for (verb, to, swap) in found.same.iter().map(|swap| ("Replace", "with", swap)).chain(of_the_kind) {
            let article = swap.article.and_then(|article| before(text, span, article));
            let changes = article.into_iter().chain([TextChange { span: span.clone(), text: swap.text.clone() }]);
            let sense = if swap.sense.is_empty() { String::new() } else { format!(" ({})", swap.sense) };
            made.push((format!("{verb} “{written}” {to} “{}”{sense}", swap.with_article()), changes.collect()));
        }
        for made_here in &found.rewordings {
            let wide = span.start - made_here.before..span.end + made_here.after;
            let old = made_here.old.split_whitespace().collect::<Vec<_>>().join(" ");
            made.push(match made_here.new.as_str() {
                "" => {
                    (format!("Leave out “{old}”"), vec![TextChange { span: spaced(text, &wide), text: String::new() }])
                }
                new => (format!("Replace “{old}” with “{new}”"), vec![TextChange { span: wide, text: new.to_owned() }]),
            });
        }
        if found.leave_out {
            let article = found.article_without.and_then(|article| before(text, span, article));
            let changes = article.into_iter().chain([TextChange { span: spaced(text, span), text: String::new() }]);
            made.push((format!("Leave out “{written}”"), changes.collect()));
        }
    }
    let told = bare(written);
    let lists = [(DeclaredList::Names, "Pre-teach the name"), (DeclaredList::StoryWords, "Pre-teach the word")];
    for (list, title) in lists {
        let told = if list == DeclaredList::Names { told.to_owned() } else { told.to_lowercase() };
        if list == DeclaredList::Names && !told.starts_with(char::is_uppercase) {
            continue;
        }
        let change = front::add(text, list, &told).and_then(|change| front::framed_for(text, change));
        made.extend(change.map(|change| (format!("{title} “{told}”"), vec![change])));
    }
    let later = word.verdict.first_readable().and_then(|lesson| scope.lesson(lesson));
    if let Some(later) = later {
        let change = front::lesson(text, &later.id).and_then(|change| front::framed_for(text, change));
        made.extend(change.map(|change| {
            (format!("Move this story to lesson {}, where “{written}” can be read", later.id), vec![change])
        }));
    }
    made.into_iter().map(|(title, changes)| action(buffer, client, title, changes)).collect()
}

/// A word without what marks an owner.
fn bare(written: &str) -> &str {
    written.strip_suffix("'s").or_else(|| written.strip_suffix("\u{2019}s")).unwrap_or(written)
}

/// A word with the space after it or, before a mark, the one before it.
fn spaced(text: &str, span: &Range<usize>) -> Range<usize> {
    match (text[span.end..].starts_with(' '), text[..span.start].ends_with(' ')) {
        (true, _) => span.start..span.end + 1,
        (false, true) => span.start - 1..span.end,
        (false, false) => span.clone(),
    }
}

/// The article before a word becomes another: *an enormous* becomes *a big*.
fn before(text: &str, span: &Range<usize>, article: &str) -> Option<TextChange> {
    let written = text[..span.start].trim_end();
    let start = written.rfind(|c: char| !c.is_alphabetic());
    let start = start.map_or(0, |at| at + written[at..].chars().next().map_or(1, char::len_utf8));
    Some(TextChange { span: start..written.len(), text: article.to_owned() }).filter(|change| !change.span.is_empty())
}

fn action(buffer: &Buffer, client: &Client, title: String, changes: Vec<TextChange>) -> CodeAction {
    let edits: Vec<TextEdit> =
        changes.into_iter().map(|change| TextEdit::new(buffer.lines.range(&change.span), change.text)).collect();
    let edit = if client.versioned_edits {
        let text_document =
            OptionalVersionedTextDocumentIdentifier { uri: buffer.uri.clone(), version: Some(buffer.version) };
        let edits = edits.into_iter().map(OneOf::Left).collect();
        let changes = DocumentChanges::Edits(vec![TextDocumentEdit { text_document, edits }]);
        WorkspaceEdit { document_changes: Some(changes), ..WorkspaceEdit::default() }
    } else {
        #[expect(clippy::mutable_key_type, reason = "the type of the protocol")]
        let changes = HashMap::from([(buffer.uri.clone(), edits)]);
        WorkspaceEdit { changes: Some(changes), ..WorkspaceEdit::default() }
    };
    CodeAction { title, kind: Some(CodeActionKind::QUICKFIX), edit: Some(edit), ..CodeAction::default() }
}
