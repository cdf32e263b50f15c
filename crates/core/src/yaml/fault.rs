//! What is wrong with a file, and where.

use crate::messages::thousands;
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

/// The first faults of a file, and one more that says how many others there are.
#[must_use]
pub fn first(faults: &[Fault], most: usize) -> Vec<Fault> {
    let mut first: Vec<Fault> = faults.iter().take(most).cloned().collect();
    if let Some(next) = faults.get(most) {
        first.push(Fault::new(next.position, &format!("and {} more", thousands(faults.len() - most))));
    }
    first
}

/// The candidate nearest to what was written, if any is near.
pub(crate) fn nearest<'a>(written: &str, candidates: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let length = written.chars().take(super::LONGEST + 1).count();
    if length > super::LONGEST {
        return None;
    }
    let distance = |candidate: &str| strsim::damerau_levenshtein(written, candidate);
    candidates
        .map(|candidate| (candidate, candidate.chars().count()))
        // At least so many letters must come or go: to compare them takes longer.
        .filter(|(_, letters)| letters.abs_diff(length) * 2 <= (*letters).max(2))
        .map(|(candidate, letters)| (distance(candidate), !written.starts_with(candidate), candidate, letters))
        .filter(|(distance, .., letters)| *distance * 2 <= (*letters).max(2))
        .map(|(distance, unlike, candidate, _)| (distance, unlike, candidate))
        .min()
        .map(|(.., candidate)| candidate)
}
