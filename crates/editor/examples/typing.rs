//! Types at random for some minutes and says how much memory the server takes meanwhile: it must not grow.
//!
//! `cargo run -p untaught-editor --example typing -- MINUTES`

use std::time::{Duration, Instant};

use lsp_server::{Notification, Request};
use serde_json::{Value, json};
use untaught_editor::Connection;

const STORY: &str = "untitled:story.txt";
const SCOPE: &str = "untitled:scope.yaml";

fn main() {
    let minutes: u64 = std::env::args().nth(1).and_then(|text| text.parse().ok()).unwrap_or(3);
    let (server, client) = Connection::memory();
    let thread = std::thread::spawn(move || untaught_editor::serve(&server));
    let send = |method: &str, params: Value| {
        client.sender.send(Notification { method: method.to_owned(), params }.into()).expect("the server listens");
    };
    let ask = |id: i32, method: &str, params: Value| {
        client
            .sender
            .send(Request { id: id.into(), method: method.to_owned(), params }.into())
            .expect("the server listens");
        // The answer comes after what was pushed before it.
        while client.receiver.recv().expect("the server answers").contains("\"method\":\"") {}
    };
    ask(
        0,
        "initialize",
        json!({ "capabilities": { "textDocument": { "inlayHint": {}, "codeAction": { "codeActionLiteralSupport": { "codeActionKind": { "valueSet": [] } } } } } }),
    );
    let open = |uri: &str, language: &str, text: &str| {
        let about = json!({ "uri": uri, "languageId": language, "version": 1, "text": text });
        send("textDocument/didOpen", json!({ "textDocument": about }));
    };
    open(STORY, "markdown", &"The knight rode his horse to the castle at night. \n".repeat(200));
    open(SCOPE, "yaml", "format: 1\nlessons:\n- teach: [s, a, t]\n");
    // A generator that is the same each time.
    let mut state = 7u64;
    let mut random = |below: u64| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) % below
    };
    let pieces = ["a", "e", "sh", " ", "\n", "t", "night ", "😀", "\r\n", "e\u{301}", "x", "", "", ""];
    let start = Instant::now();
    let (mut edits, mut told) = (0u32, Instant::now() - Duration::from_secs(60));
    while start.elapsed() < Duration::from_secs(minutes * 60) {
        edits += 1;
        let (line, column) = (random(210), random(60));
        let length = if random(3) == 0 { random(6) } else { 0 };
        let text = pieces[random(pieces.len() as u64) as usize];
        let uri = if random(20) == 0 { SCOPE } else { STORY };
        let range = json!({ "start": { "line": line, "character": column }, "end": { "line": line, "character": column + length } });
        let about = json!({ "uri": uri, "version": edits });
        send(
            "textDocument/didChange",
            json!({ "textDocument": about, "contentChanges": [{ "range": range, "text": text }] }),
        );
        let place = json!({ "line": line, "character": column });
        match random(4) {
            0 => ask(1, "textDocument/hover", json!({ "textDocument": { "uri": uri }, "position": place })),
            1 => ask(
                1,
                "textDocument/codeAction",
                json!({ "textDocument": { "uri": uri }, "range": { "start": place, "end": place }, "context": { "diagnostics": [] } }),
            ),
            2 => ask(1, "textDocument/completion", json!({ "textDocument": { "uri": uri }, "position": place })),
            _ => ask(1, "test/nothing", Value::Null),
        }
        if told.elapsed() >= Duration::from_secs(30) {
            told = Instant::now();
            println!("{:>4} s  {edits:>8} edits  {}", start.elapsed().as_secs(), memory());
        }
        // Now and then the text is put back, so that it stays a story.
        if edits % 5000 == 0 {
            send("textDocument/didClose", json!({ "textDocument": { "uri": STORY } }));
            open(STORY, "markdown", &"The knight rode his horse to the castle at night. \n".repeat(200));
        }
    }
    println!("{:>4} s  {edits:>8} edits  {}", start.elapsed().as_secs(), memory());
    drop(client);
    let _ = thread.join();
}

/// What the system says of this process' memory.
fn memory() -> String {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find(|line| line.starts_with("VmRSS")).unwrap_or("memory is not told here");
    line.split_whitespace().collect::<Vec<_>>().join(" ")
}
