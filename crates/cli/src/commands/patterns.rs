//! `untaught patterns`.

use untaught::messages::excerpt;
use untaught_phonics::{CORRESPONDENCES, Correspondence, Grade, spelled_in};

use crate::args::{PatternsArgs, TextOrJson};
use crate::output::{Failure, Outcome};
use crate::reports::patterns as report;

pub(crate) fn run(args: &PatternsArgs) -> Result<Outcome, Failure> {
    for wanted in &args.spellings {
        if spelled_in(&normal(wanted), args.accent).next().is_none() {
            return Err(Failure::Message(format!(
                "the catalogue has no spelling {}; untaught patterns lists all",
                excerpt(wanted)
            )));
        }
    }
    let chosen: Vec<&Correspondence> = CORRESPONDENCES
        .iter()
        .filter(|part| part.is_in(args.accent))
        .filter(|part| args.all || !args.spellings.is_empty() || part.grade != Grade::Odd)
        .filter(|part| args.spellings.is_empty() || args.spellings.iter().any(|wanted| normal(wanted) == part.spelling))
        .collect();
    match args.format {
        TextOrJson::Json => report::json(&chosen, args.accent)?,
        TextOrJson::Text => report::text(&chosen, args.accent)?,
    }
    Ok(Outcome::Met)
}

/// `a-e` is `a_e`.
fn normal(spelling: &str) -> String {
    spelling.to_lowercase().replace('-', "_")
}
