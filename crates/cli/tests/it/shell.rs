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
    let ask = "\nCOMP_WORDS=(untaught s); COMP_CWORD=1; _untaught untaught s untaught; echo \"${COMPREPLY[@]}\"\n";
    let bash = std::process::Command::new("bash").arg("-c").arg(script.out().to_owned() + ask).output();
    let Ok(bash) = bash else {
        eprintln!("skipped: there is no bash");
        return;
    };
    assert_eq!(String::from_utf8_lossy(&bash.stdout).trim(), "shelf scope", "{bash:?}");
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
