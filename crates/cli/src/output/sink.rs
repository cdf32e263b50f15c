//! Where a report goes: standard output, or a file.

use std::fs::{self, File};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use tempfile::TempPath;

use super::escape::path_line;
use super::outcome::Failure;

/// Standard output, or a file that appears under its name only once it is whole.
pub(crate) struct Sink {
    destination: Destination,
}

enum Destination {
    /// Styles are shown where the terminal can.
    Styled(io::BufWriter<anstream::AutoStream<io::StdoutLock<'static>>>),
    Plain(io::BufWriter<io::StdoutLock<'static>>),
    /// Styles are left out here: left to the stream, each stretch between two of them would be a write of its own.
    Unstyled(io::BufWriter<io::StdoutLock<'static>>),
    File {
        out: io::BufWriter<File>,
        styled: bool,
        /// Where it lies until it is whole, and the place it takes then; none where it is written straight to its place.
        unfinished: Option<(TempPath, PathBuf)>,
        path: PathBuf,
    },
}

impl Sink {
    /// Opens a file, or standard output; `styled` where the report has styles for people.
    pub(crate) fn open(path: Option<&Path>, styled: bool) -> Result<Sink, Failure> {
        let path = named(path);
        let Some(path) = path.filter(|_| !goes_to_stdout(path)) else {
            let out = io::stdout().lock();
            let shown = path.is_none() && anstream::AutoStream::choice(&out) != anstream::ColorChoice::Never;
            let destination = match (styled, shown) {
                (true, true) => {
                    Destination::Styled(io::BufWriter::with_capacity(1 << 16, anstream::AutoStream::auto(out)))
                }
                (true, false) => Destination::Unstyled(io::BufWriter::with_capacity(1 << 16, out)),
                (false, _) => Destination::Plain(io::BufWriter::with_capacity(1 << 16, out)),
            };
            return Ok(Sink { destination });
        };
        let (file, unfinished) = match is_straight(path) {
            true => (File::options().append(true).open(path).map_err(|error| unwritable(path, &error))?, None),
            false => {
                let (file, unfinished) = begin(path)?;
                (file, Some(unfinished))
            }
        };
        let out = io::BufWriter::with_capacity(1 << 16, file);
        Ok(Sink { destination: Destination::File { out, styled, unfinished, path: path.to_owned() } })
    }

    /// Writes a value as JSON, with a line end.
    pub(crate) fn write_json(&mut self, value: &impl serde::Serialize) -> Result<(), Failure> {
        let mut bytes = super::json::json_bytes(value)?;
        bytes.push(b'\n');
        self.write(&bytes)
    }

    pub(crate) fn write(&mut self, bytes: &[u8]) -> Result<(), Failure> {
        match &mut self.destination {
            Destination::Styled(out) => out.write_all(bytes)?,
            Destination::Plain(out) => out.write_all(bytes)?,
            Destination::Unstyled(out) => {
                for unstyled in anstream::adapter::strip_bytes(bytes) {
                    out.write_all(unstyled)?;
                }
            }
            Destination::File { out, styled: true, .. } => {
                for unstyled in anstream::adapter::strip_bytes(bytes) {
                    out.write_all(unstyled)?;
                }
            }
            Destination::File { out, .. } => out.write_all(bytes)?,
        }
        Ok(())
    }

    pub(crate) fn flush(&mut self) -> Result<(), Failure> {
        match &mut self.destination {
            Destination::Styled(out) => out.flush()?,
            Destination::Plain(out) | Destination::Unstyled(out) => out.flush()?,
            Destination::File { out, .. } => out.flush()?,
        }
        Ok(())
    }

    /// Finishes the report.
    pub(crate) fn close(mut self) -> Result<(), Failure> {
        self.flush()?;
        if let Destination::File { out, unfinished: Some((unfinished, target)), path, .. } = self.destination {
            drop(out);
            unfinished.persist(target).map_err(|failed| unwritable(&path, &failed.error))?;
        }
        Ok(())
    }
}

/// Whether this is standard output or another name of it: opened anew, a file behind it would be written over from its beginning.
pub(crate) fn goes_to_stdout(path: Option<&Path>) -> bool {
    named(path).is_none_or(|path| cfg!(unix) && path == Path::new("/dev/stdout"))
}

/// The file that a report goes to; none for `-`, which is standard output even where a file is called so.
pub(crate) fn named(report: Option<&Path>) -> Option<&Path> {
    report.filter(|report| *report != Path::new("-"))
}

/// Refuses a report that would take the place of a story.
pub(crate) fn spare_the_stories<'a>(
    report: Option<&Path>,
    stories: impl IntoIterator<Item = &'a Path>,
) -> Result<(), Failure> {
    let report = named(report).filter(|report| report.is_file()).and_then(|report| report.canonicalize().ok());
    let Some(report) = report else { return Ok(()) };
    let mut stories = stories.into_iter().filter(|story| *story != Path::new("-"));
    match stories.find(|story| story.canonicalize().is_ok_and(|story| story == report)) {
        None => Ok(()),
        Some(story) => Err(Failure::Message(format!(
            "the report would overwrite the story {}; choose another name with --output",
            path_line(story)
        ))),
    }
}

/// Whether a report is written straight to where it goes: to what is no file, such as a pipe or a device, and to streams that are
/// open already, which may have a file behind them.
fn is_straight(path: &Path) -> bool {
    let is_stream = path == Path::new("/dev/stderr") || path.starts_with("/dev/fd") || path.starts_with("/proc");
    cfg!(unix) && is_stream || path.metadata().is_ok_and(|found| !found.is_file() && !found.is_dir())
}

/// Begins a file beside the one that it will replace. It goes if the run fails.
fn begin(path: &Path) -> Result<(File, (TempPath, PathBuf)), Failure> {
    if path.is_dir() {
        let path = path_line(path);
        return Err(Failure::Message(format!("the report cannot be written to {path}: it is a folder")));
    }
    let target = behind_links(path);
    let folder = target.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut builder = tempfile::Builder::new();
    builder.prefix("untaught-").suffix(".unfinished");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        // As for any new file: what the user's mask leaves.
        builder.permissions(fs::Permissions::from_mode(0o666));
    }
    let (file, unfinished) = builder.tempfile_in(folder).map_err(|error| unwritable(path, &error))?.into_parts();
    if let (true, Ok(before)) = (cfg!(unix), fs::metadata(&target)) {
        file.set_permissions(before.permissions()).map_err(|error| unwritable(path, &error))?;
    }
    Ok((file, (unfinished, target)))
}

/// The file that a link leads to, and that one's if it is a link too; it need not exist.
fn behind_links(path: &Path) -> PathBuf {
    /// As many as systems follow.
    const LINKS: usize = 40;
    let mut path = path.to_owned();
    for _ in 0..LINKS {
        let Ok(to) = fs::read_link(&path) else { break };
        path = path.parent().unwrap_or(Path::new("")).join(to);
    }
    path
}

fn unwritable(path: &Path, error: &io::Error) -> Failure {
    let why = match error.kind() {
        io::ErrorKind::NotFound => "there is no such folder".to_owned(),
        io::ErrorKind::PermissionDenied => "permission denied".to_owned(),
        _ => error.to_string(),
    };
    Failure::Message(format!("the report cannot be written to {}: {why}", path_line(path)))
}
