//! `untaught explain`.

use untaught::messages::excerpt;
use untaught::{Explanation, Judge, Scope, tokens};
use untaught_config::DEFAULT_SCOPE;

use crate::args::{ExplainArgs, TextOrJson};
use crate::output::{self, Failure, Outcome, complain};
use crate::reports::explain as report;
use crate::settings::RunSettings;

pub(crate) fn run(args: &ExplainArgs) -> Result<Outcome, Failure> {
    let settings = RunSettings::new(args.settings(), &args.config)?;
    let own;
    let (reader, scope) = match args.accent {
        None => (settings.reader, settings.scope_without_text()?),
        Some(accent) => {
            let reader = settings.reader.in_accent(accent);
            own = Scope::embedded(DEFAULT_SCOPE, reader)
                .ok_or_else(|| Failure::Message("the default scope cannot be read in this accent".to_owned()))?;
            (reader, &own)
        }
    };
    let judge = Judge::new(reader, scope);
    let mut outcome = Outcome::Met;
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
            // The other words are explained all the same.
            complain(format!("“{}” is not a word", excerpt(argument)));
            outcome = Outcome::Failed;
        }
    }
    match args.format {
        TextOrJson::Json => output::json(&explained)?,
        TextOrJson::Text => {
            let mut out = anstream::stdout().lock();
            for word in &explained {
                report::word(&mut out, word, scope)?;
            }
        }
    }
    Ok(outcome)
}
