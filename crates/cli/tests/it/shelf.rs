//! Folders, settings, documents and many texts at once.

use std::fs;
use std::path::Path;

use crate::support::{files_in_folder, untaught};
use serde_json::Value;

fn names(value: &Value) -> Vec<String> {
    value["texts"].as_array().unwrap().iter().map(|text| text["file"].as_str().unwrap().to_owned()).collect()
}

const SCOPE: &str = "format: 1\ntitle: Ferry\nlessons:\n- {id: a, teach: [s, a, t, m, p, i, n]}\n- {id: b, teach: [sh, ck]}\n- {id: c, teach: [igh]}\n";

#[test]
fn folders_are_walked_in_order_and_what_is_no_story_is_passed_over() {
    let folder = files_in_folder(&[
        ("shelf/b.txt", "Tam sat."),
        ("shelf/a/2.md", "# Tam\n\nTam *sat*."),
        ("shelf/a/10.txt", "Tim sat."),
        ("shelf/picture.png", "x"),
        ("shelf/.hidden.txt", "x"),
        ("shelf/left/out.txt", "x"),
        ("shelf/.untaughtignore", "left/\n"),
        ("more.txt", "Pam sat."),
    ]);
    let done = untaught(["check", "-f", "json", "more.txt", "shelf", "shelf/b.txt"]).within(folder.path()).done();
    assert_eq!(names(&done.json()), ["more.txt", "shelf/a/10.txt", "shelf/a/2.md", "shelf/b.txt"], "{done:?}");
    let done = untaught(["check", "shelf/left"]).within(folder.path()).done();
    assert_eq!(done.code, Some(0), "a folder that is named itself is not left out: {done:?}");
    let folder = files_in_folder(&[("empty/readme.pdf", "")]);
    let done = untaught(["check", "empty"]).within(folder.path()).done();
    assert_eq!((done.code, done.out()), (Some(2), ""));
    assert!(done.err().contains("there are no stories in empty"), "{done:?}");
}

#[test]
fn each_file_comes_once_however_it_is_named() {
    let folder =
        files_in_folder(&[("shelf/a.txt", "Tam sat."), ("shelf/deep/b.txt", "Tim sat."), ("x.txt", "Pam sat.")]);
    // As the command sees it, should the folder lie behind a link.
    let here = folder.path().canonicalize().unwrap().display().to_string();
    let (whole, one) = (format!("{here}/shelf"), format!("{here}/shelf/deep/b.txt"));
    for (named, expected) in [
        (&["./shelf", "shelf"][..], &["./shelf/a.txt", "./shelf/deep/b.txt"][..]),
        (&["shelf", &whole, "shelf//"], &["shelf/a.txt", "shelf/deep/b.txt"]),
        (&["x.txt", "./x.txt", "x.txt"], &["x.txt"]),
        (&[&one, "shelf/deep", "."], &[&one, "./shelf/a.txt", "./x.txt"]),
    ] {
        let done = untaught(["check", "-f", "json"].iter().chain(named)).within(folder.path()).done();
        assert_eq!(names(&done.json()), expected, "{named:?}: {done:?}");
    }
    let done = untaught(["check", "-f", "json", "-", "./-", "-"]).within(folder.path()).stdin("Tam sat.").done();
    assert_eq!(names(&done.json()), ["-"], "{done:?}");
    assert!(done.err().contains("there is no file ./-"), "standard input is no file of that name: {done:?}");
}

#[cfg(target_os = "linux")]
#[test]
fn names_that_are_not_utf8_are_not_passed_over() {
    use std::os::unix::ffi::OsStrExt as _;
    let folder = files_in_folder(&[("shelf/a.txt", "Tam sat.")]);
    for name in [&b"caf\xe9.txt"[..], b"caf\xe9.png", b"\xff\xfe.md"] {
        fs::write(folder.path().join("shelf").join(std::ffi::OsStr::from_bytes(name)), "Tim sat.").unwrap();
    }
    let done = untaught(["check", "-f", "json", "shelf"]).within(folder.path()).done();
    assert_eq!((done.code, done.err()), (Some(0), ""));
    assert_eq!(names(&done.json()), ["shelf/a.txt", "shelf/caf\u{fffd}.txt", "shelf/\u{fffd}\u{fffd}.md"]);
}

