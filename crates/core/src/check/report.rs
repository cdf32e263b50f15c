//! The results of a check.

use std::ops::Range;
use std::sync::Arc;

use crate::{LessonIndex, Need, Scope, Status, Verdict, messages};

/// Words by status.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, serde::Serialize)]
pub struct Counts {
    /// All counted words.
    pub words: usize,
    /// Decodable words.
    pub decodable: usize,
    /// Sight words.
    pub sight: usize,
    /// Words that the text declares.
    pub story: usize,
    /// Untaught words.
    pub untaught: usize,
    /// Tokens that are not words and are not included in `words`: numbers, single letters used as names.
    pub uncounted: usize,
}

impl Counts {
    pub(super) fn add(&mut self, status: Status, n: usize) {
        self.words += n;
        match status {
            Status::Decodable => self.decodable += n,
            Status::Sight => self.sight += n,
            Status::Story => self.story += n,
            Status::Untaught => self.untaught += n,
        }
    }

    /// Percentage of decodable words: decodable / words. `None` if there are no words.
    #[must_use]
    pub fn percent_decodable(&self) -> Option<f64> {
        percent(self.decodable, self.words)
    }

    /// Percentage of readable words: (decodable + sight + story) / words. `None` if there are no words.
    #[must_use]
    pub fn percent_readable(&self) -> Option<f64> {
        percent(self.words - self.untaught, self.words)
    }
}

impl std::ops::AddAssign for Counts {
    fn add_assign(&mut self, other: Counts) {
        self.words += other.words;
        self.decodable += other.decodable;
        self.sight += other.sight;
        self.story += other.story;
        self.untaught += other.untaught;
        self.uncounted += other.uncounted;
    }
}

/// Returns `part` as a percentage of `whole`; `None` if `whole` is 0.
#[must_use]
pub fn percent(part: usize, whole: usize) -> Option<f64> {
    (whole > 0).then(|| part as f64 * 100.0 / whole as f64)
}

/// A distinct word of a text.
#[derive(Debug)]
pub struct Type {
    /// Its verdict, which includes the folded word.
    pub verdict: Arc<Verdict>,
    /// Its status at the lesson of the check.
    pub status: Status,
    /// Whether it counts as declared.
    pub declared: bool,
    /// Number of occurrences in the text.
    pub count: usize,
    /// Number of occurrences with a capital.
    pub capitals: usize,
    /// Number of occurrences with a capital inside a sentence, after a word without one.
    pub inner_capitals: usize,
}

/// A running word, kept if every word was requested.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct WordAt {
    /// Its byte range.
    pub span: Range<usize>,
    /// The number of its type.
    pub type_number: usize,
}

/// One untaught word.
#[derive(Debug)]
pub struct Finding {
    /// The word's verdict.
    pub verdict: Arc<Verdict>,
    /// The number of its type.
    pub type_number: usize,
    /// What it needs.
    pub needs: Arc<[Need]>,
    /// Number of occurrences in the text.
    pub count: usize,
    /// The byte ranges of the first occurrences, as many as were requested.
    pub places: Vec<Range<usize>>,
    /// Whether its capitals suggest a name.
    pub likely_name: bool,
    /// Whether it was read by its letters alone.
    pub by_letters: bool,
}

impl Finding {
    /// The word, folded.
    #[must_use]
    pub fn word(&self) -> &str {
        &self.verdict.word.text
    }

    /// A sort key: the lesson at which the last of its needs is met; words that are never readable sort last.
    #[must_use]
    pub fn last_lesson(&self) -> (bool, Option<LessonIndex>) {
        let lessons = self.needs.iter().map(|need| (need.lesson().is_none(), need.lesson()));
        lessons.max().unwrap_or((true, None))
    }
}

/// A word that can be read at the lesson in one reading but not in another: *wind*, *live*.
#[derive(Debug)]
pub struct TwoReadings {
    /// The word's verdict.
    pub verdict: Arc<Verdict>,
    /// The number of its type.
    pub type_number: usize,
    /// The byte ranges of the first occurrences, as many as were requested.
    pub places: Vec<Range<usize>>,
    /// Number of occurrences in the text.
    pub count: usize,
    /// The reading that the status is based on, in IPA.
    pub counted: String,
    /// The other reading, in IPA.
    pub other: String,
    /// The first patterns in which they differ.
    pub needs: Option<[Need; 2]>,
}

impl TwoReadings {
    /// The first patterns in which the readings differ, for people: `ea as in eat`, `ea as in bread`.
    #[must_use]
    pub fn differ_in(&self, scope: &Scope) -> [String; 2] {
        match &self.needs {
            Some(needs) => needs.each_ref().map(|need| messages::need(need, scope)),
            None => Default::default(),
        }
    }

    /// The word, folded.
    #[must_use]
    pub fn word(&self) -> &str {
        &self.verdict.word.text
    }
}

/// How much the text practises its focus patterns.
#[derive(Debug, Default)]
pub struct FocusCount {
    /// The patterns.
    pub labels: Vec<String>,
    /// Running words that practise one of them.
    pub tokens: usize,
    /// The numbers of the distinct words that do, in order of first appearance.
    pub types: Vec<usize>,
}

/// Default number of positions to keep for each untaught word, and maximum number of uncounted tokens to list.
pub const PLACES: usize = 20;

/// The results of a check.
#[derive(Debug)]
pub struct Report {
    /// The lesson.
    pub lesson: LessonIndex,
    /// Running words.
    pub tokens: Counts,
    /// Distinct words.
    pub types: Counts,
    /// The distinct words, in order of first appearance.
    pub distinct: Vec<Type>,
    /// Every running word in order, if requested.
    pub words: Vec<WordAt>,
    /// The untaught words, in order of first appearance.
    pub findings: Vec<Finding>,
    /// Words whose status depends on how they are read, in order of first appearance.
    pub two_readings: Vec<TwoReadings>,
    /// How much the text practises its focus patterns.
    pub focus: FocusCount,
    /// How much it practises the patterns that its lesson reviews.
    pub review: FocusCount,
    /// The first [`PLACES`] tokens that are not words, each listed once, in order of first appearance.
    pub uncounted: Vec<String>,
    /// Declared words that are not in the text, perhaps because they are mistyped.
    pub not_in_text: Vec<String>,
}
