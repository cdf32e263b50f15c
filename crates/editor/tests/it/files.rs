//! Scope files and settings files: on disk and in the editor, whole and broken.

use std::fs;
use std::path::Path;

use crate::common::Client;
use serde_json::{Value, json};
use untaught_editor::End;

fn uri(folder: &Path, name: &str) -> String {
    format!("file://{}", folder.join(name).display())
}

const SCOPE: &str =
    "format: 1\nlessons:\n- {teach: [s, a, t, m, p, i, \"n\"], sight: [a]}\n- teach: [sh]\n- teach:\n  - igh\n";

fn folder() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("scope.yaml"), SCOPE).unwrap();
    fs::write(folder.path().join("untaught.yaml"), "format: 1\nscope: scope.yaml\nlesson: 2\n").unwrap();
    folder
}

fn client(folders: &[&str]) -> Client {
    let can = json!({ "textDocument": { "publishDiagnostics": { "relatedInformation": true } } });
    Client::within(can, Value::Null, folders)
}

#[test]
fn settings_of_the_folder_hold_and_change_without_a_restart() {
    let folder = folder();
    let (story, scope, settings) =
        (uri(folder.path(), "story.txt"), uri(folder.path(), "scope.yaml"), uri(folder.path(), "untaught.yaml"));
    let mut client = client(&[]);
    client.open(&story, "plaintext", "A ship in a mist. Tim sat at night.");
    let (_, items) = client.pushed(&story).unwrap();
    assert_eq!(items.len(), 1, "{items:#?}");
    let related = &items[0]["relatedInformation"][0];
    assert_eq!(related["location"]["uri"], scope.as_str());
    assert_eq!(related["location"]["range"]["start"]["line"], 5, "the entry itself: {related}");
    assert_eq!(related["message"], "lesson 3 teaches igh as in night");
    // On disk, without being opened: told by a watcher or a saved file.
    fs::write(folder.path().join("untaught.yaml"), "format: 1\nscope: scope.yaml\nlesson: 1\n\n").unwrap();
    client.tell("workspace/didChangeWatchedFiles", json!({ "changes": [{ "uri": settings, "type": 2 }] }));
    assert_eq!(client.pushed(&story).unwrap().1.len(), 2);
    // In the editor, unsaved.
    client.open(&settings, "yaml", "format: 1\nscope: scope.yaml\nlesson: 3\n");
    assert_eq!(client.messages(&story), [""; 0]);
    client.change(&settings, 2, json!([{ "text": "format: 1\nlesson: [\n" }]));
    assert_eq!(client.messages(&settings).len(), 1, "the fault stands at its place");
    let note = &client.pushed(&story).unwrap().1;
    assert_eq!((note.len(), &note[0]["severity"]), (1, &json!(3)), "its last good state stays in force: {note:#?}");
    client.tell("textDocument/didClose", json!({ "textDocument": { "uri": settings } }));
    assert_eq!(client.pushed(&story).unwrap().1.len(), 2, "what is on disk holds again");
    assert_eq!(client.leave(), End::Clean);
}

#[test]
fn a_broken_scope_is_told_at_its_place_and_the_last_good_one_stays() {
    let folder = folder();
    let (story, scope) = (uri(folder.path(), "story.txt"), uri(folder.path(), "scope.yaml"));
    let mut client = client(&[&uri(folder.path(), "")]);
    client.open(&story, "plaintext", "A ship at night.");
    assert_eq!(client.messages(&story).len(), 1);
    client.open(&scope, "yaml", SCOPE);
    client.change(&scope, 2, json!([{ "range": { "start": { "line": 5, "character": 4 }, "end": { "line": 5, "character": 7 } }, "text": "ighh, x" }]));
    let faults = client.pushed(&scope).unwrap().1;
    assert_eq!(faults[0]["severity"], 1);
    assert_eq!(faults[0]["range"]["start"], json!({ "line": 5, "character": 4 }));
    let shown = client.pushed(&story).unwrap().1;
    assert_eq!(shown.iter().map(|item| item["severity"].as_u64().unwrap()).collect::<Vec<_>>(), [3, 2], "{shown:#?}");
    assert_eq!(shown[0]["range"]["start"]["line"], 0);
    client.change(
        &scope,
        3,
        json!([{ "text": SCOPE.replace("- teach: [sh]", "- teach: [sh, igh]").replace("- teach:\n  - igh\n", "") }]),
    );
    assert_eq!(client.messages(&scope), [""; 0]);
    assert_eq!(client.messages(&story), [""; 0], "and the mended one holds at once");
    // On disk it is broken without being open: it is told all the same, and cleared when it is mended.
    client.tell("textDocument/didClose", json!({ "textDocument": { "uri": scope } }));
    fs::write(folder.path().join("scope.yaml"), "format: 1\nlessons: 7\n").unwrap();
    client.tell("textDocument/didSave", json!({ "textDocument": { "uri": story } }));
    assert_eq!(client.messages(&scope).len(), 1);
    fs::write(folder.path().join("scope.yaml"), SCOPE).unwrap();
    client.tell("textDocument/didSave", json!({ "textDocument": { "uri": story } }));
    assert_eq!(client.messages(&scope), [""; 0]);
    assert_eq!(client.leave(), End::Clean);
}

