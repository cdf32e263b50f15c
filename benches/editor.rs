//! The editor's speed: from a keystroke to its diagnostics, in a story of 5,000 words.

use criterion::{Criterion, criterion_group, criterion_main};
use lsp_server::{Connection, Message, Notification, Request};
use serde_json::{Value, json};

const STORIES: [&str; 3] = [
    include_str!("../scope-files/readers/20-tabs-itch.txt"),
    include_str!("../scope-files/readers/40-the-fastest-cart.txt"),
    include_str!("../scope-files/readers/60-the-best-invention.txt"),
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

/// A client with the story open, on the other side of a server of this process.
struct Client {
    connection: Connection,
    version: i32,
}

const STORY: &str = "untitled:story.txt";

impl Client {
    fn new(lesson: &str) -> Client {
        let (server, connection) = Connection::memory();
        std::thread::spawn(move || untaught_editor::serve(&server));
        let client = Client { connection, version: 1 };
        let options = json!({ "untaught": { "lesson": lesson } });
        let params = json!({ "capabilities": {}, "initializationOptions": options });
        let begin = Request { id: 1.into(), method: "initialize".to_owned(), params };
        client.connection.sender.send(begin.into()).expect("the server listens");
        client.hear();
        let about = json!({ "uri": STORY, "languageId": "plaintext", "version": 1, "text": story() });
        client.tell("textDocument/didOpen", json!({ "textDocument": about }));
        client.hear();
        client
    }

    fn tell(&self, method: &str, params: Value) {
        let message = Notification { method: method.to_owned(), params };
        self.connection.sender.send(message.into()).expect("the server listens");
    }

    fn hear(&self) -> Message {
        self.connection.receiver.recv().expect("the server answers")
    }

    /// Types a letter in the middle of the story or takes it back, and waits for the diagnostics of that version.
    fn keystroke(&mut self) -> Message {
        self.version += 1;
        let odd = u32::from(self.version % 2 == 1);
        let range = json!({ "start": { "line": 60, "character": 3 }, "end": { "line": 60, "character": 3 + odd } });
        let text = if odd == 1 { "" } else { "x" };
        let about = json!({ "uri": STORY, "version": self.version });
        let changes = json!([{ "range": range, "text": text }]);
        self.tell("textDocument/didChange", json!({ "textDocument": about, "contentChanges": changes }));
        self.hear()
    }
}

fn editor(criterion: &mut Criterion) {
    for (name, lesson) in [("few untaught words", "60"), ("many untaught words", "20")] {
        let mut client = Client::new(lesson);
        criterion.bench_function(&format!("keystroke to diagnostics, {name}"), |bencher| {
            bencher.iter(|| client.keystroke());
        });
        // The mean hides the slow ones: so the 99th percentile is told too.
        let mut times: Vec<_> = (0..2000)
            .map(|_| {
                let start = std::time::Instant::now();
                client.keystroke();
                start.elapsed()
            })
            .collect();
        times.sort();
        println!("{name}: median {:?}, 99th percentile {:?}", times[1000], times[1980]);
    }
}

criterion_group!(benches, editor);
criterion_main!(benches);
