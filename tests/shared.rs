//! What the tests across crates share.

use untaught::{Part, Reading};

/// The data rows of a tab-separated table: comment lines (`#`) and the heading left out.
pub(crate) fn rows(table: &str) -> Vec<Vec<&str>> {
    let lines = table.lines().filter(|line| !line.starts_with('#') && !line.trim().is_empty());
    lines.skip(1).map(|line| line.split('\t').collect()).collect()
}

/// A reading, written h·o·p·i·ng.
pub(crate) fn cut(reading: &Reading) -> String {
    reading.parts.iter().map(Part::spelling).collect::<Vec<_>>().join("·")
}

/// The lesson at an index, from 0.
pub(crate) fn at(index: usize) -> untaught::LessonIndex {
    untaught::LessonIndex::new(index).unwrap()
}
