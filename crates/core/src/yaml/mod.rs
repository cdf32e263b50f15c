//! YAML as people write it: read whole or not at all, every fault with its place and in plain words.
//!
//! Scope files, front matter and the settings of a folder all pass here.

mod bounds;
mod fault;
mod id;
mod outline;
mod plain;
mod quoted;

pub use crate::position::Position;
pub(crate) use bounds::too_long;
pub use bounds::{LARGEST, LONGEST, bounded};
pub(crate) use fault::nearest;
pub use fault::{Fault, first};
pub use id::Id;
pub use outline::Outline;
pub use quoted::quoted;

use serde::de::DeserializeOwned;

/// Reads a value, with the outline of where everything stands in the text. The structure should refuse unknown keys.
///
/// # Errors
/// What is wrong, and where: too large, not well-formed, a key twice, an unknown key, a value of another kind.
pub fn read<T: DeserializeOwned>(text: &str) -> Result<(T, Outline), Fault> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    bounds::check(text)?;
    let outline = Outline::read(text)?;
    let value = serde_yaml::from_str(text).map_err(|error| {
        let position = error.location().map_or(Position::START, |l| Position { line: l.line(), column: l.column() });
        Fault::new(position, &plain::plain(&error.to_string()))
    })?;
    Ok((value, outline))
}
