//! What once went wrong, one test for each, named for it.

use std::fs;
use std::time::{Duration, Instant};

use crate::support::{Done, folder_with, untaught};
use serde_json::Value;

/// Checks a story at a lesson of a scope.
fn check(story: &str, scope: &str, args: &[&str]) -> Done {
    let folder = folder_with("scope.yaml", scope);
    untaught(["check", "--scope", "scope.yaml"].iter().chain(args)).within(folder.path()).stdin(story).done()
}

/// The words of a story that are untaught, with what is said of each; at a lesson of the scope that comes with the program.
fn findings(story: &str, lesson: &str) -> Vec<Value> {
    let done = untaught(["check", "--lesson", lesson, "--format", "json"]).stdin(story).done();
    done.json()["texts"][0]["findings"].as_array().unwrap().clone()
}

fn likely_names(story: &str, lesson: &str) -> Vec<String> {
    let found = findings(story, lesson);
    found.iter().filter(|f| f["likely_name"] == true).map(|f| f["word"].as_str().unwrap().to_owned()).collect()
}

fn scope_fault(scope: &str) -> Done {
    let folder = folder_with("scope.yaml", scope);
    untaught(["scope", "scope.yaml"]).within(folder.path()).done()
}

const LETTERS: &str =
    "format: 1\ntitle: Harbour\nlessons:\n- title: Letters\n  teach: [s, a, t, m, p, i, \"n\", d, g, o, c, e, r, h]\n";

// What reaches a terminal.

#[test]
fn explain_sends_control_characters_of_a_word_raw() {
    let long = format!("\u{1b}]0;owned\u{7}{}", "a".repeat(70));
    for word in [long.as_str(), "\u{1b}]0;owned\u{7}\u{434}"] {
        let done = untaught(["--color", "always", "explain", word]).done();
        assert!(!done.out().contains("\u{1b}]0;"), "{done:?}");
    }
}

#[test]
fn explain_sends_control_characters_of_a_lesson_id_raw() {
    let scope = "format: 1\nlessons:\n- id: \"\\e]0;owned\\a\"\n  teach: [a, t]\n";
    let folder = folder_with("scope.yaml", scope);
    let done = untaught(["--color", "always", "explain", "at", "--scope", "scope.yaml"]).within(folder.path()).done();
    assert!(done.code == Some(0) && !done.out().contains("\u{1b}]0;"), "{done:?}");
}

#[test]
fn a_usage_message_sends_control_characters_raw() {
    for args in [&["\u{1b}]0;owned\u{7}"][..], &["check", "--min-readable", "\u{1b}]0;owned\u{7}"]] {
        let done = untaught(args).env("CLICOLOR_FORCE", "1").done();
        assert!(done.code == Some(2) && !done.err().contains("\u{1b}]0;"), "{done:?}");
    }
}

#[test]
fn json_sends_control_characters_raw() {
    let name = "story\u{9b}31m\u{7f}\u{202e}";
    let check = untaught(["check", "--stdin-name", name, "--format", "json"]).stdin("Sam sat.").done();
    assert_eq!(check.json()["texts"][0]["file"], name);
    let explain = untaught(["explain", "--format", "json", "cat\u{9b}31m\u{7f}\u{202e}"]).done();
    for done in [check, explain] {
        let bad = |c: &char| c.is_control() && *c != '\n' || *c == '\u{202e}';
        assert_eq!(done.out().chars().filter(bad).collect::<Vec<_>>(), [], "{done:?}");
    }
}

#[test]
fn color_never_does_not_hold_for_usage_messages_and_help() {
    for args in [&["--color", "never", "chek"][..], &["--color", "never", "check", "--help"]] {
        let done = untaught(args).env("CLICOLOR_FORCE", "1").done();
        assert!(!done.err().contains('\u{1b}') && !done.out().contains('\u{1b}'), "{done:?}");
    }
}

// Time and memory.

#[test]
fn deep_front_matter_takes_half_a_minute() {
    let story = format!("---\nlesson: {}\n---\nSam sat.\n", "[".repeat(60_000));
    let start = Instant::now();
    let done = untaught(["check"]).stdin(story).done();
    assert_eq!(done.code, Some(2));
    assert!(start.elapsed() < Duration::from_secs(2), "{:?}", start.elapsed());
}

