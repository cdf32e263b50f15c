//! Names and contents that would begin a line of their own, command a log or a terminal, or turn the direction of writing: messages and
//! reports show them, and they do nothing.

use std::fs;

use crate::support::{Done, folder_with, untaught};

/// What would begin a line of its own, command a log, a terminal or the direction of writing.
const NASTY: &str = "a\n::error::b\r::warning::c\u{1b}[2J\u{202e}\u{2066}\u{85}##[error]d";

/// Complaints are lines that begin as they always do, and hold nothing that acts.
fn assert_harmless(done: &Done) {
    let unsafe_in = |text: &str| {
        text.contains(|c: char| {
            c.is_control() && c != '\n' || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
        })
    };
    assert!(!done.err().is_empty() || !done.out().is_empty(), "{done:?}");
    // Tables end their lines as RFC 4180 wants it.
    for text in [done.err(), &done.out().replace("\r\n", "\n")] {
        assert!(!unsafe_in(text), "{done:?}");
        for line in text.lines() {
            assert!(!line.trim_start().starts_with("::") && !line.contains("##[error]"), "{line:?} in {done:?}");
        }
    }
}

/// The same as YAML has it.
fn in_quotes(text: &str) -> String {
    serde_json::to_string(text).unwrap()
}

#[test]
fn nothing_of_a_file_begins_a_line_of_a_log() {
    let nasty = in_quotes(NASTY);
    let long_key = format!("k{}", NASTY.replace(['[', ']'], ""));
    let scopes = [
        format!("{}: 1", in_quotes(&long_key)),
        format!("title: {nasty}\nformat: 1\nlessons: [{{}}]\ntitle: {nasty}"),
        format!("{nasty}: 1\n{nasty}: 2"),
        format!("format: {nasty}"),
        format!("format: 1\nlessons: {nasty}"),
        format!("format: 1\nlessons:\n- {{teach: [{nasty}, {nasty}]}}"),
        format!("format: 1\nlessons:\n- {{teach: [{}]}}", in_quotes(&format!("{NASTY} as in cat"))),
        format!("format: 1\nlessons:\n- {{teach: [{}]}}", in_quotes(&format!("a as in {NASTY}"))),
        format!("format: 1\nlessons:\n- {{teach: [{}]}}", in_quotes(&format!("a = /{NASTY}/"))),
        format!("format: 1\nlessons:\n- {{teach: [{}]}}", in_quotes(&format!("-{NASTY}"))),
        format!("format: 1\nlessons:\n- {{sight: [{nasty}]}}"),
        format!("format: 1\nlessons:\n- {{skills: [{nasty}]}}"),
        format!("format: 1\nlessons:\n- {{review: [{nasty}]}}"),
        format!("format: 1\nlessons:\n- {{id: {nasty}}}\n- {{id: {nasty}}}"),
        format!("format: 1\nlessons:\n- {{id: {nasty}, sight: [a]}}\n- {{sight: [a]}}"),
        format!("format: 1\nlessons: [*{NASTY}]"),
        format!("!{NASTY} a: 1"),
        format!("%TAG {NASTY}"),
        NASTY.to_owned(),
    ];
    for scope in scopes {
        let folder = folder_with("s.yaml", &scope);
        let done = untaught(["scope", "s.yaml"]).within(folder.path()).done();
        assert_eq!((done.code, done.out()), (Some(2), ""), "{scope}: {done:?}");
        assert_harmless(&done);
        assert!(done.err().lines().skip(1).all(|line| line.starts_with("s.yaml:")), "{scope}: {done:?}");
    }
    let good = format!(
        "format: 1\ntitle: {nasty}\nsource: {nasty}\nlessons:\n- {{id: {nasty}, title: {nasty}, teach: [s, a, t], sight: [said]}}\n"
    );
    let folder = folder_with("s.yaml", good);
    fs::write(folder.path().join("a.txt"), "Sat at night.").unwrap();
    for args in [
        &["scope", "s.yaml"][..],
        &["check", "a.txt", "--scope", "s.yaml"],
        &["check", "a.txt", "--scope", "s.yaml", "--show-config"],
        &["check", "a.txt", "--scope", "s.yaml", "--lesson", NASTY, "--names", NASTY],
        &["check", "a.txt", "--scope", "s.yaml", "--lesson", "x"],
        &["check", "a.txt", "--scope", "s.yaml", "--format", "csv"],
        &["place", "a.txt", "--scope", "s.yaml"],
        &["shelf", "a.txt", "--scope", "s.yaml"],
        &["explain", "sat", "night", "said", "--scope", "s.yaml"],
        &["words", "--scope", "s.yaml"],
        &["chain", "--scope", "s.yaml"],
        &["dictation", "--scope", "s.yaml"],
    ] {
        assert_harmless(&untaught(args).within(folder.path()).done());
    }
    for block in [
        format!("{}: 1", in_quotes(&long_key)) + "\nlesson: 1",
        format!("lesson: {nasty}"),
        format!("scope: {nasty}"),
        format!("focus: [{nasty}]"),
        format!("title: {nasty}\nlesson: 0"),
        format!("names: {nasty}"),
    ] {
        let folder = folder_with("a.txt", format!("---\n{block}\n---\nTam"));
        let done = untaught(["check", "a.txt"]).within(folder.path()).done();
        assert_eq!((done.code, done.out(), done.err().lines().count()), (Some(2), "", 1), "{block}: {done:?}");
        assert_harmless(&done);
    }
    for settings in [
        format!("{}: 1", in_quotes(&long_key)),
        format!("exclude: {}", in_quotes(&format!("{NASTY}["))),
        format!("lesson-from-name: {}", in_quotes(&format!("({NASTY}("))),
        format!("scope: {nasty}"),
        format!("lesson: {nasty}"),
        format!("focus: [{nasty}]"),
    ] {
        let folder = folder_with("untaught.yaml", format!("format: 1\n{settings}\n"));
        fs::write(folder.path().join("a.txt"), "Tam").unwrap();
        let done = untaught(["check", "a.txt"]).within(folder.path()).done();
        assert_eq!((done.code, done.out()), (Some(2), ""), "{settings}: {done:?}");
        assert_harmless(&done);
    }
    let record = format!(
        "{{\"text\": \"Tam\", \"lesson\": {nasty}, {nasty}: 1}}\n{{\"text\": \"Tam\", \"lesson\": {nasty}}}\n{{\"text\": \"a\", \"lesson\": [{nasty}]}}\n"
    );
    let done = untaught(["check", "-", "--format", "jsonl"]).stdin(record).done();
    assert_eq!((done.code, done.out().lines().count(), done.err().lines().count()), (Some(1), 3, 3), "{done:?}");
    assert_harmless(&done);
}

