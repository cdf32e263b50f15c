//! The id of a lesson as it is written in YAML.

use std::fmt;

use serde::de::{Deserialize, Deserializer, Error, Visitor};

/// An id: text, or a whole number, with or without quotes.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Id(pub String);

impl fmt::Display for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl<'de> Deserialize<'de> for Id {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Id, D::Error> {
        struct IdVisitor;
        impl Visitor<'_> for IdVisitor {
            type Value = Id;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("an id such as 12 or \"2.3\"")
            }

            fn visit_str<E: Error>(self, text: &str) -> Result<Id, E> {
                Ok(Id(text.to_owned()))
            }

            fn visit_u64<E: Error>(self, number: u64) -> Result<Id, E> {
                Ok(Id(number.to_string()))
            }

            fn visit_i64<E: Error>(self, number: i64) -> Result<Id, E> {
                Ok(Id(number.to_string()))
            }

            fn visit_f64<E: Error>(self, number: f64) -> Result<Id, E> {
                Err(E::custom(format_args!(
                    "an id with a point must stand in quotes, for {number} is a number: \"{number}\""
                )))
            }

            fn visit_bool<E: Error>(self, value: bool) -> Result<Id, E> {
                Err(E::custom(format_args!("an id such as yes, no or {value} must stand in quotes")))
            }
        }
        from.deserialize_any(IdVisitor)
    }
}