#[test]
fn a_deep_scope_file_fills_the_memory() {
    let start = Instant::now();
    let done = scope_fault(&format!("format: 1\nlessons:\n{}\n", "- ".repeat(15_000)));
    assert_eq!(done.code, Some(2));
    assert!(start.elapsed() < Duration::from_secs(2), "{:?}", start.elapsed());
}

#[test]
fn a_word_of_a_megabyte_is_printed_twice() {
    let done = untaught(["check", "--lesson", "5"]).stdin("ab".repeat(500_000)).done();
    assert!(done.code == Some(1) && done.stdout.len() < 10_000, "{}", done.stdout.len());
}

// What a story says about itself.

#[test]
fn the_scope_that_a_story_names_is_passed_over_in_silence() {
    let folder = folder_with("own.yaml", "format: 1\ntitle: Our own\nlessons:\n- teach: [s, a]\n");
    fs::write(folder.path().join("story.txt"), "---\nscope: own.yaml\n---\nSam sat.\n").unwrap();
    let done = untaught(["check", "story.txt"]).within(folder.path()).done();
    assert!(done.code == Some(1) && done.out().contains("Our own"), "{done:?}");
    fs::write(folder.path().join("story.txt"), "---\nscope: lost.yaml\n---\nSam sat.\n").unwrap();
    let done = untaught(["check", "story.txt"]).within(folder.path()).done();
    assert!(done.code == Some(2) && done.err().contains("lost.yaml"), "{done:?}");
}

#[test]
fn a_name_of_two_words_declares_nothing() {
    let done = check("Old Tom met Mrs Webb.", LETTERS, &["--names", "Old Tom,Mrs Webb", "--story-words", "met"]);
    assert!(done.code == Some(0) && done.out().contains("3 story"), "{done:?}");
}

#[test]
fn a_hyphenated_story_word_or_sight_word_never_counts() {
    let done = check("Sam sat on the merry-go-round.", LETTERS, &["--story-words", "merry-go-round,the"]);
    assert_eq!(done.code, Some(0), "{done:?}");
    let scope = format!("{LETTERS}  sight: [the, merry-go-round]\n");
    let done = check("Sam sat on the merry-go-round.", &scope, &[]);
    assert_eq!(done.code, Some(0), "{done:?}");
}

#[test]
fn likely_names_cannot_be_allowed() {
    let done = check("Sam met Wren at the top. A man met Wren.", LETTERS, &["--names", "allow", "--format", "json"]);
    assert_eq!(done.json()["texts"][0]["counts"]["story"], 2, "{done:?}");
}

#[test]
fn an_id_like_2_3_without_quotes_is_refused_in_jargon() {
    let scope = "format: 1\ntitle: Harbour\nlessons:\n- title: Letters\n  id: 2.3\n  teach: [s, a, t, m]\n";
    let done = scope_fault(scope);
    // To read it as the text 2.3 is as good as to ask for quotes.
    let fine = |done: &Done| done.code == Some(0) || done.err().contains("quotes");
    assert!(fine(&done), "{done:?}");
    assert!(done.code == Some(0) || done.err().contains("scope.yaml:5:7: "), "{done:?}");
    let quoted = scope.replace("2.3", "\"2.3\"");
    let done = check("---\nlesson: 2.3\n---\nSam sat.\n", &quoted, &[]);
    assert!(fine(&done), "{done:?}");
}

#[test]
fn front_matter_faults_are_told_in_jargon() {
    for front in ["names: Tab", "lesson: [5]", "lesson: 5\nlesson: 6"] {
        let done = untaught(["check"]).stdin(format!("---\n{front}\n---\nTab sat.\n")).done();
        assert_eq!(done.code, Some(2));
        for jargon in ["struct", "sequence", "field", "enum", "invalid type"] {
            assert!(!done.err().contains(jargon), "{front}: {done:?}");
        }
    }
}

// Words.

#[test]
fn the_first_word_of_a_text_is_taken_for_a_name() {
    for story in
        ["\u{feff}Ships sat.", "  Ships sat.", "# Ships\n", "- Ships sat.", "(Ships sat.)", "\u{2018}Ships!\u{2019}"]
    {
        assert_eq!(likely_names(story, "5"), Vec::<String>::new(), "{story:?}");
    }
}

