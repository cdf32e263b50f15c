//! One record, as it is written in its line.

use std::collections::BTreeMap;
use std::fmt;

use serde::de::{Error as _, MapAccess, Visitor};
use serde::{Deserialize, Deserializer};
use serde_json::Value;
use serde_json::value::RawValue;
use untaught::messages::excerpt;

/// A record as it came.
pub(super) struct Record {
    pub(super) text: String,
    pub(super) lesson: Option<Value>,
    /// Its other members, as they were written: they come back.
    pub(super) others: BTreeMap<String, Box<RawValue>>,
}

/// The members of an object as they were written; none of them twice.
pub(super) struct Members(pub(super) BTreeMap<String, Box<RawValue>>);

impl<'de> Deserialize<'de> for Members {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Members, D::Error> {
        from.deserialize_map(MembersVisitor)
    }
}

struct MembersVisitor;

impl<'de> Visitor<'de> for MembersVisitor {
    type Value = Members;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an object")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Members, A::Error> {
        let mut members = BTreeMap::new();
        while let Some((name, value)) = map.next_entry::<String, Box<RawValue>>()? {
            if members.contains_key(&name) {
                return Err(A::Error::custom(format!("it has two members `{}`", excerpt(&name))));
            }
            members.insert(name, value);
        }
        Ok(Members(members))
    }
}

impl Record {
    /// Takes a record from its members; the id is taken already.
    pub(super) fn of(mut members: BTreeMap<String, Box<RawValue>>) -> Result<Record, String> {
        let text = members.remove("text").ok_or("it has no member `text`")?;
        let text = serde_json::from_str(text.get()).map_err(|_| "its member `text` is no text")?;
        let lesson = members.remove("lesson").map(|lesson| serde_json::from_str(lesson.get()));
        let lesson = lesson.transpose().map_err(|_| "its member `lesson` cannot be read")?;
        Ok(Record { text, lesson, others: members })
    }
}

/// The id of a lesson: text or a whole number.
pub(super) fn lesson(value: Option<&Value>) -> Result<Option<String>, String> {
    match value {
        None | Some(Value::Null) => Ok(None),
        Some(Value::String(id)) => Ok(Some(id.clone())),
        Some(Value::Number(number)) if number.is_u64() => Ok(Some(number.to_string())),
        Some(other) => Err(format!("a lesson is an id such as \"12\", not {}", excerpt(&other.to_string()))),
    }
}
