//! The page: what it answers is what the command reports, and it is served to this computer alone.

use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::TcpStream;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use serde_json::{Value, json};
use untaught_page::Desk;

/// Every reader that comes with the program, at three lessons: the marks of the page are the words of the report.
#[test]
fn the_page_and_the_command_give_the_same_verdicts() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../scope-files/readers");
    let mut readers: Vec<_> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    readers.sort();
    assert!(readers.len() >= 10);
    let mut desk = Desk::default();
    let mut compared = 0;
    for reader in &readers {
        let text = std::fs::read_to_string(reader).unwrap();
        let opened: Value = answer(&mut desk, &json!({"ask": "open", "text": text}));
        let story = opened["story"].as_str().unwrap();
        for (place, id) in [(9, "10"), (29, "30"), (59, "60")] {
            let asked = json!({"ask": "mark", "scope": {"name": "starter"}, "lesson": place, "text": story,
                "names": opened["names"], "story_words": opened["story_words"], "focus": opened["focus"]});
            let marked: Value = answer(&mut desk, &asked);
            let output = Command::new(env!("CARGO_BIN_EXE_untaught"))
                .args(["check", "--format", "json", "--every-word", "--no-config", "--lesson", id])
                .arg(reader)
                .output()
                .unwrap();
            let report: Value = serde_json::from_slice(&output.stdout).unwrap();
            let text = &report["texts"][0];
            for count in ["words", "decodable", "sight", "story", "untaught", "uncounted"] {
                assert_eq!(marked["counts"][count], text["counts"][count], "{} {id} {count}", reader.display());
            }
            let units: Vec<u16> = story.encode_utf16().collect();
            let words = marked["words"].as_array().unwrap();
            let number = |at: usize| usize::try_from(words[at].as_u64().unwrap()).unwrap();
            let listed = text["words"].as_array().unwrap();
            assert_eq!(words.len(), listed.len() * 3);
            for (at, word) in listed.iter().enumerate() {
                let written = String::from_utf16(&units[number(at * 3)..number(at * 3 + 1)]).unwrap();
                assert_eq!(written, word["word"].as_str().unwrap());
                assert_eq!(marked["distinct"][number(at * 3 + 2)]["status"], word["status"], "{written} at {id}");
                compared += 1;
            }
        }
    }
    assert!(compared > 3000, "{compared}");
}

fn answer(desk: &mut Desk, question: &Value) -> Value {
    serde_json::from_str(&desk.answer(&question.to_string())).unwrap()
}

/// A served page, ended when it is dropped.
struct Served {
    child: Child,
    port: u16,
}

impl Served {
    fn start() -> Served {
        let mut child = Command::new(env!("CARGO_BIN_EXE_untaught"))
            .args(["page", "--no-browser"])
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut line = String::new();
        BufReader::new(child.stdout.as_mut().unwrap()).read_line(&mut line).unwrap();
        let port = line.trim().trim_start_matches("http://127.0.0.1:").trim_end_matches('/').parse().unwrap();
        Served { child, port }
    }

    /// The status and the body of an answer.
    fn ask(&self, request: &str) -> (u16, String) {
        let mut stream = TcpStream::connect(("127.0.0.1", self.port)).unwrap();
        stream.write_all(request.replace("PORT", &self.port.to_string()).as_bytes()).unwrap();
        let mut reply = Vec::new();
        stream.read_to_end(&mut reply).unwrap();
        let reply = String::from_utf8_lossy(&reply);
        let status = reply.split(' ').nth(1).unwrap_or_default().parse().unwrap();
        (status, reply.split_once("\r\n\r\n").map(|(_, body)| body.to_owned()).unwrap_or_default())
    }

    fn get(&self, path: &str, host: &str) -> (u16, String) {
        self.ask(&format!("GET {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n"))
    }

    fn post(&self, body: &str, headers: &str) -> (u16, String) {
        self.ask(&format!(
            "POST /engine HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\nConnection: close\r\n{headers}Content-Length: {}\r\n\r\n{body}",
            body.len()
        ))
    }
}

