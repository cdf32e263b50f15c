//! `untaught scope`.

mod against;

use untaught::{Scope, advise};
use untaught_config::ScopeReference;

use crate::args::{ScopeArgs, ScopeFormat};
use crate::output::{Failure, Outcome, Sink, path_line};
use crate::reports::scope as report;
use crate::settings::RunSettings;

pub(crate) fn run(args: &ScopeArgs) -> Result<Outcome, Failure> {
    let settings = RunSettings::new(args.settings(), &args.config)?;
    let scope = settings.scope_without_text()?;
    if let Some(other) = &args.against.against {
        return against::run(args, scope, other, &settings);
    }
    match args.format {
        ScopeFormat::Json => {
            report::json(scope, &advise(scope, settings.reader, untaught_lists::is_known_to_children))?
        }
        ScopeFormat::Text => {
            report::text(scope, &advise(scope, settings.reader, untaught_lists::is_known_to_children))?
        }
        ScopeFormat::Yaml => {
            let mut sink = Sink::open(None, false)?;
            sink.write(text(&settings.scope_reference_without_text()?)?.as_bytes())?;
            sink.close()?;
        }
    }
    Ok(Outcome::Met)
}

/// The text of a scope file, which has been found to be sound.
fn text(reference: &ScopeReference) -> Result<String, Failure> {
    match reference {
        ScopeReference::BuiltIn(name) => {
            let found = Scope::all_embedded().find(|(known, _)| known == name);
            Ok(found.map_or_else(String::new, |(_, text)| text.to_owned()))
        }
        ScopeReference::File(path) => std::fs::read_to_string(path)
            .map_err(|error| Failure::Message(format!("{} cannot be read: {error}", path_line(path)))),
    }
}