#[cfg(unix)]
#[test]
fn no_name_begins_a_line_of_a_log() {
    let name = format!("{NASTY}.txt");
    let folder = folder_with(&name, "Sat at night.");
    fs::create_dir(folder.path().join(NASTY)).unwrap();
    fs::write(folder.path().join("::error::x.txt"), "Tam").unwrap();
    fs::write(folder.path().join("::error::x.yaml"), "x: 1").unwrap();
    fs::write(folder.path().join("front.txt"), "---\nx: 1\nlesson: 1\n---\nTam").unwrap();
    fs::copy(folder.path().join("front.txt"), folder.path().join(format!("front{NASTY}.txt"))).unwrap();
    fs::write(folder.path().join(format!("broken{NASTY}.docx")), "PK\x03\x04").unwrap();
    fs::write(folder.path().join(format!("old{NASTY}.txt")), b"caf\xe9").unwrap();
    fs::write(folder.path().join(format!("binary{NASTY}.txt")), b"\0").unwrap();
    let missing = format!("missing{NASTY}.txt");
    for args in [
        &["check", "."][..],
        &["check", &name, "::error::x.txt"],
        &["check", &name, "::error::x.txt", "--format", "csv"],
        &["check", &missing],
        &["check", NASTY],
        &["check", &name, "--scope", &missing],
        &["check", &name, "--scope", NASTY],
        &["check", &name, "--scope", "::error::x.yaml"],
        &["check", &name, "--config", "::error::x.yaml"],
        &["check", &name, "--config", &missing],
        &["check", &name, "--lesson", NASTY],
        &["check", &name, "--focus", NASTY],
        &["check", &name, "--output", NASTY],
        &["check", &name, "--output", &name],
        &["check", &name, "--show-config"],
        &["place", "."],
        &["shelf", "."],
        &["scope", &name],
        &["pack", &missing],
        &["explain", "\n::error::"],
        &["explain", "cat", "--scope", NASTY],
        &["patterns", NASTY],
        &["words", "--focus", NASTY],
        &["words", "--shape", NASTY],
        &["words", "--sounds", NASTY],
        &["chain", "--from", NASTY],
        &["chain", "--change", NASTY],
        &["boxes", NASTY],
        &["contrast", NASTY],
        &["check", "--min-readable", NASTY],
        &["check", "--format", NASTY],
        &["check", &format!("--{NASTY}")],
        &[NASTY],
    ] {
        let done = untaught(args).within(folder.path()).done();
        assert!(!done.err().contains("panicked"), "{done:?}");
        assert_harmless(&done);
    }
}
