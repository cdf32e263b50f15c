//! Texts, files and streams that no teacher means to give, made while the test runs: the command ends, with an exit code of its own
//! and a sentence for people.

use std::fs;
use std::io::Read as _;
use std::process::Stdio;

use crate::support::{Done, folder_with, untaught, wait};
use proptest::prelude::*;
use proptest::test_runner::Config;
use tempfile::TempDir;

/// Checks one story given as bytes, for programs.
fn check(folder: &TempDir, args: &[&str]) -> Done {
    let base = ["check", "story.txt", "--lesson", "5", "--format", "json"];
    untaught(base.iter().chain(args)).within(folder.path()).done()
}

fn count(done: &Done, status: &str) -> u64 {
    done.json()["texts"][0]["counts"][status].as_u64().unwrap_or_else(|| panic!("{done:?}"))
}

#[test]
fn an_empty_file_has_no_words() {
    for nothing in ["", "\u{feff}", "\n\n", "---\nlesson: 5\n---\n"] {
        let folder = folder_with("story.txt", nothing);
        let done = check(&folder, &["--every-word"]);
        assert_eq!((done.code, count(&done, "words"), done.err()), (Some(0), 0, ""), "{nothing:?}");
        assert!(done.json()["texts"][0]["percent"]["decodable"].is_null());
        let text = untaught(["check", "story.txt"]).within(folder.path()).done();
        assert!(text.out().contains("It has no words."), "{text:?}");
    }
}

#[test]
fn a_binary_file_is_refused_by_name() {
    let bytes: Vec<u8> = (0..=255).cycle().take(4000).collect();
    for bytes in [&bytes[..], b"\x7fELF\x02\x01\x01\0\0\0\xf3\xe9", b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR"] {
        let folder = folder_with("picture.png", bytes);
        for args in [&["check", "picture.png"][..], &["scope", "picture.png"], &["check", "--scope", "picture.png"]] {
            let done = untaught(args).within(folder.path()).done();
            assert_eq!((done.code, done.out()), (Some(2), ""), "{args:?}");
            assert!(done.err().contains("picture.png is not a text file"), "{args:?}: {done:?}");
        }
    }
}

#[test]
fn what_no_encoding_can_be_is_refused_with_file_and_place() {
    let folder = folder_with("cafe.txt", b"Sam sat.\nTab had a caf\x81.\n");
    fs::write(folder.path().join("good.txt"), "Tab sat.").unwrap();
    let done = untaught(["check", "cafe.txt", "good.txt", "-l", "8"]).within(folder.path()).done();
    assert_eq!(done.code, Some(2));
    assert!(done.err().contains("cafe.txt is not UTF-8: byte 22, counted from 0, on line 2"), "{done:?}");
    assert!(done.out().contains("good.txt at lesson 8") && !done.out().contains("cafe.txt"), "{done:?}");
    let done = untaught(["scope", "cafe.txt"]).within(folder.path()).done();
    assert_eq!((done.code, done.out()), (Some(2), ""));
    assert!(done.err().contains("cafe.txt is not UTF-8: byte 22"), "{done:?}");
}

#[test]
fn an_old_encoding_is_read_and_said() {
    let done = untaught(["check", "--stdin-name", "draft", "-l", "22", "--names", "Sam"]).stdin(b"Sam\x92s hat").done();
    assert_eq!(done.code, Some(0), "{done:?}");
    assert!(done.out().contains("2 of 2 words"), "{done:?}");
    assert!(done.err().contains("draft is not UTF-8; it was read as Windows-1252"), "{done:?}");
}

fn utf16(text: &str, big: bool) -> Vec<u8> {
    text.encode_utf16().flat_map(|unit| if big { unit.to_be_bytes() } else { unit.to_le_bytes() }).collect()
}

