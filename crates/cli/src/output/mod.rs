//! Results go to standard output, everything else to standard error; nothing of a text reaches a terminal raw.

mod message;
mod progress;
mod sink;
pub(crate) mod table;

use std::borrow::Cow;
use std::fmt::Display;
use std::io::{self, Write};
use std::path::Path;

use anstyle::{AnsiColor, Style};
use serde::Serialize;
use untaught::say::excerpt;

pub(crate) use message::Message;
pub(crate) use progress::{progress, progress_is_over};
pub(crate) use sink::{Sink, goes_to_stdout, named, spare_the_stories};

/// Why a run ended early.
#[derive(Debug)]
pub(crate) enum Failure {
    /// A sentence for the user.
    Message(String),
    /// A sentence and the faults of a file.
    Faults(Message),
    /// The reader of the output has gone: not our failure.
    ClosedPipe,
}

impl From<Message> for Failure {
    fn from(message: Message) -> Failure {
        Failure::Faults(message)
    }
}

impl From<io::Error> for Failure {
    fn from(error: io::Error) -> Failure {
        match error.kind() {
            io::ErrorKind::BrokenPipe => Failure::ClosedPipe,
            _ => Failure::Message(format!("the results cannot be written: {error}")),
        }
    }
}

/// Prints a complaint on standard error, which may have things from outside in it as they are.
pub(crate) fn complain(message: impl Into<Message>) {
    complain_of(&message.into().to_string());
}

/// Prints what is harmless already.
fn complain_of(told: &str) {
    progress_is_over();
    let mut err = anstream::stderr().lock();
    let style = Style::new().bold().fg_color(Some(AnsiColor::Red.into()));
    // Nothing is left to do where even that fails.
    let _ = writeln!(err, "{style}untaught:{style:#} {told}");
}

/// What could not be done, for the formats that report it.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct Failed {
    /// The file or folder.
    pub(crate) file: String,
    /// A sentence for people, harmless as it is.
    pub(crate) message: String,
}

impl Failed {
    pub(crate) fn new(file: impl Into<String>, message: impl Into<Message>) -> Failed {
        Failed { file: file.into(), message: message.into().to_string() }
    }

    /// Complains of it.
    pub(crate) fn complain(self) -> Failed {
        complain_of(&self.message);
        self
    }
}

/// Prints a remark on standard error, in which things from outside may be as they are: nothing failed.
pub(crate) fn remark(message: &str) {
    progress_is_over();
    // Nothing is left to do where even that fails.
    let _ = writeln!(anstream::stderr().lock(), "{DIM}untaught: note:{DIM:#} {}", message::shown(message));
}

/// Prints help, or what is wrong with the arguments, which are quoted in one line each.
pub(crate) fn usage(mut error: clap::Error) -> std::process::ExitCode {
    use clap::error::ContextValue as Value;
    let one = |text: &String| one_line(&excerpt(text)).into_owned();
    let tip = |text: &clap::builder::StyledStr| message::shown(&text.to_string()).into_owned().into();
    let quoted: Vec<_> = error
        .context()
        .filter_map(|(kind, value)| match value {
            Value::String(text) => Some((kind, Value::String(one(text)))),
            Value::Strings(texts) => Some((kind, Value::Strings(texts.iter().map(one).collect()))),
            Value::StyledStrs(tips) => Some((kind, Value::StyledStrs(tips.iter().map(tip).collect()))),
            _ => None,
        })
        .collect();
    for (kind, value) in quoted {
        error.insert(kind, value);
    }
    let text = error.render().to_string();
    // Nothing is left to do where printing fails.
    let _ = match error.use_stderr() {
        true => write!(anstream::stderr().lock(), "{}", safe(&text)),
        false => write!(anstream::stdout().lock(), "{text}"),
    };
    std::process::ExitCode::from(u8::try_from(error.exit_code()).unwrap_or(2))
}

/// Text without control characters: each is shown as its code. The ends of its lines stay, so that it must not stand within a line.
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

/// The same in one line: for names and other things of a text that stand within a sentence, or at its beginning.
pub(crate) fn one_line(text: &str) -> Cow<'_, str> {
    let mut text = match is_plain(text) || !text.contains(is_unsafe) {
        true => Cow::Borrowed(text),
        false => Cow::Owned(safe(text).to_string().replace('\n', "\\u{a}").replace('\t', "\\u{9}")),
    };
    // What commands a log: `::error::` at the beginning of a line, `##[error]` and `##vso[task.complete]` anywhere.
    if text.trim_start().starts_with("::") {
        text = Cow::Owned(text.replacen(':', "\\u{3a}", 1));
    }
    if text.contains("##") {
        let mut shown = String::new();
        for (at, c) in text.char_indices() {
            let rest = text[at..].strip_prefix('#').filter(|_| text[..at].ends_with('#'));
            match rest.is_some_and(|rest| rest.trim_start_matches(char::is_alphanumeric).starts_with('[')) {
                true => shown += "\\u{23}",
                false => shown.push(c),
            }
        }
        text = Cow::Owned(shown);
    }
    text
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

    #[test]
    fn nothing_commands_a_log() {
        for (text, shown) in [
            ("::error::x", "\\u{3a}:error::x"),
            (" \u{a0}::error::x", " \u{a0}\\u{3a}:error::x"),
            ("a::error::x", "a::error::x"),
            ("a ##[error]x", "a #\\u{23}[error]x"),
            ("##vso[task.complete]", "#\\u{23}vso[task.complete]"),
            ("###[a] ## b [c] ##", "##\\u{23}[a] ## b [c] ##"),
        ] {
            assert_eq!(one_line(text), shown);
        }
    }
}