#[test]
fn the_first_word_of_a_speech_is_taken_for_a_name() {
    for story in [
        "Sam said, \u{201c}Ships sat.\u{201d}",
        "Sam said, \u{2018}Ships sat.\u{2019}",
        "Sam said, 'Ships sat.'",
        "Sam sat \u{2014} Ships sat.",
    ] {
        assert_eq!(likely_names(story, "5"), Vec::<String>::new(), "{story:?}");
    }
}

#[test]
fn the_word_i_is_taken_for_a_name() {
    let done = check("Sam and I sat.", LETTERS, &["--format", "json"]);
    assert_eq!(done.json()["texts"][0]["findings"][0]["word"], "i", "{done:?}");
    assert_eq!(done.json()["texts"][0]["findings"][0]["likely_name"], false, "{done:?}");
}

#[test]
fn shouting_is_taken_for_a_name() {
    assert_eq!(likely_names("Sam said STOP at the QUAY.", "5"), Vec::<String>::new());
}

#[test]
fn er_as_in_faster_makes_her_decodable() {
    let done = check("her", &format!("{LETTERS}- teach: [-er as in faster]\n"), &[]);
    assert_eq!(done.code, Some(1), "{done:?}");
}

#[test]
fn cats_do_not_wait_for_the_lesson_of_the_ending_s() {
    let scope = format!("{LETTERS}- title: The ending -s\n  teach: [-s]\n");
    assert_eq!(check("cats", &scope, &["--lesson", "1"]).code, Some(1));
    assert_eq!(check("gas cats", &scope, &["--lesson", "2"]).code, Some(0));
}

/// They are cut like the words they lengthen, and sounds of consonants as if each letter stood once.
#[test]
fn lengthened_words_are_one_irregular_part() {
    let done = untaught(["explain", "--format", "json", "shhhh", "noooo", "sss"]).done();
    for (word, cut) in done.json().as_array().unwrap().iter().zip(["sh", "no", "s"]) {
        let parts = word["readings"][0]["parts"].as_array().unwrap();
        let letters: String = parts.iter().map(|part| part["spelling"].as_str().unwrap()).collect();
        assert_eq!(letters, cut, "{word}");
        assert!(!word["first_decodable"].is_null(), "{word}");
    }
}

#[test]
fn explain_takes_marks_and_spaces_for_letters() {
    let done = untaught(["explain", "--format", "json", "\u{201c}fish\u{201d}", "fish,"]).done();
    for word in done.json().as_array().unwrap() {
        assert_eq!(word["origin"], "dictionary", "{word}");
    }
    // Two words, or an error; but not the word thecat.
    let done = untaught(["explain", "--format", "json", "the cat"]).done();
    assert!(done.code == Some(2) || done.json().as_array().unwrap().len() == 2, "{done:?}");
}

#[test]
fn a_text_in_utf_32_is_readable_to_the_last_word() {
    let utf32: Vec<u8> = "\u{feff}The quay.".chars().flat_map(|c| u32::from(c).to_le_bytes()).collect();
    for bytes in [utf32, b"Sam\0\0\x01\x02sat".to_vec()] {
        let done = untaught(["check", "--lesson", "5"]).stdin(bytes).done();
        assert!(done.code == Some(2) && done.err().contains("not a text"), "{done:?}");
    }
}

#[test]
fn an_untaught_word_and_a_sight_word_practise_their_letters() {
    let scope = format!("{LETTERS}  sight: [said]\n- title: sh\n  teach: [sh]\n");
    let done = check("A quish said she had a shop.", &scope, &["--focus", "sh", "--focus", "d", "--format", "json"]);
    // Of quish, said, she, had, shop only the last two are sounded out.
    let words: Vec<Value> = done.json()["texts"][0]["focus"]["types"].as_array().unwrap().clone();
    let words: Vec<&str> = words.iter().map(|word| word["word"].as_str().unwrap()).collect();
    assert_eq!(words, ["had", "shop"], "{done:?}");
}

#[test]
fn a_wrong_focus_is_told_in_a_broken_sentence() {
    let done = untaught(["check", "check-one.in/tab.txt", "--focus", "shh"]).done();
    assert!(done.code == Some(2) && !done.err().contains("pattern the catalogue"), "{done:?}");
}

// Percentages.

