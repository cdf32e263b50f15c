//! The part of JSON Schema that the published schemas use. A keyword that is not known here fails the test.

use std::fs;
use std::path::Path;

use serde_json::Value;

/// A published schema, by its name.
pub(crate) fn published(name: &str) -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../scope-files").join(format!("{name}.schema.json"));
    serde_json::from_str(&fs::read_to_string(path).expect("a published schema")).expect("JSON")
}

/// All ways in which a value goes against a schema, each with its place.
pub(crate) fn faults(value: &Value, schema: &Value) -> Vec<String> {
    faults_in(value, schema, "")
}

/// The same for a part of a schema: `/$defs/line`.
pub(crate) fn faults_in(value: &Value, schema: &Value, part: &str) -> Vec<String> {
    let mut found = Vec::new();
    check(value, schema.pointer(part).unwrap_or_else(|| panic!("no {part}")), schema, "", &mut found);
    found
}

fn check(value: &Value, schema: &Value, root: &Value, at: &str, found: &mut Vec<String>) {
    let rules = schema.as_object().unwrap_or_else(|| panic!("{at}: a schema is an object"));
    for (keyword, rule) in rules {
        let fine = match keyword.as_str() {
            "$schema" | "$id" | "$defs" | "title" | "description" | "examples" => true,
            "$ref" => {
                let path = rule.as_str().and_then(|path| path.strip_prefix('#')).expect("a place in the schema");
                check(value, root.pointer(path).unwrap_or_else(|| panic!("no {path}")), root, at, found);
                true
            }
            "anyOf" => list(rule).iter().any(|one| {
                let mut found = Vec::new();
                check(value, one, root, at, &mut found);
                found.is_empty()
            }),
            "type" => match rule {
                Value::Array(types) => types.iter().any(|name| is(value, name)),
                name => is(value, name),
            },
            "const" => value == rule,
            "enum" => list(rule).contains(value),
            "minimum" => value.as_f64().is_none_or(|number| number >= rule.as_f64().unwrap()),
            "maximum" => value.as_f64().is_none_or(|number| number <= rule.as_f64().unwrap()),
            "minItems" => value.as_array().is_none_or(|items| items.len() as u64 >= rule.as_u64().unwrap()),
            "maxItems" => value.as_array().is_none_or(|items| items.len() as u64 <= rule.as_u64().unwrap()),
            "required" => {
                let names = list(rule).iter().map(|name| name.as_str().unwrap());
                value.as_object().is_none_or(|object| names.clone().all(|name| object.contains_key(name)))
            }
            "items" => {
                for (number, item) in value.as_array().into_iter().flatten().enumerate() {
                    check(item, rule, root, &format!("{at}/{number}"), found);
                }
                true
            }
            "properties" | "patternProperties" | "additionalProperties" | "unevaluatedProperties" => true,
            other => panic!("{at}: the test does not know the keyword {other}"),
        };
        if !fine {
            found.push(format!("{at}: {value} goes against {keyword}: {rule}"));
        }
    }
    for (name, member) in value.as_object().into_iter().flatten() {
        let at = format!("{at}/{name}");
        let known = rules.get("properties").and_then(|all| all.get(name)).or_else(|| by_pattern(rules, name));
        match known {
            Some(schema) => check(member, schema, root, &at, found),
            None if rules.get("additionalProperties") == Some(&Value::Bool(false)) => {
                found.push(format!("{at}: not in the schema"));
            }
            None if rules.get("unevaluatedProperties") == Some(&Value::Bool(false)) && !refers(rules, root, name) => {
                found.push(format!("{at}: not in the schema"));
            }
            None => {}
        }
    }
}

/// Whether a member is in what the rules refer to.
fn refers(rules: &serde_json::Map<String, Value>, root: &Value, name: &str) -> bool {
    let other = rules.get("$ref").and_then(Value::as_str).and_then(|path| root.pointer(path.strip_prefix('#')?));
    other.and_then(|other| other.get("properties")).is_some_and(|properties| properties.get(name).is_some())
}

/// Patterns are lists of names: `^(words|sight)$`.
fn by_pattern<'s>(rules: &'s serde_json::Map<String, Value>, name: &str) -> Option<&'s Value> {
    let patterns = rules.get("patternProperties")?.as_object()?;
    patterns.iter().find_map(|(pattern, schema)| {
        let names = pattern.strip_prefix("^(").and_then(|rest| rest.strip_suffix(")$")).expect("a list of names");
        names.split('|').any(|known| known == name).then_some(schema)
    })
}

fn list(rule: &Value) -> &Vec<Value> {
    rule.as_array().expect("a list")
}

fn is(value: &Value, name: &Value) -> bool {
    match name.as_str() {
        Some("object") => value.is_object(),
        Some("array") => value.is_array(),
        Some("string") => value.is_string(),
        Some("integer") => value.is_i64() || value.is_u64(),
        Some("number") => value.is_number(),
        Some("boolean") => value.is_boolean(),
        Some("null") => value.is_null(),
        other => panic!("no such type: {other:?}"),
    }
}
