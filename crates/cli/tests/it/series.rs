//! A folder of readers as one series: the spreadsheet, the tables and the report for programs say the same.

use std::io::Read as _;
use std::path::Path;

use serde_json::Value;

use crate::support::{cases, files_in_folder, schema, untaught};

fn shelf() -> std::path::PathBuf {
    cases().join("shelf.in")
}

fn report(folder: &Path, args: &[&str]) -> Value {
    untaught(["shelf", "-f", "json"].iter().chain(args)).within(folder).done().json()
}

/// The parts of a spreadsheet by their names.
fn parts(bytes: Vec<u8>) -> Vec<(String, String)> {
    let mut archive = zip::ZipArchive::new(std::io::Cursor::new(bytes)).unwrap();
    (0..archive.len())
        .map(|at| {
            let mut part = archive.by_index(at).unwrap();
            let mut text = String::new();
            part.read_to_string(&mut text).unwrap();
            (part.name().to_owned(), text)
        })
        .collect()
}

#[test]
fn a_spreadsheet_is_sound_xml_and_its_names_are_text() {
    let folder = files_in_folder(&[
        ("=1+1 <b> & 'é'.txt", "---\ntitle: \"=cmd() ]]> \\u001b\"\n---\nTam sat at night."),
        ("b.txt", "Tam sat."),
    ]);
    let run = || untaught(["shelf", "-f", "xlsx", "."]).within(folder.path()).done();
    let done = run();
    assert_eq!(done.code, Some(0), "{done:?}");
    assert_eq!(done.stdout, run().stdout, "the same twice");
    let parts = parts(done.stdout);
    assert_eq!(parts.len(), 11);
    for (name, text) in &parts {
        let mut reader = quick_xml::Reader::from_str(text);
        loop {
            match reader.read_event().unwrap_or_else(|error| panic!("{name}: {error}")) {
                quick_xml::events::Event::Eof => break,
                quick_xml::events::Event::Start(tag) => {
                    assert_ne!(tag.name().into_inner(), "f", "{name}: a formula");
                    assert!(tag.attributes().all(|one| one.is_ok()), "{name}: {tag:?}");
                }
                _ => {}
            }
        }
        assert!(!text.contains(|c: char| c.is_control() && c != '\n'), "{name}");
    }
    let readers = &parts.iter().find(|(name, _)| name == "xl/worksheets/sheet1.xml").unwrap().1;
    assert!(readers.contains("./=1+1 &lt;b&gt; &amp; &apos;é&apos;.txt"), "{readers}");
}

/// The counts of each word, added up, are the words of all readers; so are those before, at and after for each pattern.
#[test]
fn counts_add_up() {
    let report = report(&shelf(), &["."]);
    assert_eq!(schema::faults(&report, &schema::published("shelf")), Vec::<String>::new());
    let sum = |list: &str, key: &str| -> u64 {
        report[list].as_array().unwrap().iter().map(|row| row[key].as_u64().unwrap()).sum()
    };
    assert_eq!(sum("words", "times"), sum("readers", "words"));
    assert_eq!(sum("lessons", "words"), sum("readers", "words"));
    assert_eq!(sum("lessons", "readers"), 4);
    let new: usize =
        report["readers"].as_array().unwrap().iter().map(|row| row["new_words"].as_array().unwrap().len()).sum();
    let met = report["words"].as_array().unwrap().iter().filter(|word| word["times"].as_u64() > Some(0)).count();
    assert_eq!(new as u64, sum("lessons", "new_words"));
    assert_eq!(new, met);
    for pattern in report["patterns"].as_array().unwrap() {
        let [words, at, after] = ["words", "at", "after"].map(|key| pattern[key].as_u64().unwrap());
        assert_eq!(words, at + after, "{pattern}");
    }
    let sh = report["patterns"].as_array().unwrap().iter().find(|row| row["pattern"] == "sh").unwrap();
    let expected = ("./readers/03-rock.txt", "./readers/04-ferry.txt", 0, 1);
    let [first, last] = ["first_reader", "last_reader"].map(|key| sh[key].as_str().unwrap());
    let [gap, since] = ["longest_gap", "readers_since"].map(|key| sh[key].as_u64().unwrap());
    assert_eq!((first, last, gap, since), expected);
    // *night* is in the reader of lesson 4, one lesson too soon.
    let igh = report["patterns"].as_array().unwrap().iter().find(|row| row["pattern"] == "igh as in night").unwrap();
    assert_eq!((igh["before"].as_u64(), igh["at"].as_u64(), igh["after"].as_u64()), (Some(1), Some(1), Some(0)));
    assert_eq!(report["lacks"]["lessons"], serde_json::json!(["2"]));
}

