//! Reports for programs: their fields and types, sums that add up, and places that point at the word they speak of.
//!
//! `json/*.json` are whole reports, written out so that they can be read: arguments, exit code, report.
//! `UPDATE_JSON=1 cargo test -p untaught-cli json::` writes what the program says into them.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use crate::support::{cases, folder_with, schema, untaught};
use proptest::prelude::*;
use proptest::test_runner::Config;
use serde_json::{Map, Value, json};

const STATUSES: [&str; 4] = ["decodable", "sight", "story", "untaught"];

fn tests() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests")
}

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

fn files(folder: &Path, extension: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(files(&path, extension));
        } else if path.extension().is_some_and(|e| e == extension) {
            found.push(path);
        }
    }
    found.sort();
    found
}

fn list(value: &Value) -> &Vec<Value> {
    value.as_array().unwrap_or_else(|| panic!("no list: {value}"))
}

fn string(value: &Value) -> &str {
    value.as_str().unwrap_or_else(|| panic!("no text: {value}"))
}

fn number(value: &Value) -> usize {
    usize::try_from(value.as_u64().unwrap_or_else(|| panic!("no count: {value}"))).unwrap()
}

/// An object with these members at least: the contract may grow. What else `check` says is held to its published schema.
fn members<'v>(value: &'v Value, names: &[&str]) -> &'v Map<String, Value> {
    let object = value.as_object().unwrap_or_else(|| panic!("no object: {value}"));
    for name in names {
        assert!(object.contains_key(*name), "no {name} in {value}");
    }
    object
}

fn id_or_null(value: &Value) -> Option<&str> {
    assert!(value.is_string() || value.is_null(), "neither id nor null: {value}");
    value.as_str()
}

#[test]
fn whole_reports_are_as_written() {
    let all = files(&tests().join("json"), "json");
    assert!(all.len() >= 5, "{all:?}");
    for path in all {
        let case: Value = serde_json::from_str(&fs::read_to_string(&path).unwrap()).unwrap();
        let args: Vec<&str> = list(&case["args"]).iter().map(string).collect();
        let done = untaught(&args).done();
        let real = json!({"args": args, "code": done.code, "report": done.json()});
        if std::env::var_os("UPDATE_JSON").is_some() {
            fs::write(&path, format!("{real:#}\n")).unwrap();
            continue;
        }
        assert_eq!(case, real, "{}", path.display());
    }
}

/// The lines of a text; LF, CRLF and CR each end one, and a byte order mark is no part of the first.
fn lines(text: &str) -> Vec<Vec<char>> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text).replace("\r\n", "\n").replace('\r', "\n");
    text.split('\n').map(|line| line.chars().collect()).collect()
}

/// What stands at the place of a word or finding.
fn at(lines: &[Vec<char>], place: &Value, length: usize) -> String {
    let (line, column) = (number(&place["line"]), number(&place["column"]));
    let rest = &lines[line - 1][column - 1..];
    rest[..length.min(rest.len())].iter().collect()
}

fn check_needs(needs: &Value) {
    for need in list(needs) {
        let need = members(need, &["pattern", "kind", "lesson"]);
        assert!(!string(&need["pattern"]).is_empty());
        let lesson = id_or_null(&need["lesson"]);
        match string(&need["kind"]) {
            "pattern" | "skill" => {}
            "sight-word" => assert!(lesson.is_some(), "{need:?}"),
            "irregular" | "abbreviation" => assert_eq!(lesson, None, "{need:?}"),
            kind => panic!("no such kind: {kind}"),
        }
    }
}

fn check_counts(counts: &Value, percent: &Value) {
    let of = |status: &str| number(&counts[status]);
    members(counts, &["words", "decodable", "sight", "story", "untaught", "uncounted"]);
    assert_eq!(of("words"), STATUSES.iter().map(|status| of(status)).sum::<usize>(), "{counts}");
    members(percent, &["decodable", "readable"]);
    for (name, share) in [("decodable", of("decodable")), ("readable", of("words") - of("untaught"))] {
        match percent[name].as_f64() {
            None => assert!(percent[name].is_null() && of("words") == 0, "{name}: {percent} of {counts}"),
            Some(given) => {
                let exact = share as f64 * 100.0 / of("words") as f64;
                assert!((given - exact).abs() <= 0.005 + 1e-9, "{name}: {given} for {exact}");
            }
        }
    }
}

