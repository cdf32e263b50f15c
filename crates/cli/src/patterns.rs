//! `untaught patterns`.

use std::io::Write as _;

use serde::Serialize;
use untaught::say::excerpt;
use untaught_phonics::{CORRESPONDENCES, Correspondence, Grade};

use crate::Outcome;
use crate::args::{Format, Patterns};
use crate::output::{self, DIM, Failure, STRONG};

#[derive(Serialize)]
struct Pattern {
    spelling: &'static str,
    sound: &'static str,
    ipa: &'static str,
    key: &'static str,
    grade: &'static str,
}

pub(crate) fn run(args: &Patterns) -> Result<Outcome, Failure> {
    for wanted in &args.spellings {
        if !CORRESPONDENCES.iter().any(|part| part.spelling == normal(wanted)) {
            return Err(Failure::Message(format!(
                "the catalogue has no spelling {}; untaught patterns lists all",
                excerpt(wanted)
            )));
        }
    }
    let chosen: Vec<&Correspondence> = CORRESPONDENCES
        .iter()
        .filter(|part| args.all || !args.spellings.is_empty() || part.grade != Grade::Odd)
        .filter(|part| args.spellings.is_empty() || args.spellings.iter().any(|wanted| normal(wanted) == part.spelling))
        .collect();
    match args.format {
        Format::Json => {
            let rows: Vec<Pattern> = chosen.iter().map(|part| pattern(part)).collect();
            output::json(&rows)?;
        }
        Format::Text => {
            let mut out = std::io::BufWriter::new(anstream::stdout().lock());
            writeln!(out, "{DIM}spelling  sound   key word     how ordinary{DIM:#}")?;
            for part in &chosen {
                let row = pattern(part);
                let pad = 6usize.saturating_sub(row.ipa.chars().count());
                writeln!(
                    out,
                    "{STRONG}{:<8}{STRONG:#}  /{}/{:pad$}{:<12} {DIM}{}{DIM:#}",
                    row.spelling,
                    row.ipa,
                    "",
                    row.key,
                    ordinary(part.grade)
                )?;
            }
            let spellings: std::collections::BTreeSet<&str> = chosen.iter().map(|part| part.spelling).collect();
            let count = |n: usize, what: &str| format!("{n} {what}{}", if n == 1 { "" } else { "s" });
            writeln!(out, "\n{}, {}", count(spellings.len(), "spelling"), count(chosen.len(), "correspondence"))?;
            out.flush()?;
        }
    }
    Ok(Outcome::Met)
}

/// How ordinary a correspondence is, for people.
fn ordinary(grade: Grade) -> &'static str {
    match grade {
        Grade::Everyday => "everyday: taught by the bare spelling",
        Grade::Common => "common",
        Grade::Rare => "rare",
        Grade::Odd => "one word and its family, or names",
    }
}

/// `a-e` is `a_e`.
fn normal(spelling: &str) -> String {
    spelling.to_lowercase().replace('-', "_")
}

fn pattern(part: &Correspondence) -> Pattern {
    let sound = part.sound.get();
    Pattern {
        spelling: part.spelling,
        sound: sound.arpabet,
        ipa: sound.ipa[0],
        key: part.key,
        grade: match part.grade {
            Grade::Everyday => "everyday",
            Grade::Common => "common",
            Grade::Rare => "rare",
            Grade::Odd => "odd",
        },
    }
}
