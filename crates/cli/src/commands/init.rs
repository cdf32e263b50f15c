//! `untaught init`: a folder of readers to start from.

use std::fs::{self, File};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use untaught::Scope;
use untaught::messages::excerpt;

use crate::args::InitArgs;
use crate::output::{Failure, Outcome, Sink, path_line};

/// The schemas by which editors complete the two files.
const SCHEMAS: [(&str, &str); 2] = [
    ("scope.schema.json", include_str!("../../scope-files/scope.schema.json")),
    ("untaught.schema.json", include_str!("../../scope-files/untaught.schema.json")),
];

/// The settings, as far as there is anything to set yet.
const SETTINGS: &str = "\
# yaml-language-server: $schema=untaught.schema.json
# Settings for the stories in this folder and the folders in it.
format: 1
scope: my-scope.yaml
# Names and words that every story may use without teaching them:
names: []
story-words: []
# A story says at which lesson it is read in its first lines:
#     ---
#     lesson: \"12\"
#     ---
# or by the number its file name begins with:
lesson-from-name: \"^([0-9]+)\"
";

pub(crate) fn run(args: &InitArgs) -> Result<Outcome, Failure> {
    let Some((_, scope)) = Scope::all_embedded().find(|(name, _)| *name == args.scope) else {
        let names: Vec<&str> = Scope::all_embedded().map(|(name, _)| name).collect();
        let message =
            format!("no scope named {} comes with the program; there are {}", excerpt(&args.scope), names.join(", "));
        return Err(Failure::Message(message));
    };
    let scope = format!("# yaml-language-server: $schema=scope.schema.json\n{scope}");
    let files = [("my-scope.yaml", scope.as_str()), ("untaught.yaml", SETTINGS)].into_iter().chain(SCHEMAS);
    let files: Vec<(PathBuf, &str)> = files.map(|(name, text)| (args.folder.join(name), text)).collect();
    // All or nothing: whoever has begun keeps what is there.
    if let Some((path, _)) = files.iter().find(|(path, _)| path.symlink_metadata().is_ok()) {
        return Err(Failure::Message(format!("{} is there already; nothing was written", path_line(path))));
    }
    fs::create_dir_all(&args.folder).map_err(|error| unwritable(&args.folder, &error))?;
    let mut sink = Sink::open(None, true)?;
    for (path, text) in &files {
        let written = File::create_new(path).and_then(|mut file| file.write_all(text.as_bytes()));
        written.map_err(|error| unwritable(path, &error))?;
        sink.write(format!("{}\n", path_line(path)).as_bytes())?;
    }
    sink.write(
        b"\nChange my-scope.yaml to your own sequence, and see what the program makes of it:\n  untaught scope my-scope.yaml\nThen check stories:\n  untaught check .\n",
    )?;
    sink.close()?;
    Ok(Outcome::Met)
}

fn unwritable(path: &Path, error: &io::Error) -> Failure {
    Failure::Message(format!("{} cannot be written: {error}", path_line(path)))
}
