//! Colour only where it was asked for, and nothing of a text, a name or a scope reaches a terminal as a command to it.

use std::fs;

use crate::support::{Done, folder_with, untaught};

const HOSTILE: &str = "\u{1b}[31m\u{1b}]0;owned\u{7}\u{9b}5m\r\u{8}\u{7f}";

fn story() -> [&'static str; 6] {
    ["check", "check-one.in/night.txt", "--scope", "harbour.yaml", "--lesson", "2"]
}

/// Leaves out the sequences that set bold, faint and colours, which the program may send.
fn without_styles(text: &str) -> String {
    let mut pieces = text.split("\u{1b}[");
    let mut plain = pieces.next().unwrap_or_default().to_owned();
    for piece in pieces {
        let style = piece.split_once('m').filter(|(codes, _)| codes.bytes().all(|b| b.is_ascii_digit() || b == b';'));
        match style {
            Some((_, rest)) => plain.push_str(rest),
            None => plain.push_str(&format!("\u{1b}[{piece}")),
        }
    }
    plain
}

fn controls(text: &str) -> Vec<char> {
    text.chars().filter(|c| c.is_control() && !matches!(c, '\n' | '\t')).collect()
}

#[test]
fn colour_is_sent_only_where_it_was_asked_for() {
    let plain = untaught(story()).done();
    assert!(plain.out().contains("ship"), "{plain:?}");
    let with = |args: &[&str], env: &[(&str, &str)]| -> Done {
        let run = untaught(story().iter().chain(args));
        let done = env.iter().fold(run, |run, (name, value)| run.env(name, value)).done();
        assert_eq!((done.code, without_styles(done.out())), (plain.code, plain.out().to_owned()), "{args:?} {env:?}");
        done
    };
    let always = with(&["--color", "always"], &[]);
    assert!(always.out().contains("\u{1b}[1m"), "{always:?}");
    for (args, env, coloured) in [
        (&["--color", "always"][..], &[("NO_COLOR", "1")][..], true),
        (&[], &[("CLICOLOR_FORCE", "1")], true),
        (&["--color", "auto"], &[("CLICOLOR_FORCE", "1")], true),
        (&[], &[("NO_COLOR", "1"), ("CLICOLOR_FORCE", "1")], false),
        (&["--color", "never"], &[("CLICOLOR_FORCE", "1")], false),
        (&["--color", "auto"], &[], false),
        (&["--color=never"], &[], false),
        (&[], &[("NO_COLOR", "1")], false),
        (&[], &[("NO_COLOR", ""), ("CLICOLOR_FORCE", "1")], true),
    ] {
        let expected = if coloured { &always } else { &plain };
        assert_eq!(with(args, env).out(), expected.out(), "{args:?} {env:?}");
    }
}

#[test]
fn every_report_has_a_plain_form() {
    for args in [
        &["explain", "night", "zib", "was"][..],
        &["patterns", "sh", "ea"],
        &["scope", "scope.in/full.yaml"],
        &["check", "no-such-story.txt"],
        &["scope", "scope-faults.in/twice.yaml"],
    ] {
        let plain = untaught(args).done();
        let styled = untaught(args).env("CLICOLOR_FORCE", "1").done();
        let (out, err) = (styled.out(), styled.err());
        assert!(out.contains('\u{1b}') || err.contains('\u{1b}'), "{args:?}: {styled:?}");
        assert_eq!((without_styles(out), without_styles(err)), (plain.out().to_owned(), plain.err().to_owned()));
        assert_eq!(controls(plain.out()), [], "{args:?}");
        assert_eq!(controls(plain.err()), [], "{args:?}");
    }
}

#[test]
fn json_has_no_colour() {
    for args in [
        &["check", "check-one.in/night.txt", "-f", "json"][..],
        &["explain", "night", "-f", "json"],
        &["patterns", "sh", "-f", "json"],
        &["scope", "-f", "json"],
    ] {
        let plain = untaught(args).done();
        let styled = untaught(args.iter().chain(&["--color", "always"])).env("CLICOLOR_FORCE", "1").done();
        assert_eq!((plain.out(), plain.err()), (styled.out(), ""), "{args:?}");
        assert_eq!(controls(plain.out()), [], "{args:?}");
    }
}

/// Runs with and without colour and looks for anything but text and styles in either stream.
fn assert_tame(args: &[&str], folder: &std::path::Path, stdin: &str) -> [Done; 2] {
    ["never", "always"].map(|colour| {
        let done = untaught(["--color", colour].iter().chain(args)).within(folder).stdin(stdin).done();
        for stream in [done.out(), done.err()] {
            let text = if colour == "always" { without_styles(stream) } else { stream.to_owned() };
            assert_eq!(controls(&text), [], "{args:?} {done:?}");
        }
        done
    })
}

#[test]
fn control_characters_of_a_story_are_never_sent_raw() {
    let story =
        format!("Tam {HOSTILE}sat on{HOSTILE}the quay. Q\u{1b}uay qua\u{9b}y shh{HOSTILE} \u{202e}ship\u{202c}s.");
    let folder = folder_with("story.txt", &story);
    for done in assert_tame(&["check", "story.txt", "--lesson", "2"], folder.path(), "") {
        assert_eq!(done.code, Some(1));
        assert!(done.out().contains("quay") && !done.out().contains('\u{202e}'), "{done:?}");
    }
    assert_tame(&["check", "--lesson", "2"], folder.path(), &story);
}

