//! What is shown and offered for the words of a story.

use crate::common::Client;
use serde_json::{Value, json};
use untaught_editor::End;

const STORY: &str = "file:///stories/story.txt";
const NOTES: &str = "file:///stories/story.md";

fn able() -> Client {
    let can = json!({
        "textDocument": {
            "hover": { "contentFormat": ["markdown", "plaintext"] },
            "codeAction": { "codeActionLiteralSupport": { "codeActionKind": { "valueSet": ["quickfix"] } } },
            "publishDiagnostics": { "relatedInformation": true },
        },
        "workspace": { "workspaceEdit": { "documentChanges": true } },
    });
    Client::new(can, json!({ "untaught": { "lesson": "20", "names": ["Rob"] } }))
}

/// The text after the edits of an action, and its title.
fn done(action: &Value, text: &str) -> (String, String) {
    let mut edits = action["edit"]["documentChanges"][0]["edits"].as_array().unwrap().clone();
    let offset = |place: &Value| {
        let (line, column) = (place["line"].as_u64().unwrap() as usize, place["character"].as_u64().unwrap() as usize);
        text.split_inclusive('\n').take(line).map(str::len).sum::<usize>() + column
    };
    edits.sort_by_key(|edit| std::cmp::Reverse(offset(&edit["range"]["start"])));
    let mut made = text.to_owned();
    for edit in edits {
        let span = offset(&edit["range"]["start"])..offset(&edit["range"]["end"]);
        made.replace_range(span, edit["newText"].as_str().unwrap());
    }
    (action["title"].as_str().unwrap().to_owned(), made)
}

#[test]
fn a_word_is_explained() {
    let mut client = able();
    client.open(STORY, "plaintext", "Rob can chop at night in the wind.\n");
    let shown = |client: &mut Client, column: u32| {
        client.position("textDocument/hover", STORY, 0, column)["contents"]["value"].as_str().map(str::to_owned)
    };
    let night = shown(&mut client, 16).unwrap();
    for part in [
        "**night**: untaught at lesson 20",
        "n·igh·t /naɪt/",
        "- `igh` /aɪ/ as in",
        "Missing: igh as in",
        "It can be read from lesson",
    ] {
        assert!(night.contains(part), "{part}: {night}");
    }
    assert!(shown(&mut client, 9).unwrap().contains("ch·o·p"), "inside");
    assert!(shown(&mut client, 12).unwrap().contains("ch·o·p"), "at its end");
    assert!(shown(&mut client, 1).unwrap().contains("decodable"), "a name that can be sounded out");
    assert!(shown(&mut client, 30).unwrap().contains("Another pronunciation"), "wind");
    assert_eq!(shown(&mut client, 34), None);
    let pushed = client.pushed(STORY).unwrap().1;
    let severities: Vec<&Value> = pushed.iter().map(|item| &item["severity"]).collect();
    assert_eq!(severities, [&json!(2), &json!(4)], "night is untaught, wind depends on how it is read: {pushed:#?}");
    assert_eq!(client.leave(), End::Clean);
}

#[test]
fn a_word_is_swapped_declared_or_waited_for() {
    let mut client = able();
    let text = "Tam had a huge leap.\nThen Bridgette Leap had stones at an elephant.\n";
    client.open(STORY, "plaintext", text);
    let made: Vec<(String, String)> =
        client.actions(STORY, 0, 11, 11).iter().map(|action| done(action, text)).collect();
    let find = |title: &str| {
        made.iter().find(|(found, _)| found.starts_with(title)).unwrap_or_else(|| panic!("{title}: {made:#?}"))
    };
    assert!(find("Replace “huge” with “big”").1.starts_with("Tam had a big leap."));
    assert!(find("Pre-teach the word “huge”").1.starts_with("---\nstory-words: [huge]\n---\nTam had"));
    let all = &find("Pre-teach all").1;
    assert!(all.starts_with("---\nstory-words: [") && all.contains("huge") && all.ends_with(text), "{all}");
    assert!(find("Move this story to lesson").1.starts_with("---\nlesson: "));
    assert!(!made.iter().any(|(title, _)| title.contains("the name")), "{made:#?}");
    let titles = |client: &mut Client, from: u32, to: u32| -> Vec<String> {
        client.actions(STORY, 1, from, to).iter().map(|action| action["title"].as_str().unwrap().to_owned()).collect()
    };
    let name = titles(&mut client, 6, 6);
    assert!(name.iter().any(|title| title.contains("the name “Bridgette”")), "{name:?}");
    assert!(!name.iter().any(|title| title.starts_with("Put")), "no name is swapped: {name:?}");
    let stones = titles(&mut client, 26, 26);
    assert!(stones.contains(&"Replace “stones” with “rocks”".to_owned()), "{stones:?}");
    assert_eq!(titles(&mut client, 0, 4), [""; 0], "“then” can be read");
    assert_eq!(client.leave(), End::Clean);
}

#[test]
fn a_word_is_left_out_with_its_space_and_article() {
    let mut client = able();
    let text = "He had an untidy hat.\nHe put it on the mat gently.\n";
    client.open(STORY, "plaintext", text);
    for (line, column, title, made) in [
        (0, 12, "Leave out “untidy”", "He had a hat.\nHe put it on the mat gently.\n"),
        (1, 24, "Leave out “gently”", "He had an untidy hat.\nHe put it on the mat.\n"),
    ] {
        let all: Vec<(String, String)> =
            client.actions(STORY, line, column, column).iter().map(|action| done(action, text)).collect();
        assert!(all.contains(&(title.to_owned(), made.to_owned())), "{all:#?}");
    }
    assert_eq!(client.leave(), End::Clean);
}

