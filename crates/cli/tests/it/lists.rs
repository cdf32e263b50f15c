//! The lists of a lesson through the real command: what is asked for is given, what cannot be made is said, and the same seed gives
//! the same bytes.

use std::collections::HashSet;
use std::fs;
use std::path::Path;

use crate::support::page::Page;
use crate::support::{Done, folder_with, schema, untaught};
use quick_xml::Reader;
use quick_xml::events::Event;
use serde_json::{Value, json};

fn run(line: &str) -> Done {
    untaught(line.split(' ')).done()
}

/// What a command gives as JSON, held to the published schema under its name.
fn data(line: &str) -> Value {
    let done = run(&format!("{line} --format json"));
    assert_eq!((done.code, done.err()), (Some(0), ""), "{line}: {done:?}");
    let report = done.json();
    let name = line.split(' ').next().unwrap();
    assert_eq!(schema::faults(&report, &published(name)), Vec::<String>::new(), "{line}");
    report
}

/// The part of the published schema for a command.
fn published(name: &str) -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../scope-files/pack.schema.json");
    let whole: Value = serde_json::from_str(&fs::read_to_string(path).unwrap()).unwrap();
    match name {
        "pack" => whole,
        name => json!({"$ref": format!("#/$defs/{name}"), "$defs": whole["$defs"]}),
    }
}

fn list<'v>(value: &'v Value, key: &str) -> Vec<&'v str> {
    value[key]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| one.as_str().unwrap_or_else(|| one["word"].as_str().unwrap()))
        .collect()
}

#[test]
fn what_cannot_be_done_is_said() {
    for (line, code, said) in [
        ("words -l 3 --shape CCVC", 1, "no common word that practises m, d and matches these options"),
        ("words -l 3 --all --sounds 9", 1, "no common word that matches these options"),
        ("words -l 3 --shape CVX", 2, "a shape is written with C for consonants"),
        ("words -l 3 --sounds 4-3", 2, "give a number such as 3, or a range such as 3-4"),
        ("words -l 3 --all --focus sh", 2, "cannot be used with"),
        ("words -l 3 --focus qq", 2, "the catalogue has no spelling"),
        ("words -l 99", 2, "has no lesson 99"),
        ("words -s nosuch", 2, "nosuch"),
        ("chain -l 1", 2, "no chain of 4 steps can be made in which most words practise s, a, t"),
        ("chain -l 5 --from ship", 2, "ship cannot be sounded out at this lesson"),
        ("chain -l 20 --change flip", 2, "possible values: swap, add, drop, first, middle, last"),
        ("boxes one", 2, "teach it as a sight word"),
        ("boxes 123", 2, "is not a word"),
        ("boxes", 2, "WORD"),
        ("boxes --blank 13", 2, "13"),
        ("contrast x", 2, "x is not one sound"),
        ("contrast /q/", 2, "there is no sound /q/"),
        ("contrast ng --position start", 2, "no list fits, because fewer than 6 common short words have"),
        ("dictation -l 99", 2, "has no lesson 99"),
        ("pack nosuch.txt -l 5", 2, "nosuch.txt"),
    ] {
        let done = run(line);
        assert_eq!(done.code, Some(code), "{line}: {done:?}");
        assert!(done.err().contains(said) && done.out().is_empty(), "{line}: {done:?}");
    }
}

#[test]
fn words_are_those_asked_for() {
    let all = data("words -l 15 --all --limit 9999");
    assert_eq!(all["patterns"], json!([]));
    let known: HashSet<&str> = list(&all, "words").into_iter().collect();
    assert_eq!(all["found"], known.len());
    let focused = data("words -l 15 --focus ch --position end --limit 9999");
    assert_eq!(focused["patterns"], json!(["ch"]));
    let words = list(&focused, "words");
    assert!(words.len() >= 3 && words.iter().all(|word| word.ends_with("ch") && known.contains(word)), "{words:?}");
    let sized = data("words -l 15 --all --sounds 3-4 --shape CCVC");
    for word in sized["words"].as_array().unwrap() {
        assert_eq!([&word["shape"], &word["sounds"]], [&json!("CCVC"), &json!(4)], "{word}");
    }
    let counts = data("words -l 15 --sounds 3-4 --limit 9999");
    let sounds: HashSet<u64> =
        counts["words"].as_array().unwrap().iter().map(|w| w["sounds"].as_u64().unwrap()).collect();
    assert_eq!(sounds, HashSet::from([3, 4]));
    let new = data("words -l 15 --all --new --limit 9999");
    assert!(!list(&new, "words").is_empty() && list(&new, "words").len() < known.len());
    assert!(new["words"].as_array().unwrap().iter().all(|word| word["lesson"] == "15"));
    // The text has the same words.
    let text = run("words -l 15 --focus ch --position end");
    assert_eq!(text.code, Some(0));
    assert!(words.iter().all(|word| text.out().split_whitespace().any(|one| one == *word)), "{text:?}");
    let few = data("words -l 15 --all --limit 2");
    assert_eq!((list(&few, "words").len(), &few["found"]), (2, &all["found"]));
}