#[test]
fn utf_16_is_read_like_utf_8() {
    let story = "---\nlesson: 5\nnames: [Zo\u{eb}]\n---\n\u{201c}Tab!\u{201d} said Zo\u{eb}.\nThe ship is at the \u{1f6a2} dock.\n";
    let utf8 = check(&folder_with("story.txt", story), &["--every-word"]);
    assert_eq!(count(&utf8, "words"), 9);
    for (bytes, what) in [
        (utf16(&format!("\u{feff}{story}"), false), "little end first, marked"),
        (utf16(&format!("\u{feff}{story}"), true), "big end first, marked"),
        (utf16(story, false), "little end first"),
        (utf16(story, true), "big end first"),
        ([b"\xef\xbb\xbf", story.as_bytes()].concat(), "UTF-8, marked"),
    ] {
        let done = check(&folder_with("story.txt", bytes), &["--every-word"]);
        assert_eq!((done.code, done.out(), done.err()), (Some(1), utf8.out(), ""), "{what}");
    }
    let scope = "format: 1\ntitle: Harbour\nlessons:\n- teach: [s, a, t]\n";
    let folder = folder_with("scope.yaml", utf16(&format!("\u{feff}{scope}"), false));
    let done = untaught(["scope", "scope.yaml"]).within(folder.path()).done();
    assert!(done.code == Some(0) && done.out().starts_with("Harbour\n"), "{done:?}");
}

#[test]
fn broken_utf_16_is_refused() {
    let mut odd = utf16("\u{feff}Sam sat.", false);
    odd.push(b'x');
    let mut lone = utf16("\u{feff}Sam", false);
    lone.extend([0x00, 0xd8, b'x', 0x00]);
    for (bytes, place) in [(odd, 18), (lone, 8)] {
        let done = check(&folder_with("story.txt", bytes), &[]);
        assert_eq!(done.code, Some(2));
        let message = format!("story.txt is not well-formed UTF-16 near byte {place};");
        assert!(done.err().contains(&message), "{done:?}");
    }
}

#[test]
fn every_kind_of_line_end_counts_once() {
    let story = "Tab sat.\n\nA ship!\n\tA \u{1f600} dock, a caf\u{e9}.\nQuay";
    let plain = check(&folder_with("story.txt", story), &["--every-word"]).json();
    let word = |number: usize| {
        let word = &plain["texts"][0]["words"][number];
        (word["word"].as_str().unwrap().to_owned(), word["line"].as_u64(), word["column"].as_u64())
    };
    assert_eq!(word(3), ("ship".to_owned(), Some(3), Some(3)));
    assert_eq!(word(5), ("dock".to_owned(), Some(4), Some(6)));
    assert_eq!(word(8), ("Quay".to_owned(), Some(5), Some(1)));
    for end in ["\r\n", "\r"] {
        let folder = folder_with("story.txt", story.replace('\n', end));
        assert_eq!(check(&folder, &["--every-word"]).json(), plain, "{end:?}");
    }
    let marked = folder_with("story.txt", format!("\u{feff}{story}"));
    assert_eq!(check(&marked, &["--every-word"]).json()["texts"][0]["words"], plain["texts"][0]["words"]);
    let front = "---\r\nlesson: 8\r\nnames: [Wren]\r\n---\r\nWren sat on the quay.\r\n";
    let folder = folder_with("story.txt", front);
    let done = untaught(["check", "story.txt", "-f", "json"]).within(folder.path()).done();
    let text = &done.json()["texts"][0];
    assert_eq!((text["lesson"].as_str(), text["counts"]["story"].as_u64()), (Some("8"), Some(1)));
    assert_eq!(text["findings"][0]["places"][0], serde_json::json!({"line": 5, "column": 17}));
}

