//! A position in a file, as shown to people and editors.

use serde::Serialize;

/// A line and a column, both counted from 1; columns in Unicode scalar values.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize)]
pub struct Position {
    /// Line, from 1.
    pub line: usize,
    /// Column, from 1, in Unicode scalar values.
    pub column: usize,
}

impl Position {
    /// The beginning of a file.
    pub const START: Position = Position { line: 1, column: 1 };
}