/// Everything that can be said of one text of a report that has every word, whatever the text and the scope.
fn check_text(text: &Value, source: &str) {
    let names =
        ["file", "lesson", "met", "counts", "percent", "types", "words", "findings", "two_readings", "focus", "scope"];
    let object = members(text, &names);
    assert!(!string(&object["lesson"]).is_empty() && object["met"].is_boolean());
    check_counts(&object["counts"], &object["percent"]);
    let types = members(&object["types"], &["counts", "percent"]);
    check_counts(&types["counts"], &types["percent"]);

    let lines = lines(source);
    let mut tally: BTreeMap<&str, usize> = BTreeMap::new();
    let mut before = (0, 0);
    for word in list(&object["words"]) {
        let written = string(&members(word, &["word", "status", "line", "column", "needs"])["word"]);
        let status = string(&word["status"]);
        assert!(STATUSES.contains(&status), "{word}");
        *tally.entry(status).or_default() += 1;
        assert_eq!(at(&lines, word, written.chars().count()), written, "{word}");
        let place = (number(&word["line"]), number(&word["column"]));
        assert!(place > before, "{word} is out of order");
        before = (place.0, place.1 + written.chars().count() - 1);
        check_needs(&word["needs"]);
        assert_eq!(list(&word["needs"]).is_empty(), status != "untaught", "{word}");
    }
    assert_eq!(list(&object["words"]).len(), number(&object["counts"]["words"]));
    for status in STATUSES {
        assert_eq!(tally.get(status).copied().unwrap_or_default(), number(&object["counts"][status]), "{status}");
    }

    let untaught: Vec<&Value> = list(&object["words"]).iter().filter(|word| word["status"] == "untaught").collect();
    let mut found = 0;
    let mut first = (0, 0);
    for finding in list(&object["findings"]) {
        let names = ["word", "status", "count", "places", "needs", "first_readable", "likely_name", "by_letters"];
        members(finding, &names);
        assert!(finding["status"] == "untaught" && finding["likely_name"].is_boolean());
        assert!(finding["by_letters"].is_boolean());
        id_or_null(&finding["first_readable"]);
        check_needs(&finding["needs"]);
        let (count, places) = (number(&finding["count"]), list(&finding["places"]));
        assert_eq!(places.len(), count.min(20), "{finding}");
        found += count;
        for place in places {
            members(place, &["line", "column"]);
            let here = untaught.iter().filter(|w| w["line"] == place["line"] && w["column"] == place["column"]);
            let here: Vec<&&Value> = here.collect();
            assert!(here.len() == 1 && here[0]["needs"] == finding["needs"], "{finding} at {place}: {here:?}");
        }
        let place = (number(&places[0]["line"]), number(&places[0]["column"]));
        assert!(place > first, "{finding} is out of order");
        first = place;
    }
    for two in list(&object["two_readings"]) {
        assert!(!string(&two["counted"]).is_empty() && two["counted"] != two["other"], "{two}");
        for place in list(&two["places"]) {
            let here =
                list(&object["words"]).iter().find(|w| w["line"] == place["line"] && w["column"] == place["column"]);
            assert!(here.is_some_and(|word| word["status"] == "decodable"), "{two} at {place}: {here:?}");
        }
    }
    let focus = &object["focus"];
    let practised: usize = list(&focus["types"]).iter().map(|word| number(&word["count"])).sum();
    assert_eq!(practised, number(&focus["words"]), "{focus}");
    assert!(practised <= number(&object["counts"]["words"]), "{focus}");
    assert_eq!(found, untaught.len());
    assert_eq!(list(&object["findings"]).len(), number(&types["counts"]["untaught"]));
}

fn check_report(report: &Value, sources: &[&str]) {
    let published = schema::published("check");
    assert_eq!(schema::faults(report, &published), Vec::<String>::new());
    members(report, &["format", "texts"]);
    assert_eq!(report["format"], 1);
    assert_eq!(list(&report["texts"]).len(), sources.len());
    for (text, source) in list(&report["texts"]).iter().zip(sources) {
        check_text(text, source);
    }
}

