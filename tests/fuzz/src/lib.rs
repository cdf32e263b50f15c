//! What holds for every document and for every session of an editor, whatever the bytes.

use lsp_server::Message;
use serde_json::json;
use untaught_documents::{Document, Kind, read};
use untaught_editor::{Connection, End};

/// Reads bytes as a kind of document and checks what is said of them.
pub fn check(kind: Kind, bytes: &[u8]) {
    let _ = Kind::of("story", bytes);
    match read(kind, bytes.to_vec()) {
        Ok(document) => holds(&document),
        Err(problem) => assert!(problem.to_string().starts_with(|c: char| c.is_ascii_lowercase())),
    }
}

/// The way back grows and stays on character boundaries.
fn holds(document: &Document) {
    let (text, source) = (document.text(), document.source());
    assert!(!text.contains('\0'));
    let mut last = 0;
    for offset in 0..=text.len() {
        let place = document.to_source(offset);
        assert!(place >= last && source.is_char_boundary(place));
        last = place;
    }
}

/// A session of an editor: after a right beginning, each line is a message, or is typed into the open story at a place of its own.
pub fn editor(bytes: &[u8]) {
    let (server, client) = Connection::memory();
    let send = |message: serde_json::Value| {
        if let Ok(message) = serde_json::from_value::<Message>(message) {
            let _ = client.sender.send(message);
        }
    };
    let can = json!({ "textDocument": {
        "codeAction": { "codeActionLiteralSupport": { "codeActionKind": { "valueSet": [] } } }, "inlayHint": {},
    } });
    send(json!({ "id": 0, "method": "initialize", "params": { "capabilities": can } }));
    let story = "untitled:a.md";
    let about = json!({ "uri": story, "languageId": "markdown", "version": 1, "text": "Tam sat at night.\n" });
    send(json!({ "method": "textDocument/didOpen", "params": { "textDocument": about } }));
    let text = String::from_utf8_lossy(bytes);
    for (number, line) in text.split('\n').enumerate() {
        if let Ok(message) = serde_json::from_str(line) {
            send(message);
            continue;
        }
        let place = |unit: usize| line.encode_utf16().nth(unit).map_or(0, |unit| unit % 40);
        let range = json!({
            "start": { "line": place(0) % 5, "character": place(1) }, "end": { "line": place(2) % 5, "character": place(3) },
        });
        let about = json!({ "uri": story, "version": number });
        let change = json!([{ "range": range, "text": line }]);
        send(json!({ "method": "textDocument/didChange", "params": { "textDocument": about, "contentChanges": change } }));
        let about = json!({ "uri": story });
        send(json!({ "id": number, "method": "textDocument/hover", "params": { "textDocument": about, "position": range["start"] } }));
        let context = json!({ "diagnostics": [] });
        send(json!({ "id": number, "method": "textDocument/codeAction", "params": { "textDocument": about, "range": range, "context": context } }));
    }
    send(json!({ "id": "last", "method": "shutdown" }));
    send(json!({ "method": "exit" }));
    let end = untaught_editor::serve(&server);
    drop(server);
    // Every request is answered once, whatever came before; an exit may have come early.
    let answers = client.receiver.iter().filter(|message| matches!(serde_json::from_str(message), Ok(Message::Response(_)))).count();
    assert!(end == End::Abrupt || answers > 0);
}