#[cfg(unix)]
#[test]
fn control_characters_of_a_file_name_are_never_sent_raw() {
    let name = format!("tab{HOSTILE}.txt");
    let folder = folder_with(&name, "Tam sat on the quay.");
    fs::create_dir(folder.path().join(HOSTILE)).unwrap();
    for done in assert_tame(&["check", &name, HOSTILE, "no\u{1b}.txt"], folder.path(), "") {
        assert_eq!(done.code, Some(2));
        let out = without_styles(done.out());
        assert!(out.starts_with(r"tab\u{1b}[31m\u{1b}]0;owned\u{7}\u{9b}5m\u{d}\u{8}\u{7f}.txt"), "{done:?}");
        assert!(done.err().contains(r"there is no file no\u{1b}.txt"), "{done:?}");
    }
    fs::write(folder.path().join(&name), b"Tam \xff").unwrap();
    assert_tame(&["check", &name], folder.path(), "");
    assert_tame(&["check", &name, "--scope", &name], folder.path(), "");
    assert_tame(&["scope", &name], folder.path(), "");
    fs::write(folder.path().join(&name), "format: 1\nlessons:\n- teach: [shh]\n").unwrap();
    assert_tame(&["scope", &name], folder.path(), "");
}

#[test]
fn control_characters_on_the_command_line_are_never_sent_raw() {
    let folder = folder_with("story.txt", "Tam sat.");
    for args in [
        &["check", "story.txt", "--lesson", HOSTILE][..],
        &["check", "story.txt", "--scope", HOSTILE],
        &["check", "--stdin-name", HOSTILE],
        &["patterns", HOSTILE],
        &["scope", HOSTILE],
        &["explain", HOSTILE],
    ] {
        assert_tame(args, folder.path(), "Tam sat.");
    }
}

#[test]
fn control_characters_of_a_scope_file_are_never_sent_raw() {
    let hostile = r"\e[31m\e]0;owned\a\x9b5m\r\b\x7f";
    let scope = format!(
        "format: 1\ntitle: \"{hostile}\"\nsource: \"{hostile}\"\nlessons:\n- id: \"{hostile}\"\n  title: \"{hostile}\"\n  \
         teach: [s, a, t, m]\n- id: two\n  teach: [igh]\n"
    );
    let folder = folder_with("scope.yaml", &scope);
    fs::write(folder.path().join("story.txt"), "Tam sat at night.").unwrap();
    for done in assert_tame(&["scope", "scope.yaml"], folder.path(), "") {
        assert!(done.out().contains(r"\u{1b}[31m"), "{done:?}");
    }
    assert_tame(&["check", "story.txt", "--scope", "scope.yaml"], folder.path(), "");
    assert_tame(&["check", "story.txt", "--scope", "scope.yaml", "--lesson", HOSTILE], folder.path(), "");
    assert_tame(&["check", "story.txt", "--scope", "scope.yaml", "--lesson", "three"], folder.path(), "");
    let faulty = format!(
        "format: 1\nlessons:\n- teach: [\"{hostile}\", \"{hostile} as in {hostile}\", \"a = {hostile}\", \"-{hostile}\", \
         \"sh as in {hostile}\"]\n  sight: [\"{hostile}\"]\n  skills: [\"{hostile}\"]\n  review: [\"{hostile}\"]\n"
    );
    let keys = [format!("format: 1\n\"{hostile}\": 2\nlessons: []\n"), format!("format: \"{hostile}\"\nlessons: []\n")];
    for scope in keys.iter().chain([&faulty]) {
        fs::write(folder.path().join("scope.yaml"), scope).unwrap();
        for done in assert_tame(&["scope", "scope.yaml"], folder.path(), "") {
            assert_eq!((done.code, done.out()), (Some(2), ""), "{done:?}");
        }
    }
}

#[test]
fn control_characters_of_front_matter_are_never_sent_raw() {
    let hostile = r"\e[31m\e]0;owned\a\x9b5m\r\b\x7f";
    let folder = folder_with("empty", "");
    for front in [
        format!("lesson: \"{hostile}\""),
        format!("\"{hostile}\": 1"),
        format!("names: \"{hostile}\""),
        format!("names: [\"{hostile}\"]"),
        format!("names: [Tam, {HOSTILE}]"),
    ] {
        assert_tame(&["check"], folder.path(), &format!("---\n{front}\n---\nTam sat on the quay.\n"));
    }
}

/// On a terminal, as far as a program is there that makes one.
#[cfg(target_os = "linux")]
#[test]
fn progress_makes_room_for_complaints() {
    use std::process::{Command, Stdio};
    let folder = folder_with("a.txt", "Tam sat.");
    if Command::new("script").arg("--version").stdout(Stdio::null()).status().is_err() {
        return;
    }
    let pipe = folder.path().join("slow.txt");
    assert!(Command::new("mkfifo").arg(&pipe).status().unwrap().success());
    let command = untaught(["check", "-j", "1", "a.txt", "slow.txt", "gone.txt", "-o", "out.txt"]).command();
    let typed: Vec<String> = std::iter::once(command.get_program())
        .chain(command.get_args())
        .map(|part| format!("'{}'", part.to_str().unwrap()))
        .collect();
    let mut script = Command::new("script");
    script.args(["-q", "-e", "-c", &typed.join(" "), "/dev/null"]).env("NO_COLOR", "1").current_dir(folder.path());
    let mut child = script.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    // Progress is shown once a run takes longer than a second.
    std::thread::sleep(std::time::Duration::from_millis(1500));
    fs::write(&pipe, "Tam sat.").unwrap();
    assert_eq!(crate::support::wait(&mut child, "script"), Some(2));
    let mut shown = String::new();
    std::io::Read::read_to_string(&mut child.stdout.take().unwrap(), &mut shown).unwrap();
    let complaint = "\r2 of 3 stories\r\u{1b}[Kuntaught: there is no file gone.txt\r\n";
    assert!(shown.contains(complaint), "{shown:?}");
}