#[test]
fn chains_keep_to_changes_and_ends() {
    let made = data("chain -l 20 --from cat --to dog");
    let words = list(&made["chain"], "words");
    assert_eq!((words.first(), words.last()), (Some(&"cat"), Some(&"dog")));
    assert_eq!(made["chain"]["steps"].as_array().unwrap().len() + 1, words.len());
    let made = data("chain -l 20 --from cat --steps 5 --change swap,first");
    for step in made["chain"]["steps"].as_array().unwrap() {
        assert_eq!([&step["change"], &step["place"]], [&json!("swap"), &json!("first")], "{step}");
    }
    let text = run("chain -l 20 --from cat --steps 5 --change swap,first");
    for (line, word) in text.out().lines().skip(2).zip(list(&made["chain"], "words")) {
        assert_eq!(line.split_whitespace().next(), Some(word), "{text:?}");
    }
}

#[test]
fn boxes_are_drawn_as_letters_as_data_and_as_pictures() {
    let made = data("boxes ship box cake");
    let sounds: Vec<u64> = made.as_array().unwrap().iter().map(|word| word["sounds"].as_u64().unwrap()).collect();
    assert_eq!(sounds, [3, 4, 3]);
    assert_eq!(made[2]["boxes"][2]["joined_to"], 1);
    let empty = data("boxes --blank 3");
    assert_eq!([&empty[0]["word"], &empty[0]["sounds"]], [&json!(""), &json!(3)]);
    assert_eq!(run("boxes --blank 3").out().matches('┬').count(), 2);
    for (line, texts, label) in [
        ("boxes --blank 3 --format svg", "", "3 empty sound boxes"),
        ("boxes cake --format svg", "cake", "sound boxes of cake"),
    ] {
        let done = run(line);
        assert_eq!(done.out().lines().count(), 1);
        let (rects, text, name) = drawn(done.out());
        assert_eq!((rects, text.as_str(), name.as_str()), (3, texts, label));
    }
}

/// The boxes, the letters and the label of a drawing, which has to be sound XML.
fn drawn(svg: &str) -> (usize, String, String) {
    let (mut rects, mut text, mut label, mut open) = (0, String::new(), String::new(), Vec::new());
    let mut reader = Reader::from_str(svg.trim());
    loop {
        match reader.read_event().unwrap_or_else(|error| panic!("{error}: {svg}")) {
            Event::Start(tag) => {
                if tag.name().as_ref() == "svg" {
                    let name = tag.try_get_attribute("aria-label").unwrap().expect("a label");
                    label = name.value.into_owned();
                }
                open.push(tag.name().as_ref().to_owned());
            }
            Event::Empty(tag) => rects += usize::from(tag.name().as_ref() == "rect"),
            Event::End(tag) => assert_eq!(open.pop().as_deref(), Some(tag.name().as_ref())),
            Event::Text(piece) => text += &piece,
            Event::Eof => break,
            other => panic!("{other:?}"),
        }
    }
    assert!(open.is_empty());
    (rects, text, label)
}

#[test]
fn listening_lists_stand_where_asked() {
    for (line, position) in [
        ("contrast sh --count 3", "start"),
        ("contrast sh --count 3 --position end", "end"),
        ("contrast /ɪ/ --count 3", "middle"),
    ] {
        let made = data(line);
        assert_eq!(made["position"], position);
        let has = made["items"].as_array().unwrap().iter().filter(|item| item["has"] == true).count();
        assert_eq!((has, made["items"].as_array().unwrap().len()), (3, 6), "{line}");
        let text = run(line);
        assert_eq!((text.out().matches(" yes\n").count(), text.out().matches(" no: /").count()), (3, 3), "{text:?}");
    }
}

