//! `untaught editor` on real standard input and output.

use std::io::{Read as _, Write as _};
use std::process::{Command, Stdio};

fn framed(body: &str) -> String {
    format!("Content-Length: {}\r\n\r\n{body}", body.len())
}

/// What the program writes for an input, and how it ends.
fn run(input: &str) -> (Option<i32>, String, String) {
    let mut child = Command::new(env!("CARGO_BIN_EXE_untaught"))
        .args(["editor", "--stdio"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut stdin = child.stdin.take().unwrap();
    // A program that is gone before it has read everything is judged by what it wrote.
    let _ = stdin.write_all(input.as_bytes());
    drop(stdin);
    let (mut out, mut err) = (String::new(), String::new());
    child.stdout.take().unwrap().read_to_string(&mut out).unwrap();
    child.stderr.take().unwrap().read_to_string(&mut err).unwrap();
    (child.wait().unwrap().code(), out, err)
}

const BEGIN: &str = r#"{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"capabilities":{}}}"#;
const SHUT: &str = r#"{"jsonrpc":"2.0","id":2,"method":"shutdown"}"#;
const EXIT: &str = r#"{"jsonrpc":"2.0","method":"exit"}"#;

#[test]
fn a_session_ends_cleanly() {
    let (code, out, err) = run(&[BEGIN, SHUT, EXIT].map(framed).concat());
    assert_eq!((code, err.as_str()), (Some(0), ""), "{out}");
    assert!(out.contains(r#""name":"untaught""#) && out.starts_with("Content-Length: "), "{out}");
}

#[test]
fn leaving_without_goodbye_is_a_failed_run() {
    assert_eq!(run(&[BEGIN, EXIT].map(framed).concat()).0, Some(1));
    assert_eq!(run(&framed(BEGIN)).0, Some(1));
    assert_eq!(run("").0, Some(1));
}

#[test]
fn what_is_no_message_is_passed_over_or_ends_the_session() {
    let (code, out, err) =
        run(&["{", "[]", r#"{"jsonrpc":"2.0"}"#, "\u{fffd}", BEGIN, SHUT, EXIT].map(framed).concat());
    assert_eq!(code, Some(0), "{err}");
    assert!(out.contains("capabilities"));
    assert_eq!(err.lines().count(), 4, "{err}");
    for garbage in [
        "nonsense\r\n\r\n",
        "Content-Length: 99999999999999999\r\n\r\n",
        "Content-Length: -1\r\n\r\n{}",
        "\0\0\0",
        "Content-Length: 100\r\n\r\n{}",
    ] {
        let (code, _, err) = run(&(framed(BEGIN) + garbage));
        assert_eq!(code, Some(2), "{garbage:?}");
        assert!(!err.contains("panicked"), "{err}");
    }
}
