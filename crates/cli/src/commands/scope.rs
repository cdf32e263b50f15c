//! `untaught scope`.

use untaught::{Reader, advise};

use crate::args::{ScopeArgs, TextOrJson};
use crate::input;
use crate::output::{Failure, Outcome};
use crate::reports::scope as report;

pub(crate) fn run(args: &ScopeArgs) -> Result<Outcome, Failure> {
    let reader = Reader::default();
    let scope = input::scope(args.scope.as_deref(), &reader)?;
    let advice = advise(&scope, &reader);
    match args.format {
        TextOrJson::Json => report::json(&scope, &advice)?,
        TextOrJson::Text => report::text(&scope, &advice)?,
    }
    Ok(Outcome::Met)
}
