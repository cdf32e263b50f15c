//! The catalogue of correspondences.

use std::collections::BTreeSet;
use std::io::{BufWriter, Write as _};

use serde::Serialize;
use untaught_phonics::{Accent, Correspondence, Grade};

use crate::output::{self, DIM, Failure, STRONG, count};

#[derive(Serialize)]
struct CorrespondenceReport {
    spelling: &'static str,
    sound: &'static str,
    ipa: &'static str,
    key: &'static str,
    grade: &'static str,
}

/// Prints correspondences for programs.
pub(crate) fn json(chosen: &[&Correspondence], accent: Accent) -> Result<(), Failure> {
    let rows: Vec<CorrespondenceReport> = chosen.iter().map(|part| report(part, accent)).collect();
    output::json(&rows)
}

/// Prints correspondences for people.
pub(crate) fn text(chosen: &[&Correspondence], accent: Accent) -> Result<(), Failure> {
    let mut out = BufWriter::new(anstream::stdout().lock());
    writeln!(out, "{DIM}spelling  sound   key word     how common{DIM:#}")?;
    for part in chosen {
        let row = report(part, accent);
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
    let spellings: BTreeSet<&str> = chosen.iter().map(|part| part.spelling).collect();
    writeln!(out, "\n{}, {}", count(spellings.len(), "spelling"), count(chosen.len(), "correspondence"))?;
    out.flush()?;
    Ok(())
}

/// How ordinary a correspondence is, for people.
fn ordinary(grade: Grade) -> &'static str {
    match grade {
        Grade::Everyday => "common: taught by the spelling alone",
        Grade::Common => "common",
        Grade::Rare => "rare",
        Grade::Odd => "one word and its family, or names",
    }
}

fn report(part: &Correspondence, accent: Accent) -> CorrespondenceReport {
    let sound = part.sound.get();
    CorrespondenceReport {
        spelling: part.spelling,
        sound: sound.arpabet,
        ipa: sound.ipa(accent),
        key: part.key,
        grade: match part.grade {
            Grade::Everyday => "everyday",
            Grade::Common => "common",
            Grade::Rare => "rare",
            Grade::Odd => "odd",
        },
    }
}