#[cfg(unix)]
#[test]
fn what_may_not_be_read_in_a_folder_is_told_by_its_name() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder =
        files_in_folder(&[("un/a.txt", "Tam sat."), ("un/locked/b.txt", "Tim sat."), ("un/z.txt", "Pam sat.")]);
    fs::write(folder.path().join("un/.untaughtignore"), "a{b\n").unwrap();
    let locked = folder.path().join("un/locked");
    fs::set_permissions(&locked, fs::Permissions::from_mode(0o000)).unwrap();
    let done = untaught(["check", "-f", "json", "un"]).within(folder.path()).done();
    let all = fs::read_dir(&locked).is_ok();
    fs::set_permissions(&locked, fs::Permissions::from_mode(0o700)).unwrap();
    let json = done.json();
    assert!(done.err().starts_with("untaught: un/.untaughtignore:1: the pattern a{b cannot be used: "), "{done:?}");
    // To whoever may read everything nothing is locked.
    if all {
        assert_eq!(names(&json), ["un/a.txt", "un/locked/b.txt", "un/z.txt"]);
    } else {
        assert_eq!((done.code, names(&json)), (Some(2), vec!["un/a.txt".to_owned(), "un/z.txt".to_owned()]));
        let said = "un/locked cannot be read: permission denied";
        assert_eq!(json["errors"], serde_json::json!([{"file": "un/locked", "message": said}]));
        assert!(done.err().ends_with(&format!("untaught: {said}\n")), "{done:?}");
    }
}

#[test]
fn settings_say_what_holds_and_who_said_so() {
    let settings = "format: 1\nscope: scopes/ferry.yaml\nmin-readable: 80\nlesson-from-name: \"^([a-z])-\"\n\
                    names: [Ross]\nexclude: [drafts]\ntexts:\n- files: \"late/*\"\n  lesson: c\n  story-words: [ferry]\n";
    let folder = files_in_folder(&[
        ("untaught.yaml", settings),
        ("scopes/ferry.yaml", SCOPE),
        ("b-ship.txt", "Ross sat. A mash."),
        ("late/one.txt", "Tam sat at night. Ferry!"),
        ("late/two.txt", "---\nlesson: a\n---\nTam sat at night."),
        ("drafts/x.txt", "Bad."),
    ]);
    let done = untaught(["check", "-f", "json", "."]).within(folder.path()).done();
    let json = done.json();
    let lessons: Vec<&str> =
        json["texts"].as_array().unwrap().iter().map(|text| text["lesson"].as_str().unwrap()).collect();
    assert_eq!(names(&json), ["./b-ship.txt", "./late/one.txt", "./late/two.txt"]);
    assert_eq!(lessons, ["b", "c", "a"]);
    assert_eq!(json["texts"][0]["counts"]["story"], 1);
    assert_eq!(json["texts"][1]["counts"]["story"], 1);
    assert_eq!(json["texts"][2]["met"], false, "front matter is nearer than the settings: 75 % of 80: {done:?}");
    assert_eq!(done.code, Some(1));
    let done =
        untaught(["check", "--show-config", "late/two.txt", "--min-readable", "70"]).within(folder.path()).done();
    for line in [
        "lesson         a  (front matter)",
        "min-readable   70.0  (command line)",
        "name           Ross  (untaught.yaml:5)",
        "story word     ferry  (untaught.yaml:10)",
        "(untaught.yaml:2)",
    ] {
        assert!(done.out().contains(line), "{line}: {done:?}");
    }
    let done = untaught(["check", "drafts/x.txt"]).within(folder.path()).done();
    assert_eq!(done.code, Some(1), "a named file is checked: {done:?}");
    let done = untaught(["check", "drafts/x.txt", "--force-exclude"]).within(folder.path()).done();
    assert_eq!((done.code, done.out()), (Some(0), ""), "{done:?}");
    let done = untaught(["check", "b-ship.txt", "--no-config", "-l", "5"]).within(folder.path()).done();
    assert!(done.out().contains("Starter"), "{done:?}");
    let done = untaught(["check", "--stdin-name", "late/new.txt"]).within(folder.path()).stdin(b"Tam sat.").done();
    assert!(done.out().contains("late/new.txt at lesson c of Ferry"), "{done:?}");
}