#[test]
fn dictation_has_as_many_as_asked() {
    let made = &data("dictation -l 15 --words 3 --sentences 2")["dictation"];
    assert_eq!(["new", "review", "sentences"].map(|key| list(made, key).len()), [3, 3, 2]);
    let text = run("dictation -l 15 --words 3 --sentences 2");
    assert!(list(made, "sentences").iter().all(|sentence| text.out().contains(sentence)), "{text:?}");
    let none = run("dictation -l 1");
    assert_eq!(none.code, Some(0));
    assert!(none.err().contains("only one sentence can be made at this lesson: too few words can be read"), "{none:?}");
}

#[test]
fn the_same_seed_makes_the_same_bytes_and_another_others() {
    for line in
        ["chain -l 30", "contrast sh", "dictation -l 30", "pack -l 30", "pack -l 30 -f json", "pack -l 30 -f html"]
    {
        let with = |seed: u32| {
            let done = run(&format!("{line} --seed {seed}"));
            assert_eq!(done.code, Some(0), "{line}: {done:?}");
            done.stdout
        };
        let first = with(3);
        assert_eq!(first, with(3), "{line}");
        assert!((4..7).any(|seed| with(seed) != first), "{line}");
    }
}

const STORY: &str = "---\nlesson: \"15\"\ntitle: \"<b>Fish</b> {{ 7 * 7 }}\"\nnames: [Zob]\n---\n\
    Zob had a fish. </style><script>alert(1)</script>\nThe **ship** is in the night.\n\n\"><img src=x onerror=alert(1)> Shh\u{202e}\n";

#[test]
fn packs_keep_the_published_contract() {
    let folder = folder_with("story.txt", STORY);
    for lesson in ["1", "12", "15", "40", "60"] {
        let done = untaught(["pack", "story.txt", "-l", lesson, "-f", "json"]).within(folder.path()).done();
        assert_eq!(done.code, Some(0), "{done:?}");
        let made = done.json();
        assert_eq!(schema::faults(&made, &published("pack")), Vec::<String>::new(), "{lesson}");
        let lacking = list_of(&made["lacking"], "list");
        for name in ["listening", "blending", "chain", "dictation"] {
            assert_eq!(made[name].is_null(), lacking.contains(&name), "{lesson}: {name}");
        }
        // A name that can be sounded out need not be told.
        assert_eq!(list(&made["story"], "told").contains(&"Zob"), lesson == "1", "{lesson}");
    }
    let made = data("pack -l 15");
    assert!(made["story"].is_null());
    for (place, wrong) in [
        ("/format", json!(2)),
        ("/seed", json!(-1)),
        ("/chain/steps/0/change", json!("turn")),
        ("/blending/0/sounds", json!(0)),
        ("/listening/items/0", json!("ship")),
        ("/dictation", json!([])),
    ] {
        let mut bent = made.clone();
        *bent.pointer_mut(place).unwrap_or_else(|| panic!("no {place}")) = wrong;
        assert_ne!(schema::faults(&bent, &published("pack")), Vec::<String>::new(), "{place}");
    }
}

/// A folder with settings, a story that says nothing of itself, and one that says all.
fn told() -> tempfile::TempDir {
    let folder = folder_with("plain.txt", "Rosario had a kite at night.\n");
    let front = "---\nlesson: \"22\"\nscope: starter\nnames: [Old Rosario]\nstory-words: [night]\nfocus: [a_e]\n---\n";
    fs::write(folder.path().join("told.txt"), format!("{front}Rosario gave me a cake at night.\n")).unwrap();
    fs::write(folder.path().join("own.yaml"), OWN_SCOPE).unwrap();
    fs::write(folder.path().join("untaught.yaml"), SETTINGS).unwrap();
    folder
}

const OWN_SCOPE: &str = "format: 1\ntitle: Our own\nlessons:\n- {teach: [a, t, k, b, s, h, d, n, i, m, e], sight: [a]}\n- teach: [i_e]\n- teach: [igh]\n";
const SETTINGS: &str =
    "format: 1\nscope: own.yaml\nnames: [Rosario]\ntexts:\n- files: \"*.txt\"\n  lesson: \"2\"\n  focus: [i]\n";

/// A pack for a story, and what `check` says of the story with the same arguments.
fn pack_and_check(folder: &Path, line: &str) -> (Value, Value) {
    let with = |command: &str| {
        let line = format!("{command} {line} -f json");
        let done = untaught(line.split(' ')).within(folder).done();
        assert!(matches!(done.code, Some(0 | 1)) && done.err().is_empty(), "{line}: {done:?}");
        done.json()
    };
    (with("pack"), with("check")["texts"][0].take())
}

