//! Every report for programs is as its published schema says, also where something went wrong.

use std::fs;

use crate::support::{Done, schema, untaught};
use serde_json::{Value, json};
use tempfile::TempDir;

/// A folder in which much is amiss.
fn shelf() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path();
    for name in ["shelf", "empty"] {
        fs::create_dir(path.join(name)).unwrap();
    }
    let scope = "format: 1\ntitle: Ferry\nlessons:\n- {id: a, teach: [s, a, t, m, p, i, n]}\n- {id: b, teach: [sh, ck]}\n\
                 - {id: c, teach: [igh], review: [sh]}\n";
    for (name, text) in [
        ("untaught.yaml", "format: 1\nscope: ferry.yaml\nlesson-from-name: \"^([a-z])-\"\nnames: [Ross]\n"),
        ("ferry.yaml", scope),
        ("shelf/a-one.txt", "---\ntitle: The mat\n---\nTam sat at night. Tam read. Zorbish!"),
        ("shelf/b-two.md", "# Ross\n\n**Mash** it, Tam. 7 ships!"),
        ("shelf/nowhere.txt", "Tam spat."),
        ("shelf/nothing.txt", ""),
        ("shelf/z-lost.txt", "Tam sat."),
        ("shelf/broken.docx", "no archive"),
    ] {
        fs::write(path.join(name), text).unwrap();
    }
    folder
}

fn run(folder: &TempDir, args: &[&str]) -> Done {
    untaught(args.iter().chain(&["shelf", "missing.txt", "empty"])).within(folder.path()).done()
}

fn no_faults(value: &Value, name: &str) {
    assert_eq!(schema::faults(value, &schema::published(name)), Vec::<String>::new(), "{value:#}");
}

/// The files in the order in which they were met, and that nothing is told of them that is not complained of.
fn told(errors: &Value, done: &Done) -> Vec<String> {
    let errors = errors.as_array().unwrap_or_else(|| panic!("no errors: {done:?}"));
    for error in errors {
        let message = error["message"].as_str().unwrap();
        assert!(done.err().contains(message), "{message}: {done:?}");
    }
    errors.iter().map(|error| error["file"].as_str().unwrap().to_owned()).collect()
}

/// In the order in which they were named and are found.
const AMISS: [&str; 4] = ["shelf/broken.docx", "shelf/z-lost.txt", "missing.txt", "empty"];

#[test]
fn reports_on_a_shelf_in_which_much_is_amiss() {
    let folder = shelf();
    for (args, name, list) in [
        (&["check", "-f", "json"][..], "check", "texts"),
        (&["check", "-f", "json", "--every-word", "--focus", "igh"], "check", "texts"),
        (&["place", "-f", "json"], "place", "texts"),
        (&["shelf", "-f", "json"], "shelf", "readers"),
        (&["shelf", "-f", "json", "--order"], "shelf", "readers"),
    ] {
        let done = run(&folder, args);
        let report = done.json();
        assert_eq!(done.code, Some(2), "{args:?}");
        no_faults(&report, name);
        assert_eq!(report[list].as_array().unwrap().len(), 4, "{args:?}");
        assert_eq!(told(&report["errors"], &done), AMISS, "{args:?}");
    }
}

#[test]
fn a_report_is_whole_where_nothing_can_be_read() {
    let folder = shelf();
    for (command, name) in [("check", "check"), ("place", "place"), ("shelf", "shelf")] {
        let done = untaught([command, "-f", "json", "missing.txt", "empty"]).within(folder.path()).done();
        assert_eq!(done.code, Some(2), "{done:?}");
        no_faults(&done.json(), name);
        assert_eq!(told(&done.json()["errors"], &done), ["missing.txt", "empty"]);
        let done = untaught([command, "-f", "html", "missing.txt"]).within(folder.path()).done();
        assert!(done.out().contains("there is no file missing.txt"), "{command}: {done:?}");
    }
}