#[test]
fn front_matter_wins_and_its_faults_are_told() {
    let folder = folder();
    let story = uri(folder.path(), "story.txt");
    let mut client = client(&[]);
    client.open(&story, "plaintext", "---\nlesson: 3\nscope: scope.yaml\n---\nA ship at night.");
    assert_eq!(client.messages(&story), [""; 0]);
    for (front, place, part) in [
        ("lesson: 9", (1, 8), "has no lesson 9"),
        ("scope: gone.yaml", (1, 7), "there is no scope file"),
        ("lesso: 9", (1, 0), "did you mean `lesson`?"),
        ("focus: [sh, zzz]", (1, 12), "the focus of this story is not valid"),
    ] {
        client.change(&story, 2, json!([{ "text": format!("---\n{front}\n---\nA ship.") }]));
        let shown = client.pushed(&story).unwrap().1;
        assert_eq!(shown[0]["severity"], 1, "{front}");
        assert_eq!(shown[0]["range"]["start"], json!({ "line": place.0, "character": place.1 }), "{front}");
        assert!(shown[0]["message"].as_str().unwrap().contains(part), "{front}: {}", shown[0]["message"]);
    }
    assert_eq!(client.leave(), End::Clean);
}

#[test]
fn several_folders_and_unsaved_texts_use_the_client_s_settings() {
    let folder = folder();
    let other = tempfile::tempdir().unwrap();
    fs::write(other.path().join("first.yaml"), "format: 1\nlessons:\n- teach: [s, a, t]\n").unwrap();
    let can =
        json!({ "workspace": { "didChangeWatchedFiles": { "dynamicRegistration": true }, "configuration": true } });
    let wishes = json!({ "untaught": { "scope": "first.yaml", "names": ["Mim"] } });
    let mut client = Client::within(can, wishes, &[&uri(other.path(), ""), &uri(folder.path(), "")]);
    client.open("untitled:Untitled-1", "markdown", "*Sat* Mim mat");
    assert_eq!(client.messages("untitled:Untitled-1").len(), 1, "only mat");
    client.tell(
        "workspace/didChangeConfiguration",
        json!({ "settings": { "untaught": { "scope": "first.yaml", "names": "allow" } } }),
    );
    assert_eq!(client.messages("untitled:Untitled-1").len(), 2);
    let story = uri(folder.path(), "story.txt");
    client.open(&story, "plaintext", "A mat");
    assert_eq!(client.messages(&story), [""; 0], "the settings of its folder hold");
    let folders = json!({ "event": { "added": [], "removed": [{ "uri": uri(other.path(), ""), "name": "x" }] } });
    client.tell("workspace/didChangeWorkspaceFolders", folders);
    client.settle();
    let asked: Vec<&str> = client.asked.iter().map(|request| request.method.as_str()).collect();
    assert!(asked.contains(&"client/registerCapability") && asked.contains(&"workspace/configuration"), "{asked:?}");
    assert_eq!(client.leave(), End::Clean);
}

#[test]
fn a_scope_file_is_completed_and_explained() {
    let mut client =
        Client::new(json!({ "textDocument": { "hover": { "contentFormat": ["markdown"] } } }), Value::Null);
    let scope = "untitled:scope";
    client.open(
        scope,
        "yaml",
        "format: 1\nlessons:\n- teach: [s, ea as in , sh]\n  skills: [sch]\n- teach: [a, t, i, p]\n",
    );
    let labels = |client: &mut Client, line: u32, column: u32| -> Vec<String> {
        let items = client.position("textDocument/completion", scope, line, column);
        items.as_array().unwrap().iter().map(|item| item["label"].as_str().unwrap().to_owned()).collect()
    };
    let spellings = labels(&mut client, 2, 11);
    assert!(spellings.contains(&"igh".to_owned()) && spellings.contains(&"a_e".to_owned()), "{spellings:?}");
    let keys = labels(&mut client, 2, 22);
    assert!(keys.iter().any(|key| key == "ea as in bread" || key == "ea as in head"), "{keys:?}");
    assert!(keys.iter().all(|key| key.starts_with("ea as in ")));
    assert!(labels(&mut client, 3, 13).contains(&"schwa".to_owned()));
    assert_eq!(labels(&mut client, 0, 3), [""; 0]);
    let shown = client.position("textDocument/hover", scope, 2, 24)["contents"]["value"].as_str().unwrap().to_owned();
    assert!(shown.starts_with("**sh**: /ʃ/ as in"), "{shown}");
    assert!(shown.contains("ship") || shown.contains("she"), "{shown}");
    assert_eq!(client.messages(scope).len(), 2, "the key word and the skill are wrong");
    assert_eq!(client.leave(), End::Clean);
}

