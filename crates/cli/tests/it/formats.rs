//! Stories and names of files made to do harm where a report is shown or read: on a terminal, in a browser, a spreadsheet, a log.

#![cfg(unix)]

use std::fs;

use crate::support::{Done, untaught};
use serde_json::Value;
use tempfile::TempDir;

/// A story with all that could act on whoever shows it.
const STORY: &str = "Tam \u{1b}[31mquay\u{1b}[0m sat\u{7}. \u{1b}]0;title\u{7}\n=cmd('calc')!quay +quay @quay -quay\n\
                     <script>alert('quay')</script> <img src=x onerror=alert(1)>quay ]]> <!-- quay --> &amp; \"quay\" 'quay'\n\
                     ::error::quay\n::set-output name=a::quay\n\u{202e}yauq \u{9b}31mquay \u{2028}quay\r::warning::quay\0\n";

/// Names of files that do the same.
const NAMES: [&str; 8] = [
    "=cmd()|quay.txt",
    "\u{1b}[2J\u{7}quay.txt",
    "a\n::error::quay.txt",
    "b\r\n  \u{2713} Every word can be read.txt",
    "]]>quay\"'<img src=x onerror=alert(1)>.txt",
    "<script>quay.md",
    "c,line=1::quay%0A.txt",
    "\u{202e}txt.quay.txt",
];

const FORMATS: [&str; 10] = ["text", "lines", "html", "json", "jsonl", "csv", "csv-words", "sarif", "junit", "github"];

fn folder() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    for name in NAMES {
        fs::write(folder.path().join(name), STORY.replace('\0', "")).unwrap();
        // What fails has names too.
        fs::write(folder.path().join(format!("failed {name}")), b"\x00\x01").unwrap();
    }
    folder
}

fn run(folder: &TempDir, args: &[&str]) -> Done {
    let files = NAMES.iter().flat_map(|name| [format!("./{name}"), format!("./failed {name}")]);
    untaught(args.iter().map(|arg| (*arg).to_owned()).chain(files)).within(folder.path()).done()
}