#[test]
fn a_word_of_a_million_letters_is_one_word() {
    for letters in ["a", "sh", "\u{e9}", "\u{fb01}", "a'", "a\u{ad}", "m\u{301}"] {
        let word = letters.repeat(1_000_000 / letters.len());
        let folder = folder_with("story.txt", format!("Sam {word}b sat."));
        let done = check(&folder, &["--every-word"]);
        assert_eq!((done.code, count(&done, "words"), count(&done, "untaught")), (Some(1), 3, 1), "{letters}");
        let text = untaught(["check", "story.txt", "-l", "5"]).within(folder.path()).done();
        assert!(text.code == Some(1) && text.out().contains("1 of 3 words is untaught"), "{letters}: {text:?}");
    }
    let word = "sh".repeat(30_000);
    let done = untaught(["explain", &word, "--format", "json"]).done();
    assert_eq!((done.code, done.json()[0]["first_readable"].is_null()), (Some(0), true));
}

#[test]
fn a_line_of_thirty_megabytes_is_counted_to_the_end() {
    const TIMES: usize = 1_500_000;
    let story = "Sam sat on the quay ".repeat(TIMES);
    let folder = folder_with("story.txt", &story);
    let file = check(&folder, &[]);
    assert_eq!((file.code, count(&file, "words"), count(&file, "untaught")), (Some(1), 5 * TIMES as u64, TIMES as u64));
    let json = file.json();
    let finding = &json["texts"][0]["findings"][0];
    assert_eq!((finding["word"].as_str(), finding["count"].as_u64()), (Some("quay"), Some(TIMES as u64)));
    assert_eq!(finding["places"][19], serde_json::json!({"line": 1, "column": 19 * 20 + 16}));
    let piped = untaught(["check", "--stdin-name", "story.txt", "-l", "5", "-f", "json"]).stdin(&story).done();
    assert_eq!(piped.out(), file.out());
}

#[test]
fn a_long_run_without_spaces_is_cut_in_bounded_time() {
    for (unit, words) in
        [("Sam_", 1), ("a-", 1), ("\u{2014}Tab\u{2026}", 1), ("10.", 0), ("\u{1f600}", 0), ("Sam\u{a0}", 1)]
    {
        let times = 600_000 / unit.len();
        let done = check(&folder_with("story.txt", unit.repeat(times)), &[]);
        assert_eq!(count(&done, "words"), words * times as u64, "{unit}");
    }
}

#[cfg(unix)]
#[test]
fn a_file_that_may_not_be_read_is_named_and_the_others_are_reported() {
    use std::os::unix::fs::PermissionsExt as _;

    let folder = folder_with("locked.txt", "Sam sat.");
    let locked = folder.path().join("locked.txt");
    fs::set_permissions(&locked, fs::Permissions::from_mode(0o000)).unwrap();
    fs::write(folder.path().join("good.txt"), "Sam sat.").unwrap();
    if fs::read(&locked).is_ok() {
        eprintln!("skipped: this user may read everything");
        return;
    }
    let done = untaught(["check", "locked.txt", "good.txt", "-l", "5"]).within(folder.path()).done();
    assert_eq!(done.code, Some(2));
    assert!(done.err().contains("locked.txt may not be read"), "{done:?}");
    assert!(done.out().contains("good.txt at lesson 5"), "{done:?}");
}

#[cfg(unix)]
#[test]
fn a_name_that_is_not_utf_8_is_no_obstacle() {
    use std::ffi::OsStr;
    use std::os::unix::ffi::OsStrExt as _;

    let name = OsStr::from_bytes(b"caf\xe9.txt");
    let folder = TempDir::new().unwrap();
    if fs::write(folder.path().join(name), "Sam sat.").is_err() {
        eprintln!("skipped: this file system has no such names");
        return;
    }
    for format in ["text", "json"] {
        let args = [OsStr::new("check"), name, OsStr::new("-l"), OsStr::new("5"), OsStr::new("-f"), OsStr::new(format)];
        let done = untaught(args).within(folder.path()).done();
        assert!(done.code == Some(0) && done.out().contains("caf\u{fffd}.txt"), "{done:?}");
    }
    let done = untaught([OsStr::new("check"), OsStr::from_bytes(b"no\xff.txt")]).within(folder.path()).done();
    assert!(done.code == Some(2) && done.err().contains("there is no file no\u{fffd}.txt"), "{done:?}");
}