#[test]
fn a_plan_keeps_the_contract_and_reaches_its_goal() {
    let published = schema::published("check");
    for (least, lesson) in [("100", "3"), ("80", "12"), ("1", "30")] {
        let args = ["check", "check-one.in/night.txt", "-l", lesson, "-f", "json", "--plan", "--min-readable", least];
        let report = untaught(args).done().json();
        assert_eq!(schema::faults(&report, &published), Vec::<String>::new());
        let plan = &report["texts"][0]["plan"];
        match list(&plan["steps"]).last() {
            Some(last) => assert!(last["readable"].as_f64() >= plan["goal"].as_f64(), "{plan}"),
            None => assert!(plan["goal"].is_null(), "{plan}"),
        }
    }
}

#[test]
fn the_published_schema_can_fail() {
    let published = schema::published("check");
    let report = untaught(["check", "check-one.in/night.txt", "-l", "3", "-f", "json", "--every-word"]).done().json();
    assert_eq!(schema::faults(&report, &published), Vec::<String>::new());
    for (place, wrong) in [
        ("/format", json!(2)),
        ("/texts/0/words/0/status", json!("known")),
        ("/texts/0/words/0/line", json!(0)),
        ("/texts/0/findings/0/places", json!([])),
        ("/texts/0/percent/decodable", json!("60 %")),
        ("/texts/0/types", json!({"counts": report["texts"][0]["counts"]})),
        ("/texts/0/findings/0/needs/0/lesson", json!(3)),
        ("/texts/0/findings/0/needs/0/kind", json!("mood")),
    ] {
        let mut bent = report.clone();
        *bent.pointer_mut(place).unwrap_or_else(|| panic!("no {place}")) = wrong;
        assert_ne!(schema::faults(&bent, &published), Vec::<String>::new(), "{place}");
    }
    let mut more = report;
    more["texts"][0]["mood"] = json!("cheerful");
    assert_ne!(schema::faults(&more, &published), Vec::<String>::new());
}

#[test]
fn reports_on_all_stories_keep_the_contract() {
    let mut stories = files(&cases(), "txt");
    stories.retain(|path| !path.parent().unwrap().ends_with("check-front-faults.in"));
    stories.extend(files(&root().join("scope-files/readers"), "txt"));
    assert!(stories.len() >= 20, "{stories:?}");
    let sources: Vec<String> = stories.iter().map(|path| fs::read_to_string(path).unwrap()).collect();
    let sources: Vec<&str> = sources.iter().map(String::as_str).collect();
    for lesson in ["1", "5", "20", "40", "60"] {
        let base = ["check", "--no-config", "--lesson", lesson, "--format", "json"].map(Into::into);
        let named = stories.iter().map(|path| path.clone().into_os_string());
        let whole = untaught(base.iter().cloned().chain(["--every-word".into()]).chain(named.clone())).done();
        let report = whole.json();
        check_report(&report, &sources);
        let met = list(&report["texts"]).iter().all(|text| text["met"] == true);
        assert_eq!(whole.code, Some(if met { 0 } else { 1 }));
        // Without every word the rest is the same.
        let short = untaught(base.iter().cloned().chain(named)).done();
        let mut cut = report;
        for text in cut["texts"].as_array_mut().unwrap() {
            text.as_object_mut().unwrap().remove("words");
        }
        assert_eq!((short.code, short.json()), (whole.code, cut));
    }
}

#[test]
fn thresholds_decide_whether_a_text_is_met() {
    let run = |args: &[&str]| {
        let base = ["check", "check-thresholds.in/don.txt", "--scope", "harbour.yaml", "--lesson", "2", "-f", "json"];
        let done = untaught(base.iter().chain(args)).done();
        (done.code, done.json()["texts"][0]["met"].as_bool())
    };
    assert_eq!(run(&[]), (Some(1), Some(false)));
    assert_eq!(run(&["--min-readable", "90"]), (Some(0), Some(true)));
    assert_eq!(run(&["--min-readable", "90.01"]), (Some(1), Some(false)));
    assert_eq!(run(&["--min-readable", "0", "--min-decodable", "70"]), (Some(0), Some(true)));
    assert_eq!(run(&["--min-readable", "0", "--min-decodable", "70.01"]), (Some(1), Some(false)));
}

