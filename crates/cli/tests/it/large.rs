//! Files far larger than any that people write: each is refused with a sentence that says what is too much, and nothing is read
//! without end. That it takes no time is measured by `.ci/hostile`.

use std::fs;

use crate::support::{Done, folder_with, untaught};

/// The complaint of a run that fails: its first line, and how many there are.
fn complaint(done: &Done) -> (&str, usize) {
    assert_eq!((done.code, done.out()), (Some(2), ""), "{done:?}");
    (done.err().lines().next().unwrap_or_default(), done.err().lines().count())
}

fn scope(text: &str) -> Done {
    untaught(["scope", "s.yaml"]).within(folder_with("s.yaml", text).path()).done()
}

/// The one fault of a scope file.
fn fault(text: &str) -> String {
    let done = scope(text);
    assert_eq!(complaint(&done), ("untaught: the scope file cannot be used", 2), "{done:?}");
    let fault = done.err().lines().nth(1).unwrap();
    assert!(fault.len() < 250, "{fault}");
    fault.to_owned()
}

fn words(count: usize) -> Vec<String> {
    let letter = |n: usize, place: u32| char::from(b"bcdfghjkmp"[n / 10_usize.pow(place) % 10]);
    (0..count).map(|n| (0..5).map(|place| letter(n, place)).collect()).collect()
}

#[test]
fn twenty_faults_are_told_and_the_others_counted() {
    let lessons: String = words(10_000).chunks(10).map(|ten| format!("- teach: [{}]\n", ten.join(", "))).collect();
    let done = scope(&format!("format: 1\nlessons:\n{lessons}"));
    assert_eq!(complaint(&done), ("untaught: the scope file cannot be used", 22));
    let lines: Vec<&str> = done.err().lines().collect();
    assert!(lines[1].starts_with("s.yaml:3:11: the catalogue has no spelling `bbbbb`;"), "{}", lines[1]);
    assert!(lines[20].starts_with("s.yaml:4:74: the catalogue has no spelling `"), "{}", lines[20]);
    assert_eq!(lines[21], "and 9,980 more");
    let folder = folder_with("untaught.yaml", format!("format: 1\nexclude: [{}]\n", vec!["\"a[\""; 1_500].join(", ")));
    fs::write(folder.path().join("a.txt"), "Tam").unwrap();
    let done = untaught(["check", "a.txt"]).within(folder.path()).done();
    assert_eq!(complaint(&done), ("untaught: the settings file cannot be used", 22));
    assert!(done.err().ends_with("\nand 1,480 more\n"), "{done:?}");
}

#[test]
fn a_scope_file_that_is_too_much_is_refused() {
    let long = "ab".repeat(1 << 19);
    let list = words(10_000).join(", ");
    for (text, said) in [
        (format!("- teach: [{list}]"), "s.yaml:3:10: this list has 10,000 entries; it may have 1,000"),
        ("- {}\n".repeat(6_000), "s.yaml:3:3: a scope file has at most 5,000 lessons, not 6,000"),
        (
            words(60_000).iter().map(|word| format!("- sight: [{word}]\n")).collect(),
            "s.yaml:25001:11: it has more than 100,000 entries",
        ),
        ((0..100_000).map(|n| format!("- k{n}: 1\n")).collect(), "s.yaml:33334:11: it has more than 100,000 entries"),
        (
            format!("- {{teach: &a [{list}]}}\n{}", "- {teach: *a}\n".repeat(50)),
            "s.yaml:12:11: aliases (`*name`) repeat too much here; write out what is needed",
        ),
        (format!("- teach: [{long}]"), "is too long: an entry has at most 100 characters"),
        (format!("- sight: [{long}]"), "is too long: an entry has at most 100 characters"),
        (format!("- teach: [a as in {long}]"), "is too long: an entry has at most 100 characters"),
        (format!("- title: {long}"), "s.yaml:3:10: this title has more than 1,000 characters"),
        (format!("- ? {long}\n  : 1"), "a key has at most 64 characters"),
        (format!("- {}", "{a: ".repeat(100_000)), "lists are nested too deeply"),
        ("- ".repeat(100_000), "lists are nested too deeply"),
    ] {
        let fault = fault(&format!("format: 1\nlessons:\n{text}\n"));
        assert!(fault.contains(said), "{said}: {fault}");
    }
    let done = scope(&format!("format: 1\nlessons: [{{}}]\n{}", "# nothing\n".repeat(500_000)));
    assert_eq!(complaint(&done).0, "untaught: the scope file s.yaml was not read: it is larger than 4 MB");
}