#[test]
fn every_line_is_as_published() {
    let folder = shelf();
    let published = schema::published("check");
    let lines = |done: &Done| -> Vec<Value> {
        done.out().lines().map(|line| serde_json::from_str(line).unwrap_or_else(|e| panic!("{e}: {line}"))).collect()
    };
    let files = run(&folder, &["check", "-f", "jsonl", "--every-word"]);
    let records = "\u{feff}{\"id\": 1, \"text\": \"Tam sat at night.\"}\r\n\r\n{\"id\": [\"x\"], \"text\": \"\", \"lesson\": 3}\n\
                   {\"text\": \"Tam\"}\n{\"id\": null, \"text\": \"Tam\"}\n{\"id\": {\"a\": 2}, \"text\": 5}\nno record\n\
                   {\"id\": \"last\", \"text\": \"Tam\", \"lesson\": true}";
    let records = untaught(["check", "-f", "jsonl"]).stdin(records).done();
    // A file that cannot be read is a run that failed; a faulty record has its line.
    for (done, whole, failed, code) in [(&files, 4, 4, 2), (&records, 4, 3, 1)] {
        assert_eq!(done.code, Some(code));
        let lines = lines(done);
        for line in &lines {
            assert_eq!(schema::faults_in(line, &published, "/$defs/line"), Vec::<String>::new(), "{line:#}");
        }
        let errors = lines.iter().filter(|line| line.get("error").is_some()).count();
        assert_eq!((lines.len() - errors, errors), (whole, failed), "{done:?}");
    }
    for nothing in ["", "\n \r\n"] {
        let done = untaught(["check", "-f", "jsonl"]).stdin(nothing).done();
        assert_eq!((done.code, done.out(), done.err()), (Some(0), "", ""), "no record in, no line out");
    }
    let ids: Vec<Value> = lines(&records).iter().map(|line| line["id"].clone()).collect();
    assert_eq!(json!(ids), json!([1, ["x"], null, null, {"a": 2}, null, "last"]));
    let names: Vec<Value> = lines(&records).iter().map(|line| line["file"].clone()).collect();
    assert_eq!(json!(names), json!(["-:1", "-:3", "-:4", "-:5", "-:6", "-:7", "-:8"]));
    let order: Vec<Value> = lines(&files).iter().map(|line| line["file"].clone()).collect();
    let walked = ["a-one.txt", "b-two.md", "broken.docx", "nothing.txt", "nowhere.txt", "z-lost.txt"];
    let walked = walked.map(|name| format!("shelf/{name}"));
    assert_eq!(json!(order), json!([&walked[..], &["missing.txt".to_owned(), "empty".to_owned()]].concat()));
}

#[test]
fn the_published_schemas_can_fail() {
    let folder = shelf();
    let bent = |report: &Value, place: &str, wrong: Value| {
        let mut bent = report.clone();
        *bent.pointer_mut(place).unwrap_or_else(|| panic!("no {place} in {report:#}")) = wrong;
        bent
    };
    for (command, faults) in [
        (
            "place",
            &[("/texts/0/words", json!(-1)), ("/texts/0/curve/0/readable", json!("all")), ("/errors", json!({}))][..],
        ),
        ("shelf", &[("/readers/0/sits", json!("well")), ("/scope", json!(3)), ("/errors/0", json!("missing"))]),
    ] {
        let report = run(&folder, &[command, "-f", "json"]).json();
        for (place, wrong) in faults {
            let found = schema::faults(&bent(&report, place, wrong.clone()), &schema::published(command));
            assert_ne!(found, Vec::<String>::new(), "{command} {place}");
        }
    }
    let published = schema::published("check");
    let line: Value =
        serde_json::from_str(run(&folder, &["check", "-f", "jsonl"]).out().lines().nth(1).unwrap()).unwrap();
    let mut more = line.clone();
    more["mood"] = json!("cheerful");
    for wrong in [more, bent(&line, "/format", json!(2)), json!({"format": 1, "error": 3}), json!({})] {
        assert_ne!(schema::faults_in(&wrong, &published, "/$defs/line"), Vec::<String>::new(), "{wrong:#}");
    }
}
