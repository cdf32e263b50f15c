//! Each text's effective settings, and where each comes from.

use std::fmt::Write as _;
use std::io;

use serde::Serialize;
use serde_json::{Value, json};
use untaught_config::{Origin, Sourced};

use crate::output::{DIM, STRONG, json_bytes, one_line};
use crate::settings::{Plan, described, shown_scope};

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
        let set =
            |key: &'static str, value: Value, origin: &Origin| SettingReport { key, value, from: described(origin) };
        let effective = &plan.settings;
        let of_lesson = effective.lesson.as_ref().map_or(&Origin::Default, |lesson| &lesson.origin);
        let mut settings = vec![
            set("scope", json!(shown_scope(&effective.scope.value)), &effective.scope.origin),
            set("lesson", json!(plan.scope.id(plan.lesson)), of_lesson),
        ];
        let percents = [
            ("min-decodable", effective.min_decodable.as_ref()),
            ("min-readable", Some(&effective.min_readable)),
            ("min-focus", effective.min_focus.as_ref()),
        ];
        for (key, percent) in percents {
            settings.extend(percent.map(|percent| set(key, json!(percent.value), &percent.origin)));
        }
        let lists: [(_, &[Sourced<String>]); 3] =
            [("name", &effective.names), ("story word", &effective.story_words), ("focus", &effective.focus)];
        for (key, list) in lists {
            settings.extend(list.iter().map(|word| set(key, json!(word.value), &word.origin)));
        }
        settings.extend(effective.pronounce.iter().map(|given| {
            let (word, cutting) = &given.value;
            set("pronounce", json!(format!("{word}: {cutting}")), &given.origin)
        }));
        if effective.allow_names.value {
            settings.push(set("names", json!("allow"), &effective.allow_names.origin));
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