/// What acts on a terminal, or turns the direction of writing.
fn acts(c: char) -> bool {
    (c.is_control() && c != '\n' && c != '\r') || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

#[test]
fn nothing_of_a_text_or_a_name_acts_on_a_terminal() {
    let folder = folder();
    let mut runs: Vec<Vec<&str>> = FORMATS.iter().map(|format| vec!["check", "-l", "5", "-f", format]).collect();
    for command in ["place", "shelf"] {
        runs.extend(["text", "html", "json", "csv"].map(|format| vec![command, "-f", format]));
    }
    runs.push(vec!["check", "--show-config"]);
    runs.push(vec!["check", "--show-config", "-f", "json"]);
    runs.push(vec!["check", "-l", "5", "-f", "json", "--every-word"]);
    for args in runs {
        let done = run(&folder, &args);
        assert_eq!(done.code, Some(2), "{args:?}: {done:?}");
        for (text, what) in [(done.out(), "output"), (done.err(), "error")] {
            let found = text.char_indices().find(|(_, c)| acts(*c));
            assert!(found.is_none(), "{args:?}: {found:?} in {what}: {text}");
        }
        // Each failure is told once, on a line of its own.
        let complaints = done.err().lines().filter(|line| line.starts_with("untaught: ./failed ")).count();
        assert_eq!((complaints, done.err().lines().count()), (NAMES.len(), NAMES.len()), "{args:?}: {}", done.err());
        assert!(!done.err().contains('\r'), "{args:?}");
    }
}

#[test]
fn a_name_cannot_pass_for_a_verdict() {
    let folder = folder();
    let done = run(&folder, &["check", "-l", "5"]);
    assert!(
        !done.out().lines().any(|line| line.contains('\u{2713}') && !line.contains("at lesson 5")),
        "{}",
        done.out()
    );
    let shown = done.out().lines().filter(|line| line.starts_with("./") && line.contains(" at lesson 5 (")).count();
    assert_eq!(shown, NAMES.len(), "{}", done.out());
}

#[test]
fn json_gives_names_and_words_as_they_are() {
    let folder = folder();
    let done = run(&folder, &["check", "-l", "5", "-f", "json"]);
    let json = done.json();
    let files: Vec<&str> =
        json["texts"].as_array().unwrap().iter().map(|text| text["file"].as_str().unwrap()).collect();
    assert_eq!(files, NAMES.map(|name| format!("./{name}")), "{done:?}");
    let errors: Vec<&str> = json["errors"].as_array().unwrap().iter().map(|e| e["file"].as_str().unwrap()).collect();
    assert_eq!(errors, NAMES.map(|name| format!("./failed {name}")));
    assert!(
        json["texts"].as_array().unwrap().iter().all(|text| text["findings"].as_array().is_some_and(|f| !f.is_empty()))
    );
    let lines = run(&folder, &["check", "-l", "5", "-f", "jsonl"]);
    let lines: Vec<Value> = lines.out().lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(lines.len(), 2 * NAMES.len());
}

#[test]
fn no_cell_is_a_formula() {
    let folder = folder();
    for args in [
        &["check", "-l", "5", "-f", "csv"][..],
        &["check", "-l", "5", "-f", "csv-words"],
        &["place", "-f", "csv"],
        &["shelf", "-f", "csv"],
    ] {
        // By its own name, so that it begins as it does.
        let done = untaught(args).arg(NAMES[0]).arg(NAMES[2]).within(folder.path()).done();
        let mut cells = 0;
        for line in done.out().split("\r\n").skip(1) {
            for cell in line.split("\",\"").flat_map(|cell| cell.split(',')) {
                cells += 1;
                let cell = cell.trim_start_matches('"');
                let formula = cell.starts_with(['=', '+', '-', '@']) && cell.parse::<f64>().is_err();
                assert!(!formula, "{args:?}: {cell}: {}", done.out());
            }
        }
        assert!(cells > 5 && done.out().contains("'=cmd()|quay.txt"), "{args:?}: {done:?}");
    }
}

#[test]
fn pages_hold_no_markup_of_a_text() {
    let folder = folder();
    for args in [&["check", "-l", "5", "-f", "html"][..], &["place", "-f", "html"], &["shelf", "-f", "html"]] {
        let page = run(&folder, args).out().to_lowercase();
        for part in ["<script", "<img", "<!-- quay", "javascript:"] {
            assert!(!page.contains(part), "{args:?}: {part}");
        }
        // Within a tag there is nothing that a text could have brought in: no attribute begins with `on`.
        for tag in page.split('<').skip(1).filter_map(|rest| rest.split_once('>')).map(|(tag, _)| tag) {
            let attributes = tag.split('"').step_by(2).flat_map(str::split_whitespace);
            assert!(!attributes.clone().any(|word| word.starts_with("on") && word.contains('=')), "{args:?}: <{tag}>");
        }
        assert!(page.contains("&lt;img src=x onerror"), "{args:?}: the name is shown");
    }
}

#[test]
fn junit_is_xml_whatever_the_text() {
    let folder = folder();
    let xml = run(&folder, &["check", "-l", "5", "-f", "junit"]).out().to_owned();
    let mut reader = quick_xml::Reader::from_str(&xml);
    let (mut suites, mut failures, mut errors) = (0, 0, 0);
    loop {
        match reader.read_event().unwrap_or_else(|error| panic!("{error}: {xml}")) {
            quick_xml::events::Event::Eof => break,
            quick_xml::events::Event::Start(tag) => match tag.name().into_inner() {
                "testsuite" => {
                    suites += 1;
                    let attributes: Vec<_> = tag.attributes().map(Result::unwrap).collect();
                    assert!(attributes.iter().all(|one| !one.value.contains(['\n', '\r', '<'])), "{tag:?}");
                }
                "failure" => failures += 1,
                "error" => errors += 1,
                _ => {}
            },
            _ => {}
        }
    }
    assert_eq!((suites, failures, errors), (2 * NAMES.len(), NAMES.len(), NAMES.len()), "{xml}");
}

#[test]
fn every_line_for_github_is_one_command() {
    let folder = folder();
    let done = run(&folder, &["check", "-l", "5", "-f", "github"]);
    let json = run(&folder, &["check", "-l", "5", "-f", "json"]).json();
    for line in done.out().lines() {
        let rest = line.strip_prefix("::error file=").unwrap_or_else(|| panic!("{line}"));
        let (properties, message) = rest.split_once("::").unwrap();
        assert!(!properties.contains(':') && !message.is_empty(), "{line}");
        let keys: Vec<&str> = properties.split(',').skip(1).map(|one| one.split_once('=').unwrap().0).collect();
        assert!(keys.iter().all(|key| ["line", "endLine", "col", "endColumn", "title"].contains(key)), "{line}");
    }
    let findings: u64 = json["texts"]
        .as_array()
        .unwrap()
        .iter()
        .flat_map(|text| text["findings"].as_array().unwrap())
        .map(|finding| finding["count"].as_u64().unwrap())
        .sum();
    // Each place, each text that falls short, each that could not be checked.
    assert_eq!(done.out().lines().count() as u64, findings + 2 * NAMES.len() as u64);
}

#[test]
fn sarif_names_are_uris() {
    let folder = folder();
    let json = run(&folder, &["check", "-l", "5", "-f", "sarif"]).json();
    let run = &json["runs"][0];
    let results = run["results"].as_array().unwrap();
    let notes = run["invocations"][0]["toolExecutionNotifications"].as_array().unwrap();
    assert_eq!(notes.len(), NAMES.len());
    for found in results.iter().chain(notes) {
        let uri = found["locations"][0]["physicalLocation"]["artifactLocation"]["uri"].as_str().unwrap();
        assert!(uri.bytes().all(|b| b.is_ascii_alphanumeric() || b"-._~/%".contains(&b)), "{uri}");
    }
}

/// A byte order mark and line ends of another system change no verdict and no place.
#[test]
fn marks_and_line_ends_change_nothing() {
    let plain = "---\nlesson: 5\nnames: [Wren]\n---\nWren sat on the quay.\n\nA ship!\n";
    for name in ["story.txt", "story.md"] {
        for format in FORMATS {
            let seen =
                [plain.to_owned(), plain.replace('\n', "\r\n"), format!("\u{feff}{}", plain.replace('\n', "\r\n"))]
                    .map(|text| {
                        let folder = crate::support::folder_with(name, text);
                        let done = untaught(["check", "-f", format, name]).within(folder.path()).done();
                        (done.code, done.out().to_owned(), done.err().to_owned())
                    });
            assert_eq!(seen[0].0, Some(1), "{seen:?}");
            assert_eq!(seen[0], seen[1], "{name} {format}");
            assert_eq!(seen[0], seen[2], "{name} {format}");
        }
    }
}
