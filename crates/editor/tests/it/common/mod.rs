//! A client for tests: it talks to a server on another thread of this process.

use std::collections::VecDeque;
use std::thread::JoinHandle;
use std::time::Duration;

use lsp_server::{Message, Notification, Request, RequestId, Response};
use serde_json::{Value, json};
use untaught_editor::{Connection, End, Peer, serve};

pub(crate) struct Client {
    connection: Peer,
    server: Option<JoinHandle<End>>,
    next: i32,
    /// Notifications that came while something else was waited for.
    pub(crate) heard: VecDeque<Notification>,
    /// Requests of the server, answered with nothing.
    pub(crate) asked: Vec<Request>,
    pub(crate) about: Value,
}

/// A message of the server, which says what kind of JSON it is.
fn message(text: &str) -> Message {
    let value: Value = serde_json::from_str(text).unwrap();
    assert_eq!(value["jsonrpc"], "2.0", "{text}");
    serde_json::from_value(value).unwrap()
}

/// Longer than anything takes on a busy machine.
const PATIENCE: Duration = Duration::from_secs(60);

impl Client {
    /// A client before the session begins.
    pub(crate) fn raw() -> Client {
        let (server, connection) = Connection::memory();
        let server = Some(std::thread::spawn(move || serve(&server)));
        Client { connection, server, next: 0, heard: VecDeque::new(), asked: Vec::new(), about: Value::Null }
    }

    /// A client with these capabilities, and inlay hints, which keep the summary out of the diagnostics.
    pub(crate) fn new(capabilities: Value, options: Value) -> Client {
        Client::within(capabilities, options, &[])
    }

    pub(crate) fn within(mut capabilities: Value, options: Value, folders: &[&str]) -> Client {
        capabilities["textDocument"]["inlayHint"] = json!({});
        Client::with(capabilities, options, folders)
    }

    /// A client with just these capabilities.
    pub(crate) fn with(capabilities: Value, options: Value, folders: &[&str]) -> Client {
        let folders: Vec<Value> = folders.iter().map(|uri| json!({ "uri": uri, "name": uri })).collect();
        let mut client = Client::raw();
        client.about = client
            .ask(
                "initialize",
                json!({
                    "processId": null, "rootUri": null, "workspaceFolders": folders,
                    "capabilities": capabilities, "initializationOptions": options,
                }),
            )
            .unwrap();
        client.tell("initialized", json!({}));
        client
    }

    /// A client that is pushed to, at lesson 12 of the scope that comes with the program.
    pub(crate) fn at_lesson_12() -> Client {
        Client::new(json!({}), json!({ "untaught": { "lesson": "12" } }))
    }

    pub(crate) fn tell(&self, method: &str, params: Value) {
        let _ = self.connection.sender.send(Notification { method: method.to_owned(), params }.into());
    }

    /// Sends a request and does not wait.
    pub(crate) fn send(&mut self, method: &str, params: Value) -> RequestId {
        self.next += 1;
        let id = RequestId::from(self.next);
        let _ = self.connection.sender.send(Request { id: id.clone(), method: method.to_owned(), params }.into());
        id
    }

    pub(crate) fn answer(&mut self, wanted: &RequestId) -> Response {
        loop {
            let text = self.connection.receiver.recv_timeout(PATIENCE).expect("an answer");
            match message(&text) {
                Message::Response(response) if response.id == *wanted => return response,
                Message::Response(other) => panic!("an answer that nobody waits for: {other:?}"),
                other => self.hear(other),
            }
        }
    }

    fn hear(&mut self, message: Message) {
        match message {
            Message::Notification(note) => self.heard.push_back(note),
            Message::Request(request) => {
                let answer = Response::new_ok(request.id.clone(), Value::Null);
                let _ = self.connection.sender.send(answer.into());
                self.asked.push(request);
            }
            Message::Response(other) => panic!("an answer that nobody waits for: {other:?}"),
        }
    }

    /// The answer, or the code of the error.
    pub(crate) fn ask(&mut self, method: &str, params: Value) -> Result<Value, i32> {
        let id = self.send(method, params);
        self.answer(&id).response_result.map_err(|error| error.code)
    }

    pub(crate) fn open(&self, uri: &str, language: &str, text: &str) {
        let about = json!({ "uri": uri, "languageId": language, "version": 1, "text": text });
        self.tell("textDocument/didOpen", json!({ "textDocument": about }));
    }

    pub(crate) fn change(&self, uri: &str, version: i32, changes: Value) {
        let about = json!({ "uri": uri, "version": version });
        self.tell("textDocument/didChange", json!({ "textDocument": about, "contentChanges": changes }));
    }

    /// Waits until all that was sent is worked off.
    pub(crate) fn settle(&mut self) {
        // An unknown method is answered in its turn.
        assert_eq!(self.ask("test/nothing", Value::Null), Err(-32601));
        let id = self.send("test/nothing", Value::Null);
        self.answer(&id);
    }

    /// What was last pushed for a text: its version and diagnostics.
    pub(crate) fn pushed(&mut self, uri: &str) -> Option<(Option<i64>, Vec<Value>)> {
        self.settle();
        let is_it = |note: &&Notification| {
            note.method == "textDocument/publishDiagnostics" && note.params["uri"].as_str() == Some(uri)
        };
        let last = self.heard.iter().rev().find(is_it)?;
        let items = last.params["diagnostics"].as_array().cloned().unwrap_or_default();
        Some((last.params["version"].as_i64(), items))
    }

    /// The messages that were last pushed for a text.
    pub(crate) fn messages(&mut self, uri: &str) -> Vec<String> {
        let pushed = self.pushed(uri).map(|(_, items)| items).unwrap_or_default();
        pushed.iter().map(|item| item["message"].as_str().unwrap().to_owned()).collect()
    }

    pub(crate) fn position(&mut self, method: &str, uri: &str, line: u32, character: u32) -> Value {
        let params = json!({ "textDocument": { "uri": uri }, "position": { "line": line, "character": character } });
        self.ask(method, params).unwrap()
    }

    /// The code actions for a stretch of a line.
    pub(crate) fn actions(&mut self, uri: &str, line: u32, from: u32, to: u32) -> Vec<Value> {
        let range = json!({ "start": { "line": line, "character": from }, "end": { "line": line, "character": to } });
        let params = json!({ "textDocument": { "uri": uri }, "range": range, "context": { "diagnostics": [] } });
        self.ask("textDocument/codeAction", params).unwrap().as_array().cloned().unwrap_or_default()
    }

    pub(crate) fn leave(mut self) -> End {
        assert_eq!(self.ask("shutdown", Value::Null), Ok(Value::Null));
        self.tell("exit", Value::Null);
        self.end()
    }

    pub(crate) fn end(&mut self) -> End {
        self.server.take().unwrap().join().unwrap()
    }
}