#[test]
fn faulty_settings_are_told_with_their_place() {
    let folder = files_in_folder(&[("untaught.yaml", "format: 1\nmin-readble: 80\n"), ("a.txt", "Tam sat.")]);
    let done = untaught(["check", "a.txt"]).within(folder.path()).done();
    assert_eq!((done.code, done.out()), (Some(2), ""));
    assert!(
        done.err().contains("untaught.yaml:2:1: unknown key `min-readble`; did you mean `min-readable`?"),
        "{done:?}"
    );
    let folder = files_in_folder(&[("untaught.yaml", "format: 1\nlesson: 99\n"), ("a.txt", "Tam sat.")]);
    let done = untaught(["check", "a.txt"]).within(folder.path()).done();
    assert!(
        done.err().starts_with("untaught: untaught.yaml:2:9: the scope ")
            && done.err().contains("has no lesson 99")
            && done.err().ends_with("(for a.txt)\n"),
        "{done:?}"
    );
}

/// The same bytes, whatever the number of threads, and one bad file stops nothing.
#[test]
fn many_threads_write_what_one_writes() {
    let folder = tempfile::tempdir().unwrap();
    for number in 0..300 {
        let text =
            format!("Tam sat at {}. The night ship {} is in.\n", "mat ".repeat(number % 7), "zorb".repeat(number % 3));
        fs::write(folder.path().join(format!("{number:03}.txt")), text).unwrap();
    }
    fs::write(folder.path().join("150.txt"), b"\x00\x01").unwrap();
    for format in ["text", "lines", "json", "jsonl", "csv", "csv-words", "sarif", "junit", "github", "html"] {
        let run =
            |jobs: &str| untaught(["check", "-l", "9", "-f", format, "-j", jobs, "."]).within(folder.path()).done();
        let (one, many) = (run("1"), run("4"));
        assert_eq!(one.code, Some(2), "{format}");
        assert!(!one.stdout.is_empty(), "{format}");
        assert_eq!(one.stdout, many.stdout, "{format}");
        assert_eq!(one.stderr, many.stderr, "{format}");
        assert!(one.err().contains("150.txt is not a text file"), "{format}: {}", one.err());
    }
    let done = untaught(["check", "-l", "9", "-f", "json", "--fail-fast", "-j", "4", "."]).within(folder.path()).done();
    assert_eq!(names(&done.json()).len(), 1, "the first falls short");
}

/// One story, made by other programs into every kind of document: the same words, the same verdicts.
#[test]
fn every_kind_of_document_gives_the_same_verdicts() {
    let files = Path::new(env!("CARGO_MANIFEST_DIR")).join("../documents/tests/files");
    let mut seen: Option<Vec<(String, String)>> = None;
    let mut kinds = 0;
    let mut paths: Vec<_> = fs::read_dir(&files).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    for path in paths {
        let name = path.file_name().unwrap().to_str().unwrap().to_owned();
        if !name.starts_with("kite") {
            continue;
        }
        let done = untaught(["check", "-l", "30", "-f", "json", "--every-word", "--no-config"]).arg(&path).done();
        let json = done.json();
        let words: Vec<(String, String)> = json["texts"][0]["words"]
            .as_array()
            .unwrap_or_else(|| panic!("{name}: {done:?}"))
            .iter()
            .map(|word| (word["word"].as_str().unwrap().replace('\u{2019}', "'"), word["status"].to_string()))
            .collect();
        assert!(words.len() > 60, "{name}: {}", words.len());
        match &seen {
            None => seen = Some(words),
            Some(first) => assert_eq!(first, &words, "{name}"),
        }
        kinds += 1;
    }
    assert!(kinds >= 6, "only {kinds} kinds");
}