#[test]
fn a_word_is_reworded_with_its_neighbours() {
    let mut client = able();
    let text = "Then it began to\nrun.\nIt was sitting in mud.\n";
    client.open(STORY, "plaintext", text);
    for (line, column, title, made) in [
        (0, 10, "Replace “began to run” with “ran”", "Then it ran.\nIt was sitting in mud.\n"),
        (2, 8, "Replace “was sitting” with “sat”", "Then it began to\nrun.\nIt sat in mud.\n"),
    ] {
        let all: Vec<(String, String)> =
            client.actions(STORY, line, column, column).iter().map(|action| done(action, text)).collect();
        assert!(all.contains(&(title.to_owned(), made.to_owned())), "{all:#?}");
    }
    assert_eq!(client.leave(), End::Clean);
}

#[test]
fn markdown_is_read_as_its_reader_sees_it() {
    let mut client = able();
    let text = "---\r\nlesson: 20\r\nnames: [Rob]\r\n---\r\n\r\n# A *kn*ight\r\n\r\n`night` 😀 caf&eacute; [a sight](night.html)\r\n";
    client.open(NOTES, "markdown", text);
    let found: Vec<(Value, Value)> = client
        .pushed(NOTES)
        .unwrap()
        .1
        .iter()
        .map(|item| (item["range"]["start"].clone(), item["range"]["end"].clone()))
        .collect();
    let place = |line: u32, column: u32| json!({ "line": line, "character": column });
    assert!(found.contains(&(place(5, 5), place(5, 12))) || found.contains(&(place(5, 3), place(5, 10))), "{found:?}");
    assert!(found.contains(&(place(7, 26), place(7, 31))), "sight: {found:?}");
    assert!(!found.iter().any(|(start, _)| *start == place(7, 1)), "code is not read");
    let (_, made) = done(
        &client
            .actions(NOTES, 7, 27, 27)
            .into_iter()
            .find(|a| a["title"].as_str().unwrap().contains("the word"))
            .unwrap(),
        text,
    );
    assert!(made.starts_with("---\r\nlesson: 20\r\nnames: [Rob]\r\nstory-words: [sight]\r\n---\r\n"), "{made}");
    assert_eq!(client.leave(), End::Clean);
}

#[test]
fn the_summary_is_shown_once() {
    const WHOLE: &str = "lesson 20: 75.0 % decodable, 75.0 % readable, 0 focus words";
    for (can, place) in [
        (json!({ "textDocument": { "inlayHint": {}, "codeLens": {} } }), "hint"),
        (json!({ "textDocument": { "codeLens": {} } }), "lens"),
        (json!({}), "diagnostic"),
        (json!({ "textDocument": { "inlayHint": {} }, "experimental": { "untaughtSummary": true } }), "notification"),
    ] {
        let mut client = Client::with(can, json!({ "lesson": "20" }), &[]);
        let offered = client.about["capabilities"].clone();
        assert_eq!(offered.get("inlayHintProvider").is_some(), place == "hint");
        assert_eq!(offered.get("codeLensProvider").is_some(), place == "lens");
        client.open(STORY, "plaintext", "Tam sat at night.\n");
        let about = json!({ "uri": STORY });
        let all = json!({ "start": { "line": 0, "character": 0 }, "end": { "line": 9, "character": 0 } });
        let hint = client.ask("textDocument/inlayHint", json!({ "textDocument": about, "range": all })).unwrap();
        let label = hint[0]["label"].as_str().unwrap();
        assert_eq!(label, "lesson 20: 75 % decodable, 75 % readable");
        assert!(label.len() <= 43, "longer hints are cut where nobody has set anything");
        assert_eq!(hint[0]["tooltip"], WHOLE);
        let lens = client.ask("textDocument/codeLens", json!({ "textDocument": about })).unwrap();
        assert_eq!(lens[0]["command"]["title"], WHOLE);
        let told = client.messages(STORY);
        assert_eq!(told.first().is_some_and(|message| message == WHOLE), place == "diagnostic", "{told:?}");
        assert_eq!(told.len(), if place == "diagnostic" { 2 } else { 1 });
        let summaries = |client: &Client| -> Vec<Value> {
            let sent = client.heard.iter().filter(|note| note.method == "untaught/summary");
            sent.map(|note| note.params["summary"].clone()).collect()
        };
        let expected = if place == "notification" { vec![json!(WHOLE)] } else { Vec::new() };
        assert_eq!(summaries(&client), expected);
        // It is sent anew only when it changes, and taken back from a text without words.
        client.change(STORY, 2, json!([{ "text": "Sam sat at night.\n" }]));
        client.settle();
        assert_eq!(summaries(&client), expected);
        client.change(STORY, 3, json!([{ "text": "\n" }]));
        client.settle();
        let expected = if place == "notification" { vec![json!(WHOLE), Value::Null] } else { Vec::new() };
        assert_eq!(summaries(&client), expected);
        assert_eq!(client.leave(), End::Clean);
    }
}
