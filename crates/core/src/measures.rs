//! Published measures of decodability, by their published names. Counts only: no index of how difficult a word is.

use crate::{Counts, Report, Status};

/// One measure of a text.
#[derive(Clone, PartialEq, Debug)]
pub struct Measure {
    /// Its published name.
    pub name: &'static str,
    /// Where it is defined.
    pub source: &'static str,
    /// Running words that count for it.
    pub part: usize,
    /// Running words.
    pub whole: usize,
}

impl Measure {
    /// In percent; none for a text without words.
    #[must_use]
    pub fn percent(&self) -> Option<f64> {
        crate::percent(self.part, self.whole)
    }
}

/// The published measures of a checked text. No published definition says what to do with names, titles, numerals or contractions:
/// here names and story words are in the denominator only, numerals in neither, and contractions are words.
#[must_use]
pub fn measures(report: &Report) -> [Measure; 3] {
    let Counts { words, decodable, sight, .. } = report.tokens;
    let irregular = report.distinct.iter().filter(|word| word.status == Status::Sight);
    let irregular: usize =
        irregular.filter(|word| word.verdict.first_decodable().is_none()).map(|word| word.count).sum();
    let measure = |name, source, part| Measure { name, source, part, whole: words };
    [
        measure(
            "percent decodable",
            "Groff & Edwards; Texas State Board of Education (1999): words whose correspondences have all been taught",
            decodable,
        ),
        measure(
            "potential for accuracy",
            "Stein, Johnson & Gutlohn (1999), Remedial and Special Education 20(5):275-287: with taught sight words",
            decodable + sight,
        ),
        measure(
            "decodable and taught irregular words",
            "Educational Research Analysts (1999): a regular word taught whole before its sounds counts against the text",
            decodable + irregular,
        ),
    ]
}