#[test]
fn places_in_documents_are_those_of_the_file() {
    let folder = files_in_folder(&[
        ("a.md", "# Tam\n\nTam **sat** at night.\n\n```\nnight\n```\n"),
        ("a.html", "<p>Tam</p>\n<script>night</script>\n<p>sat at n&#105;ght</p>"),
    ]);
    let done = untaught(["check", "-l", "9", "-f", "json", "a.md", "a.html"]).within(folder.path()).done();
    let place = |text: usize| done.json()["texts"][text]["findings"][0]["places"].clone();
    assert_eq!(place(0), serde_json::json!([{"line": 3, "column": 16}]), "{done:?}");
    assert_eq!(place(1), serde_json::json!([{"line": 3, "column": 11}]), "{done:?}");
    assert_eq!(done.json()["texts"][0]["findings"][0]["count"], 1, "{done:?}");
}

#[test]
fn texts_come_in_as_records_and_each_has_its_line_out() {
    let input = "{\"id\": 7, \"text\": \"Tam sat.\", \"lesson\": 3}\n\n{\"id\": \"x\", \"text\": \"night\", \"lesson\": \"9\"}\n\
                 {\"id\": 8, \"txet\": \"Tam\"}\n{\"id\": 9, \"text\": \"Tam\", \"lesson\": \"99\"}\nnot json\n";
    let done = untaught(["check", "-f", "jsonl"]).stdin(input.as_bytes()).done();
    assert_eq!(done.code, Some(1), "{done:?}");
    let strict = untaught(["check", "-f", "jsonl", "--strict"]).stdin(input.as_bytes()).done();
    assert_eq!((strict.code, strict.out()), (Some(2), done.out()), "{strict:?}");
    let out = done.out().to_owned();
    let lines: Vec<Value> = out.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(lines.len(), 5, "{out}");
    assert_eq!((&lines[0]["id"], &lines[0]["lesson"], &lines[0]["met"]), (&7.into(), &"3".into(), &true.into()));
    assert_eq!((&lines[1]["id"], &lines[1]["met"]), (&"x".into(), &false.into()));
    for (line, what) in [(2, "no member `text`"), (3, "no lesson 99"), (4, "record")] {
        assert!(lines[line]["error"].as_str().unwrap().contains(what), "{}", lines[line]);
    }
    assert_eq!(lines[2]["id"], 8);
    assert!(lines.iter().all(|line| line["format"] == 1));
    let plain = untaught(["check", "-f", "jsonl", "-l", "9"]).stdin(b"Tam sat.").done();
    assert_eq!(serde_json::from_str::<Value>(plain.out()).unwrap()["file"], "-", "a story is a story");
}

#[test]
fn a_report_goes_to_a_file_only_when_it_is_whole() {
    let folder = files_in_folder(&[("a.txt", "Tam sat."), ("out.json", "old")]);
    let done = untaught(["check", "-l", "9", "a.txt", "-f", "json", "-o", "out.json"]).within(folder.path()).done();
    assert_eq!((done.code, done.out()), (Some(0), ""));
    let json: Value = serde_json::from_str(&fs::read_to_string(folder.path().join("out.json")).unwrap()).unwrap();
    assert_eq!(json["texts"][0]["file"], "a.txt");
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 2, "nothing is left behind");
    let done =
        untaught(["check", "-l", "9", "a.txt", "-o", "out.txt", "--color", "always"]).within(folder.path()).done();
    assert_eq!(done.code, Some(0));
    assert!(!fs::read_to_string(folder.path().join("out.txt")).unwrap().contains('\u{1b}'));
    let done = untaught(["check", "a.txt", "-o", "no/such/out.txt"]).within(folder.path()).done();
    assert_eq!(done.code, Some(2));
    assert!(done.err().contains("the report cannot be written to no/such/out.txt"), "{done:?}");
}

