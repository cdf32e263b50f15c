//! Help in scope files: completions of patterns and skills, and example words of the pattern under the pointer.

use std::collections::BTreeSet;

use lsp_types::{CompletionItem, CompletionItemKind, CompletionTextEdit, Hover, Position, TextEdit};
use untaught::{Accent, Focus, Judge, Pattern, Scope, Skill};
use untaught_phonics::{CORRESPONDENCES, Grade, spelled_in};

use crate::buffer::Buffer;
use crate::client::Client;
use crate::entry::{EntryKind, ScopeEntry, entry};
use crate::hover::content;
use crate::shared_files::READER;

/// Size class of the words that serve as examples: the commonest.
const COMMON: u8 = 10;
/// Example words shown at most.
const EXAMPLES: usize = 12;
/// Key words offered at most for one spelling.
const KEYS: usize = 40;

/// What may stand at a place of a scope file.
pub(crate) fn complete(buffer: &Buffer, at: Position) -> Vec<CompletionItem> {
    let (offset, accent) = (buffer.lines.to_offset(at), accent_of(&buffer.text));
    let entry = entry(&buffer.text, offset);
    let written = &buffer.text[entry.span.start..offset.clamp(entry.span.start, entry.span.end)];
    let item = |label: &str, detail: String, kind| {
        let text = TextEdit::new(buffer.lines.range(&entry.span), in_yaml(label, &entry));
        CompletionItem {
            label: label.to_owned(),
            kind: Some(kind),
            detail: Some(detail),
            filter_text: Some(label.to_owned()),
            text_edit: Some(CompletionTextEdit::Edit(text)),
            ..CompletionItem::default()
        }
    };
    match entry.kind {
        EntryKind::Pattern => match written.split_once(" as in") {
            Some((spelling, _)) => {
                let keys = keys(spelling.trim(), accent);
                keys.into_iter().map(|(label, sound)| item(&label, sound, CompletionItemKind::VALUE)).collect()
            }
            None => spellings(accent)
                .into_iter()
                .map(|(label, sounds)| item(&label, sounds, CompletionItemKind::VALUE))
                .collect(),
        },
        EntryKind::Skill => {
            let all = Skill::ALL.into_iter();
            all.map(|skill| item(skill.name(), skill.label().to_owned(), CompletionItemKind::ENUM_MEMBER)).collect()
        }
        EntryKind::Key => {
            let keys = [
                ("id", "the lesson's id; by default, its number in the list"),
                ("title", "the lesson's title"),
                ("teach", "the patterns it teaches"),
                ("sight", "sight words, taught as wholes"),
                ("skills", "skills that words may need from here on"),
                ("review", "earlier patterns to practise again"),
            ];
            keys.into_iter().map(|(key, about)| item(key, about.to_owned(), CompletionItemKind::PROPERTY)).collect()
        }
        EntryKind::Other => Vec::new(),
    }
}

/// The accent that a scope file names, even one that cannot be used yet.
fn accent_of(text: &str) -> Accent {
    let named = text.lines().find_map(|line| line.strip_prefix("accent:"));
    named.and_then(|name| Accent::named(name.trim().trim_matches(['"', '\'']))).unwrap_or_default()
}

/// Every spelling of the catalogue with its everyday sounds; of one without, each of its sounds by its key word.
fn spellings(accent: Accent) -> Vec<(String, String)> {
    let all: BTreeSet<&str> = CORRESPONDENCES
        .iter()
        .filter(|part| part.is_in(accent) && part.grade != Grade::Odd)
        .map(|part| part.spelling)
        .collect();
    let mut found = Vec::new();
    for spelling in all {
        let sounds = |everyday: bool| -> Vec<String> {
            let fits = spelled_in(spelling, accent).filter(|id| (id.get().grade == Grade::Everyday) == everyday);
            fits.map(|id| format!("/{}/ as in {}", id.get().sound.get().ipa(accent), id.get().key)).collect()
        };
        let everyday = sounds(true);
        if !everyday.is_empty() {
            found.push((spelling.to_owned(), everyday.join(", ")));
        }
        for id in spelled_in(spelling, accent).filter(|id| everyday.is_empty() || id.get().grade == Grade::Common) {
            found.push((
                format!("{spelling} as in {}", id.get().key),
                format!("/{}/", id.get().sound.get().ipa(accent)),
            ));
        }
    }
    found
}

