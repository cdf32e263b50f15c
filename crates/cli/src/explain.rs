//! `untaught explain`.

use untaught::{Explanation, Judge, PartExplained, ReadingExplained, Scope, tokens};

use crate::Outcome;
use crate::args::{Explain, Format};
use crate::output::{self, DIM, Failure, STRONG, safe};
use crate::settings::RunSettings;

pub(crate) fn run(args: &Explain) -> Result<Outcome, Failure> {
    let settings = RunSettings::new(args.settings(), &args.config)?;
    let scope = settings.scope_without_text()?;
    let judge = Judge::new(settings.reader, scope);
    let mut explained: Vec<Explanation<'_>> = Vec::new();
    for argument in &args.words {
        // What is pasted with a word, such as its quotation marks, is no part of it; two words are two.
        let before = explained.len();
        for token in tokens(argument) {
            let word = &argument[token.span];
            if word.chars().any(char::is_alphabetic) {
                explained.push(judge.explain(word));
            }
        }
        if explained.len() == before {
            return Err(Failure::Message(format!("“{argument}” is not a word")));
        }
    }
    match args.format {
        Format::Json => {
            output::json(&explained)?;
        }
        Format::Text => {
            let mut out = anstream::stdout().lock();
            for word in &explained {
                print(&mut out, word, scope)?;
            }
        }
    }
    Ok(Outcome::Met)
}

fn print(out: &mut impl std::io::Write, word: &Explanation<'_>, scope: &Scope) -> Result<(), Failure> {
    let origin = word.where_from().map_or_else(String::new, |origin| format!(", {origin}"));
    writeln!(out, "{STRONG}{}{STRONG:#}  {}{origin}", safe(&word.word), safe(&word.when()))?;
    for reading in &word.readings {
        let cut: Vec<&str> = reading.parts.iter().map(|part| part.spelling.as_str()).collect();
        let sounds = if reading.ipa.is_empty() { String::new() } else { format!("/{}/  ", reading.ipa) };
        let made = reading.made_of.as_ref().map_or_else(String::new, |made| format!("  {DIM}= {made}{DIM:#}"));
        writeln!(out, "  {}{}{made}", safe(&sounds), safe(&cut.join("·")))?;
        let (wide, sound) = (widest(reading, |p| &p.spelling), widest(reading, |p| &p.ipa));
        let label = widest(reading, |p| &p.pattern);
        for part in &reading.parts {
            let lesson = match part.lesson {
                Some(id) => format!("lesson {}", safe(id)),
                None if part.need.is_whole_word() => String::new(),
                None => "never taught".to_owned(),
            };
            let ipa = if part.ipa.is_empty() { String::new() } else { format!("/{}/", part.ipa) };
            let line = format!(
                "    {:<wide$}  {ipa}{:pad$}  {:<label$}  {DIM}{lesson}{DIM:#}",
                safe(&part.spelling).to_string(),
                "",
                safe(&part.pattern).to_string(),
                pad = (sound + 2).saturating_sub(ipa.chars().count()),
            );
            writeln!(out, "{}", line.trim_end())?;
        }
        let also = reading.also(scope);
        if !also.is_empty() {
            writeln!(out, "    {DIM}also: {}{DIM:#}", safe(&also.join("; ")))?;
        }
    }
    Ok(())
}

fn widest<'r>(reading: &'r ReadingExplained<'_>, column: impl Fn(&'r PartExplained<'_>) -> &'r String) -> usize {
    reading.parts.iter().map(|part| column(part).chars().count()).max().unwrap_or(0)
}
