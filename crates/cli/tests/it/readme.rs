//! Every command that README.md shows is run, and its output must be the one printed there.
//! `UPDATE_README=1 cargo test -p untaught-cli readme::` writes the real output into the file, to be read before it is kept.

use std::fmt::Write as _;
use std::path::Path;
use std::process::Command;
use std::{env, fs};

#[test]
fn the_readme_shows_real_output() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let path = root.join("README.md");
    let readme = fs::read_to_string(&path).unwrap();
    let mut real = String::new();
    let mut shown = 0;
    let mut blocks = readme.split("```console\n");
    real.push_str(blocks.next().unwrap_or_default());
    for block in blocks {
        let (inside, after) = block.split_once("```\n").expect("the block ends");
        let command = inside.lines().next().and_then(|line| line.strip_prefix("$ untaught ")).expect("a command");
        let output = Command::new(env!("CARGO_BIN_EXE_untaught"))
            .args(command.split(' '))
            .current_dir(&root)
            .env_remove("CLICOLOR_FORCE")
            .output()
            .unwrap();
        let text = String::from_utf8([output.stdout, output.stderr].concat()).unwrap();
        let _ = write!(real, "```console\n$ untaught {command}\n{}\n```\n{after}", text.trim_end());
        shown += 1;
    }
    assert!(shown >= 3, "the README shows {shown} commands");
    if env::var_os("UPDATE_README").is_some() {
        fs::write(&path, &real).unwrap();
    }
    assert_eq!(readme, real, "README.md shows other output than the command gives");
}
