//! How reports for people look.

use anstyle::{AnsiColor, Style};

/// Styles of the text report. Each goes with a mark or a word, so that nothing depends on colour alone.
pub(crate) const STRONG: Style = Style::new().bold();
pub(crate) const DIM: Style = Style::new().dimmed();
pub(crate) const UNTAUGHT: Style = Style::new().bold().fg_color(Some(anstyle::Color::Ansi(AnsiColor::Red)));
pub(crate) const TAUGHT: Style = Style::new().fg_color(Some(anstyle::Color::Ansi(AnsiColor::Green)));

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

/// A number of things: `1 word`, `3 words`.
pub(crate) fn count(n: usize, one: &str) -> String {
    if n == 1 { format!("1 {one}") } else { format!("{n} {one}s") }
}