#[test]
fn a_text_is_placed_where_it_can_first_be_read() {
    let folder = files_in_folder(&[
        ("ferry.yaml", SCOPE),
        ("one.txt", "Tam sat at the ship. Mash it at night, Pat."),
        ("two.txt", "---\nlesson: a\n---\nTam sat. Ship it! Mash it!"),
        ("three.txt", "Jump!"),
        ("untaught.yaml", "format: 1\nscope: ferry.yaml\nmin-readable: 90\n"),
    ]);
    let done = untaught(["place", "-f", "json", "one.txt", "two.txt", "three.txt"]).within(folder.path()).done();
    let json = done.json();
    assert_eq!(done.code, Some(1));
    assert_eq!(json["texts"][0]["lesson"], "c", "{done:?}");
    assert_eq!(json["texts"][1]["lesson"], "b", "{done:?}");
    assert_eq!(json["texts"][2]["lesson"], Value::Null, "{done:?}");
    let curve = json["texts"][1]["curve"].as_array().unwrap();
    assert_eq!(curve.len(), 3);
    // At a: Tam, sat, it, it; then ship, mash.
    let readable: Vec<&Value> = curve.iter().map(|point| &point["readable"]).collect();
    let words = json["texts"][1]["words"].as_u64().unwrap();
    assert_eq!(words, 6, "{done:?}");
    assert!(readable[0].as_f64() < readable[1].as_f64() && readable[1] == readable[2], "{readable:?}");
    let way = &json["texts"][1]["obstacles"][0];
    assert_eq!(
        (&way["pattern"], &way["words"], &way["lesson"]),
        (&"sh as in ship".into(), &2.into(), &"b".into()),
        "{done:?}"
    );
    // What check says at that lesson is what the curve says.
    let done = untaught(["check", "-f", "json", "-l", "b", "two.txt"]).within(folder.path()).done();
    assert_eq!(&done.json()["texts"][0]["percent"]["readable"], readable[1]);
}

#[test]
fn a_shelf_is_seen_as_a_whole() {
    let folder = files_in_folder(&[
        ("ferry.yaml", SCOPE),
        ("untaught.yaml", "format: 1\nscope: ferry.yaml\nlesson-from-name: \"^([a-z])-\"\n"),
        ("a-one.txt", "Tam sat. Pam sat."),
        ("b-two.txt", "Tam sat. Tam spat."),
        ("b-three.txt", "Mash it, Tam. Ship!"),
        ("a-four.txt", "Tam sat at night."),
    ]);
    let done = untaught(["shelf", "-f", "json", "--order", "--enough", "3", "."]).within(folder.path()).done();
    let json = done.json();
    assert_eq!(done.code, Some(1), "{done:?}");
    let readers: Vec<(String, String)> = json["readers"]
        .as_array()
        .unwrap()
        .iter()
        .map(|reader| (reader["file"].as_str().unwrap().to_owned(), reader["sits"].as_str().unwrap().to_owned()))
        .collect();
    let expected = [
        ("./a-four.txt", "too early"),
        ("./a-one.txt", "right"),
        ("./b-three.txt", "right"),
        ("./b-two.txt", "too late"),
    ];
    assert_eq!(readers.iter().map(|(a, b)| (a.as_str(), b.as_str())).collect::<Vec<_>>(), expected, "{done:?}");
    assert_eq!(json["readers"][1]["new_words"], serde_json::json!(["pam"]));
    let sh = json["patterns"].as_array().unwrap().iter().find(|row| row["pattern"] == "sh").unwrap();
    assert_eq!((&sh["words"], &sh["readers"]), (&2.into(), &1.into()));
    assert_eq!(json["practised_too_little"].as_array().unwrap().iter().filter(|p| *p == "ck").count(), 1);
    assert_eq!(json["order"].as_array().unwrap().len(), 4);
    assert_eq!(json["order"][3], "./a-four.txt", "{done:?}");
    let csv = untaught(["shelf", "-f", "csv", "."]).within(folder.path()).done();
    let rows: Vec<Vec<&str>> = csv.out().lines().map(|line| line.split(',').collect()).collect();
    assert_eq!(rows.len(), 6);
    assert!(rows.iter().all(|row| row.len() == rows[0].len()), "{csv:?}");
    let column = rows[0].iter().position(|cell| *cell == "sh (lesson b)").unwrap();
    assert_eq!(rows.iter().map(|row| row[column]).collect::<Vec<_>>()[1..], ["0", "0", "2", "0", "2"]);
}

