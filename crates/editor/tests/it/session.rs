//! The life of a session, and what goes wrong in it.

use crate::common::Client;
use serde_json::{Value, json};
use untaught_editor::End;

const STORY: &str = "file:///stories/story.txt";

#[test]
fn a_story_is_opened_edited_and_closed() {
    let mut client = Client::at_lesson_12();
    client.open(STORY, "plaintext", "Tam sat at night.\n");
    let (version, items) = client.pushed(STORY).unwrap();
    assert_eq!(version, Some(1));
    assert_eq!(items.len(), 1, "{items:#?}");
    assert_eq!(items[0]["severity"], 2);
    assert_eq!(
        items[0]["range"],
        json!({ "start": { "line": 0, "character": 11 }, "end": { "line": 0, "character": 16 } })
    );
    assert!(items[0]["message"].as_str().unwrap().starts_with("“night” is untaught at lesson 12: it needs igh"));
    assert!(items[0]["code"].as_str().unwrap().starts_with("igh"), "{}", items[0]["code"]);
    let range = items[0]["range"].clone();
    client.change(STORY, 2, json!([{ "range": range, "text": "ten" }]));
    assert_eq!(client.pushed(STORY), Some((Some(2), Vec::new())));
    client.change(STORY, 3, json!([{ "text": "A knight.\r\n" }, { "range": { "start": { "line": 0, "character": 2 }, "end": { "line": 0, "character": 3 } }, "text": "" }]));
    assert!(client.messages(STORY)[0].starts_with("“night”"));
    client.tell("textDocument/didClose", json!({ "textDocument": { "uri": STORY } }));
    assert_eq!(client.pushed(STORY), Some((None, Vec::new())));
    assert_eq!(client.leave(), End::Clean);
}

#[test]
fn what_comes_before_and_after_a_session_is_refused() {
    let mut client = Client::raw();
    assert_eq!(client.ask("textDocument/hover", json!({})), Err(-32002));
    client.tell("textDocument/didOpen", json!({ "nonsense": 1 }));
    assert_eq!(client.ask("initialize", json!({ "capabilities": 7 })), Err(-32602));
    client.ask("initialize", json!({ "capabilities": {} })).unwrap();
    assert_eq!(client.ask("shutdown", Value::Null), Ok(Value::Null));
    assert_eq!(client.ask("textDocument/hover", json!({})), Err(-32600));
    assert_eq!(client.ask("shutdown", Value::Null), Err(-32600));
    client.tell("exit", Value::Null);
    assert_eq!(client.end(), End::Clean);
}

#[test]
fn leaving_without_goodbye_is_told() {
    for begun in [false, true] {
        let mut client = if begun { Client::at_lesson_12() } else { Client::raw() };
        client.tell("exit", Value::Null);
        assert_eq!(client.end(), End::Abrupt);
    }
}

#[test]
fn unknown_methods_and_wrong_parameters_are_answered() {
    let mut client = Client::at_lesson_12();
    assert_eq!(client.ask("textDocument/rename", json!({})), Err(-32601));
    assert_eq!(client.ask("textDocument/hover", json!({ "position": "here" })), Err(-32602));
    assert_eq!(client.ask("textDocument/hover", Value::Null), Err(-32602));
    client.tell("textDocument/didChange", json!([1]));
    client.tell("$/something", json!({}));
    client.tell("textDocument/didSave", json!({ "textDocument": { "uri": "file:///not/open" } }));
    client.tell("textDocument/didClose", json!({ "textDocument": { "uri": "file:///not/open" } }));
    client.change("file:///not/open", 2, json!([{ "text": "x" }]));
    assert_eq!(client.position("textDocument/hover", "file:///not/open", 0, 0), Value::Null);
    assert_eq!(client.leave(), End::Clean);
}

#[test]
fn a_request_that_is_cancelled_while_it_waits_is_not_worked_on() {
    // All is sent before the server reads anything: so the request still waits when it is cancelled.
    let (server, client) = untaught_editor::Connection::memory();
    let ask = |id: i32, method: &str, params: Value| {
        let request = lsp_server::Request { id: id.into(), method: method.to_owned(), params };
        client.sender.send(request.into()).unwrap();
    };
    let tell = |method: &str, params: Value| {
        client.sender.send(lsp_server::Notification { method: method.to_owned(), params }.into()).unwrap();
    };
    ask(1, "initialize", json!({ "capabilities": {} }));
    ask(
        2,
        "textDocument/hover",
        json!({ "textDocument": { "uri": STORY }, "position": { "line": 0, "character": 0 } }),
    );
    tell("$/cancelRequest", json!({ "id": 2 }));
    tell("$/cancelRequest", json!({ "id": 1 }));
    tell("$/cancelRequest", json!({ "id": "none" }));
    tell("$/cancelRequest", json!({}));
    ask(3, "shutdown", Value::Null);
    tell("exit", Value::Null);
    assert_eq!(untaught_editor::serve(&server), End::Abrupt);
    let answers: Vec<Value> =
        client.receiver.try_iter().map(|message| serde_json::from_str(&message).unwrap()).collect();
    let find = |id: i32| answers.iter().find(|answer| answer["id"] == id).unwrap();
    assert_eq!(find(1)["error"]["code"], -32800, "also the first may be cancelled");
    assert_eq!(find(2)["error"]["code"], -32800);
}

