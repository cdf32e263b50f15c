//! A folder of readers as one sequence: what each practises, what is practised too little, which are in the wrong place.

use std::collections::HashSet;

use untaught::{Judge, LessonIndex, Practice, Reader, Scope, TaughtPattern, curve};

use super::checked::CheckedText;

/// A text of the shelf.
pub(crate) struct Book {
    pub(crate) name: String,
    pub(crate) title: Option<String>,
    /// The lesson it is meant for, if it or its folder names one.
    pub(crate) meant_for: Option<LessonIndex>,
    /// The earliest lesson at which it reaches its thresholds.
    pub(crate) first: Option<LessonIndex>,
    pub(crate) words: usize,
    pub(crate) percent_readable: Option<f64>,
    /// How often it practises each pattern of the scope.
    pub(crate) practised: Vec<usize>,
    /// How many running words practise what its own lesson teaches; none if the lesson teaches no pattern.
    pub(crate) focus: Option<usize>,
    /// Its different words.
    pub(crate) types: Vec<String>,
    /// Those of them that no reader before it has.
    pub(crate) new: Vec<String>,
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

impl Book {
    /// What the shelf has to know of a checked text.
    pub(crate) fn new(checked: CheckedText, practice: &mut Practice<'static>) -> Book {
        let (plan, report) = (&checked.plan, &checked.report);
        let curve = curve(report, plan.scope);
        let named = plan.set_lesson().is_some();
        let teaches = named && !report.focus.labels.is_empty();
        Book {
            meant_for: plan.set_lesson(),
            first: plan.first_readable(&curve),
            words: report.tokens.words,
            percent_readable: named.then(|| report.tokens.percent_readable()).flatten(),
            practised: practice.count(report),
            focus: teaches.then_some(report.focus.tokens),
            types: report.distinct.iter().map(|word| word.verdict.word.text.clone()).collect(),
            new: Vec::new(),
            title: checked.plan.title,
            name: checked.source.name,
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
}

/// How often the whole shelf practises a pattern.
pub(crate) struct PatternTotals {
    pub(crate) label: String,
    pub(crate) lesson: LessonIndex,
    /// Running words that practise it, and readers that have any.
    pub(crate) words: usize,
    pub(crate) readers: usize,
}

/// The whole shelf.
pub(crate) struct Shelf {
    /// None if no text could be read.
    pub(crate) scope: Option<&'static Scope>,
    /// In the order of the lessons that they are meant for; those that name none come last.
    pub(crate) books: Vec<Book>,
    pub(crate) patterns: Vec<PatternTotals>,
    /// Numbers of patterns that the shelf's lessons teach but that its texts practise too little.
    pub(crate) too_little: Vec<usize>,
    /// The proposed order, if it was asked for: numbers of books.
    pub(crate) order: Option<Vec<usize>>,
    /// How often a pattern has to be practised.
    pub(crate) enough: usize,
}

impl Shelf {
    /// Puts books of one scope on a shelf.
    pub(crate) fn new(
        scope: Option<&'static Scope>,
        reader: &Reader,
        mut books: Vec<Book>,
        enough: usize,
        propose_order: bool,
    ) -> Shelf {
        books.sort_by_key(|book| (book.meant_for.is_none(), book.meant_for));
        let order: Vec<usize> = (0..books.len()).collect();
        let new = new_words(&books, &order);
        for (book, new) in books.iter_mut().zip(new) {
            book.new = new;
        }
        let practice = scope.map(|scope| Practice::new(Judge::new(reader, scope)));
        let patterns = practice.as_ref().map_or(&[][..], Practice::patterns);
        let totals = |(number, taught): (usize, &TaughtPattern)| {
            let counts = books.iter().map(|book| book.practised[number]);
            let readers = counts.clone().filter(|n| *n > 0).count();
            PatternTotals { label: taught.label.clone(), lesson: taught.lesson, words: counts.sum(), readers }
        };
        let patterns: Vec<PatternTotals> = patterns.iter().enumerate().map(totals).collect();
        let last = books.iter().filter_map(|book| book.meant_for.or(book.first)).max();
        let taught = patterns.iter().enumerate().filter(|(_, pattern)| last.is_some_and(|last| pattern.lesson <= last));
        let too_little = taught.filter(|(_, pattern)| pattern.words < enough).map(|(number, _)| number).collect();
        let order = propose_order.then(|| proposed_order(&books));
        Shelf { scope, books, patterns, too_little, order, enough }
    }

    /// The books that are too early or too late.
    pub(crate) fn misplaced(&self) -> impl Iterator<Item = &Book> {
        self.books.iter().filter(|book| matches!(book.timing(), Timing::Early | Timing::Late))
    }

    /// The id of a lesson; none for none.
    pub(crate) fn id(&self, lesson: Option<LessonIndex>) -> Option<&'static str> {
        Some(self.scope?.id(lesson?))
    }
}

/// For each book in an order, its words that no book before it has.
pub(crate) fn new_words(books: &[Book], order: &[usize]) -> Vec<Vec<String>> {
    let mut seen: HashSet<&str> = HashSet::new();
    let mut new = vec![Vec::new(); books.len()];
    for number in order {
        let types = &books[*number].types;
        new[*number] = types.iter().filter(|word| seen.insert(word)).cloned().collect();
    }
    new
}

/// An order for the shelf: by the lesson at which each can first be read; among those of one lesson the one with the fewest words
/// that are new by then goes first. What never can be read comes last.
fn proposed_order(books: &[Book]) -> Vec<usize> {
    let mut left: Vec<usize> = (0..books.len()).collect();
    left.sort_by_key(|number| (books[*number].first.is_none(), books[*number].first));
    let mut seen: HashSet<&str> = HashSet::new();
    let mut order = Vec::new();
    while let Some(first) = left.first().map(|number| books[*number].first) {
        let alike = left.iter().take_while(|number| books[**number].first == first).count();
        let new = |number: usize| books[number].types.iter().filter(|word| !seen.contains(word.as_str())).count();
        let at = (0..alike).min_by_key(|at| (new(left[*at]), *at)).unwrap_or(0);
        let number = left.remove(at);
        seen.extend(books[number].types.iter().map(String::as_str));
        order.push(number);
    }
    order
}

#[cfg(test)]
mod tests {
    use super::*;