/// `ea as in bread`: a spelling with the key words that show one of its sounds each, the catalogue's first.
fn keys(spelling: &str, accent: Accent) -> Vec<(String, String)> {
    let label = |key: &str| format!("{spelling} as in {key}");
    let catalogue =
        spelled_in(spelling, accent).map(|id| (label(id.get().key), format!("/{}/", id.get().sound.get().ipa(accent))));
    let mut found: Vec<(String, String)> = catalogue.collect();
    let letters = spelling.trim_matches('-').replace("_e", "");
    for (word, _) in READER.common(COMMON).filter(|(word, _)| word.contains(&letters)) {
        let label = label(word);
        if found.len() >= KEYS {
            break;
        }
        let Ok(pattern) = Pattern::parse(&label, READER.in_accent(accent)) else { continue };
        let sound = match &pattern {
            Pattern::One(id, _) => format!("/{}/", id.get().sound.get().ipa(accent)),
            _ => "a chunk".to_owned(),
        };
        if !found.iter().any(|(known, _)| *known == label) {
            found.push((label, sound));
        }
    }
    found
}

/// An entry as YAML takes it for text: `n` and `y` mean no and yes to some readers.
fn in_yaml(label: &str, entry: &ScopeEntry) -> String {
    let risky =
        matches!(label, "n" | "y" | "no" | "on" | "yes" | "off") || label.starts_with('-') || label.contains('\'');
    if entry.quote.is_none() && risky { format!("\"{label}\"") } else { label.to_owned() }
}

/// Example words of the pattern, or what the skill means, at a place of a scope file.
pub(crate) fn hover(buffer: &Buffer, client: &Client, at: Position) -> Option<Hover> {
    let (entry, accent) = (entry(&buffer.text, buffer.lines.to_offset(at)), accent_of(&buffer.text));
    let written = buffer.text.get(entry.span.clone()).filter(|written| !written.is_empty())?;
    let range = Some(buffer.lines.range(&entry.span));
    let out = match entry.kind {
        EntryKind::Skill => format!("**{written}**: {}", Skill::named(written)?.label()),
        EntryKind::Pattern => {
            let pattern = Pattern::parse(written, READER.in_accent(accent)).ok()?;
            let words = examples(&Scope::parse(&buffer.text, &READER).ok(), &pattern);
            let sounds = match &pattern {
                Pattern::Bare(spelling) => {
                    let everyday = spelled_in(spelling, accent).filter(|id| id.get().grade == Grade::Everyday);
                    everyday
                        .map(|id| format!("/{}/ as in {}", id.get().sound.get().ipa(accent), id.get().key))
                        .collect()
                }
                Pattern::One(id, _) => vec![format!("/{}/", id.get().sound.get().ipa(accent))],
                Pattern::Chunk(_) | Pattern::Skill(_) => Vec::new(),
            };
            let sounds = if sounds.is_empty() { String::new() } else { format!(": {}", sounds.join(", ")) };
            let words = if words.is_empty() { "no common words".to_owned() } else { words.join(", ") };
            format!("**{}**{sounds}\n\n{words}", pattern.label())
        }
        EntryKind::Key | EntryKind::Other => return None,
    };
    Some(content(client, out, range))
}

/// Common words that practise a pattern: those that can be read at its lesson where the scope teaches it and can be read itself.
fn examples(scope: &Option<Scope>, pattern: &Pattern) -> Vec<&'static str> {
    let alone = Scope::parse("format: 1\nlessons:\n- {}\n", &READER).ok();
    let Some(known) = scope.as_ref().or(alone.as_ref()) else { return Vec::new() };
    let judge = Judge::new(&READER, known);
    let focus = Focus::of(known, std::slice::from_ref(pattern));
    let lesson = known.indexed_lessons().find(|(_, lesson)| lesson.patterns.contains(pattern)).map(|(index, _)| index);
    let fits = |word: &&'static str| {
        let verdict = judge.judge(word);
        let reads = lesson.is_none_or(|lesson| verdict.first_decodable().is_some_and(|first| first <= lesson));
        reads && verdict.word.readings.first().is_some_and(|reading| focus.is_in(&READER, word, reading))
    };
    let mut words: Vec<&'static str> = READER.common(COMMON).map(|(word, _)| word).filter(fits).collect();
    words.sort_by_key(|word| word.len());
    words.truncate(EXAMPLES);
    words
}
