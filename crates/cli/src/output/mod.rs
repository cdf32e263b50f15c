//! Results go to standard output, everything else to standard error; nothing of a text reaches a terminal raw.

mod progress;
mod sink;
pub(crate) mod table;

use std::borrow::Cow;
use std::fmt::Display;
use std::io::{self, Write};
use std::path::Path;

use anstyle::{AnsiColor, Style};
use serde::Serialize;

pub(crate) use progress::{progress, progress_is_over};
pub(crate) use sink::{Sink, goes_to_stdout, spare_the_stories};

/// Why a run ended early.
#[derive(Debug)]
pub(crate) enum Failure {
    /// A sentence for the user.
    Message(String),
    /// The reader of the output has gone: not our failure.
    ClosedPipe,
}

impl From<io::Error> for Failure {
    fn from(error: io::Error) -> Failure {
        match error.kind() {
            io::ErrorKind::BrokenPipe => Failure::ClosedPipe,
            _ => Failure::Message(format!("the results cannot be written: {error}")),
        }
    }
}

impl From<untaught::UnknownLesson> for Failure {
    fn from(unknown: untaught::UnknownLesson) -> Failure {
        Failure::Message(unknown.to_string())
    }
}

/// Prints a complaint on standard error.
pub(crate) fn complain(message: &str) {
    progress_is_over();
    let mut err = anstream::stderr().lock();
    let style = Style::new().bold().fg_color(Some(AnsiColor::Red.into()));
    // Nothing is left to do where even that fails.
    let _ = writeln!(err, "{style}untaught:{style:#} {}", safe(message));
}

/// What could not be done, for the formats that report it.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct Failed {
    /// The file or folder.
    pub(crate) file: String,
    /// A sentence for people.
    pub(crate) message: String,
}

impl Failed {
    pub(crate) fn new(file: &Path, message: String) -> Failed {
        Failed { file: file.display().to_string(), message }
    }

    /// Complains of it at once.
    pub(crate) fn complain(file: impl Into<String>, message: impl Into<String>) -> Failed {
        let failed = Failed { file: file.into(), message: message.into() };
        complain(&failed.message);
        failed
    }
}

/// Prints a remark on standard error: nothing failed.
pub(crate) fn remark(message: &str) {
    progress_is_over();
    // Nothing is left to do where even that fails.
    let _ = writeln!(anstream::stderr().lock(), "{DIM}untaught: note:{DIM:#} {}", safe(message));
}

/// Prints help, or what is wrong with the arguments, in which they stand as they were typed.
pub(crate) fn usage(error: &clap::Error) -> std::process::ExitCode {
    let text = error.render().to_string();
    // Nothing is left to do where printing fails.
    let _ = match error.use_stderr() {
        true => write!(anstream::stderr().lock(), "{}", safe(&text)),
        false => write!(anstream::stdout().lock(), "{text}"),
    };
    std::process::ExitCode::from(u8::try_from(error.exit_code()).unwrap_or(2))
}

/// Text without control characters: each is shown as its code.
pub(crate) fn safe(text: &str) -> impl Display + '_ {
    struct Safe<'t>(&'t str);
    impl Display for Safe<'_> {
        fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
            for c in self.0.chars() {
                match c {
                    '\n' | '\t' => write!(f, "{c}")?,
                    _ if is_unsafe(c) => write!(f, "{}", c.escape_unicode())?,
                    _ => write!(f, "{c}")?,
                }
            }
            Ok(())
        }
    }
    Safe(text)
}

/// The same in one line: for names and other things of a text that stand within a sentence.
pub(crate) fn one_line(text: &str) -> Cow<'_, str> {
    match is_plain(text) || !text.contains(is_unsafe) {
        true => Cow::Borrowed(text),
        false => Cow::Owned(safe(text).to_string().replace('\n', "\\u{a}").replace('\t', "\\u{9}")),
    }
}

/// A path in one line.
pub(crate) fn path_line(path: &Path) -> String {
    one_line(&path.display().to_string()).into_owned()
}

/// Words in lines of at most so many characters.
pub(crate) fn wrapped(words: &[&str], width: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 2 + word.chars().count() <= width => {
                *line += "  ";
                *line += word;
            }
            _ => lines.push((*word).to_owned()),
        }
    }
    lines
}

/// Control characters, and the marks that change the direction of writing, which can make a terminal lie.
pub(crate) fn is_unsafe(c: char) -> bool {
    let turns = matches!(c, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    c.is_control() || turns
}

/// Whether there is nothing but what ASCII prints: nearly always, and soon seen.
fn is_plain(text: &str) -> bool {
    text.bytes().fold(true, |plain, b| plain & (b' '..0x7f).contains(&b))
}

/// JSON in which no character acts on a terminal: those that JSON itself allows raw are escaped too.
struct Harmless;

impl serde_json::ser::Formatter for Harmless {
    fn write_string_fragment<W: ?Sized + Write>(&mut self, out: &mut W, fragment: &str) -> io::Result<()> {
        if is_plain(fragment) || !fragment.contains(is_unsafe) {
            return out.write_all(fragment.as_bytes());
        }
        for c in fragment.chars() {
            if is_unsafe(c) { write!(out, "\\u{:04x}", u32::from(c))? } else { write!(out, "{c}")? }
        }
        Ok(())
    }

    /// JSON that came in as it is. Between its parts white space may act on a terminal; its strings have none of that.
    fn write_raw_fragment<W: ?Sized + Write>(&mut self, out: &mut W, fragment: &str) -> io::Result<()> {
        self.write_string_fragment(out, &fragment.replace(['\n', '\r', '\t'], " "))
    }
}

/// A value as JSON.
pub(crate) fn json_bytes(value: &impl Serialize) -> io::Result<Vec<u8>> {
    let mut out = Vec::new();
    value.serialize(&mut serde_json::Serializer::with_formatter(&mut out, Harmless))?;
    Ok(out)
}

/// Prints a value as JSON, with a line end.
pub(crate) fn json(value: &impl Serialize) -> Result<(), Failure> {
    let mut out = io::BufWriter::with_capacity(1 << 16, io::stdout().lock());
    let mut serializer = serde_json::Serializer::with_formatter(&mut out, Harmless);
    value.serialize(&mut serializer).map_err(io::Error::from)?;
    out.write_all(b"\n")?;
    out.flush()?;
    Ok(())
}

/// Styles of the text report. Each goes with a mark or a word, so that nothing is said by colour alone.
pub(crate) const STRONG: Style = Style::new().bold();
pub(crate) const DIM: Style = Style::new().dimmed();
pub(crate) const UNTAUGHT: Style = Style::new().bold().fg_color(Some(anstyle::Color::Ansi(AnsiColor::Red)));
pub(crate) const TAUGHT: Style = Style::new().fg_color(Some(anstyle::Color::Ansi(AnsiColor::Green)));

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn control_characters_are_shown_not_sent() {
        assert_eq!(safe("a\u{1b}[31mb\u{7}\u{202e}c\n").to_string(), "a\\u{1b}[31mb\\u{7}\\u{202e}c\n");
        assert_eq!(one_line("a\u{1b}\n\tb\r"), "a\\u{1b}\\u{a}\\u{9}b\\u{d}");
    }
}
