//! Words explained, for people. For programs, `untaught::Explanation` is serialised as it is.

use std::io::Write;

use untaught::{Explanation, PartExplanation, ReadingExplanation, Scope};

use crate::output::{DIM, Failure, STRONG, one_line};

/// Prints all about a word.
pub(crate) fn word(out: &mut impl Write, word: &Explanation<'_>, scope: &Scope) -> Result<(), Failure> {
    let origin = word.where_from().map_or_else(String::new, |origin| format!(", {origin}"));
    writeln!(out, "{STRONG}{}{STRONG:#}  {}{origin}", one_line(&word.word), one_line(&word.when()))?;
    for reading in &word.readings {
        let cut: Vec<&str> = reading.parts.iter().map(|part| part.spelling.as_str()).collect();
        let sounds = if reading.ipa.is_empty() { String::new() } else { format!("/{}/  ", reading.ipa) };
        let made =
            reading.made_of.as_ref().map_or_else(String::new, |made| format!("  {DIM}= {}{DIM:#}", one_line(made)));
        writeln!(out, "  {}{}{made}", one_line(&sounds), one_line(&cut.join("·")))?;
        let (wide, sound) = (widest(reading, |p| &p.spelling), widest(reading, |p| &p.ipa));
        // What is taught whole has no lesson beside it, and need not widen the column.
        let taught = reading.parts.iter().filter(|part| !part.need.is_whole_word());
        let label = taught.map(|part| part.pattern.chars().count()).max().unwrap_or(0).min(WIDEST);
        for part in &reading.parts {
            let ipa = if part.ipa.is_empty() { String::new() } else { format!("/{}/", part.ipa) };
            let pad = (sound + 2).saturating_sub(ipa.chars().count());
            write!(out, "    {:<wide$}  {ipa}{:pad$}  ", one_line(&part.spelling), "")?;
            let pattern = one_line(&part.pattern);
            match part.lesson {
                Some(id) => writeln!(out, "{pattern:<label$}  {DIM}lesson {}{DIM:#}", one_line(id))?,
                None if part.need.is_whole_word() => writeln!(out, "{pattern}")?,
                None => writeln!(out, "{pattern:<label$}  {DIM}never taught{DIM:#}")?,
            }
        }
        let also = reading.also(scope);
        if !also.is_empty() {
            writeln!(out, "    {DIM}also: {}{DIM:#}", one_line(&also.join("; ")))?;
        }
    }
    Ok(())
}

/// The widest that a column is padded to, in characters.
const WIDEST: usize = 100;

fn widest<'r>(reading: &'r ReadingExplanation<'_>, column: impl Fn(&'r PartExplanation<'_>) -> &'r String) -> usize {
    reading.parts.iter().map(|part| column(part).chars().count()).max().unwrap_or(0).min(WIDEST)
}
