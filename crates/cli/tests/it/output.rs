//! Reports in files: whole or not at all, in place of nothing that is not theirs.

#![cfg(unix)]

use std::fs;
use std::os::unix::fs::{FileTypeExt as _, PermissionsExt as _, symlink};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::sync::mpsc;
use std::thread;
use std::time::{Duration, Instant};

use crate::support::{files_in_folder, untaught, wait};
use serde_json::Value;

const PATIENCE: Duration = Duration::from_secs(60);

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> =
        fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

fn pipe(path: &Path) {
    assert!(Command::new("mkfifo").arg(path).status().unwrap().success());
}

#[test]
fn what_is_no_file_is_written_straight_to() {
    let folder = files_in_folder(&[("a.txt", "Sam sat at night.")]);
    let plain = untaught(["check", "-l", "9", "a.txt"]).within(folder.path()).done();
    let path = folder.path().join("pipe");
    pipe(&path);
    let (send, receive) = mpsc::channel();
    let from = path.clone();
    thread::spawn(move || send.send(fs::read(from)));
    let done = untaught(["check", "-l", "9", "a.txt", "-o", "pipe"]).within(folder.path()).done();
    assert_eq!((done.code, done.out(), done.err()), (plain.code, "", ""));
    assert_eq!(receive.recv_timeout(PATIENCE).unwrap().unwrap(), plain.stdout);
    assert!(path.metadata().unwrap().file_type().is_fifo());
    // So is a stream of the command itself.
    symlink("/proc/self/fd/1", folder.path().join("stream")).unwrap();
    if folder.path().join("stream").exists() {
        let done = untaught(["check", "-l", "9", "a.txt", "-o", "stream"]).within(folder.path()).done();
        assert_eq!((done.code, done.out()), (plain.code, plain.out()), "{done:?}");
        assert!(folder.path().join("stream").is_symlink());
    }
    assert_eq!(names(folder.path()), ["a.txt", "pipe", "stream"], "nothing is left behind");
}

#[test]
fn a_dash_is_standard_output() {
    let folder = files_in_folder(&[("a.txt", "Sam sat at night.")]);
    for args in [
        &["check", "-l", "9", "a.txt"][..],
        &["check", "-l", "9", "a.txt", "-f", "json"],
        &["place", "a.txt"],
        &["shelf", "."],
        &["pack", "a.txt", "-l", "9"],
    ] {
        let plain = untaught(args).within(folder.path()).done();
        let done = untaught(args).arg("--output").arg("-").within(folder.path()).done();
        assert!(!plain.stdout.is_empty());
        assert_eq!((done.code, done.out(), done.err()), (plain.code, plain.out(), plain.err()), "{args:?}");
        assert_eq!(names(folder.path()), ["a.txt"]);
    }
    // Where a file is called so, it is not meant.
    fs::write(folder.path().join("-"), "Sam").unwrap();
    let done = untaught(["check", "./-", "-l", "9", "-o", "-"]).within(folder.path()).done();
    assert!(done.code == Some(0) && done.out().contains("1 of 1 word"), "{done:?}");
    assert_eq!(fs::read(folder.path().join("-")).unwrap(), b"Sam");
}

#[test]
fn a_link_stays_and_its_file_is_replaced() {
    let folder = files_in_folder(&[("a.txt", "Sam sat."), ("reports/real.json", "old")]);
    symlink("reports/real.json", folder.path().join("link.json")).unwrap();
    symlink("link.json", folder.path().join("twice.json")).unwrap();
    symlink("reports/new.json", folder.path().join("nowhere.json")).unwrap();
    for (link, file) in [("link", "real"), ("twice", "real"), ("nowhere", "new")] {
        let real = folder.path().join(format!("reports/{file}.json"));
        fs::remove_file(&real).unwrap_or_default();
        if file == "real" {
            fs::write(&real, "old").unwrap();
        }
        let output = format!("{link}.json");
        let done = untaught(["check", "-f", "json", "a.txt", "-o", &output]).within(folder.path()).done();
        assert_eq!(done.code, Some(0), "{done:?}");
        let json: Value = serde_json::from_slice(&fs::read(real).unwrap()).unwrap();
        assert_eq!(json["texts"][0]["file"], "a.txt");
        assert!(folder.path().join(output).is_symlink(), "{link}");
    }
    assert_eq!(names(&folder.path().join("reports")), ["new.json", "real.json"]);
}

#[test]
fn a_report_has_the_mode_of_the_one_before_or_of_any_new_file() {
    let folder = files_in_folder(&[("a.txt", "Sam sat."), ("old.txt", "old")]);
    let mode = |name: &str| folder.path().join(name).metadata().unwrap().permissions().mode() & 0o777;
    let usual = mode("old.txt");
    fs::set_permissions(folder.path().join("old.txt"), fs::Permissions::from_mode(0o604)).unwrap();
    for (name, expected) in [("old.txt", 0o604), ("new.txt", usual)] {
        let done = untaught(["check", "a.txt", "-o", name]).within(folder.path()).done();
        assert_eq!((done.code, mode(name)), (Some(0), expected), "{name}: {done:?}");
    }
}