/// Takes the first bytes of the output and closes the pipe.
fn closed_early(args: &[&str], folder: &TempDir) -> (Option<i32>, String) {
    let mut child = untaught(args)
        .within(folder.path())
        .command()
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut first = [0; 10];
    child.stdout.take().unwrap().read_exact(&mut first).unwrap();
    let code = wait(&mut child, &format!("{args:?}"));
    let mut err = String::new();
    child.stderr.take().unwrap().read_to_string(&mut err).unwrap();
    (code, err)
}

#[test]
fn a_closed_pipe_is_success() {
    // Enough distinct untaught words that no report fits into a pipe.
    let folder = folder_with("story.txt", letters(30_000));
    let lessons: String =
        (0..4000).map(|n| format!("- title: Lesson {n}, in which nothing at all is taught\n")).collect();
    fs::write(folder.path().join("long.yaml"), format!("format: 1\nlessons:\n{lessons}")).unwrap();
    let words = vec!["night"; 2000];
    let explain = |format: &'static str| [&["explain", "-f", format], &words[..]].concat();
    for args in [
        &["check", "story.txt", "-l", "5"][..],
        &["check", "story.txt", "-l", "5", "-f", "json"],
        &["check", "story.txt", "-l", "5", "-f", "json", "--every-word"],
        &["check", "story.txt", "story.txt", "story.txt", "-l", "5"],
        &explain("text"),
        &explain("json"),
        &["scope", "long.yaml"],
        &["scope", "long.yaml", "-f", "json"],
    ] {
        assert_eq!(closed_early(args, &folder), (Some(0), String::new()), "{:?}", &args[..2]);
    }
}

