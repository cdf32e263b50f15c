//! The editor's speed: from a keystroke to its diagnostics, in a story of 5,000 words.

use criterion::{Criterion, criterion_group, criterion_main};
use lsp_server::{Notification, Request};
use serde_json::{Value, json};
use untaught_editor::{Connection, Peer};

const STORIES: [&str; 3] = [
    include_str!("../scope-files/readers/20-jocks-ketch.txt"),
    include_str!("../scope-files/readers/40-the-farthest-farm.txt"),
    include_str!("../scope-files/readers/60-directions.txt"),
];

/// A story of 5,000 words, its paragraphs in lines as a writer has them.
fn story() -> String {
    let all = STORIES.map(|story| story.rsplit("---\n").next().unwrap_or(story)).concat();
    let mut words = 0;
    let lines = all.lines().cycle().take_while(|line| {
        words += line.split_whitespace().count();
        words <= 5000
    });
    lines.flat_map(|line| [line, "\n"]).collect()
}

/// What a client can and was set to, and how much there is to say.
struct Case {
    name: &'static str,
    lesson: &'static str,
    language: &'static str,
    /// The scope comes from a file, and the client shows where in it a word's lesson stands.
    related: bool,
    /// It asks for diagnostics.
    pulls: bool,
}

const CASES: [Case; 5] = [
    Case { name: "few untaught words", lesson: "60", language: "plaintext", related: false, pulls: false },
    Case { name: "many untaught words", lesson: "20", language: "plaintext", related: false, pulls: false },
    Case { name: "many, with places", lesson: "20", language: "plaintext", related: true, pulls: false },
    Case { name: "nearly all, with places, Markdown", lesson: "1", language: "markdown", related: true, pulls: false },
    Case { name: "many, with places, asked for", lesson: "20", language: "plaintext", related: true, pulls: true },
];

/// A client with the story open, on the other side of a server of this process.
struct Client {
    connection: Peer,
    pulls: bool,
    version: i32,
    /// The lines in which letters are typed.
    lines: Vec<usize>,
}

const STORY: &str = "untitled:story.txt";

impl Client {
    fn new(case: &Case) -> Client {
        let (server, connection) = Connection::memory();
        std::thread::spawn(move || untaught_editor::serve(&server));
        let story = story();
        let lines = story.lines().enumerate().filter(|(_, line)| line.len() > 8 && line.is_ascii());
        let lines = lines.map(|(number, _)| number).collect();
        let client = Client { connection, pulls: case.pulls, version: 1, lines };
        let scope =
            if case.related { concat!(env!("CARGO_MANIFEST_DIR"), "/../scope-files/starter.yaml") } else { "starter" };
        let mut text = json!({ "publishDiagnostics": { "relatedInformation": case.related }, "inlayHint": {} });
        if case.pulls {
            text["diagnostic"] = json!({});
        }
        let options = json!({ "untaught": { "scope": scope, "lesson": case.lesson } });
        let workspace = json!({ "diagnostics": { "refreshSupport": true } });
        let can = json!({ "textDocument": text, "workspace": workspace });
        let begin = json!({ "capabilities": can, "initializationOptions": options });
        client.ask("initialize", begin);
        client.hear();
        let about = json!({ "uri": STORY, "languageId": case.language, "version": 1, "text": story });
        client.tell("textDocument/didOpen", json!({ "textDocument": about }));
        if !case.pulls {
            client.hear();
        }
        client
    }

    fn tell(&self, method: &str, params: Value) {
        let message = Notification { method: method.to_owned(), params };
        self.connection.sender.send(message.into()).expect("the server listens");
    }

    fn ask(&self, method: &str, params: Value) {
        let message = Request { id: 1.into(), method: method.to_owned(), params };
        self.connection.sender.send(message.into()).expect("the server listens");
    }

    fn hear(&self) -> String {
        self.connection.receiver.recv().expect("the server answers")
    }

    /// Types a letter somewhere in the story, or takes it back, and waits for the diagnostics of that version: pushed, or asked for at
    /// once, as the text that goes over the wire.
    fn keystroke(&mut self) -> String {
        self.version += 1;
        let (stroke, back) = (self.version as usize / 2, u32::from(self.version % 2 == 1));
        let line = self.lines[stroke * 37 % self.lines.len()];
        let letter = char::from(b'a' + (stroke % 26) as u8).to_string();
        let range =
            json!({ "start": { "line": line, "character": 3 }, "end": { "line": line, "character": 3 + back } });
        let about = json!({ "uri": STORY, "version": self.version });
        let changes = json!([{ "range": range, "text": if back == 1 { String::new() } else { letter } }]);
        self.tell("textDocument/didChange", json!({ "textDocument": about, "contentChanges": changes }));
        if self.pulls {
            self.ask("textDocument/diagnostic", json!({ "textDocument": { "uri": STORY } }));
        }
        self.hear()
    }
}

fn editor(criterion: &mut Criterion) {
    for case in &CASES {
        let mut client = Client::new(case);
        criterion.bench_function(&format!("keystroke to diagnostics: {}", case.name), |bencher| {
            bencher.iter(|| client.keystroke());
        });
        // The mean hides the slow ones: so the 99th percentile is told too.
        let mut found = String::new();
        let mut times: Vec<_> = (0..2000)
            .map(|_| {
                let start = std::time::Instant::now();
                found = client.keystroke();
                start.elapsed()
            })
            .collect();
        times.sort();
        let count = found.matches("\"severity\":").count();
        println!("{}: {count} diagnostics, {} bytes", case.name, found.len());
        println!("{}: median {:?}, 99th percentile {:?}", case.name, times[1000], times[1980]);
    }
}

criterion_group!(benches, editor);
criterion_main!(benches);