    fn book(name: &str, first: Option<usize>, words: &str) -> Book {
        Book {
            name: name.to_owned(),
            title: None,
            meant_for: None,
            first: first.and_then(LessonIndex::new),
            words: 0,
            percent_readable: None,
            practised: Vec::new(),
            focus: None,
            types: words.split(' ').map(ToOwned::to_owned).collect(),
            new: Vec::new(),
        }
    }

    #[test]
    fn a_proposed_order_goes_by_lesson_then_by_what_is_new() {
        let books = [
            book("never", None, "night"),
            book("long", Some(3), "a b c d e"),
            book("early", Some(1), "a b"),
            book("short", Some(3), "a b f"),
            book("after short", Some(3), "f g h i"),
        ];
        let order: Vec<&str> = proposed_order(&books).into_iter().map(|number| books[number].name.as_str()).collect();
        assert_eq!(order, ["early", "short", "long", "after short", "never"]);
        assert_eq!(new_words(&books, &[2, 1])[1], ["c", "d", "e"]);
    }

    #[test]
    fn a_book_sits_early_right_or_late() {
        let mut one = book("one", Some(5), "a");
        assert_eq!(one.timing(), Timing::Unknown);
        one.meant_for = LessonIndex::new(4);
        assert_eq!(one.timing(), Timing::Early);
        one.meant_for = LessonIndex::new(9);
        assert_eq!(one.timing(), Timing::Right);
        one.focus = Some(0);
        assert_eq!(one.timing(), Timing::Late);
    }
}