/// The place of each lesson of a scope, by its id.
fn places(scope: &str) -> BTreeMap<String, usize> {
    let scope = untaught(["scope", scope, "--format", "json"]).done().json();
    members(&scope, &["format", "title", "lessons"]);
    assert!(scope["format"] == 1 && scope["title"].is_string());
    for lesson in list(&scope["lessons"]) {
        members(lesson, &["id", "title", "patterns", "sight", "skills", "review"]);
        assert!(lesson["title"].is_string());
        for key in ["patterns", "sight", "skills", "review"] {
            assert!(list(&lesson[key]).iter().all(Value::is_string), "{lesson}");
        }
    }
    list(&scope["lessons"])
        .iter()
        .enumerate()
        .map(|(place, lesson)| (string(&lesson["id"]).to_owned(), place))
        .collect()
}

const WORDS: [&str; 24] = [
    "night", "said", "read", "hatbox", "boatless", "zib", "Rob's", "can't", "picnic", "umbrella", "lamps", "cake",
    "of", "fox", "queen", "apple", "jumped", "wind", "the", "Wren", "jungle", "sixth", "eye", "harbour",
];

#[test]
fn explanations_keep_the_contract() {
    for scope in ["starter", "harbour.yaml", "explain.in/letters.yaml", "scope.in/full.yaml"] {
        let places = places(scope);
        let place =
            |id: &Value| id_or_null(id).map(|id| *places.get(id).unwrap_or_else(|| panic!("{scope} has no {id}")));
        let never = usize::MAX;
        let done = untaught(["explain", "--format", "json", "--scope", scope].iter().chain(&WORDS)).done();
        let words = done.json();
        assert_eq!((done.code, list(&words).len()), (Some(0), WORDS.len()));
        for (word, written) in list(&words).iter().zip(WORDS) {
            members(word, &["word", "origin", "first_decodable", "first_readable", "readings"]);
            assert_eq!(word["word"], written);
            assert!(["dictionary", "derived", "letters"].contains(&string(&word["origin"])), "{word}");
            let readings = list(&word["readings"]);
            let first: Vec<usize> = readings.iter().map(|r| place(&r["first_decodable"]).unwrap_or(never)).collect();
            // The reading that counts comes first.
            assert_eq!(place(&word["first_decodable"]).unwrap_or(never), first[0], "{word}");
            assert_eq!(first.iter().min(), Some(&first[0]), "{word}");
            assert!(place(&word["first_readable"]).unwrap_or(never) <= first[0], "{word}");
            for reading in readings {
                members(reading, &["ipa", "parts", "skills", "first_decodable"]);
                assert!(!string(&reading["ipa"]).is_empty());
                assert!(list(&reading["skills"]).iter().all(Value::is_string));
                let last = list(&reading["parts"]).iter().map(|part| {
                    let names = ["spelling", "sound", "ipa", "pattern", "lesson"];
                    members(part, &names);
                    assert!(names[..4].iter().all(|name| !string(&part[name]).is_empty()), "{part}");
                    place(&part["lesson"]).unwrap_or(never)
                });
                assert!(place(&reading["first_decodable"]).unwrap_or(never) >= last.max().unwrap(), "{reading}");
                let letters: usize = list(&reading["parts"])
                    .iter()
                    .map(|part| string(&part["spelling"]).chars().filter(|c| c.is_alphabetic()).count())
                    .sum();
                let written = written.chars().filter(|c| c.is_alphabetic()).count();
                assert_eq!(letters, written, "every letter of a word stands in one part: {word}");
            }
        }
    }
}

#[test]
fn an_explanation_and_a_check_agree() {
    let story = WORDS.join(" ");
    let folder = folder_with("story.txt", &story);
    let story = folder.path().join("story.txt");
    for scope in ["starter", "explain.in/letters.yaml"] {
        let places = places(scope);
        let explained = untaught(["explain", "--format", "json", "--scope", scope].iter().chain(&WORDS)).done().json();
        for (id, at) in &places {
            let args = ["check", "--format", "json", "--every-word", "--scope", scope, "--lesson", id, "--"];
            let checked = untaught(args.iter().map(Into::into).chain([story.clone().into_os_string()])).done().json();
            let words = list(&checked["texts"][0]["words"]);
            assert_eq!(words.len(), WORDS.len());
            for (word, explained) in words.iter().zip(list(&explained)) {
                let by = |key: &str| id_or_null(&explained[key]).is_some_and(|id| places[id] <= *at);
                let expected = match (by("first_decodable"), by("first_readable")) {
                    (true, _) => "decodable",
                    (false, true) => "sight",
                    (false, false) => "untaught",
                };
                assert_eq!(word["status"], expected, "{word} at lesson {id} of {scope}: {explained}");
                for need in list(&word["needs"]) {
                    let later = id_or_null(&need["lesson"]).is_none_or(|id| places[id] > *at);
                    assert!(later, "{word} at lesson {id} of {scope} needs what it has: {need}");
                }
            }
            for finding in list(&checked["texts"][0]["findings"]) {
                let same =
                    list(&explained).iter().find(|e| string(&e["word"]).to_lowercase() == string(&finding["word"]));
                let same = same.unwrap_or_else(|| panic!("{finding}"));
                assert_eq!(finding["first_readable"], same["first_readable"]);
                assert_eq!(finding["by_letters"], same["origin"] == "letters");
            }
        }
    }
}