#[test]
fn a_shelf_under_two_scopes_and_the_comparison_of_these_agree() {
    let folder = cases().join("compare.in");
    let shelf = report(&folder, &["--against", "second.yaml", "readers"]);
    assert_eq!(schema::faults(&shelf, &schema::published("shelf")), Vec::<String>::new());
    let done = untaught(["scope", "second.yaml", "readers", "--against", "../harbour.yaml", "-f", "json"])
        .within(&folder)
        .done();
    let compared = done.json();
    assert_eq!(schema::faults(&compared, &schema::published("compare")), Vec::<String>::new());
    let (ours, theirs) = (shelf["readers"].as_array().unwrap(), compared["readers"].as_array().unwrap());
    assert_eq!(ours.len(), theirs.len());
    for (ours, theirs) in ours.iter().zip(theirs) {
        assert_eq!(ours["file"], theirs["file"]);
        assert_eq!((&ours["sits"], &ours["against"]["sits"]), (&theirs["old"]["sits"], &theirs["new"]["sits"]));
        assert_eq!(ours["against"]["percent_readable"], theirs["new"]["percent_readable"]);
        assert_eq!(ours["against"]["untaught_there"], theirs["untaught_now"]);
    }
    let short = theirs.iter().filter(|reader| reader["change"] == "falls short").count();
    assert_eq!(done.code, Some(i32::from(short > 0)));
    assert!(short > 0, "{compared:#}");
    // Each is what the check itself says under the new scope.
    for reader in theirs {
        let file = reader["file"].as_str().unwrap();
        let check = untaught(["check", "-f", "json", "--scope", "second.yaml", file]).within(&folder).done().json();
        assert_eq!(check["texts"][0]["percent"]["readable"], reader["new"]["percent_readable"], "{file}");
    }
}

/// What a folder says of how its names are read holds under both scopes.
#[test]
fn names_are_read_alike_under_both_scopes() {
    let scope = "format: 1\nlessons:\n- teach: [s, a, t, m, p, i, n]\n";
    let folder = files_in_folder(&[
        ("scope.yaml", scope),
        ("same.yaml", &scope.replace("format: 1", "format: 1\ntitle: The same")),
        ("untaught.yaml", "format: 1\nscope: scope.yaml\nlesson: 1\npronounce: {Pfnam: \"p=/p/·f=/f/·n·a·m\"}\n"),
        ("one.txt", "Tam sat. Pfnam sat at a mat."),
    ]);
    for args in [
        &["shelf", "--against", "same.yaml", "one.txt"][..],
        &["scope", "same.yaml", "one.txt", "--against", "scope.yaml"],
    ] {
        let report = untaught(args.iter().chain(&["-f", "json"])).within(folder.path()).done().json();
        let reader = &report["readers"][0];
        let words = if args[0] == "shelf" {
            ["against/untaught_there", "against/untaught_here"]
        } else {
            ["untaught_now", "taught_now"]
        };
        for list in words {
            assert_eq!(reader.pointer(&format!("/{list}")), Some(&serde_json::json!([])), "{args:?}: {reader:#}");
        }
    }
}
