//! Each value, with every pair of layers that can set it: the higher one decides.

use std::collections::BTreeSet;

use untaught::front_matter;
use untaught::yaml::Position;

use super::*;
use crate::effective::{ScopeReference, Sourced};

const TEXT: &str = "/shelf/week/07-kite.txt";

/// The layers, highest first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
enum Set {
    Record,
    CommandLine,
    FrontMatter,
    LaterRule,
    EarlierRule,
    FileName,
    FolderWide,
    Editor,
}
use Set::{CommandLine, EarlierRule, Editor, FileName, FolderWide, FrontMatter as Front, LaterRule, Record};

/// A value, and the layers that can set it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Key {
    Scope,
    Lesson,
    Names,
    StoryWords,
    Focus,
    AllowNames,
    MinDecodable,
    MinReadable,
    MinFocus,
}

const IN_TEXTS: [Set; 5] = [CommandLine, Front, LaterRule, EarlierRule, FolderWide];
const THRESHOLDS: [Set; 4] = [CommandLine, LaterRule, EarlierRule, FolderWide];

const KEYS: [(Key, &[Set]); 9] = [
    (Key::Scope, &[CommandLine, Front, LaterRule, EarlierRule, FolderWide, Editor]),
    (Key::Lesson, &[Record, CommandLine, Front, LaterRule, EarlierRule, FileName, FolderWide, Editor]),
    (Key::Names, &[CommandLine, Front, LaterRule, EarlierRule, FolderWide, Editor]),
    (Key::StoryWords, &IN_TEXTS),
    (Key::Focus, &IN_TEXTS),
    (Key::AllowNames, &[CommandLine, Editor]),
    (Key::MinDecodable, &THRESHOLDS),
    (Key::MinReadable, &THRESHOLDS),
    (Key::MinFocus, &THRESHOLDS),
];

/// What a layer sets a value to: its own name, or a percentage of its own.
fn value(key: Key, set: Set) -> String {
    match (key, set) {
        (Key::MinDecodable | Key::MinReadable | Key::MinFocus, set) => format!("{}", 10 + 10 * set as u8),
        // The name of the text is 07-kite.
        (Key::Lesson, FileName) => "7".to_owned(),
        (Key::AllowNames, _) => "true".to_owned(),
        (_, set) => format!("{set:?}"),
    }
}

/// As the files have it.
fn written(key: Key, set: Set) -> String {
    let value = value(key, set);
    match key {
        Key::Scope => format!("scope: {value}"),
        Key::Lesson => format!("lesson: {value}"),
        Key::Names => format!("names: [{value}]"),
        Key::StoryWords => format!("story-words: [{value}]"),
        Key::Focus => format!("focus: [{value}]"),
        Key::AllowNames => String::new(),
        Key::MinDecodable => format!("min-decodable: {value}"),
        Key::MinReadable => format!("min-readable: {value}"),
        Key::MinFocus => format!("min-focus: {value}"),
    }
}

/// The settings where some layers set one value, and the others nothing.
fn resolved(key: Key, sets: &BTreeSet<Set>) -> EffectiveSettings {
    let has = |set: Set| sets.contains(&set);
    let mut typed = CommandLineSettings::default();
    if has(CommandLine) {
        let value = value(key, CommandLine);
        let percent = value.parse().ok();
        match key {
            Key::Scope => typed.scope = Some(value),
            Key::Lesson => typed.lesson = Some(value),
            Key::Names => typed.names.push(value),
            Key::AllowNames => typed.names.push("allow".to_owned()),
            Key::StoryWords => typed.story_words.push(value),
            Key::Focus => typed.focus.push(value),
            Key::MinDecodable => typed.min_decodable = percent,
            Key::MinReadable => typed.min_readable = percent,
            Key::MinFocus => typed.min_focus = percent,
        }
    }
    let mut editor = EditorSettings::default();
    if has(Editor) {
        match key {
            Key::Scope => editor.scope = Some(value(key, Editor)),
            Key::Lesson => editor.lesson = Some(value(key, Editor)),
            Key::AllowNames => editor.names = Some(vec!["allow".to_owned()]),
            _ => editor.names = Some(vec![value(key, Editor)]),
        }
    }
    let line = |set: Set| if has(set) { written(key, set) } else { "# nothing".to_owned() };
    let from_name = if has(FileName) { "lesson-from-name: ^([0-9]+)" } else { "# nothing" };
    let file = format!(
        "format: 1\n{}\n{from_name}\ntexts:\n- files: \"*.txt\"\n  {}\n- files: week/*\n  {}\n- files: other/*\n  lesson: other\n",
        line(FolderWide),
        line(EarlierRule),
        line(LaterRule),
    );
    let folder = FolderSettings::parse(&file, Path::new("/shelf/untaught.yaml")).unwrap();
    let (front, _) = front_matter(&format!("---\ntitle: Kite\n{}\n---\nTam sat.", line(Front))).unwrap();
    let record = value(key, Record);
    resolve(&Layers {
        text: Some(Path::new(TEXT)),
        command_line: Some(&typed),
        record_lesson: has(Record).then_some(record.as_str()),
        front_matter: Some(&front),
        folder: Some(&folder),
        editor: Some(&editor),
        workspace: &["/".into(), "/shelf".into(), "/elsewhere/far/away".into()],
    })
}

