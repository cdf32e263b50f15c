//! The life of a session: from the first message to the last.

use lsp_server::{ErrorCode, Message, Notification, Request, RequestId, Response};
use lsp_types::notification::Notification as _;
use lsp_types::request::Request as _;
use lsp_types::{InitializeParams, notification as note, request};
use serde_json::{Value, json};

use crate::client::{self, Client, SummaryPlace};
use crate::offer::offer;
use crate::queue::Queue;
use crate::state::State;
use crate::wire::{self, Connection};
use crate::{answer, take};

/// How a session ended.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum End {
    /// The client said goodbye first, as it should.
    Clean,
    /// It did not.
    Abrupt,
}

/// Serves a client until it says goodbye or is gone.
#[must_use]
pub fn serve(connection: &Connection) -> End {
    let mut queue = Queue::new(connection);
    let Some(state) = begin(connection, &mut queue) else { return End::Abrupt };
    let mut server = Server { connection, state, asked: 0, news: false, stale: false };
    let mut shut_down = false;
    while let Some(message) = queue.next() {
        match message {
            Message::Request(request) if shut_down => {
                server.refuse(&request.id, ErrorCode::InvalidRequest, "the session is shut down");
            }
            Message::Request(request) if request.method == request::Shutdown::METHOD => {
                shut_down = true;
                server.send(wire::answer(&request.id, &Value::Null));
            }
            Message::Request(request) => {
                // Whoever asks has heard what was found before: edits alone may be taken together.
                server.tell();
                server.request(request);
            }
            Message::Notification(told) if told.method == note::Exit::METHOD => {
                return if shut_down { End::Clean } else { End::Abrupt };
            }
            Message::Notification(_) if shut_down => {}
            Message::Notification(told) => server.notice(told),
            Message::Response(response) => server.reply(&response),
        }
        if !shut_down && queue.is_idle() {
            server.tell();
        }
    }
    End::Abrupt
}

/// Waits for the first message and answers it. None for a client that leaves before.
fn begin(connection: &Connection, queue: &mut Queue<'_>) -> Option<State> {
    let send = |text: String| connection.sender.send(text).ok();
    loop {
        match queue.next()? {
            Message::Request(request) if request.method == request::Initialize::METHOD => {
                let params: InitializeParams = match serde_json::from_value(request.params.clone()) {
                    Ok(params) => params,
                    Err(error) => {
                        send(wire::refusal(&request.id, ErrorCode::InvalidParams, &error.to_string()))?;
                        continue;
                    }
                };
                let client = Client::new(&params, &request.params);
                let about = json!({
                    "capabilities": offer(&client),
                    "serverInfo": { "name": "untaught", "version": env!("CARGO_PKG_VERSION") },
                });
                send(wire::answer(&request.id, &about))?;
                let settings = params.initialization_options.as_ref().map(client::settings).unwrap_or_default();
                return Some(State::new(client, client::folders(&params), settings));
            }
            Message::Request(request) => {
                send(wire::refusal(
                    &request.id,
                    ErrorCode::ServerNotInitialized,
                    "the session has not been initialized",
                ))?;
            }
            Message::Notification(told) if told.method == note::Exit::METHOD => return None,
            Message::Notification(_) | Message::Response(_) => {}
        }
    }
}

pub(crate) struct Server<'c> {
    connection: &'c Connection,
    pub(crate) state: State,
    /// Requests sent to the client so far.
    asked: i32,
    /// Something was told, so that there may be news.
    news: bool,
    /// Something has changed on which other texts than the edited one may depend.
    pub(crate) stale: bool,
}

/// What requests for the client's settings are called, so that their answers are known again.
const SETTINGS: &str = "settings";

impl Server<'_> {
    fn send(&self, message: String) {
        // A client that is gone is noticed by the next read.
        let _ = self.connection.sender.send(message);
    }

    fn refuse(&self, id: &RequestId, code: ErrorCode, why: &str) {
        self.send(wire::refusal(id, code, why));
    }

    fn request(&mut self, request: Request) {
        let Request { id, method, params } = request;
        match answer::answer(&mut self.state, &id, &method, params) {
            Some(Ok(message)) => self.send(message),
            Some(Err(why)) => self.refuse(&id, ErrorCode::InvalidParams, &why),
            None => self.refuse(&id, ErrorCode::MethodNotFound, &format!("{method} is not supported")),
        }
    }

    fn notice(&mut self, told: Notification) {
        self.news = true;
        match told.method.as_str() {
            note::Initialized::METHOD => self.begin(),
            note::DidChangeConfiguration::METHOD => {
                let settings = told.params.get("settings").unwrap_or(&Value::Null);
                if client::has_settings(settings) {
                    self.state.settings = client::settings(settings).or(&self.state.first_settings);
                } else {
                    self.ask_for_settings();
                }
                self.stale = true;
            }
            // Those that begin so may be passed over; of the rest, a wrong one is nobody's to answer.
            method => match take::take(&mut self.state, method, told.params) {
                Ok(elsewhere) => self.stale |= elsewhere,
                Err(why) => eprintln!("untaught editor: {}: {}", method.escape_debug(), why.escape_debug()),
            },
        }
    }

    fn begin(&mut self) {
        if self.state.client.watches {
            let watch = json!({ "registrations": [{
                "id": "files",
                "method": note::DidChangeWatchedFiles::METHOD,
                "registerOptions": { "watchers": [{ "globPattern": "**/*.{yaml,yml}" }] },
            }]});
            self.ask(request::RegisterCapability::METHOD, None, &watch);
        }
        self.ask_for_settings();
    }

    fn ask_for_settings(&mut self) {
        if self.state.client.tells_settings {
            let items = json!({ "items": [{ "section": "untaught" }] });
            self.ask(request::WorkspaceConfiguration::METHOD, Some(SETTINGS), &items);
        }
    }

    fn ask(&mut self, method: &str, name: Option<&str>, params: &Value) {
        self.asked += 1;
        let id = match name {
            Some(name) => name.to_owned(),
            None => format!("ask-{}", self.asked),
        };
        self.send(wire::request(&id.into(), method, params));
    }

    /// An answer of the client: only its settings matter.
    fn reply(&mut self, response: &Response) {
        if response.id != RequestId::from(SETTINGS.to_owned()) {
            return;
        }
        if let Ok(Value::Array(settings)) = &response.response_result
            && let Some(settings) = settings.first().filter(|settings| settings.is_object())
        {
            self.state.settings = client::settings(settings).or(&self.state.first_settings);
            (self.news, self.stale) = (true, true);
        }
    }

    /// Tells the client what is new, or that there is something new to ask for.
    fn tell(&mut self) {
        if std::mem::take(&mut self.news) {
            if !self.state.client.pulls {
                for news in self.state.news() {
                    self.send(news);
                }
            }
            if self.state.client.summary == SummaryPlace::Notification {
                for summary in self.state.new_summaries() {
                    self.send(summary);
                }
            }
        }
        if std::mem::take(&mut self.stale) {
            let [diagnostics, hints, lenses] = self.state.client.refreshes;
            let methods = [
                (diagnostics && self.state.client.pulls, request::WorkspaceDiagnosticRefresh::METHOD),
                (hints && self.state.client.summary == SummaryPlace::Hint, request::InlayHintRefreshRequest::METHOD),
                (lenses && self.state.client.summary == SummaryPlace::Lens, request::CodeLensRefresh::METHOD),
            ];
            for (_, method) in methods.into_iter().filter(|(wanted, _)| *wanted) {
                self.ask(method, None, &Value::Null);
            }
        }
    }
}