#[test]
fn a_text_with_an_untaught_word_is_100_percent_readable() {
    let story = "sat ".repeat(99_999) + "quay";
    let text = untaught(["check", "--lesson", "5"]).stdin(&story).done();
    assert!(text.code == Some(1) && !text.out().contains("100.0 %"), "{text:?}");
    let json = untaught(["check", "--lesson", "5", "--format", "json"]).stdin(&story).done().json();
    assert!(json["texts"][0]["percent"]["readable"].as_f64() < Some(100.0), "{json}");
}

#[test]
fn a_story_falls_short_of_an_unknown_threshold() {
    let done = untaught(["check", "--lesson", "5", "--min-decodable", "95"]).stdin("The cat sat.").done();
    let last = done.out().lines().rfind(|line| !line.is_empty()).unwrap_or_default();
    assert!(last.contains("95") && last.contains("decodable"), "{done:?}");
}

// Scope files.

#[test]
fn sh_as_in_mishap_is_a_pattern() {
    let done = scope_fault("format: 1\ntitle: Harbour\nlessons:\n- title: Letters\n  teach: [sh as in mishap]\n");
    assert!(done.code == Some(2) && done.err().contains("m·i·s·h·a·p"), "{done:?}");
}

#[test]
fn a_bare_s_with_both_sounds_named_elsewhere_teaches_nothing_and_passes() {
    let done = scope_fault("format: 1\ntitle: Harbour\nlessons:\n- teach: [s as in sun, s as in has]\n- teach: [s]\n");
    assert!(done.code == Some(2) && done.err().contains("teaches nothing"), "{done:?}");
}

#[test]
fn a_missing_scope_file_or_a_folder_is_told_in_a_broken_sentence() {
    let done = untaught(["scope", "lost.yaml"]).done();
    assert!(done.code == Some(2) && !done.err().contains("the scope file there is"), "{done:?}");
    let done = untaught(["check", "check-one.in/tab.txt", "--scope", "check-one.in"]).done();
    assert!(done.code == Some(2) && !done.err().contains("name the stories"), "{done:?}");
}

#[test]
fn a_mistyped_key_is_not_mended() {
    let done = scope_fault("format: 1\ntitle: Harbour\nlessons:\n- title: Letters\n  teech: [s]\n");
    assert!(done.err().contains("did you mean `teach`?"), "{done:?}");
}

#[test]
fn common_yaml_mistakes_are_told_in_jargon() {
    // A colon in a title, the commonest of all.
    let done = scope_fault("format: 1\ntitle: Harbour: the first year\nlessons:\n- teach: [s]\n");
    assert!(done.err().contains("quotes"), "{done:?}");
    // A tab before a key, on line 5.
    let done = scope_fault("format: 1\ntitle: Harbour\nlessons:\n- title: Letters\n\tteach: [s]\n");
    assert!(done.err().contains("scope.yaml:5:1: "), "{done:?}");
    for (scope, jargon) in
        [("format: one\nlessons:\n- teach: [s]\n", "u32"), ("format: 1\nlessons:\n- teach: s\n", "lessons[0]")]
    {
        let done = scope_fault(scope);
        assert!(done.code == Some(2) && !done.err().contains(jargon), "{done:?}");
    }
    let done = scope_fault("# to be written\n");
    assert!(done.err().contains("empty"), "{done:?}");
}

#[test]
fn a_lesson_without_a_title_has_empty_brackets() {
    let done = check("Sam sat.", "format: 1\nlessons:\n- teach: [s, a, t, m]\n", &[]);
    assert!(done.code == Some(0) && !done.out().contains("()"), "{done:?}");
}

// Counts and places.

#[test]
fn the_place_in_a_broken_utf_16_text_is_early_after_an_emoji() {
    let story = "\u{feff}\u{1f600}\u{1f600} Sam";
    let mut bytes: Vec<u8> = story.encode_utf16().flat_map(u16::to_le_bytes).collect();
    bytes.push(b'x');
    let done = untaught(["check"]).stdin(&bytes).done();
    assert!(done.err().contains(&format!("near byte {};", bytes.len() - 1)), "{done:?}");
}

#[test]
fn a_letter_of_another_alphabet_is_passed_over() {
    for word in ["sa\u{434}t", "\u{fe}op", "\u{142}ap"] {
        let done = untaught(["explain", "--format", "json", word]).done();
        assert!(done.json()[0]["first_decodable"].is_null(), "{done:?}");
    }
}