/// Where the value of a layer stands.
fn origin(key: Key, set: Set) -> Origin {
    let list = matches!(key, Key::Names | Key::StoryWords | Key::Focus);
    let at = |line: usize, indent: usize| Position {
        line,
        column: indent + written(key, set).find(": ").unwrap() + 3 + usize::from(list),
    };
    let settings = |position| Origin::Settings { path: Path::new("/shelf/untaught.yaml").into(), position };
    match set {
        CommandLine => Origin::CommandLine,
        Record => Origin::Record,
        Front => Origin::FrontMatter { position: at(3, 0) },
        LaterRule => settings(at(8, 2)),
        EarlierRule => settings(at(6, 2)),
        FileName => Origin::FileName {
            path: Path::new("/shelf/untaught.yaml").into(),
            position: Position { line: 3, column: 19 },
        },
        FolderWide => settings(at(2, 0)),
        Editor => Origin::Editor,
    }
}

/// The values of a key as text, with their origins.
fn found(key: Key, settings: &EffectiveSettings) -> Vec<(String, Origin)> {
    fn text<T: ToString>(sourced: &Sourced<T>) -> (String, Origin) {
        (sourced.value.to_string(), sourced.origin.clone())
    }
    match key {
        Key::Scope => vec![text(&settings.scope)],
        Key::Lesson => settings.lesson.iter().map(text).collect(),
        Key::Names => settings.names.iter().map(text).collect(),
        Key::StoryWords => settings.story_words.iter().map(text).collect(),
        Key::Focus => settings.focus.iter().map(text).collect(),
        Key::AllowNames => vec![text(&settings.allow_names)],
        Key::MinDecodable => settings.min_decodable.iter().map(text).collect(),
        Key::MinReadable => vec![text(&settings.min_readable)],
        Key::MinFocus => settings.min_focus.iter().map(text).collect(),
    }
}

/// The path that a scope of this layer's name is.
fn scope_path(set: Set) -> String {
    match set {
        // From the current folder.
        CommandLine => "CommandLine".to_owned(),
        // From the text's folder.
        Front => "/shelf/week/FrontMatter".to_owned(),
        // From the folder of the settings, or from the innermost folder of the workspace.
        set => format!("/shelf/{set:?}"),
    }
}

fn expected(key: Key, set: Set) -> (String, Origin) {
    let value = if key == Key::Scope { scope_path(set) } else { value(key, set) };
    (value, origin(key, set))
}

#[test]
fn each_layer_alone_sets_its_value() {
    for (key, sets) in KEYS {
        for set in sets {
            let settings = resolved(key, &BTreeSet::from([*set]));
            assert_eq!(found(key, &settings), [expected(key, *set)], "{key:?} by {set:?}");
            // And nothing else.
            for (other, _) in KEYS.into_iter().filter(|(other, _)| *other != key) {
                let untouched = found(other, &EffectiveSettings::default());
                assert_eq!(found(other, &settings), untouched, "{other:?} is untouched by {key:?} of {set:?}");
            }
        }
    }
}