#[test]
fn a_proposed_order_is_that_of_the_rows_too() {
    let folder = files_in_folder(&[
        ("ferry.yaml", SCOPE),
        ("untaught.yaml", "format: 1\nscope: ferry.yaml\nlesson-from-name: \"^([a-z])-\"\n"),
        ("a-one.txt", "Tam sat at night."),
        ("b-two.txt", "Mash it, Tam. Ship!"),
        ("c-three.txt", "Pam sat."),
    ]);
    let rows = |args: &[&str]| -> Vec<(String, String)> {
        let done = untaught(["shelf", "-f", "csv", "."].iter().chain(args)).within(folder.path()).done();
        let cells = |line: &str| -> Vec<String> { line.split(',').map(ToOwned::to_owned).collect() };
        let rows: Vec<Vec<String>> = done.out().lines().map(cells).collect();
        let new = rows[0].iter().position(|cell| cell == "new_words").unwrap();
        rows[1..].iter().map(|row| (row[0].clone(), row[new].clone())).collect()
    };
    let expected = |rows: [(&str, &str); 4]| rows.map(|(file, new)| (file.to_owned(), new.to_owned())).to_vec();
    let named = [("./a-one.txt", "4"), ("./b-two.txt", "3"), ("./c-three.txt", "1"), ("all", "")];
    assert_eq!(rows(&[]), expected(named));
    let proposed = [("./c-three.txt", "2"), ("./b-two.txt", "4"), ("./a-one.txt", "2"), ("all", "")];
    assert_eq!(rows(&["--order"]), expected(proposed));
}

/// Only what practises something can practise it too little.
#[test]
fn practice_is_asked_for_only_where_there_is_something_to_practise() {
    let scope = "format: 1\nlessons:\n- {id: a, teach: [s, a, t, m, p, i, n]}\n- {id: b, sight: [was]}\n";
    let folder = files_in_folder(&[
        ("untaught.yaml", "format: 1\nscope: scope.yaml\nmin-focus: 90\n"),
        ("scope.yaml", scope),
        ("one.txt", "Tam was sat. Was Pam?"),
    ]);
    for (args, code) in [
        (&["-l", "b"][..], 0),
        (&["-l", "b", "--min-focus", "50"], 0),
        (&["-l", "b", "--min-focus", "50", "--focus", "m"], 1),
        (&["-l", "b", "--min-focus", "20", "--focus", "m"], 0),
        (&["-l", "a", "--min-readable", "50"], 1),
        (&["-l", "a", "--min-readable", "50", "--min-focus", "60"], 0),
    ] {
        let done = untaught(["check", "one.txt"].iter().chain(args)).within(folder.path()).done();
        assert_eq!(done.code, Some(code), "{args:?}: {done:?}");
    }
}

