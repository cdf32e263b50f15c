//! Records of texts: in order and byte for byte the same whatever the number of threads, and each as soon as it can be had.

use std::io::{BufRead as _, BufReader, Write as _};
use std::process::Stdio;
use std::sync::mpsc;
use std::thread;
use std::time::Duration;

use crate::support::{folder_with, untaught, wait};

/// Records of many sizes, some faulty, with blank lines and line ends of both kinds among them.
fn records(many: usize) -> String {
    let sentences = ["Tam sat.", "The knight sat in the light of the moon.", "A photograph of Ann!", "", "ship"];
    let record = |number: usize| match number % 97 {
        13 => "{\"txet\": 1}\n".to_owned(),
        14 => "not json\n".to_owned(),
        15 => "\n  \r\n".to_owned(),
        16 => format!("{{\"id\": {number}, \"text\": \"Tam\", \"lesson\": \"999\"}}\r\n"),
        17 => format!("{{\"id\": {number}, \"text\": \"{}\"}}\n", "The ship sank at night. ".repeat(4_000)),
        _ => {
            let text: Vec<&str> = (0..number % 7).map(|n| sentences[(number / 3 + n) % sentences.len()]).collect();
            let lesson = number % 60 + 1;
            format!("{{\"id\": {number}, \"text\": \"{}\", \"lesson\": {lesson}, \"n\": [{number}]}}\n", text.join(" "))
        }
    };
    (0..many).map(record).collect()
}

#[test]
fn records_come_out_in_order_and_alike_on_one_thread_and_on_many() {
    let many = 3_000;
    let input = records(many);
    let folder = folder_with("stories.jsonl", &input);
    let check = |jobs: &str, more: &[&str]| {
        let done = untaught(["check", "-f", "jsonl", "-j", jobs]);
        more.iter().fold(done, |run, argument| run.arg(argument)).within(folder.path())
    };
    let one = check("1", &[]).stdin(&input).done();
    let lines: Vec<&str> = one.out().lines().collect();
    let blank = (0..many).filter(|number| number % 97 == 15).count();
    assert_eq!((one.code, lines.len()), (Some(1), many - blank), "{}", one.err());
    let ids: Vec<u64> = lines
        .iter()
        .filter_map(|line| serde_json::from_str::<serde_json::Value>(line).unwrap()["id"].as_u64())
        .collect();
    assert!(ids.is_sorted() && ids.len() > 2_800, "{} ids", ids.len());
    let complaints = one.err().lines().count();
    assert_eq!(complaints, 21);
    for jobs in ["2", "3", "8"] {
        let same = check(jobs, &[]).stdin(&input).done();
        assert_eq!((same.code, same.err()), (one.code, one.err()), "{jobs} threads");
        assert!(same.stdout == one.stdout, "{jobs} threads");
    }
    // From a file, into a file, with every word; a story beside it.
    let every = ["--every-word", "stories.jsonl", "stories.jsonl", "-o", "out"];
    let whole = |jobs: &str| {
        let done = check(jobs, &every).done();
        (done.code, done.stderr, std::fs::read(folder.path().join("out")).unwrap())
    };
    assert!(whole("1") == whole("4"));
    // It ends after the first that falls short, whatever others have begun.
    let fast = |jobs: &str| {
        let done = check(jobs, &["--fail-fast"]).stdin(&input).done();
        (done.code, done.stdout, done.stderr)
    };
    assert!(fast("1") == fast("4"));
    assert!(fast("4").1.len() < 20_000);
}

/// Where the system gives no more threads, there are those there are.
#[test]
fn records_are_checked_without_other_threads() {
    let input = records(300);
    let run = || untaught(["check", "-f", "jsonl", "-j", "4"]).stdin(&input);
    let (usual, alone) = (run().done(), run().env("RUST_MIN_STACK", &(1_u64 << 47).to_string()).done());
    assert_eq!((alone.code, alone.out(), alone.err()), (usual.code, usual.out(), usual.err()));
}

/// A program may wait for the answer to one record before it sends the next.
#[test]
fn a_record_is_answered_before_the_next_is_sent() {
    for jobs in ["1", "4"] {
        let mut command = untaught(["check", "-f", "jsonl", "-l", "9", "-j", jobs, "--fail-fast"]).command();
        let mut child = command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::null()).spawn().unwrap();
        let (mut input, output) = (child.stdin.take().unwrap(), child.stdout.take().unwrap());
        let (send, answers) = mpsc::channel();
        thread::spawn(move || BufReader::new(output).lines().all(|line| send.send(line.unwrap()).is_ok()));
        for (number, text) in [(1, "Tam sat."), (2, "Pat sat."), (3, "night")] {
            writeln!(input, "{{\"id\": {number}, \"text\": \"{text}\"}}").unwrap();
            let answer = answers.recv_timeout(Duration::from_secs(30)).expect("an answer");
            assert!(answer.contains(&format!("\"id\":{number},")), "{answer}");
        }
        // It ends although more could be sent.
        assert_eq!(wait(&mut child, "a run that was told to end early"), Some(1), "{jobs} threads");
        drop(input);
    }
}
