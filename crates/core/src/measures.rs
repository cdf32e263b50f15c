//! Published measures of decodability, under their published names. They only count words; they do not rate difficulty.

use crate::{Counts, Report, Status};

/// One measure of a text.
#[derive(Clone, PartialEq, Debug)]
pub struct Measure {
    /// Its published name.
    pub name: &'static str,
    /// Where it is defined.
    pub source: &'static str,
    /// Number of running words that it counts.
    pub part: usize,
    /// Number of running words.
    pub whole: usize,
}

impl Measure {
    /// `part` as a percentage of `whole`; `None` for a text without words.
    #[must_use]
    pub fn percent(&self) -> Option<f64> {
        crate::percent(self.part, self.whole)
    }
}

/// Computes the published measures of a checked text. The published definitions do not say how to treat names, titles,
/// numerals or contractions. Here, names and story words count only in `whole`, numerals count in neither, and contractions
/// are words.
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
