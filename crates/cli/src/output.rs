//! Results go to standard output, everything else to standard error; nothing of a text reaches a terminal raw.

use std::fmt::Display;
use std::io::{self, Write};

use anstyle::{AnsiColor, Style};

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

/// Prints a complaint on standard error.
pub(crate) fn complain(message: &str) {
    let mut err = anstream::stderr().lock();
    let style = Style::new().bold().fg_color(Some(AnsiColor::Red.into()));
    // Nothing is left to do where even that fails.
    let _ = writeln!(err, "{style}untaught:{style:#} {}", safe(message));
}

/// Text without control characters: each is shown as its code.
pub(crate) fn safe(text: &str) -> impl Display + '_ {
    struct Safe<'t>(&'t str);
    impl Display for Safe<'_> {
        fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
            for c in self.0.chars() {
                match c {
                    '\n' | '\t' => write!(f, "{c}")?,
                    // Marks that change the direction of writing can make a terminal lie.
                    '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => write!(f, "{}", c.escape_unicode())?,
                    _ if c.is_control() => write!(f, "{}", c.escape_unicode())?,
                    _ => write!(f, "{c}")?,
                }
            }
            Ok(())
        }
    }
    Safe(text)
}

/// Prints a value as JSON, with a line end.
pub(crate) fn json(value: &impl serde::Serialize) -> Result<(), Failure> {
    let mut out = io::BufWriter::with_capacity(1 << 16, io::stdout().lock());
    serde_json::to_writer(&mut out, value).map_err(io::Error::from)?;
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
    }
}
