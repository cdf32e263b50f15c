//! What a check found.

use std::ops::Range;
use std::sync::Arc;

use crate::{LessonIndex, Need, Scope, Status, Verdict, messages};

/// Words by status.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, serde::Serialize)]
pub struct Counts {
    /// All that count.
    pub words: usize,
    /// Of these, decodable.
    pub decodable: usize,
    /// Known whole.
    pub sight: usize,
    /// Declared by the text.
    pub story: usize,
    /// None of these.
    pub untaught: usize,
    /// Not words, and not in `words`: numbers, letters named as letters.
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

    /// Percent decodable: decodable / words. None where there are no words.
    #[must_use]
    pub fn percent_decodable(&self) -> Option<f64> {
        percent(self.decodable, self.words)
    }

    /// Percent readable: (decodable + sight + story) / words. None where there are no words.
    #[must_use]
    pub fn percent_readable(&self) -> Option<f64> {
        percent(self.words - self.untaught, self.words)
    }
}

/// A share in percent; none of nothing.
#[must_use]
pub fn percent(part: usize, whole: usize) -> Option<f64> {
    (whole > 0).then(|| part as f64 * 100.0 / whole as f64)
}

/// A distinct word of a text.
#[derive(Debug)]
pub struct Type {
    /// Its verdict, the folded word in it.
    pub verdict: Arc<Verdict>,
    /// What it is at the lesson of the check.
    pub status: Status,
    /// Whether it counts as told to the child beforehand.
    pub declared: bool,
    /// How often it stands in the text.
    pub count: usize,
    /// How often with a capital.
    pub capitals: usize,
    /// How often with a capital inside a sentence, after a word without one.
    pub inner_capitals: usize,
}

/// A running word, if every word was asked for.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct WordAt {
    /// Where it stands, in bytes.
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
    /// How often it stands in the text.
    pub count: usize,
    /// Where, in bytes: the first places, as many as were asked for.
    pub places: Vec<Range<usize>>,
    /// Whether its capitals look like a name's.
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

    /// The lesson at which the last of its needs is met, in an order in which never comes last.
    #[must_use]
    pub fn last_lesson(&self) -> (bool, Option<LessonIndex>) {
        let lessons = self.needs.iter().map(|need| (need.lesson().is_none(), need.lesson()));
        lessons.max().unwrap_or((true, None))
    }
}

/// A word that one reading makes readable at the lesson, but not another that it also has: *wind*, *live*.
#[derive(Debug)]
pub struct TwoReadings {
    /// The word's verdict.
    pub verdict: Arc<Verdict>,
    /// The number of its type.
    pub type_number: usize,
    /// Where it stands, in bytes: the first places, as many as were asked for.
    pub places: Vec<Range<usize>>,
    /// How often.
    pub count: usize,
    /// The reading that counts, in IPA.
    pub counted: String,
    /// The other, in IPA.
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
    /// The numbers of the different words that do, in the order of their first place.
    pub types: Vec<usize>,
}

/// Places kept of each untaught word, unless asked otherwise, and of what is not counted.
pub const PLACES: usize = 20;

/// What a check found.
#[derive(Debug)]
pub struct Report {
    /// The lesson.
    pub lesson: LessonIndex,
    /// Running words.
    pub tokens: Counts,
    /// Distinct words.
    pub types: Counts,
    /// The distinct words in the order of their first place.
    pub distinct: Vec<Type>,
    /// Every running word in order, if asked for.
    pub words: Vec<WordAt>,
    /// The untaught words in the order of their first place.
    pub findings: Vec<Finding>,
    /// Words whose verdict depends on how they are read, in the order of their first place.
    pub two_readings: Vec<TwoReadings>,
    /// How much the text practises its focus patterns.
    pub focus: FocusCount,
    /// How much it practises the patterns that its lesson reviews.
    pub review: FocusCount,
    /// What is no word and was not counted, each once, in the order of its first place: the first [`PLACES`].
    pub uncounted: Vec<String>,
    /// Declared words that the text does not have: perhaps mistyped.
    pub not_in_text: Vec<String>,
}
