//! `untaught check --show-config`: each text's effective settings, and where each comes from.

use std::path::Path;

use serde::Serialize;
use serde_json::{Value, json};
use untaught_config::{Origin, Sourced};

use crate::Outcome;
use crate::args::{Check, Report};
use crate::output::{self, DIM, Failure, STRONG, Sink, complain, one_line};
use crate::settings::{Plan, RunSettings, described, shown_scope};
use crate::texts::{Found, Gather, read};

#[derive(Serialize)]
struct Shown {
    file: String,
    settings: Vec<Setting>,
}

#[derive(Serialize)]
struct Setting {
    key: &'static str,
    value: Value,
    from: String,
}

pub(super) fn run(args: &Check, settings: &RunSettings, found: Gather<'_>) -> Result<Outcome, Failure> {
    let json = match args.format {
        Report::Text => false,
        Report::Json => true,
        _ => return Err(Failure::Message("--show-config goes with --format text or json".to_owned())),
    };
    let mut failed = false;
    let mut all = Vec::new();
    let plan = |path: &Path| {
        let source = read(path, &args.texts.stdin_name)?;
        Ok((settings.plan(&source)?, source.name))
    };
    for found in found {
        let plan = match found {
            Found::File(path) => plan(&path),
            Found::Failed(_, message) => Err(message),
            Found::Odd(message) => {
                complain(&message);
                continue;
            }
        };
        match plan {
            Ok((plan, file)) => all.push(Shown { file, settings: listed(&plan) }),
            Err(message) => {
                complain(&message);
                failed = true;
            }
        }
    }
    let mut sink = Sink::open(args.texts.output.as_deref(), !json)?;
    if json {
        sink.write(&output::json_bytes(&all)?)?;
        sink.write(b"\n")?;
    } else {
        for shown in &all {
            sink.write(format!("{STRONG}{}{STRONG:#}\n", one_line(&shown.file)).as_bytes())?;
            for Setting { key, value, from } in &shown.settings {
                let value = value.as_str().map_or_else(|| value.to_string(), ToOwned::to_owned);
                sink.write(format!("  {key:<14} {}  {DIM}({}){DIM:#}\n", one_line(&value), one_line(from)).as_bytes())?;
            }
        }
    }
    sink.close()?;
    Ok(if failed { Outcome::Failed } else { Outcome::Met })
}

fn listed(plan: &Plan) -> Vec<Setting> {
    let set = |key: &'static str, value: Value, origin: &Origin| Setting { key, value, from: described(origin) };
    let settings = &plan.settings;
    let lesson = plan.scope.lesson(plan.lesson).map(|lesson| lesson.id.clone());
    let of_lesson = settings.lesson.as_ref().map_or(&Origin::Default, |lesson| &lesson.origin);
    let mut all = vec![
        set("scope", json!(shown_scope(&settings.scope.value)), &settings.scope.origin),
        set("lesson", json!(lesson), of_lesson),
    ];
    let percents = [
        ("min-decodable", settings.min_decodable.as_ref()),
        ("min-readable", Some(&settings.min_readable)),
        ("min-focus", settings.min_focus.as_ref()),
    ];
    for (key, percent) in percents {
        all.extend(percent.map(|percent| set(key, json!(percent.value), &percent.origin)));
    }
    let lists: [(_, &[Sourced<String>]); 3] =
        [("name", &settings.names), ("story word", &settings.story_words), ("focus", &settings.focus)];
    for (key, list) in lists {
        all.extend(list.iter().map(|word| set(key, json!(word.value), &word.origin)));
    }
    if settings.allow_names.value {
        all.push(set("names", json!("allow"), &settings.allow_names.origin));
    }
    all
}