#[test]
fn the_id_of_a_record_comes_back_as_it_was() {
    let ids =
        ["null", "12345678901234567890123", "1.50", "-0", "1e400", "\"\\u0041\"", "{ \"b\": [1.0], \"a\": 2 }", "[]"];
    for (rest, code) in [
        ("\"text\": \"Tam sat.\"", 0),
        ("\"text\": 5", 1),
        ("\"txet\": 5", 1),
        ("\"text\": \"\", \"lesson\": \"99\"", 1),
    ] {
        let records: Vec<String> = ids
            .iter()
            .flat_map(|id| [format!("{{\"id\":{id}, {rest}}}\n"), format!("{{{rest}, \"id\": {id}}}\n")])
            .collect();
        let done = untaught(["check", "-f", "jsonl"]).stdin(records.concat()).done();
        assert_eq!(done.code, Some(code), "{rest}: {done:?}");
        let lines: Vec<&str> = done.out().lines().collect();
        assert_eq!(lines.len(), 2 * ids.len());
        for (number, line) in lines.iter().enumerate() {
            let id = ids[number / 2];
            assert!(
                line.starts_with(&format!("{{\"format\":1,\"id\":{id},\"file\":\"-:{}\"", number + 1)),
                "{id}: {line}"
            );
        }
    }
    let none = untaught(["check", "-f", "jsonl"]).stdin("{\"text\": \"Tam\"}\n{\"txet\": 1}\n[{\"id\": 1}]").done();
    assert!(none.out().lines().count() == 3 && !none.out().contains("\"id\""), "{none:?}");
    // What would act on a terminal is written otherwise, and means the same.
    let records = "{\"id\": [\"\u{9b}\u{202e}x\",\t1\r], \"text\": \"Tam sat.\"}";
    let done = untaught(["check", "-f", "jsonl"]).stdin(records).done();
    assert!(done.out().starts_with(r#"{"format":1,"id":["\u009b\u202ex", 1 ],"#), "{done:?}");
}

/// A system that gives no more threads slows the work down and stops nothing.
#[test]
fn threads_that_cannot_be_started_are_done_without() {
    let folder = files_in_folder(&[]);
    for number in 0..200 {
        fs::write(folder.path().join(format!("{number:03}.txt")), "Tam sat at night.").unwrap();
    }
    let run = || untaught(["check", "-l", "9", "-f", "csv", "-j", "4", "."]).within(folder.path());
    let usual = run().done();
    assert_eq!((usual.code, usual.out().lines().count()), (Some(1), 201));
    // No address space has room for such a stack.
    let alone = run().env("RUST_MIN_STACK", &(1_u64 << 47).to_string()).done();
    assert_eq!((alone.code, alone.out(), alone.err()), (usual.code, usual.out(), ""));
}

/// What a record has beside its text comes back, and its own lesson counts before the one that was typed.
#[test]
fn other_members_of_a_record_come_back() {
    let records = "{\"text\": \"night\", \"shelf\": {\"n\": 1e400}, \"file\": \"x\", \"lesson\": 33}\n{\"text\": \"night\"}\n\
                   {\"text\": \"a\", \"text\": \"b\"}\n";
    let done = untaught(["check", "-f", "jsonl", "--lesson", "3"]).stdin(records).done();
    assert_eq!(done.code, Some(1), "{done:?}");
    let lines: Vec<&str> = done.out().lines().collect();
    assert!(lines[0].contains("\"record\":{\"file\":\"x\",\"shelf\":{\"n\": 1e400}}"), "{}", lines[0]);
    assert!(
        lines[0].contains("\"file\":\"-:1\"") && lines[0].contains("\"lesson\":\"33\",\"unit\":\"line\",\"met\":true"),
        "{}",
        lines[0]
    );
    assert!(lines[1].contains("\"lesson\":\"3\",\"unit\":\"line\",\"met\":false"), "{}", lines[1]);
    assert!(lines[2].contains("two members `text`"), "{}", lines[2]);
    let zero = untaught(["check", "-f", "jsonl", "--lesson", "3", "--exit-zero"]).stdin("{\"text\": \"night\"}").done();
    assert_eq!(zero.code, Some(0), "{zero:?}");
    let failed = untaught(["check", "--exit-zero", "no-such-file.txt"]).done();
    assert_eq!(failed.code, Some(2), "{failed:?}");
}