#[cfg(unix)]
#[test]
fn what_is_no_file_or_has_no_end_is_told_and_keeps_nobody_waiting() {
    let folder = folder();
    let story = uri(folder.path(), "story.txt");
    assert!(std::process::Command::new("mkfifo").arg(folder.path().join("pipe")).status().unwrap().success());
    fs::write(folder.path().join("big.yaml"), "# nothing\n".repeat(500_000)).unwrap();
    let mut client = client(&[]);
    client.open(&story, "plaintext", "A ship.");
    for (scope, part) in [
        ("pipe", "is a pipe or a device; save it as a file and name that file"),
        ("/dev/zero", "is a pipe or a device; save it as a file and name that file"),
        ("big.yaml", "is larger than 4 MB"),
    ] {
        client.change(&story, 2, json!([{ "text": format!("---\nscope: {scope}\n---\nA ship.") }]));
        let told = client.messages(&story);
        assert!(told[0].contains(part), "{told:?}");
    }
    let scope = uri(folder.path(), "scope.yaml");
    let lesson =
        |n: u32| format!("- teach: [{}]\n", (0..10).map(|m| format!("zz{n}x{m}")).collect::<Vec<_>>().join(", "));
    client.open(&scope, "yaml", &format!("format: 1\nlessons:\n{}", (0..500).map(lesson).collect::<String>()));
    let told = client.messages(&scope);
    assert_eq!((told.len(), told[100].as_str()), (101, "and 4,900 more"));
    client.change(&scope, 2, json!([{ "text": format!("format: 1\nlessons:\n{}", "- {}\n".repeat(6_000)) }]));
    assert_eq!(client.messages(&scope), ["a scope file has at most 5,000 lessons, not 6,000"]);
    assert_eq!(client.leave(), End::Clean);
}

#[test]
fn a_folder_says_how_a_name_is_read_and_a_mistake_in_it_is_told() {
    let folder = folder();
    let (story, settings) = (uri(folder.path(), "story.txt"), uri(folder.path(), "untaught.yaml"));
    let mut client = client(&[]);
    client.open(&story, "plaintext", "Then I met Siam at a mat.");
    let with = |cutting: &str| {
        format!("format: 1\nscope: scope.yaml\nlesson: 1\nnames: [Then, met, I]\npronounce: {{Siam: {cutting}}}\n")
    };
    client.open(&settings, "yaml", &with("s·i·a·m"));
    assert_eq!(client.messages(&story), [""; 0], "by its letters it would need another sound of i");
    client.change(&settings, 2, json!([{ "text": with("s·i·a") }]));
    let messages = client.messages(&story);
    assert!(messages.iter().any(|message| message.contains("`s·i·a` spells sia, not siam")), "{messages:?}");
    assert_eq!(client.leave(), End::Clean);
}

#[test]
fn a_client_that_cannot_be_told_to_ask_again_is_pushed_what_new_settings_change() {
    for refreshes in [false, true] {
        let folder = folder();
        let (story, settings) = (uri(folder.path(), "story.txt"), uri(folder.path(), "untaught.yaml"));
        let can = json!({
            "textDocument": { "diagnostic": { "dynamicRegistration": false } },
            "workspace": { "diagnostics": { "refreshSupport": refreshes } },
        });
        let mut client = Client::within(can, Value::Null, &[]);
        let offers = client.about["capabilities"].get("diagnosticProvider").is_some();
        assert_eq!(offers, refreshes);
        client.open(&story, "plaintext", "A ship in a mist. Tim sat at night.");
        let pushed = client.pushed(&story);
        assert_eq!(pushed.is_some(), !refreshes);
        // Another program saves other settings, and the watcher says so.
        fs::write(folder.path().join("untaught.yaml"), "format: 1\nscope: scope.yaml\nlesson: 1\n\n").unwrap();
        client.tell("workspace/didChangeWatchedFiles", json!({ "changes": [{ "uri": settings, "type": 2 }] }));
        let pushed = client.pushed(&story);
        let asked = client.asked.iter().any(|request| request.method == "workspace/diagnostic/refresh");
        match refreshes {
            false => assert_eq!((pushed.map(|(_, items)| items.len()), asked), (Some(2), false)),
            true => assert_eq!((pushed, asked), (None, true)),
        }
        assert_eq!(client.leave(), End::Clean);
    }
}

#[test]
fn yaml_of_other_programs_is_left_alone() {
    let mut client = Client::new(json!({}), Value::Null);
    for (name, text, faults) in [
        ("file:///stories/compose.yaml", "services:\n  a: [\n", 0),
        ("file:///stories/course.yaml", "title: French\nlessons:\n- {verbs: 3}\n", 0),
        ("file:///stories/scope.yaml", "format: 1\nlessons:\n- {verbs: 3}\n", 1),
        ("file:///stories/begun.yaml", "lessons:\n- teach: [s]\n", 1),
        ("file:///stories/untaught.yaml", "lessons: 3\n", 1),
    ] {
        client.open(name, "yaml", text);
        assert_eq!(!client.messages(name).is_empty(), faults > 0, "{name}: {:?}", client.messages(name));
        let at = client.position("textDocument/completion", name, 0, 0);
        assert!(at.is_null() || at.as_array().is_some_and(|items| items.is_empty() || faults > 0), "{name}: {at}");
    }
    assert_eq!(client.leave(), End::Clean);
}
