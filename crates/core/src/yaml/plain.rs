//! The YAML reader's messages in a teacher's words.

use std::sync::LazyLock;

use regex::Regex;

use super::nearest;
use crate::wording::excerpt;

static UNKNOWN: LazyLock<Option<Regex>> =
    LazyLock::new(|| Regex::new(r"unknown field `(?<key>[^`]*)`, expected (?:one of )?(?<known>.*)$").ok());
static TYPE: LazyLock<Option<Regex>> =
    LazyLock::new(|| Regex::new(r"invalid (?:type|value): (?<found>.*), expected (?<wanted>.*)$").ok());
static MISSING: LazyLock<Option<Regex>> = LazyLock::new(|| Regex::new(r"missing field `(?<key>[^`]*)`").ok());

/// A message without its place, which is printed before it.
pub(super) fn plain(message: &str) -> String {
    let message = message.split(" at line ").next().unwrap_or(message);
    if let Some(found) = UNKNOWN.as_ref().and_then(|pattern| pattern.captures(message)) {
        let known: Vec<&str> =
            found["known"].split(['`', ',', ' ']).filter(|key| !key.is_empty() && *key != "or").collect();
        let near = nearest(&found["key"], known.iter().copied());
        let near = near.map_or_else(|| ".".to_owned(), |near| format!("; did you mean `{near}`?"));
        return format!("unknown key `{}`{near} The keys are {}", &found["key"], known.join(", "));
    }
    if let Some(found) = TYPE.as_ref().and_then(|pattern| pattern.captures(message)) {
        return format!("this must be {}, not {}", thing(&found["wanted"]), thing(&found["found"]));
    }
    if let Some(found) = MISSING.as_ref().and_then(|pattern| pattern.captures(message)) {
        return format!("the key `{}` is missing", &found["key"]);
    }
    // Our own messages come with the path to the value before them.
    message.rsplit_once("]: ").or_else(|| message.rsplit_once("]. ")).map_or(message, |(_, tail)| tail).to_owned()
}

/// What a value is called.
fn thing(name: &str) -> String {
    let name = name.trim();
    if let Some(text) = name.strip_prefix("string ") {
        return match text.char_indices().nth(60) {
            // The quotation mark at the end goes with the rest.
            Some(_) => format!("the text {}\"", excerpt(text)),
            None => format!("the text {text}"),
        };
    }
    if let Some(number) = name.strip_prefix("integer ").or(name.strip_prefix("floating point ")) {
        return format!("the number {}", number.trim_matches('`'));
    }
    let known = match name {
        "a sequence" | "sequence" => "a list such as [s, a, t]",
        "a map" | "map" => "keys with values",
        "unit value" | "null" => "nothing",
        "a string" | "string" => "text",
        "u32" | "u64" => "a whole number",
        _ if name.starts_with("boolean") => "true or false (put the word in quotes)",
        _ if name.contains("Settings") => "settings such as `scope: starter`",
        _ if name.contains("Rule") => "a rule such as `files: \"week-1/*\"` with a `lesson`",
        _ if name.contains("ScopeFile") => "a scope file with `format`, `title` and `lessons`",
        _ if name.contains("LessonEntry") => "a lesson with keys such as `title` and `teach`",
        _ if name.contains("FrontMatter") => "lines such as `lesson: 12`",
        other => other,
    };
    known.to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn messages_are_told_in_plain_words() {
        assert_eq!(
            plain("lessons[1]: unknown field `teech`, expected one of `id`, `title`, `teach` at line 3 column 5"),
            "unknown key `teech`; did you mean `teach`? The keys are id, title, teach"
        );
        assert_eq!(plain("unknown field `q`, expected `id` or `title`"), "unknown key `q`. The keys are id, title");
        assert_eq!(
            plain("names: invalid type: string \"Rob\", expected a sequence"),
            "this must be a list such as [s, a, t], not the text \"Rob\""
        );
        assert_eq!(plain("missing field `lessons`"), "the key `lessons` is missing");
    }
}