/// Begins a run that has to wait for its story.
fn waiting(folder: &Path, story: &str) -> Child {
    pipe(&folder.join(story));
    let mut command = untaught(["check", "-f", "json", story, "-o", "out.json"]).within(folder).command();
    let before = unfinished(folder);
    let mut child = command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::piped()).spawn().unwrap();
    let start = Instant::now();
    while unfinished(folder) == before {
        if start.elapsed() > PATIENCE {
            drop(child.kill());
            drop(child.wait());
            panic!("no report is begun");
        }
        thread::sleep(Duration::from_millis(2));
    }
    child
}

/// How many reports are begun and not whole.
fn unfinished(folder: &Path) -> usize {
    names(folder).iter().filter(|name| name.ends_with(".unfinished") && *name != "out.json.unfinished").count()
}

#[test]
fn runs_that_write_to_one_file_do_not_meet() {
    let folder = files_in_folder(&[("out.json.unfinished", "mine")]);
    let mut runs = ["one.txt", "two.txt"].map(|story| (story, waiting(folder.path(), story)));
    assert_eq!(unfinished(folder.path()), 2);
    for (story, child) in &mut runs {
        fs::write(folder.path().join(&story), "Sam sat.").unwrap();
        assert_eq!(wait(child, story), Some(0));
        let json: Value = serde_json::from_slice(&fs::read(folder.path().join("out.json")).unwrap()).unwrap();
        assert_eq!(json["texts"][0]["file"], *story, "whoever is ready last");
    }
    assert_eq!(names(folder.path()), ["one.txt", "out.json", "out.json.unfinished", "two.txt"]);
    assert_eq!(fs::read_to_string(folder.path().join("out.json.unfinished")).unwrap(), "mine");
}

#[test]
fn nothing_is_left_of_a_report_that_fails() {
    let folder = files_in_folder(&[]);
    let mut child = waiting(folder.path(), "one.txt");
    // Now it cannot take its place.
    fs::create_dir(folder.path().join("out.json")).unwrap();
    fs::write(folder.path().join("one.txt"), "Sam sat.").unwrap();
    assert_eq!(wait(&mut child, "one.txt"), Some(2));
    let mut said = String::new();
    std::io::Read::read_to_string(&mut child.stderr.take().unwrap(), &mut said).unwrap();
    assert!(said.starts_with("untaught: the report cannot be written to out.json: "), "{said}");
    assert_eq!(names(folder.path()), ["one.txt", "out.json"]);
    let done = untaught(["check", "-o", "out.json"]).within(folder.path()).stdin("Sam sat.").done();
    assert_eq!(done.code, Some(2));
    assert!(done.err().contains("cannot be written to out.json: it is a folder"), "{done:?}");
}

#[test]
fn a_report_never_takes_the_place_of_a_story() {
    let folder = files_in_folder(&[("a.txt", "Sam sat."), ("b.txt", "Pam sat.")]);
    symlink("a.txt", folder.path().join("link.txt")).unwrap();
    let whole = folder.path().join("a.txt").display().to_string();
    for output in ["a.txt", "./a.txt", "link.txt", &whole] {
        for command in [&["check", "b.txt", "a.txt"][..], &["place", "a.txt"], &["shelf", "a.txt"], &["pack", "a.txt"]]
        {
            let done = untaught(command.iter().chain(&["-o", output])).within(folder.path()).done();
            assert_eq!((done.code, done.out()), (Some(2), ""), "{command:?} {output}");
            assert_eq!(
                done.err(),
                "untaught: the report would overwrite the story a.txt; choose another name with --output\n"
            );
        }
    }
    assert_eq!(fs::read_to_string(folder.path().join("a.txt")).unwrap(), "Sam sat.");
    assert_eq!(names(folder.path()), ["a.txt", "b.txt", "link.txt"]);
}

#[test]
fn the_report_of_an_earlier_run_is_no_story() {
    let folder = files_in_folder(&[("shelf/a.txt", "Sam sat."), ("shelf/deep/report.html", "<p>Pam sat.</p>")]);
    let report = folder.path().join("shelf/report.html");
    symlink("shelf/report.html", folder.path().join("link.html")).unwrap();
    for command in ["check", "place", "shelf"] {
        let run = |output: &str| {
            let done = untaught([command, "-f", "html", "-o", output, "shelf"]).within(folder.path()).done();
            assert_eq!((done.code, done.err()), (Some(0), ""), "{command}");
            fs::read_to_string(&report).unwrap()
        };
        fs::remove_file(&report).unwrap_or_default();
        let first = run("shelf/report.html");
        assert!(first.contains("deep&#x2f;report.html"), "another of that name is a story");
        assert_eq!(run("./shelf/report.html"), first, "{command}");
        assert_eq!(run("link.html"), first, "{command}");
    }
    let done = untaught(["check", "-f", "json", "shelf"]).within(folder.path()).done();
    assert_eq!(done.json()["texts"].as_array().unwrap().len(), 3, "to any other run it is a page like others");
}