#[test]
fn of_each_pair_of_layers_the_higher_decides_and_words_add_up() {
    for (key, sets) in KEYS {
        for (number, higher) in sets.iter().enumerate() {
            for lower in &sets[number + 1..] {
                let settings = resolved(key, &BTreeSet::from([*higher, *lower]));
                let mut wanted = vec![expected(key, *higher)];
                if matches!(key, Key::Names | Key::StoryWords) {
                    wanted.push(expected(key, *lower));
                }
                assert_eq!(found(key, &settings), wanted, "{key:?}: {higher:?} over {lower:?}");
            }
        }
    }
}

#[test]
fn without_any_layer_the_defaults_hold() {
    let settings = resolve(&Layers::default());
    assert_eq!(settings, EffectiveSettings::default());
    assert_eq!(settings.scope.value, ScopeReference::BuiltIn("starter".to_owned()));
    assert_eq!((settings.lesson, settings.min_decodable, settings.min_focus), (None, None, None));
    assert_eq!(settings.min_readable, Sourced::new(100.0, Origin::Default));
    assert!(!settings.allow_names.value);
}

#[test]
fn without_a_text_only_folder_wide_settings_count() {
    let file = "format: 1\nlesson: 3\nlesson-from-name: \"([0-9]+)\"\ntexts:\n- files: \"**\"\n  lesson: 4\n";
    let folder = FolderSettings::parse(file, Path::new("/shelf/untaught.yaml")).unwrap();
    let settings = resolve(&Layers { folder: Some(&folder), ..Layers::default() });
    assert_eq!(settings.lesson.unwrap().value, "3");
}

#[test]
fn a_scope_that_comes_with_the_program_is_never_a_path() {
    let (front, _) = front_matter("---\nscope: dolch\n---\n").unwrap();
    let editor = EditorSettings { scope: Some("dolch".to_owned()), ..EditorSettings::default() };
    let folder = FolderSettings::parse("format: 1\nscope: dolch\n", Path::new("/shelf/untaught.yaml")).unwrap();
    let typed = CommandLineSettings { scope: Some("dolch".to_owned()), ..CommandLineSettings::default() };
    let text = Some(Path::new(TEXT));
    for layers in [
        Layers { text, front_matter: Some(&front), ..Layers::default() },
        Layers { text, editor: Some(&editor), ..Layers::default() },
        Layers { text, folder: Some(&folder), ..Layers::default() },
        Layers { text, command_line: Some(&typed), ..Layers::default() },
    ] {
        assert_eq!(resolve(&layers).scope.value, ScopeReference::BuiltIn("dolch".to_owned()), "{layers:?}");
    }
}

#[test]
fn a_path_of_the_editor_counts_from_the_workspace() {
    let editor = EditorSettings { scope: Some("own.yaml".to_owned()), ..EditorSettings::default() };
    let scope = |text: Option<&str>, workspace: &[&str]| {
        let workspace: Vec<PathBuf> = workspace.iter().map(PathBuf::from).collect();
        let layers =
            Layers { text: text.map(Path::new), editor: Some(&editor), workspace: &workspace, ..Layers::default() };
        resolve(&layers).scope.value.to_string()
    };
    for (text, workspace, path) in [
        (Some("/a/b/c/kite.txt"), &["/x", "/a", "/a/b"][..], "/a/b/own.yaml"),
        (Some("/elsewhere/kite.txt"), &["/x", "/a"], "/x/own.yaml"),
        (Some("/elsewhere/kite.txt"), &[], "/elsewhere/own.yaml"),
        (None, &["/x"], "/x/own.yaml"),
        (None, &[], "own.yaml"),
    ] {
        assert_eq!(scope(text, workspace), path, "{text:?} {workspace:?}");
    }
}

#[test]
fn later_editor_settings_override_earlier_ones_value_by_value() {
    let some = |text: &str| Some(text.to_owned());
    let names = |name: &str| Some(vec![name.to_owned()]);
    let first = EditorSettings { scope: some("first"), lesson: some("1"), names: names("Mim") };
    assert_eq!(EditorSettings::default().or(&first), first);
    let later = EditorSettings { scope: None, lesson: some("2"), names: Some(Vec::new()) };
    assert_eq!(later.or(&first), EditorSettings { scope: some("first"), lesson: some("2"), names: Some(Vec::new()) });
}
