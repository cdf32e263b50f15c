//! What is wrong with a file, and where.

use crate::position::Position;

/// One thing that is wrong with a scope file, front matter or settings. What has a fault is not used at all.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Fault {
    /// Where.
    pub position: Position,
    /// What, and what was probably meant: a sentence without its full stop.
    pub message: String,
}

impl Fault {
    /// A fault at a place.
    #[must_use]
    pub fn new(position: Position, message: &str) -> Fault {
        Fault { position, message: message.to_owned() }
    }
}

impl std::fmt::Display for Fault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "line {}, column {}: {}", self.position.line, self.position.column, self.message)
    }
}

impl std::error::Error for Fault {}

/// The candidate nearest to what was written, if any is near.
pub(crate) fn nearest<'a>(written: &str, candidates: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let distance = |candidate: &str| strsim::damerau_levenshtein(written, candidate);
    candidates
        .map(|candidate| (distance(candidate), !written.starts_with(candidate), candidate))
        .filter(|(distance, _, candidate)| *distance * 2 <= candidate.chars().count().max(2))
        .min()
        .map(|(.., candidate)| candidate)
}
