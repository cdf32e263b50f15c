//! After any edits the server holds the same text, and says the same of it, as one that opens that text anew.

use crate::common::Client;
use proptest::prelude::*;
use proptest::strategy::ValueTree as _;
use proptest::test_runner::TestRunner;
use serde_json::{Value, json};
use untaught_editor::{Encoding, LineIndex};

const STORY: &str = "untitled:story.txt";
const FRESH: &str = "untitled:fresh.txt";

/// Pieces that are easily cut wrongly.
fn piece() -> impl Strategy<Value = String> {
    let pieces = [
        "night",
        "ship",
        " ",
        "\n",
        "\r\n",
        "\r",
        "😀",
        "e\u{301}",
        "“",
        "’s",
        "Rob",
        "---\n",
        "lesson: 7\n",
        "\u{feff}",
        "ﬁsh",
        "👩‍👧",
        "a",
        ".",
        "\u{2028}",
        "*",
    ];
    prop::collection::vec(prop::sample::select(pieces.to_vec()), 0..6).prop_map(|list| list.concat())
}

type Edit = (u32, u32, u32, u32, String);

fn edits() -> impl Strategy<Value = Vec<Edit>> {
    let one = (0u32..8, 0u32..14, 0u32..8, 0u32..14, piece());
    prop::collection::vec(one, 1..8)
}

/// The text after an edit, reckoned character by character.
fn applied(text: &str, edit: &Edit, encoding: Encoding) -> String {
    let units = |c: char| match encoding {
        Encoding::Utf8 => c.len_utf8(),
        Encoding::Utf16 => c.len_utf16(),
        Encoding::Utf32 => 1,
    };
    let offset = |line: u32, column: u32| {
        let mut rest = text;
        let mut at = 0;
        for _ in 0..line {
            let Some(end) = rest.find(['\n', '\r']) else { return text.len() };
            let length = end + if rest[end..].starts_with("\r\n") { 2 } else { 1 };
            at += length;
            rest = &rest[length..];
        }
        let mut left = column as usize;
        for c in rest.chars() {
            if matches!(c, '\n' | '\r') || left < units(c) {
                break;
            }
            left -= units(c);
            at += c.len_utf8();
        }
        at
    };
    let (from, to) = (offset(edit.0, edit.1), offset(edit.2, edit.3));
    [&text[..from.min(to)], &edit.4, &text[from.max(to)..]].concat()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, ..ProptestConfig::default() })]

    #[test]
    fn edits_come_out_as_a_fresh_text(start in piece(), edits in edits(), kind in 0usize..3, markdown: bool) {
        let (encoding, name) =
            [(Encoding::Utf8, "utf-8"), (Encoding::Utf16, "utf-16"), (Encoding::Utf32, "utf-32")][kind];
        let general = json!({ "general": { "positionEncodings": [name] } });
        let mut client = Client::new(general, json!({ "lesson": "12" }));
        let language = if markdown { "markdown" } else { "plaintext" };
        client.open(STORY, language, &start);
        let mut text = start;
        for (number, edit) in edits.iter().enumerate() {
            text = applied(&text, edit, encoding);
            let range = json!({
                "start": { "line": edit.0, "character": edit.1 }, "end": { "line": edit.2, "character": edit.3 },
            });
            client.change(STORY, number as i32 + 2, json!([{ "range": range, "text": edit.4 }]));
        }
        client.open(FRESH, language, &text);
        let (edited, fresh) = (client.pushed(STORY).unwrap().1, client.pushed(FRESH).unwrap().1);
        prop_assert_eq!(&edited, &fresh, "{:?}", text);
        // Each range is that of the word that its message names.
        let index = LineIndex::new(&text, encoding);
        let at = |place: &Value| {
            let number = |key: &str| place[key].as_u64().unwrap() as u32;
            index.to_offset(lsp_types::Position::new(number("line"), number("character")))
        };
        for item in edited.iter().filter(|item| item["severity"] == 2) {
            let word = &text[at(&item["range"]["start"])..at(&item["range"]["end"])];
            let said = item["message"].as_str().unwrap();
            let folded = untaught::fold_word(word);
            let told = said.strip_prefix('“').and_then(|rest| rest.split_once('”')).unwrap().0;
            prop_assert!(markdown || told == folded, "{} {:?}", said, word);
        }
        client.leave();
    }
}

/// One long session: 2,000 edits of one text, one to three in a message, told where they are in units of UTF-16.
#[test]
fn two_thousand_edits_leave_what_a_fresh_text_gives() {
    const EDITS: usize = 2000;
    let mut runner = TestRunner::deterministic();
    let mut draw = |least: usize, lines: u32| {
        let one = (0..lines, 0u32..40, piece()).prop_flat_map(move |(line, column, text)| {
            // Most edits are short, as they are when somebody types; a few take away several lines.
            let end = prop_oneof![
                8 => (Just(line), column..column + 6),
                1 => (line..line + 4, 0u32..40),
                1 => (0..lines, 0u32..40),
            ];
            (Just(line), Just(column), end, Just(text))
        });
        let batch = prop::collection::vec(one, least..4);
        batch.new_tree(&mut runner).unwrap().current()
    };
    let general = json!({ "general": { "positionEncodings": ["utf-16"] } });
    let mut client = Client::new(general, json!({ "lesson": "12" }));
    let mut text = "Tam 😀 had a huge hat.\r\nThen he left at night.\r\n".repeat(8);
    client.open(STORY, "plaintext", &text);
    let (mut edits, mut version, mut compared, mut found) = (0, 1, 0, 0);
    while edits < EDITS {
        let batch = draw(1, text.lines().count() as u32 + 2);
        let mut changes = Vec::new();
        for (line, column, (end_line, end_column), piece) in batch {
            let edit = (line, column, end_line, end_column, piece);
            text = applied(&text, &edit, Encoding::Utf16);
            let range = json!({
                "start": { "line": edit.0, "character": edit.1 }, "end": { "line": edit.2, "character": edit.3 },
            });
            changes.push(json!({ "range": range, "text": edit.4 }));
            edits += 1;
        }
        version += 1;
        client.change(STORY, version, json!(changes));
        if version % 50 == 0 || edits >= EDITS {
            let fresh = format!("untitled:fresh-{version}.txt");
            client.open(&fresh, "plaintext", &text);
            let (edited, anew) = (client.pushed(STORY).unwrap(), client.pushed(&fresh).unwrap());
            assert_eq!(edited.0, Some(i64::from(version)));
            assert_eq!(edited.1, anew.1, "after {edits} edits: {text:?}");
            client.tell("textDocument/didClose", json!({ "textDocument": { "uri": fresh } }));
            (compared, found) = (compared + 1, found + edited.1.len());
        }
    }
    // The text neither dwindled to nothing nor lost what makes it hard.
    assert!(compared >= 15 && found >= 100, "{compared} comparisons, {found} diagnostics");
    assert!(text.contains("\r\n") && text.contains('😀'), "{text:?}");
    assert_eq!(client.leave(), untaught_editor::End::Clean);
}