#[test]
fn one_of_a_thing_is_told_as_many() {
    let done = untaught(["patterns", "ck"]).done();
    assert!(!done.out().contains("1 spellings"), "{done:?}");
    let done = untaught(["check", "--lesson", "5"]).stdin("quay").done();
    assert!(!done.out().contains("1 words"), "{done:?}");
}

#[test]
fn the_owner_s_form_keeps_every_reading() {
    for word in ["today", "tomorrow", "tonight"] {
        let owner = format!("{word}'s");
        let done = untaught(["explain", "--format", "json", word, &owner]).done();
        let first = done.json()[0]["readings"][0]["ipa"].as_str().unwrap().to_owned();
        let with_s = done.json()[1]["readings"][0]["ipa"].as_str().unwrap().to_owned();
        assert!(with_s.starts_with(&first) && !done.json()[1]["first_decodable"].is_null(), "{word}: {done:?}");
    }
}

/// *Shh*, *brrr*, *psst*, *chrrr*: everyday sounds, and no blend.
#[test]
fn sounds_of_consonants_are_no_blends() {
    let done = untaught(["explain", "--format", "json", "shh", "brrr", "psst", "zzz", "chrrr"]).done();
    for (word, ipa) in done.json().as_array().unwrap().iter().zip(["ʃ", "br", "pst", "z", "tʃr"]) {
        assert_eq!(word["readings"][0]["ipa"], ipa, "{word}");
        assert!(word["readings"][0]["skills"].as_array().unwrap().is_empty(), "{word}");
    }
}

/// *Don't* and *won't* do not sound like *do* and *will*.
#[test]
fn a_contraction_with_another_vowel_is_a_word_of_its_own() {
    let scope = "format: 1\nlessons:\n- {teach: [s, a, t], sight: [do, did, does]}\n- skills: [contractions]\n";
    let done = check("didn't doesn't don't", scope, &["--lesson", "2", "-f", "json", "--every-word"]);
    let status: Vec<String> =
        done.json()["texts"][0]["words"].as_array().unwrap().iter().map(|w| w["status"].to_string()).collect();
    assert_eq!(status, ["\"sight\"", "\"sight\"", "\"untaught\""], "{done:?}");
}

/// *Its* is not *it* with an s: it ends in a blend like *lets* would if it were no verb.
#[test]
fn its_ends_in_a_blend() {
    let done = untaught(["explain", "--format", "json", "its", "hits"]).done();
    assert_eq!(done.json()[0]["readings"][0]["skills"][0], "final-blends", "{done:?}");
    assert!(done.json()[1]["readings"][0]["skills"].as_array().unwrap().is_empty(), "{done:?}");
}

/// *Gadget* is read once `dge` is taught, unless the file names `dg`.
#[test]
fn dg_is_read_with_dge() {
    let letters = "format: 1\nlessons:\n- teach: [g, a, e, t]\n";
    assert_eq!(check("gadget", &format!("{letters}- teach: [dge]\n"), &[]).code, Some(0));
    assert_eq!(check("gadget", &format!("{letters}- teach: [dge]\n- teach: [dg]\n"), &["-l", "2"]).code, Some(1));
}

/// The note names the pattern that covers the other reading.
#[test]
fn a_note_on_two_readings_names_the_patterns_that_cover_them() {
    let scope = "format: 1\nlessons:\n- teach: [w, i, n, d]\n- teach: [ind as in find]\n";
    let done = check("wind", scope, &["-l", "1"]);
    assert!(done.out().contains("but not yet with ind as in find (/waɪnd/)"), "{done:?}");
}

/// A letter of another script whose last two bytes are the same, before an ending: no doubled consonant.
#[test]
fn a_letter_of_another_script_before_an_ending_is_not_cut_in_two() {
    let done = untaught(["check", "-f", "json"]).stdin("The \u{b2c}ed \u{b2c}ing \u{b2c}er.").done();
    assert!(done.code == Some(1) && done.json()["texts"][0]["counts"]["untaught"] == 3, "{done:?}");
    let done = untaught(["explain", "\u{b2c}ed", "\u{b2c}\u{b2c}est"]).done();
    assert_eq!(done.code, Some(0), "{done:?}");
}
