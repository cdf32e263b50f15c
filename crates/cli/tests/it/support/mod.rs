//! Running the real command: what is typed, what comes out, and never for longer than a minute.

pub(crate) mod page;
pub(crate) mod schema;

use std::ffi::OsStr;
use std::fmt;
use std::fs;
use std::io::{Read, Write as _};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use tempfile::TempDir;

/// A run that takes longer hangs.
const PATIENCE: Duration = Duration::from_secs(60);

/// A command to be run.
pub(crate) struct Run {
    command: Command,
    stdin: Vec<u8>,
}

/// How a run ended.
pub(crate) struct Done {
    /// The exit code; none where a signal ended the run.
    pub(crate) code: Option<i32>,
    pub(crate) stdout: Vec<u8>,
    pub(crate) stderr: Vec<u8>,
}

/// The command with these arguments, in the folder of the cases, without colour wishes of the surroundings.
pub(crate) fn untaught<S: AsRef<OsStr>>(args: impl IntoIterator<Item = S>) -> Run {
    let mut command = Command::new(env!("CARGO_BIN_EXE_untaught"));
    command.args(args).current_dir(cases());
    for name in ["NO_COLOR", "CLICOLOR", "CLICOLOR_FORCE"] {
        command.env_remove(name);
    }
    Run { command, stdin: Vec::new() }
}

/// The folder of the cases.
pub(crate) fn cases() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cmd")
}

impl Run {
    pub(crate) fn arg(mut self, argument: impl AsRef<OsStr>) -> Run {
        self.command.arg(argument);
        self
    }

    pub(crate) fn within(mut self, folder: &Path) -> Run {
        self.command.current_dir(folder);
        self
    }

    pub(crate) fn env(mut self, name: &str, value: &str) -> Run {
        self.command.env(name, value);
        self
    }

    pub(crate) fn stdin(mut self, bytes: impl AsRef<[u8]>) -> Run {
        bytes.as_ref().clone_into(&mut self.stdin);
        self
    }

    /// The command itself, for what needs other streams.
    pub(crate) fn command(self) -> Command {
        self.command
    }

    pub(crate) fn done(mut self) -> Done {
        let what = format!("{:?}", self.command);
        let mut child = self
            .command
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("the command can be started");
        let mut to = child.stdin.take().expect("a pipe");
        // A command that fails early need not read what it is given.
        let writer = thread::spawn(move || drop(to.write_all(&self.stdin)));
        let (out, err) = (drain(child.stdout.take()), drain(child.stderr.take()));
        let code = wait(&mut child, &what);
        writer.join().expect("written");
        Done { code, stdout: out.join().expect("read"), stderr: err.join().expect("read") }
    }
}

fn drain(from: Option<impl Read + Send + 'static>) -> thread::JoinHandle<Vec<u8>> {
    let mut from = from.expect("a pipe");
    thread::spawn(move || {
        let mut bytes = Vec::new();
        from.read_to_end(&mut bytes).expect("the output can be read");
        bytes
    })
}

/// Waits for the end of a run and gives its exit code; a run that does not end is ended, and fails the test.
pub(crate) fn wait(child: &mut Child, what: &str) -> Option<i32> {
    let start = Instant::now();
    loop {
        if let Some(status) = child.try_wait().expect("the state of the run") {
            return status.code();
        }
        if start.elapsed() > PATIENCE {
            drop(child.kill());
            drop(child.wait());
            panic!("no end after {} s: {what}", PATIENCE.as_secs());
        }
        thread::sleep(Duration::from_millis(2));
    }
}

impl fmt::Debug for Done {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let start = |bytes: &[u8]| String::from_utf8_lossy(&bytes[..bytes.len().min(2000)]).into_owned();
        write!(f, "exit code {:?}\nstdout: {:?}\nstderr: {:?}", self.code, start(&self.stdout), start(&self.stderr))
    }
}

impl Done {
    pub(crate) fn out(&self) -> &str {
        std::str::from_utf8(&self.stdout).expect("standard output is UTF-8")
    }

    pub(crate) fn err(&self) -> &str {
        std::str::from_utf8(&self.stderr).expect("standard error is UTF-8")
    }

    pub(crate) fn json(&self) -> serde_json::Value {
        serde_json::from_str(self.out()).unwrap_or_else(|error| panic!("{error}: {self:?}"))
    }
}

/// A folder with one file in it.
pub(crate) fn folder_with(name: impl AsRef<Path>, content: impl AsRef<[u8]>) -> TempDir {
    let folder = TempDir::new().expect("a folder");
    fs::write(folder.path().join(name), content).expect("a file");
    folder
}

/// A folder with these files.
pub(crate) fn files_in_folder(files: &[(&str, &str)]) -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in files {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }
    folder
}
