//! `untaught scope`.

use untaught::advise;

use crate::args::{ScopeArgs, TextOrJson};
use crate::output::{Failure, Outcome};
use crate::reports::scope as report;
use crate::settings::RunSettings;

pub(crate) fn run(args: &ScopeArgs) -> Result<Outcome, Failure> {
    let settings = RunSettings::new(args.settings(), &args.config)?;
    let scope = settings.scope_without_text()?;
    let advice = advise(scope, settings.reader);
    match args.format {
        TextOrJson::Json => report::json(scope, &advice)?,
        TextOrJson::Text => report::text(scope, &advice)?,
    }
    Ok(Outcome::Met)
}
