//! Messages in their order, but that a cancelled request is answered at once and never worked on.

use std::collections::VecDeque;

use lsp_server::{ErrorCode, Message, RequestId};
use serde_json::Value;

use crate::wire::{self, Connection};

/// Messages that wait here at most; others wait where they come from.
const WAITING: usize = 1024;

pub(crate) struct Queue<'c> {
    connection: &'c Connection,
    waiting: VecDeque<Message>,
}

impl<'c> Queue<'c> {
    pub(crate) fn new(connection: &'c Connection) -> Queue<'c> {
        Queue { connection, waiting: VecDeque::new() }
    }

    /// The next message; none once the client is gone.
    pub(crate) fn next(&mut self) -> Option<Message> {
        loop {
            if self.waiting.is_empty() {
                let message = self.connection.receiver.recv().ok()?;
                self.admit(message);
            }
            self.drain();
            if let Some(message) = self.waiting.pop_front() {
                return Some(message);
            }
        }
    }

    /// Whether nothing waits: then there is time to tell what was found.
    pub(crate) fn is_idle(&mut self) -> bool {
        self.drain();
        self.waiting.is_empty()
    }

    fn drain(&mut self) {
        while self.waiting.len() < WAITING {
            let Ok(message) = self.connection.receiver.try_recv() else { return };
            self.admit(message);
        }
    }

    fn admit(&mut self, message: Message) {
        let cancelled = match &message {
            Message::Notification(note) if note.method == "$/cancelRequest" => id(note.params.get("id")),
            _ => {
                self.waiting.push_back(message);
                return;
            }
        };
        let Some(cancelled) = cancelled else { return };
        let is_it = |message: &Message| matches!(message, Message::Request(request) if request.id == cancelled);
        // A request that was answered already cannot be cancelled: that is no error.
        if let Some(at) = self.waiting.iter().position(is_it) {
            self.waiting.remove(at);
            let answer = wire::refusal(&cancelled, ErrorCode::RequestCanceled, "cancelled");
            // A client that is gone is noticed by the next read.
            let _ = self.connection.sender.send(answer);
        }
    }
}

fn id(value: Option<&Value>) -> Option<RequestId> {
    match value? {
        Value::Number(number) => Some(i32::try_from(number.as_i64()?).ok()?.into()),
        Value::String(text) => Some(text.clone().into()),
        _ => None,
    }
}
