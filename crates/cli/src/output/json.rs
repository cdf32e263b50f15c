//! JSON that cannot act on a terminal.

use std::io::{self, Write};

use serde::Serialize;

use super::escape::{is_plain, is_unsafe};
use super::outcome::Failure;

/// JSON in which no character acts on a terminal: those that JSON itself allows raw are escaped too.
struct Harmless;

impl serde_json::ser::Formatter for Harmless {
    fn write_string_fragment<W: ?Sized + Write>(&mut self, out: &mut W, fragment: &str) -> io::Result<()> {
        if is_plain(fragment) || !fragment.contains(is_unsafe) {
            return out.write_all(fragment.as_bytes());
        }
        for c in fragment.chars() {
            if is_unsafe(c) { write!(out, "\\u{:04x}", u32::from(c))? } else { write!(out, "{c}")? }
        }
        Ok(())
    }

    /// JSON that came in as it is. Between its parts white space may act on a terminal; its strings have none of that.
    fn write_raw_fragment<W: ?Sized + Write>(&mut self, out: &mut W, fragment: &str) -> io::Result<()> {
        self.write_string_fragment(out, &fragment.replace(['\n', '\r', '\t'], " "))
    }
}

/// A value as JSON.
pub(crate) fn json_bytes(value: &impl Serialize) -> io::Result<Vec<u8>> {
    let mut out = Vec::new();
    value.serialize(&mut serde_json::Serializer::with_formatter(&mut out, Harmless))?;
    Ok(out)
}

/// Prints a value as JSON, with a line end.
pub(crate) fn json(value: &impl Serialize) -> Result<(), Failure> {
    let mut out = io::BufWriter::with_capacity(1 << 16, io::stdout().lock());
    let mut serializer = serde_json::Serializer::with_formatter(&mut out, Harmless);
    value.serialize(&mut serializer).map_err(io::Error::from)?;
    out.write_all(b"\n")?;
    out.flush()?;
    Ok(())
}
