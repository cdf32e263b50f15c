//! `untaught check --show-config`: what holds for each text, and who said so.

use std::path::Path;

use serde::Serialize;
use serde_json::json;

use crate::Outcome;
use crate::args::{Check, Report};
use crate::output::{self, DIM, Failure, Message, STRONG, Sink, complain, one_line};
use crate::texts::{Found, Gather, Plan, Said, Settings, read};

#[derive(Serialize)]
struct Shown {
    file: String,
    settings: Vec<Setting>,
}

#[derive(Serialize)]
struct Setting {
    key: &'static str,
    value: serde_json::Value,
    from: String,
}

pub(super) fn run(args: &Check, settings: &Settings, found: Gather<'_>) -> Result<Outcome, Failure> {
    let json = match args.format {
        Report::Text => false,
        Report::Json => true,
        _ => return Err(Failure::Message("--show-config goes with --format text or json".to_owned())),
    };
    let mut failed = false;
    let mut all = Vec::new();
    let plan = |path: &Path| {
        let source = read(path, &args.texts.stdin_name)?;
        Ok::<_, Message>((settings.plan(args.typed(), &source)?, source.name))
    };
    for found in found {
        let plan = match found {
            Found::File(path) => plan(&path),
            Found::Failed(_, message) => Err(message.into()),
            Found::Odd(message) => {
                complain(message);
                continue;
            }
        };
        match plan {
            Ok((plan, file)) => all.push(Shown { file, settings: listed(&plan) }),
            Err(message) => {
                complain(message);
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
    let set = |key: &'static str, value: serde_json::Value, said: &Said| Setting { key, value, from: said.to_string() };
    let lesson = plan.scope.lesson(plan.lesson).map(|lesson| lesson.id.clone());
    let mut all = vec![
        set("scope", json!(plan.scope_name.0), &plan.scope_name.1),
        set("lesson", json!(lesson), &plan.lesson_said),
    ];
    let [decodable, readable, focus] = &plan.thresholds_said;
    if let Some(least) = plan.thresholds.decodable {
        all.push(set("min-decodable", json!(least), decodable));
    }
    all.push(set("min-readable", json!(plan.thresholds.readable), readable));
    if let Some(least) = plan.thresholds.focus {
        all.push(set("min-focus", json!(least), focus));
    }
    for (key, list) in [("name", &plan.names), ("story word", &plan.story_words), ("focus", &plan.focus)] {
        all.extend(list.iter().map(|(text, said)| set(key, json!(text), said)));
    }
    if plan.allow_names {
        all.push(set("names", json!("allow"), &Said::CommandLine));
    }
    all
}