#[test]
fn a_pack_is_for_the_lesson_of_its_story_as_check_has_it() {
    let folder = told();
    let (own, starter) = ("Our own", "Starter, a first sequence for kindergarten to grade 2");
    for (line, scope, lesson, patterns, told, untaught) in [
        // The settings of the folder.
        ("plain.txt", own, "2", json!(["i"]), json!(["Rosario", "night"]), json!(["night"])),
        // The front matter is nearer; names and story words add up.
        ("told.txt", starter, "22", json!(["a_e"]), json!(["Rosario", "night"]), json!([])),
        // What is typed is nearest.
        ("told.txt -l 34", starter, "34", json!(["a_e"]), json!(["Rosario"]), json!([])),
        ("plain.txt -l 3", own, "3", json!(["i"]), json!(["Rosario"]), json!([])),
        (
            "plain.txt -s starter -l 22 --focus i_e",
            starter,
            "22",
            json!(["i_e"]),
            json!(["Rosario", "night"]),
            json!(["night"]),
        ),
        (
            "plain.txt -s starter -l 22 --story-words night",
            starter,
            "22",
            json!(["i"]),
            json!(["Rosario", "night"]),
            json!([]),
        ),
        ("plain.txt --no-config -s starter -l 34", starter, "34", Value::Null, json!(["rosario"]), json!(["rosario"])),
    ] {
        let (pack, check) = pack_and_check(folder.path(), line);
        assert_eq!((&pack["scope"], &pack["lesson"]), (&json!(scope), &json!(lesson)), "{line}");
        assert!(patterns.is_null() || pack["patterns"] == patterns, "{line}: {}", pack["patterns"]);
        assert_eq!((&pack["story"]["told"], &pack["story"]["untaught"]), (&told, &untaught), "{line}");
        assert_eq!((&pack["lesson"], &pack["story"]["percent"]), (&check["lesson"], &check["percent"]), "{line}");
        assert_eq!(
            (&pack["story"]["words"], &pack["story"]["focus"]),
            (&check["counts"]["words"], &check["focus"]["words"]),
            "{line}"
        );
    }
}

#[test]
fn what_holds_for_the_story_of_a_pack_is_told_as_check_tells_it() {
    let folder = told();
    let write = |name: &str, text: &str| fs::write(folder.path().join(name), text).unwrap();
    write("late.txt", "---\nlesson: \"99\"\n---\nA cat.\n");
    write("focus.txt", "---\nfocus: [qq]\n---\nA cat.\n");
    write("latin.txt", "");
    fs::write(folder.path().join("latin.txt"), b"A caf\xe9 at night.\n").unwrap();
    for name in ["late.txt", "focus.txt", "nosuch.txt"] {
        let [pack, check] = ["pack", "check"].map(|command| untaught([command, name]).within(folder.path()).done());
        assert_eq!((pack.code, check.code), (Some(2), Some(2)), "{pack:?} {check:?}");
        assert!(
            pack.out().is_empty() && !pack.err().is_empty() && check.err().contains(pack.err().trim_end()),
            "{pack:?} {check:?}"
        );
    }
    let done = untaught(["pack", "latin.txt"]).within(folder.path()).done();
    assert!(done.code == Some(0) && done.err().contains("latin.txt is not UTF-8"), "{done:?}");
    let done = untaught(["pack", "-", "--no-config", "-l", "22"]).stdin("A cake.").within(folder.path()).done();
    assert!(
        done.code == Some(0) && done.out().contains("A **cake**") == done.out().contains("Practises a_e"),
        "{done:?}"
    );
    for line in ["pack --names Rosario", "pack --story-words night"] {
        let done = untaught(line.split(' ')).within(folder.path()).done();
        assert!(done.code == Some(2) && done.err().contains("need a story"), "{line}: {done:?}");
    }
    let done = untaught(["pack", "--config", "untaught.yaml", "-f", "json"]).within(folder.path()).done();
    assert_eq!((&done.json()["scope"], &done.json()["lesson"]), (&json!("Our own"), &json!("3")), "no rule applies");
    assert_eq!(done.err(), "untaught: note: using the scope own.yaml from untaught.yaml:2\n");
    let alone = data("pack -l 22 --focus igh");
    assert_eq!((&alone["lesson"], &alone["patterns"]), (&json!("22"), &json!(["igh"])));
}

