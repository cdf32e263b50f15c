//! Completions and the manual page.

use crate::support::untaught;

const COMMANDS: [&str; 8] = ["check", "place", "shelf", "explain", "patterns", "scope", "completions", "man"];

#[test]
fn completions_know_every_command() {
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        let done = untaught(["completions", shell]).done();
        assert_eq!((done.code, done.err()), (Some(0), ""), "{shell}");
        for command in COMMANDS {
            assert!(done.out().contains(command), "{shell} {command}");
        }
        assert!(done.out().contains("min-readable") && done.out().contains("jsonl"), "{shell}");
    }
    let done = untaught(["completions", "cmd"]).done();
    assert_eq!((done.code, done.out()), (Some(2), ""), "{done:?}");
}

#[test]
fn bash_takes_the_completions() {
    let script = untaught(["completions", "bash"]).done();
    let program = env!("CARGO_BIN_EXE_untaught");
    for (line, offered) in [
        ("untaught s", "shelf scope"),
        ("PROGRAM check --lesson 12 --scope e", "england-years-1-2"),
        ("PROGRAM check -s dolch -l g", "grade-1 grade-2 grade-3"),
        ("PROGRAM words --scope = dolch --lesson = pre", "pre-primer"),
        ("PROGRAM check -s dolch --scope nothing.yaml -l g", ""),
        ("PROGRAM scope d", "dolch"),
    ] {
        let line = line.replace("PROGRAM", program);
        let (last, words) = (line.split(' ').next_back().unwrap(), line.split(' ').count());
        let ask = format!(
            "\nCOMP_WORDS=({line}); COMP_CWORD={}; _untaught_values untaught {last} x; echo \"${{COMPREPLY[@]}}\"\n",
            words - 1
        );
        let folder = tempfile::tempdir().unwrap();
        let mut bash = std::process::Command::new("bash");
        let bash = bash.arg("-c").arg(script.out().to_owned() + &ask).current_dir(folder.path()).output();
        let Ok(bash) = bash else {
            eprintln!("skipped: there is no bash");
            return;
        };
        assert_eq!(String::from_utf8_lossy(&bash.stdout).trim(), offered, "{line}: {bash:?}");
    }
}

#[test]
fn scripts_ask_for_scopes_and_lessons_wherever_they_are_asked_for() {
    // Wherever the generated scripts change, their values must not be lost.
    for (shell, scopes, lessons) in [
        ("zsh", ":_untaught_scopes'", ":_untaught_lessons'"),
        ("fish", "(__untaught_values scopes; __untaught_scope_files)", "(__untaught_values lessons)"),
    ] {
        let script = untaught(["completions", shell]).done();
        // Eight commands have --scope, seven of them --lesson, in zsh each in two forms; and `untaught scope` has one without.
        let times = |part: &str| script.out().matches(part).count();
        let forms = if shell == "zsh" { 2 } else { 1 };
        assert!(times(scopes) > 8 * forms, "{shell}: {}", times(scopes));
        assert!(times(lessons) >= 7 * forms, "{shell}: {}", times(lessons));
    }
}

#[test]
fn what_cannot_be_completed_is_no_mistake() {
    for (kind, words) in [("lessons", vec!["check", "-s", "no-such.yaml"]), ("nonsense", vec![]), ("", vec!["check"])] {
        let done = untaught(words).env("UNTAUGHT_COMPLETE", kind).done();
        assert_eq!((done.code, done.out(), done.err()), (Some(0), "", ""), "{kind}");
    }
    let done = untaught(["check", "-s", "starter"]).env("UNTAUGHT_COMPLETE", "lessons").done();
    assert!(done.out().starts_with("1\tFirst sounds\n"), "{}", done.out());
}

#[test]
fn the_manual_has_a_page_for_every_command() {
    let done = untaught(["man"]).done();
    assert_eq!((done.code, done.err()), (Some(0), ""));
    for command in COMMANDS {
        assert!(done.out().contains(&format!(".TH untaught-{command} ")), "{command}");
    }
    assert!(done.out().is_ascii(), "typesetters are not told the encoding");
    assert!(done.out().contains("\\[u2026]"));
}