#[test]
fn as_much_as_may_be_is_read() {
    let lessons: String = words(5_000).iter().map(|word| format!("- sight: [{word}]\n")).collect();
    let done = scope(&format!("format: 1\nlessons:\n{lessons}"));
    assert!(done.code == Some(0) && done.out().contains("5000 lessons, 0 patterns, 5000 sight words"), "{done:?}");
    let names = words(5_000).join(", ");
    let folder = folder_with("a.txt", format!("---\nnames: [{names}]\nlesson: 1\n---\nBbbbb sat."));
    let done = untaught(["check", "a.txt", "--format", "json"]).within(folder.path()).done();
    assert_eq!(done.json()["texts"][0]["counts"]["story"], 1, "{done:?}");
}

#[test]
fn long_arguments_are_quoted_by_their_beginnings() {
    let long = "ab".repeat(50_000);
    let folder = folder_with("a.txt", "Tam");
    for args in [
        &["check", "a.txt", "--lesson", &long][..],
        &["check", "a.txt", "--focus", &long],
        &["words", "--focus", &long],
        &["words", "--shape", &long],
        &["chain", "--from", &long],
        &["boxes", &long],
        &["contrast", &long],
        &["patterns", &long],
        &["check", "a.txt", "--min-readable", &long],
        &[&long],
    ] {
        let done = untaught(args).within(folder.path()).done();
        assert!(done.code == Some(2) && done.err().len() < 700, "{:?}: {done:?}", &args[..args.len() - 1]);
        assert!(done.err().contains("abababab") && done.err().contains('…'), "{done:?}");
    }
    // Columns have their widest.
    for word in [&long, &"catdog".repeat(16_000)] {
        let done = untaught(["explain", word]).done();
        assert_eq!((done.code, done.err()), (Some(0), ""));
    }
}

#[test]
fn records_without_end_are_refused_and_those_after_them_are_read() {
    let long = format!("{{\"text\": \"{}\"}}", "a".repeat(33 << 20));
    let done =
        untaught(["check", "-", "--format", "jsonl"]).stdin(format!("{long}\n{{\"text\": \"Tam\"}}\n{long}")).done();
    assert_eq!(done.code, Some(1));
    let lines: Vec<serde_json::Value> = done.out().lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(lines.len(), 3);
    assert_eq!(lines[0]["error"], "-:1: this record was not read: it is larger than 32 MB");
    assert_eq!(lines[1]["counts"]["words"], 1);
    assert_eq!(lines[2]["error"], "-:3: this record was not read: it is larger than 32 MB");
    let done = untaught(["check", "-", "--format", "jsonl"]).stdin("{}\n".repeat(5_000)).done();
    assert_eq!((done.code, done.out().lines().count(), done.err().lines().count()), (Some(1), 5_000, 21));
    assert!(done.err().ends_with("\nuntaught: -: 4,980 more records cannot be checked\n"), "{done:?}");
}

#[test]
fn a_folder_that_leaves_out_too_much_is_told_and_the_others_are_read() {
    let folder = folder_with("a.txt", "Tam sat.");
    let patterns: String = (0..20_000).map(|n| format!("*a{n}?[b-c]\n")).collect();
    for name in ["in", "deep/er"] {
        fs::create_dir_all(folder.path().join(name)).unwrap();
        fs::write(folder.path().join(name).join("b.txt"), "Rob sat.").unwrap();
    }
    fs::write(folder.path().join("in/.gitignore"), &patterns).unwrap();
    let done = untaught(["check", ".", "--format", "json"]).within(folder.path()).done();
    assert_eq!((done.code, done.json()["texts"].as_array().unwrap().len()), (Some(2), 2), "{done:?}");
    let said = "untaught: the stories in ./in were not checked: ./in/.gitignore is larger than 128 KB\n";
    assert_eq!(done.err(), said);
    // What a folder above leaves out counts too.
    fs::write(folder.path().join("deep/.untaughtignore"), patterns).unwrap();
    let done = untaught(["check", "deep/er"]).within(folder.path()).done();
    assert_eq!((done.code, done.out()), (Some(2), ""));
    assert!(done.err().starts_with("untaught: the stories in deep/er were not checked: "), "{done:?}");
    assert!(done.err().ends_with("deep/.untaughtignore is larger than 128 KB\n"), "{done:?}");
}