/// That many different words, none of which is in a dictionary.
fn letters(count: u32) -> String {
    let word = |n: u32| {
        (0..5).map(|place| char::from(b"bcdfghjkmp"[(n / 10u32.pow(place)) as usize % 10])).collect::<String>()
    };
    (0..count).map(|n| format!("{}a\n", word(n))).collect()
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_a_failure_with_a_sentence() {
    for args in [
        &["check", "check-one.in/tab.txt"][..],
        &["check", "check-one.in/tab.txt", "-f", "json"],
        &["explain", "cat"],
        &["patterns", "sh", "-f", "json"],
        &["scope"],
    ] {
        let full = fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
        let mut child =
            untaught(args).command().stdin(Stdio::null()).stdout(full).stderr(Stdio::piped()).spawn().unwrap();
        assert_eq!(wait(&mut child, "a full disk"), Some(2), "{args:?}");
        let mut err = String::new();
        child.stderr.take().unwrap().read_to_string(&mut err).unwrap();
        assert!(err.starts_with("untaught: the results cannot be written: "), "{args:?}: {err}");
    }
}

#[test]
fn lists_within_lists_without_end_are_refused() {
    for depth in [100, 1000, 100_000] {
        for scope in [
            "[".repeat(depth),
            format!("format: 1\nlessons: {}{}\n", "[".repeat(depth), "]".repeat(depth)),
            format!("format: 1\nlessons:\n{}", "- ".repeat(depth.min(1000))),
            format!("format: 1\nlessons: {}", "{a: ".repeat(depth)),
        ] {
            let done = untaught(["scope", "s.yaml"]).within(folder_with("s.yaml", scope).path()).done();
            assert_eq!((done.code, done.out()), (Some(2), ""), "{depth}");
            assert!(done.err().contains("\ns.yaml:"), "{done:?}");
        }
    }
}

#[test]
fn aliases_that_multiply_are_refused() {
    let mut scope = "format: 1\nlessons:\n- teach: &a [s]\n".to_owned();
    for letter in b'b'..=b'z' {
        let (name, before) = (char::from(letter), char::from(letter - 1));
        scope += &format!("- teach: &{name} [{}]\n", vec![format!("*{before}"); 9].join(", "));
    }
    let done = untaught(["scope", "s.yaml"]).within(folder_with("s.yaml", scope).path()).done();
    assert_eq!((done.code, done.out()), (Some(2), ""), "{done:?}");
    assert!(done.err().ends_with(": aliases (`*name`) repeat too much here; write out what is needed\n"), "{done:?}");
}

#[cfg(unix)]
#[test]
fn what_is_no_file_is_no_scope_and_no_settings() {
    let folder = folder_with("a.txt", "Sam sat.");
    fs::write(folder.path().join("front.txt"), "---\nscope: pipe\n---\nSam").unwrap();
    fs::write(folder.path().join("big.yaml"), "# nothing\n".repeat(500_000)).unwrap();
    std::os::unix::fs::symlink("pipe", folder.path().join("link")).unwrap();
    assert!(std::process::Command::new("mkfifo").arg(folder.path().join("pipe")).status().unwrap().success());
    let no_file = "is a pipe or a device; save it as a file and name that file";
    for (args, said) in [
        (&["scope", "/dev/zero"][..], format!("untaught: the scope file /dev/zero {no_file}\n")),
        (&["scope", "link"], format!("untaught: the scope file link {no_file}\n")),
        (&["check", "a.txt", "--scope", "pipe"], format!("untaught: the scope file pipe {no_file}\n")),
        (&["check", "a.txt", "--config", "pipe"], format!("untaught: the settings file pipe {no_file}\n")),
        (
            &["check", "front.txt"],
            format!("untaught: front.txt:2:8: in the front matter: the scope file pipe {no_file}\n"),
        ),
        (&["scope", "big.yaml"], "untaught: the scope file big.yaml was not read: it is larger than 4 MB\n".to_owned()),
        (
            &["check", "a.txt", "--config", "big.yaml"],
            "untaught: the settings file big.yaml was not read: it is larger than 4 MB\n".to_owned(),
        ),
        (&["check", "/dev/zero"], "untaught: /dev/zero was not read: it is larger than 128 MB\n".to_owned()),
    ] {
        let done = untaught(args).within(folder.path()).done();
        assert_eq!((done.code, done.out(), done.err()), (Some(2), "", &*said), "{args:?}");
    }
}

fn assert_orderly(done: &Done) -> Result<(), TestCaseError> {
    prop_assert!(matches!(done.code, Some(0..=2)), "{:?}", done);
    prop_assert!(!String::from_utf8_lossy(&done.stderr).contains("panicked"), "{:?}", done);
    prop_assert!(done.code != Some(2) || !done.stderr.is_empty(), "failed without a word: {:?}", done);
    // A remark on an old encoding is no complaint.
    let complaints = done.err().lines().filter(|line| !line.contains("it was read as Windows-1252")).count();
    prop_assert!(done.code == Some(2) || complaints == 0, "complained but did not fail: {:?}", done);
    Ok(())
}

/// Bytes of any kind, and texts strung together from what matters to a reader of stories.
fn stories() -> impl Strategy<Value = Vec<u8>> {
    let piece = prop::sample::select(vec![
        "---\n",
        "lesson: 5\n",
        "lesson: ",
        "names: [Tab, ",
        "story-words:\n- ",
        "...\n",
        "'",
        "\"",
        ": ",
        "]",
        "{",
        "&a ",
        "*a",
        "\t",
        "\r\n",
        "\r",
        "\n",
        " ",
        "Sam",
        "sat",
        "quay",
        "ﬁ",
        "\u{2019}s",
        "-",
        "_",
        "\u{ad}",
        "\u{200b}",
        "\u{feff}",
        "é",
        "e\u{301}",
        "😀",
        "3",
        "10.30",
        "B",
        "I",
        "shhh",
        "\u{0}",
        "\u{1b}[31m",
        "\u{202e}",
        "ship's",
        "\u{ff21}",
        "ǆ",
        "ß",
        "İ",
        "漢字",
        "نص",
    ]);
    let text = prop::collection::vec(piece, 0..60).prop_map(|pieces| pieces.concat().into_bytes());
    prop_oneof![prop::collection::vec(any::<u8>(), 0..300), text]
}

/// Bytes of any kind, and texts strung together from what matters to a reader of scope files.
fn scopes() -> impl Strategy<Value = Vec<u8>> {
    let piece = prop::sample::select(vec![
        "format: 1\n",
        "format: ",
        "title: ",
        "lessons:\n",
        "- teach: [",
        "- id: ",
        "  teach: ",
        "  teach:\n  - ",
        "  sight: [",
        "  skills: [",
        "  review: [",
        "]\n",
        "\n",
        ", ",
        "s",
        "sh",
        "a_e",
        "a-e",
        "ea as in bread",
        " as in ",
        "cat",
        "ank as in bank",
        "-ed",
        "un-",
        "-",
        "ea = /ɛ/",
        "=",
        "/",
        "the",
        "final-blends",
        "schwa",
        "1",
        "2.3",
        "~",
        "true",
        "'",
        "\"",
        "---\n",
        "&a ",
        "*a",
        "{",
        "}",
        "? ",
        "!!set ",
        "|\n",
        "> ",
        "# ",
        "\t",
        "\u{feff}",
        "é",
        "\u{1b}",
        "<<: ",
        "%YAML 1.2\n",
    ]);
    let text = prop::collection::vec(piece, 0..40).prop_map(|pieces| pieces.concat());
    let lessons = text.clone().prop_map(|text| format!("format: 1\nlessons:\n- teach: [{text}"));
    prop_oneof![
        prop::collection::vec(any::<u8>(), 0..300),
        text.prop_map(String::into_bytes),
        lessons.prop_map(String::into_bytes)
    ]
}

proptest! {
    #![proptest_config(Config { cases: 96, failure_persistence: None, ..Config::default() })]

    #[test]
    fn any_bytes_are_a_story_or_are_refused(story in stories()) {
        let folder = folder_with("story.txt", &story);
        let text = untaught(["check", "story.txt", "--color", "always"]).within(folder.path()).done();
        assert_orderly(&text)?;
        let json = check(&folder, &["--every-word"]);
        assert_orderly(&json)?;
        prop_assert_eq!(json.json()["texts"].as_array().map(Vec::len), Some(usize::from(json.code != Some(2))));
        let piped = untaught(["check", "--stdin-name", "story.txt", "--color", "always"]).stdin(&story).done();
        prop_assert_eq!((piped.code, piped.stdout, piped.stderr), (text.code, text.stdout, text.stderr));
    }

    #[test]
    fn any_bytes_are_a_scope_or_are_refused(scope in scopes()) {
        let folder = folder_with("scope.yaml", &scope);
        fs::write(folder.path().join("story.txt"), "Sam sat at the quay.").unwrap();
        let scope = untaught(["scope", "scope.yaml"]).within(folder.path()).done();
        assert_orderly(&scope)?;
        prop_assert!(scope.code != Some(1), "{:?}", scope);
        let checked = untaught(["check", "story.txt", "--scope", "scope.yaml"]).within(folder.path()).done();
        assert_orderly(&checked)?;
        prop_assert_eq!(checked.code == Some(2), scope.code == Some(2), "{:?} {:?}", checked, scope);
        let explained = untaught(["explain", "quay", "--scope", "scope.yaml", "-f", "json"]).within(folder.path()).done();
        assert_orderly(&explained)?;
        prop_assert_eq!(explained.code, scope.code);
    }

    #[test]
    fn any_word_can_be_explained_or_is_refused(word in "[^\0]{1,30}", spelling in "[^\0]{0,6}") {
        for args in [["explain", "--", &word], ["explain", "--format=json", &format!("Z{word}")], ["patterns", "--", &spelling]] {
            let done = untaught(args).done();
            prop_assert!(matches!(done.code, Some(0 | 2)), "{:?}", done);
            prop_assert!(!done.err().contains("panicked"), "{:?}", done);
        }
    }
}