fn list_of<'v>(value: &'v Value, key: &str) -> Vec<&'v str> {
    value.as_array().unwrap().iter().map(|one| one[key].as_str().unwrap()).collect()
}

#[test]
fn the_page_of_a_pack_says_what_the_pack_does_and_nothing_in_it_acts() {
    let folder = folder_with("story.txt", STORY);
    let with = |format: &str| untaught(["pack", "story.txt", "-l", "15", "-f", format]).within(folder.path()).done();
    let (page, made) = (Page::read(with("html").out()), with("json").json());
    for name in ["script", "img", "b", "link"] {
        assert_eq!(page.all(name, "").count(), 0, "{name}");
    }
    for (name, value) in page.elements.iter().flat_map(|element| &element.attributes) {
        assert!(!name.starts_with("on") && !["src", "href", "style"].contains(&name.as_str()) || value == "#main");
    }
    let policy = page.all("meta", "").find(|meta| meta.attributes.contains_key("http-equiv")).expect("a policy");
    assert!(policy.attributes["content"].starts_with("default-src 'none'; style-src 'unsafe-inline'"));
    let within = |class: &str, name: &str| -> Vec<String> {
        let outer = page.elements.iter().find(|element| element.has(class)).unwrap_or_else(|| panic!("no {class}"));
        page.within(outer).filter(|element| element.name == name).map(|element| element.text.clone()).collect()
    };
    assert_eq!(within("cards", "li"), list(&made, "sight_new"));
    assert_eq!(within("said", "li"), list(&made["listening"], "items"));
    let has = made["listening"]["items"].as_array().unwrap().iter().map(|item| item["has"].as_bool().unwrap());
    assert_eq!(within("answers", "li").iter().map(|key| key == "yes").collect::<Vec<_>>(), has.collect::<Vec<_>>());
    let rungs: Vec<&str> = page.all("span", "rung").map(|rung| rung.text.as_str()).collect();
    assert_eq!(rungs, list(&made["chain"], "words"));
    let steps: Vec<&str> = page.all("span", "step").map(|step| step.text.as_str()).collect();
    assert_eq!(steps, list_of(&made["chain"]["steps"], "say"));
    let labels: Vec<&str> = page.all("svg", "").map(|svg| svg.attributes["aria-label"].as_str()).collect();
    let mut words: Vec<String> = list(&made, "blending").iter().map(|word| format!("sound boxes of {word}")).collect();
    words.push("4 empty sound boxes".to_owned());
    assert_eq!(labels, words);
    assert_eq!(within("sentences", "li"), list(&made["dictation"], "sentences"));
    // A line for each word, two for each sentence.
    let spelled: usize = ["new", "review", "sight"].iter().map(|key| list(&made["dictation"], key).len()).sum();
    assert_eq!(page.all("span", "line").count(), spelled + 2 * list(&made["dictation"], "sentences").len());
    let story = page.all("div", "story").next().unwrap();
    assert!(story.text.contains("</style><script>alert(1)</script>\nThe **ship** is in the night."), "{story:?}");
    assert!(story.text.contains("Shh\\u{202e}"), "{story:?}");
    assert_eq!(within("story", "strong"), ["fish", "ship", "Shh\\u{202e}"]);
    assert!(within("reading", "h2")[0].contains("<b>Fish</b> {{ 7 * 7 }}"));
    assert!(within("reading", "bdi").contains(&"night".to_owned()));
}

#[test]
fn lists_use_the_settings_of_the_folder_above_and_no_story_is_needed() {
    let folder = told();
    let below = folder.path().join("below");
    fs::create_dir(&below).unwrap();
    for line in ["words -f json", "chain -f json --steps 1", "dictation -f json", "pack -f json"] {
        let done = untaught(line.split(' ')).within(&below).done();
        let note = format!(
            "untaught: note: using the scope {0}/own.yaml from {0}/untaught.yaml:2\n",
            folder.path().canonicalize().unwrap().display()
        );
        assert_eq!((done.code, &done.json()["scope"]), (Some(0), &json!("Our own")), "{line}: {done:?}");
        assert!(done.err().contains(&note), "{line}: {done:?}");
        let typed = untaught(line.split(' ').chain(["-s", "starter", "-l", "22"])).within(&below).done();
        assert_eq!(typed.json()["lesson"], "22", "{line}: {typed:?}");
        assert!(!typed.err().contains("using"), "{line}: {typed:?}");
    }
}