#[test]
fn edits_outside_the_text_are_drawn_in() {
    let mut client = Client::at_lesson_12();
    client.open("untitled:Untitled-1", "plaintext", "Tam");
    let place = |line: u32, character: u32| json!({ "line": line, "character": character });
    client.change(
        "untitled:Untitled-1",
        2,
        json!([
            { "range": { "start": place(9, 9), "end": place(99, 0) }, "text": " sat at night" },
            { "range": { "start": place(0, 999), "end": place(0, 4) }, "text": "" },
            { "range": { "start": place(u32::MAX, u32::MAX), "end": place(0, u32::MAX) }, "text": "night" },
        ]),
    );
    let (_, items) = client.pushed("untitled:Untitled-1").unwrap();
    assert_eq!(items.len(), 1);
    assert_eq!(items[0]["range"]["start"], place(0, 4), "what was left of the text is “Tam night”");
    assert_eq!(client.leave(), End::Clean);
}

#[test]
fn columns_count_what_was_agreed_on() {
    let text = "\u{feff}😀 te\u{301}n “night”\r\nnight";
    for (offered, chosen, column) in [
        (json!(["utf-8", "utf-16"]), "utf-8", 3 + 4 + 1 + 5 + 1 + 3),
        (json!(["utf-32", "utf-16"]), "utf-32", 9),
        (json!(["utf-16"]), "utf-16", 10),
        (Value::Null, "utf-16", 10),
    ] {
        let general = json!({ "general": { "positionEncodings": offered } });
        let mut client = Client::new(general, json!({ "lesson": 12 }));
        assert_eq!(client.about["capabilities"]["positionEncoding"], chosen);
        client.open(STORY, "plaintext", text);
        let (_, items) = client.pushed(STORY).unwrap();
        let starts: Vec<&Value> = items.iter().map(|item| &item["range"]["start"]).collect();
        assert_eq!(
            starts,
            [&json!({ "line": 0, "character": column }), &json!({ "line": 1, "character": 0 })],
            "{chosen}"
        );
        // And back: the edit reaches just that word.
        let range = items[0]["range"].clone();
        client.change(STORY, 2, json!([{ "range": range, "text": "sat" }]));
        assert_eq!(client.pushed(STORY).unwrap().1.len(), 1, "{chosen}");
        assert_eq!(client.leave(), End::Clean);
    }
}

#[test]
fn diagnostics_are_pushed_or_pulled_never_both() {
    let can = json!({
        "textDocument": { "diagnostic": {} },
        "workspace": { "diagnostics": { "refreshSupport": true } },
    });
    let mut client = Client::new(can, json!({ "lesson": "12" }));
    assert_eq!(client.about["capabilities"]["diagnosticProvider"]["interFileDependencies"], true);
    client.open(STORY, "plaintext", "Tam sat at night.");
    let ask = |client: &mut Client, previous: Value| {
        let params = json!({ "textDocument": { "uri": STORY }, "previousResultId": previous });
        client.ask("textDocument/diagnostic", params).unwrap()
    };
    let report = ask(&mut client, Value::Null);
    assert_eq!(report["kind"], "full");
    assert_eq!(report["items"].as_array().unwrap().len(), 1);
    assert_eq!(ask(&mut client, report["resultId"].clone())["kind"], "unchanged");
    assert_eq!(client.pushed(STORY), None);
    assert_eq!(client.leave(), End::Clean);
}

#[test]
fn later_settings_leave_alone_what_they_do_not_mention_and_have_the_diagnostics_asked_for_again() {
    let can = json!({
        "textDocument": { "diagnostic": {} },
        // As the protocol calls it since 3.17.
        "workspace": { "diagnostics": { "refreshSupport": true } },
    });
    let mut client = Client::new(can, json!({ "lesson": "12", "names": ["Mim"] }));
    client.open(STORY, "plaintext", "Mim sat at night.");
    let untaught = |client: &mut Client| {
        let report = client.ask("textDocument/diagnostic", json!({ "textDocument": { "uri": STORY } })).unwrap();
        report["items"].as_array().unwrap().len()
    };
    let set = |client: &mut Client, settings: Value| {
        client.tell("workspace/didChangeConfiguration", json!({ "settings": { "untaught": settings } }));
        client.settle();
    };
    assert_eq!(untaught(&mut client), 1);
    set(&mut client, json!({ "trace": "off", "names": null }));
    assert_eq!(untaught(&mut client), 1, "still lesson 12, and Mim is still told");
    set(&mut client, json!({ "lesson": "40" }));
    assert_eq!(untaught(&mut client), 0);
    let asked: Vec<&str> = client.asked.iter().map(|request| request.method.as_str()).collect();
    assert!(asked.contains(&"workspace/diagnostic/refresh"), "{asked:?}");
    assert_eq!(client.leave(), End::Clean);
}