#[test]
fn patterns_have_their_fields() {
    let all = untaught(["patterns", "--format", "json"]).done().json();
    assert!(list(&all).len() > 100, "{}", list(&all).len());
    let mut seen = BTreeSet::new();
    for pattern in list(&all) {
        let names = ["spelling", "sound", "ipa", "key", "grade"];
        members(pattern, &names);
        assert!(names.iter().all(|name| !string(&pattern[name]).is_empty()), "{pattern}");
        assert!(seen.insert((string(&pattern["spelling"]), string(&pattern["ipa"]))), "twice: {pattern}");
    }
    let some = untaught(["patterns", "--format", "json", "sh", "a-e"]).done().json();
    let wanted = list(&all).iter().filter(|pattern| ["sh", "a_e"].contains(&string(&pattern["spelling"])));
    assert_eq!(list(&some).iter().collect::<Vec<_>>(), wanted.collect::<Vec<_>>());
}

#[test]
fn two_runs_say_the_same() {
    let stories = files(&root().join("scope-files/readers"), "txt").into_iter().map(PathBuf::into_os_string);
    for args in [&["check", "--lesson", "12"][..], &["check", "--lesson", "12", "--format", "json", "--every-word"]] {
        let run = || untaught(args.iter().map(Into::into).chain(stories.clone())).done();
        let first = run();
        assert!(first.stdout.len() > 1000, "{args:?}");
        assert_eq!(first.stdout, run().stdout, "{args:?}");
    }
}

fn stories() -> impl Strategy<Value = String> {
    let piece = prop::sample::select(vec![
        "Rob",
        "sat",
        "ship",
        "quay",
        "Wren\u{2019}s",
        "don't",
        "the",
        "a",
        "I",
        "ﬁsh",
        "ＢＩＧ",
        "ra\u{ad}bbit",
        "ca\u{200b}t",
        "café",
        "cafe\u{301}",
        "naïve",
        "ÆSOP",
        "shhh",
        "mis-hap",
        "the_end",
        "end.Next",
        "3",
        "10.30",
        "B",
        "2nd",
        "c\u{2019}s",
        "😀",
        "👩\u{200d}👧",
        "漢字",
        "عربي",
        "ß",
        "İ",
        "ǅ",
        "x\u{307}",
        "\u{feff}",
        "\u{2060}",
        "\u{202e}",
        " ",
        " ",
        " ",
        "\n",
        "\r\n",
        "\r",
        "\t",
        "\u{a0}",
        "\u{2028}",
        "\u{85}",
        "\u{b}",
        "\u{c}",
        "“",
        "”",
        "‘",
        "’",
        "—",
        "…",
        ".",
        "-",
        "'",
        "\"",
        "\u{1b}[1m",
    ]);
    prop::collection::vec(piece, 0..40).prop_map(|pieces| pieces.concat())
}

proptest! {
    #![proptest_config(Config { cases: 256, failure_persistence: None, ..Config::default() })]

    #[test]
    fn reports_on_any_text_keep_the_contract(story in stories(), mark in any::<bool>(), lesson in 1..=60usize) {
        let story = format!("{}{story}", if mark { "\u{feff}" } else { "" });
        let lesson = lesson.to_string();
        let done = untaught(["check", "-l", &lesson, "-f", "json", "--every-word", "--names", "Rob"]).stdin(&story).done();
        prop_assert!(done.err().is_empty(), "{:?}", done);
        check_report(&done.json(), &[&story]);
    }
}