impl Drop for Served {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

#[test]
fn the_page_is_served_to_this_computer_alone() {
    let served = Served::start();
    let (status, page) = served.get("/", "127.0.0.1:PORT");
    assert!(status == 200 && page.contains("<h1>untaught</h1>"), "{status}");
    for path in ["/page.js", "/page.css"] {
        assert_eq!(served.get(path, "localhost:PORT").0, 200, "{path}");
    }
    assert_eq!(served.get("/../Cargo.toml", "127.0.0.1:PORT").0, 404);
    let json = "Content-Type: application/json\r\n";
    let question = r#"{"ask": "word", "scope": {"name": "starter"}, "lesson": 5, "word": "night"}"#;
    let (status, about) = served.post(question, json);
    assert!(status == 200 && about.contains("igh as in night"), "{status} {about}");
    // Another site, under whatever name, gets nothing.
    assert_eq!(served.get("/", "evil.example").0, 403);
    assert_eq!(served.post(question, &format!("{json}Origin: http://evil.example\r\n")).0, 403);
    assert_eq!(served.post(question, "Content-Type: text/plain\r\n").0, 415);
    // What is no question gets a sentence.
    let (status, problem) = served.post("{", json);
    assert!(status == 200 && problem.contains("problem"), "{status} {problem}");
    assert_eq!(served.post("\u{fffd}", &format!("{json}X: y\r\n")).0, 200);
}

#[test]
fn a_client_that_does_not_end_keeps_nobody_waiting() {
    let served = Served::start();
    let host = format!("Host: 127.0.0.1:{}\r\n", served.port);
    let json = "Content-Type: application/json\r\n";
    let halves = [
        String::new(),
        "GET".to_owned(),
        format!("GET / HTTP/1.1\r\n{host}"),
        format!("POST /engine HTTP/1.1\r\n{host}{json}Content-Length: 5000\r\n\r\n{{\"ask\":"),
        format!("POST /engine HTTP/1.1\r\n{host}{json}Transfer-Encoding: chunked\r\n\r\n5\r\n{{\"a"),
    ];
    let mut stuck: Vec<TcpStream> = Vec::new();
    for half in halves.iter().cycle().take(30) {
        let mut stream = TcpStream::connect(("127.0.0.1", served.port)).unwrap();
        stream.write_all(half.as_bytes()).unwrap();
        stuck.push(stream);
    }
    let question = r#"{"ask": "word", "scope": {"name": "starter"}, "lesson": 5, "word": "night"}"#;
    let (status, about) = served.post(question, json);
    assert!(status == 200 && about.contains("igh as in night"), "{status} {about}");
    // Those that send no more are let go in the end.
    let mut rest = Vec::new();
    stuck[3].set_read_timeout(Some(Duration::from_secs(60))).unwrap();
    assert_eq!(stuck[3].read_to_end(&mut rest).unwrap(), 0, "{}", String::from_utf8_lossy(&rest));
    assert_eq!(served.get("/", "127.0.0.1:PORT").0, 200);
}

#[test]
fn a_question_without_end_is_refused() {
    let served = Served::start();
    let json = "Content-Type: application/json\r\n";
    let ask = |lines: &str, body: &str| {
        served.ask(&format!("POST /engine HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\n{json}{lines}\r\n{body}"))
    };
    let (status, why) = ask("Content-Length: 1000000000\r\n", &"[".repeat(1 << 20));
    assert_eq!((status, why.as_str()), (413, "this question is too long to be read"));
    assert_eq!(ask("Transfer-Encoding: chunked\r\n", "5\r\n").0, 411);
    assert_eq!(ask(&format!("A: {}\r\n", "b".repeat(1 << 20)), "").0, 431);
    // What is nested without end is a question like others, but none that can be answered.
    let (status, problem) = served.post(&"[".repeat(1 << 20), json);
    assert!(status == 200 && problem.contains("problem"), "{status} {problem}");
    let scope = format!("format: 1\\nlessons:\\n- teach: [{}]", "zz, ".repeat(900));
    let question = format!(r#"{{"ask": "scope", "scope": {{"text": "{scope}"}}}}"#);
    let (status, faults) = served.post(&question, json);
    let faults: Value = serde_json::from_str(&faults).unwrap();
    let faults = faults["faults"].as_array().unwrap();
    assert_eq!((status, faults.len()), (200, 21));
    assert_eq!(faults[20]["message"], "and 879 more");
}

#[test]
fn a_taken_port_is_told() {
    let served = Served::start();
    let output = Command::new(env!("CARGO_BIN_EXE_untaught"))
        .args(["page", "--no-browser", "--port", &served.port.to_string()])
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&output.stderr).contains("is taken"));
}
