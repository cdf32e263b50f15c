//! The values that shell completions offer: scopes and the lessons of the scope on the command line so far.
//!
//! The completion scripts run the program with the variable [`VARIABLE`] set to a kind and the words of the command line before the one
//! that is completed. It prints a value, a tab and what the value is in each line, or nothing where there is nothing to offer: a
//! completion never complains.

use std::ffi::OsString;

use untaught::Scope;
use untaught_config::CommandLineSettings;

use crate::args::ConfigArgs;
use crate::output::{Failure, Outcome, Sink, one_line};
use crate::settings::RunSettings;

/// The environment variable by which the scripts ask.
pub(crate) const VARIABLE: &str = "UNTAUGHT_COMPLETE";

/// Prints the values of a kind: `scopes` or `lessons`.
pub(crate) fn run(kind: &str, words: impl Iterator<Item = OsString>) -> Result<Outcome, Failure> {
    let words: Vec<String> = words.filter_map(|word| word.into_string().ok()).collect();
    let mut sink = Sink::open(None, false)?;
    for (value, about) in values(kind, &words).unwrap_or_default() {
        sink.write(format!("{}\t{}\n", one_line(&value), one_line(&about)).as_bytes())?;
    }
    sink.close()?;
    Ok(Outcome::Met)
}

fn values(kind: &str, words: &[String]) -> Result<Vec<(String, String)>, Failure> {
    match kind {
        "scopes" => Ok(Scope::all_embedded().map(|(name, text)| (name.to_owned(), title(text))).collect()),
        "lessons" => {
            let command_line =
                CommandLineSettings { scope: value_of(words, "-s", "--scope"), ..CommandLineSettings::default() };
            let config = ConfigArgs {
                config: value_of(words, "", "--config").map(Into::into),
                no_config: words.iter().any(|word| word == "--no-config"),
            };
            let scope = RunSettings::new(command_line, &config)?.scope_quietly()?;
            let lessons = scope.indexed_lessons().map(|(_, lesson)| (lesson.id.clone(), lesson.title.clone()));
            Ok(lessons.collect())
        }
        _ => Ok(Vec::new()),
    }
}

/// The title in the text of a scope file, without reading all of it.
fn title(text: &str) -> String {
    let line = text.lines().find_map(|line| line.strip_prefix("title:"));
    line.map(|title| title.trim().trim_matches('"').to_owned()).unwrap_or_default()
}

/// The last value of an option: `-s X`, `-sX`, `--scope X`, `--scope=X`, or `--scope = X` as some shells divide it.
fn value_of(words: &[String], short: &str, long: &str) -> Option<String> {
    let mut found = None;
    let mut words = words.iter().map(String::as_str).peekable();
    while let Some(word) = words.next() {
        if word == long || word == short && !short.is_empty() {
            words.next_if_eq(&"=");
            found = words.peek().copied().or(found);
        } else if let Some(value) = word.strip_prefix(long).and_then(|rest| rest.strip_prefix('=')) {
            found = Some(value);
        } else if !short.is_empty()
            && let Some(value) = word.strip_prefix(short)
        {
            found = Some(value);
        }
    }
    found.map(|value| value.trim_matches(['"', '\'']).to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_scope_is_found_however_it_is_written() {
        for (line, scope) in [
            ("check -s dolch", Some("dolch")),
            ("check -sdolch -l", Some("dolch")),
            ("check --scope dolch a.txt", Some("dolch")),
            ("check --scope=dolch", Some("dolch")),
            ("check --scope = dolch", Some("dolch")),
            ("check --scope='a.yaml'", Some("a.yaml")),
            ("check -s dolch -s starter", Some("starter")),
            ("check --scope", None),
            ("check --story-words s", None),
            ("check --suggest", None),
        ] {
            let words: Vec<String> = line.split(' ').map(str::to_owned).collect();
            assert_eq!(value_of(&words, "-s", "--scope").as_deref(), scope, "{line}");
        }
    }
}
