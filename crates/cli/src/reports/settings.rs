//! The settings of texts, with where each comes from.

use std::fmt::Write as _;
use std::io;

use serde::Serialize;
use serde_json::{Value, json};

use crate::output::{DIM, STRONG, json_bytes, one_line};
use crate::texts::{Plan, Said};

/// The settings of one text.
#[derive(Serialize)]
pub(crate) struct SettingsReport {
    file: String,
    settings: Vec<SettingReport>,
}

#[derive(Serialize)]
struct SettingReport {
    key: &'static str,
    value: Value,
    from: String,
}

impl SettingsReport {
    pub(crate) fn new(file: String, plan: &Plan) -> SettingsReport {
        let set = |key: &'static str, value: Value, said: &Said| SettingReport { key, value, from: said.to_string() };
        let mut settings = vec![
            set("scope", json!(plan.scope_name.0), &plan.scope_name.1),
            set("lesson", json!(plan.scope.id(plan.lesson)), &plan.lesson_said),
        ];
        let [decodable, readable, focus] = &plan.thresholds_said;
        if let Some(least) = plan.thresholds.decodable {
            settings.push(set("min-decodable", json!(least), decodable));
        }
        settings.push(set("min-readable", json!(plan.thresholds.readable), readable));
        if let Some(least) = plan.thresholds.focus {
            settings.push(set("min-focus", json!(least), focus));
        }
        for (key, list) in [("name", &plan.names), ("story word", &plan.story_words), ("focus", &plan.focus)] {
            settings.extend(list.iter().map(|(text, said)| set(key, json!(text), said)));
        }
        if plan.allow_names {
            settings.push(set("names", json!("allow"), &Said::CommandLine));
        }
        SettingsReport { file, settings }
    }
}

/// The settings of texts for programs.
pub(crate) fn json(all: &[SettingsReport]) -> io::Result<Vec<u8>> {
    let mut out = json_bytes(&all)?;
    out.push(b'\n');
    Ok(out)
}

/// The settings of texts for people.
pub(crate) fn text(all: &[SettingsReport]) -> String {
    let mut out = String::new();
    for report in all {
        let _ = writeln!(out, "{STRONG}{}{STRONG:#}", one_line(&report.file));
        for SettingReport { key, value, from } in &report.settings {
            let value = value.as_str().map_or_else(|| value.to_string(), ToOwned::to_owned);
            let _ = writeln!(out, "  {key:<14} {}  {DIM}({}){DIM:#}", one_line(&value), one_line(from));
        }
    }
    out
}
