//! What the tests across crates share.

use untaught::{Part, Reader, Reading};

/// The data rows of a tab-separated table: comment lines (`#`) and the heading left out.
#[must_use]
pub fn rows(table: &str) -> Vec<Vec<&str>> {
    let lines = table.lines().filter(|line| !line.starts_with('#') && !line.trim().is_empty());
    lines.skip(1).map(|line| line.split('\t').collect()).collect()
}

/// The readings of a word, written h·o·p·i·ng.
#[must_use]
pub fn cuts(reader: &Reader, word: &str) -> Vec<String> {
    reader.read(&untaught::fold_word(word)).readings.iter().map(cut).collect()
}

/// A reading, written h·o·p·i·ng.
#[must_use]
pub fn cut(reading: &Reading) -> String {
    reading.parts.iter().map(Part::spelling).collect::<Vec<_>>().join("·")
}
