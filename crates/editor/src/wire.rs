//! The two ends of a session, and the messages of the server as text.
//!
//! What the client says comes as read messages. What the server says leaves as JSON text: thousands of diagnostics after each keystroke
//! are written once, straight into the text that goes over the wire, and never built as a tree of values.

use crossbeam_channel::{Receiver, Sender};
use lsp_server::{ErrorCode, Message, RequestId};
use serde::Serialize;

/// The server's end of a session.
#[derive(Debug)]
pub struct Connection {
    /// What the client says.
    pub receiver: Receiver<Message>,
    /// What the server says: each a whole message, JSON without a header.
    pub sender: Sender<String>,
}

/// The client's end of a session within one process.
#[derive(Debug)]
pub struct Peer {
    /// To the server.
    pub sender: Sender<Message>,
    /// From the server: each a whole message, JSON without a header.
    pub receiver: Receiver<String>,
}

impl Connection {
    /// A session within this process, for tests and measurements.
    #[must_use]
    pub fn memory() -> (Connection, Peer) {
        let (to_server, receiver) = crossbeam_channel::unbounded();
        let (sender, from_server) = crossbeam_channel::unbounded();
        (Connection { receiver, sender }, Peer { sender: to_server, receiver: from_server })
    }
}

/// A value as JSON. What cannot be written, which none of the protocol's types is, becomes null.
pub(crate) fn json(value: &(impl Serialize + ?Sized)) -> String {
    serde_json::to_string(value).unwrap_or_else(|_| "null".to_owned())
}

/// The beginning of an answer: its result follows, then a brace.
pub(crate) fn answer_head(id: &RequestId) -> String {
    ["{\"jsonrpc\":\"2.0\",\"id\":", &json(id), ",\"result\":"].concat()
}

/// An answer.
pub(crate) fn answer(id: &RequestId, result: &(impl Serialize + ?Sized)) -> String {
    answer_head(id) + &json(result) + "}"
}

/// An answer that says why there is none.
pub(crate) fn refusal(id: &RequestId, code: ErrorCode, why: &str) -> String {
    let error = serde_json::json!({ "code": code as i32, "message": why });
    ["{\"jsonrpc\":\"2.0\",\"id\":", &json(id), ",\"error\":", &json(&error), "}"].concat()
}

/// A request to the client; `params` may be null.
pub(crate) fn request(id: &RequestId, method: &str, params: &serde_json::Value) -> String {
    let mut out = ["{\"jsonrpc\":\"2.0\",\"id\":", &json(id), ",\"method\":", &json(method)].concat();
    // The protocol knows parameters or none, not null.
    if !params.is_null() {
        out += &[",\"params\":", &json(params)].concat();
    }
    out + "}"
}

/// A notification.
pub(crate) fn notification(method: &str, params: &serde_json::Value) -> String {
    ["{\"jsonrpc\":\"2.0\",\"method\":", &json(method), ",\"params\":", &json(params), "}"].concat()
}

/// The beginning of the notification of a text's diagnostics: their list follows, then two braces.
pub(crate) fn publication_head(uri: &str, version: Option<i32>) -> String {
    let version = version.map_or_else(String::new, |version| format!(",\"version\":{version}"));
    let head = "{\"jsonrpc\":\"2.0\",\"method\":\"textDocument/publishDiagnostics\",\"params\":{\"uri\":";
    [head, &json(uri), &version, ",\"diagnostics\":"].concat()
}
