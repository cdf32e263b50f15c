//! One reader of a shelf: what is kept of a text once it has been checked.

use std::sync::Arc;

use untaught::{LessonIndex, Report, Status, Verdict, curve, percent};

use super::Vocabulary;
use crate::analysis::{CheckedText, Refit};

/// What the shelf has to know of a checked text, before its words have their numbers.
pub(crate) struct BookDraft {
    pub(crate) name: String,
    title: Option<String>,
    fit: Fit,
    refit: Option<Refit>,
    words: usize,
    decodable: usize,
    readable: usize,
    types: Vec<(Arc<Verdict>, Status, usize)>,
}

/// A text of the shelf.
pub(crate) struct Book {
    pub(crate) name: String,
    pub(crate) title: Option<String>,
    /// How it fits the scope of the shelf.
    pub(crate) fit: Fit,
    /// How it fits the scope that the shelf is compared with.
    pub(crate) refit: Option<Refit>,
    /// Running words.
    pub(crate) words: usize,
    pub(crate) decodable: usize,
    pub(crate) readable: usize,
    /// Its different words.
    pub(crate) uses: Box<[WordUse]>,
}

/// A different word of a reader.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct WordUse {
    /// Its number in the vocabulary of the shelf.
    pub(crate) word: u32,
    /// How often the reader has it.
    pub(crate) times: u32,
    pub(crate) status: Status,
}

/// How a text fits a scope.
#[derive(Clone, PartialEq, Debug, Default)]
pub(crate) struct Fit {
    /// The lesson it is meant for, if it or its folder names one.
    pub(crate) meant_for: Option<LessonIndex>,
    /// The earliest lesson at which it reaches its thresholds.
    pub(crate) first: Option<LessonIndex>,
    /// At the lesson it is meant for; none if it names none.
    pub(crate) percent_readable: Option<f64>,
    pub(crate) percent_decodable: Option<f64>,
    /// How many running words practise what its own lesson teaches; none if the lesson teaches no pattern.
    pub(crate) focus: Option<usize>,
}

/// How the lesson that a text is meant for suits it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Timing {
    Right,
    /// It cannot be read yet at the lesson it is meant for.
    Early,
    /// It could be read before, and practises nothing that its own lesson teaches.
    Late,
    /// It names no lesson.
    Unknown,
}

impl Timing {
    pub(crate) fn name(self) -> &'static str {
        match self {
            Timing::Right => "right",
            Timing::Early => "too early",
            Timing::Late => "too late",
            Timing::Unknown => "no lesson named",
        }
    }
}

impl Fit {
    /// How a text fits a scope, by its check there, the lesson it is meant for and the first at which it can be read.
    pub(crate) fn of(report: &Report, meant_for: Option<LessonIndex>, first: Option<LessonIndex>) -> Fit {
        let named = meant_for.is_some();
        let teaches = named && !report.focus.labels.is_empty();
        Fit {
            meant_for,
            first,
            percent_readable: named.then(|| report.tokens.percent_readable()).flatten(),
            percent_decodable: named.then(|| report.tokens.percent_decodable()).flatten(),
            focus: teaches.then_some(report.focus.tokens),
        }
    }

    pub(crate) fn timing(&self) -> Timing {
        let Some(meant) = self.meant_for else { return Timing::Unknown };
        match self.first {
            Some(first) if first <= meant => {
                if first < meant && self.focus == Some(0) {
                    Timing::Late
                } else {
                    Timing::Right
                }
            }
            _ => Timing::Early,
        }
    }

    /// Where it belongs in the scope: the lesson it is meant for, else the first at which it can be read.
    pub(crate) fn lesson(&self) -> Option<LessonIndex> {
        self.meant_for.or(self.first)
    }
}

impl BookDraft {
    /// What is kept of a checked text.
    pub(crate) fn new(checked: CheckedText, refit: Option<Refit>) -> BookDraft {
        let (plan, report) = (&checked.plan, &checked.report);
        BookDraft {
            fit: Fit::of(report, plan.set_lesson(), plan.first_readable(&curve(report, plan.scope))),
            refit,
            words: report.tokens.words,
            decodable: report.tokens.decodable,
            readable: report.tokens.words - report.tokens.untaught,
            types: report.distinct.iter().map(|word| (Arc::clone(&word.verdict), word.status, word.count)).collect(),
            title: checked.plan.title,
            name: checked.source.name,
        }
    }

    /// The book, with the numbers that its words have in a vocabulary.
    pub(crate) fn numbered(self, vocabulary: &mut Vocabulary) -> Book {
        let one = |(verdict, status, times): (Arc<Verdict>, Status, usize)| WordUse {
            word: vocabulary.number(&verdict),
            times: u32::try_from(times).unwrap_or(u32::MAX),
            status,
        };
        let uses = self.types.into_iter().map(one).collect();
        let BookDraft { name, title, fit, refit, words, decodable, readable, .. } = self;
        Book { name, title, fit, refit, words, decodable, readable, uses }
    }
}

impl Book {
    /// Percentage of its different words that are decodable.
    pub(crate) fn percent_types_decodable(&self) -> Option<f64> {
        let decodable = self.uses.iter().filter(|word| word.status == Status::Decodable).count();
        percent(decodable, self.uses.len())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_book_sits_early_right_or_late() {
        let mut one = Fit { first: LessonIndex::new(5), ..Fit::default() };
        assert_eq!(one.timing(), Timing::Unknown);
        one.meant_for = LessonIndex::new(4);
        assert_eq!(one.timing(), Timing::Early);
        one.meant_for = LessonIndex::new(9);
        assert_eq!(one.timing(), Timing::Right);
        one.focus = Some(0);
        assert_eq!(one.timing(), Timing::Late);
    }
}
