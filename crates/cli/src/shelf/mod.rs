//! `untaught shelf`: a folder of readers looked at as one sequence.

mod html;
mod report;

use std::collections::HashSet;
use std::path::Path;

use untaught::{Judge, Practice, Scope, curve};

use crate::Outcome;
use crate::args::{Shelf, ShelfFormat};
use crate::check::{Checked, Wanted, check};
use crate::output::{Failed, Failure, Sink, remark};
use crate::texts::{Said, Settings, Worker, each, gather, read};

/// A text of the shelf.
struct Book {
    name: String,
    title: Option<String>,
    /// The lesson it is meant for, if it or its folder names one.
    meant_for: Option<untaught::Place>,
    /// The earliest lesson at which it reaches its thresholds.
    first: Option<untaught::Place>,
    words: usize,
    percent_readable: Option<f64>,
    /// How often it practises each pattern of the scope.
    practised: Vec<usize>,
    /// How many running words practise what its own lesson teaches; none if the lesson teaches no pattern.
    focus: Option<usize>,
    /// Its different words.
    types: Vec<String>,
    /// Those of them that no reader before it has.
    new: Vec<String>,
}

/// How a text sits on the shelf.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Sits {
    Right,
    /// It cannot be read yet at the lesson it is meant for.
    Early,
    /// It could be read before, and practises nothing that its own lesson teaches.
    Late,
    /// It names no lesson.
    Nowhere,
}

impl Sits {
    fn name(self) -> &'static str {
        match self {
            Sits::Right => "right",
            Sits::Early => "too early",
            Sits::Late => "too late",
            Sits::Nowhere => "no lesson named",
        }
    }
}

impl Book {
    fn sits(&self) -> Sits {
        let Some(meant) = self.meant_for else { return Sits::Nowhere };
        match self.first {
            Some(first) if first <= meant => {
                if first < meant && self.focus == Some(0) {
                    Sits::Late
                } else {
                    Sits::Right
                }
            }
            _ => Sits::Early,
        }
    }
}

/// A pattern over the whole shelf.
struct Row {
    label: String,
    lesson: untaught::Place,
    /// Running words that practise it, and readers that have any.
    words: usize,
    readers: usize,
}

struct Whole {
    /// None where no text could be read.
    scope: Option<&'static Scope>,
    books: Vec<Book>,
    rows: Vec<Row>,
    /// Patterns that the shelf's lessons teach but that its texts practise too little.
    too_little: Vec<usize>,
    /// The proposed order, if asked for: numbers of books.
    order: Option<Vec<usize>>,
    enough: usize,
}

pub(crate) fn run(args: &Shelf) -> Result<Outcome, Failure> {
    let settings = Settings::new(&args.texts.told, &args.texts.config)?;
    let found = gather(&args.texts, &settings)?;
    let mut failed = Vec::new();
    let mut books: Vec<Book> = Vec::new();
    let mut shelf: Option<&'static Scope> = None;
    let work = |worker: &mut Worker, path: &Path, _: &mut Vec<u8>| {
        let source = read(path, &args.texts.stdin_name)?;
        let plan = settings.plan(args.texts.typed(), &source)?;
        let checked = check(source, plan, Wanted::COUNTS, worker, &settings)?;
        let (scope, note) = (checked.plan.scope, checked.source.note());
        Ok((book(checked, worker.practice(scope, &settings)), scope, note))
    };
    each(found, args.texts.jobs, work, |result| {
        let (book, scope, note) = match result {
            Ok((read, _)) => read,
            Err(why) => {
                failed.push(why);
                return Ok(true);
            }
        };
        if let Some(note) = note {
            remark(&note);
        }
        let first = *shelf.get_or_insert(scope);
        if std::ptr::eq(first, scope) {
            books.push(book);
        } else {
            let message = format!(
                "{} belongs to another scope ({}) than the first text ({}); look at each scope's shelf by itself",
                book.name, scope.title, first.title
            );
            failed.push(Failed::new(book.name, message).complain());
        }
        Ok(true)
    })?;
    // The shelf's order is that of the lessons, and where these are alike or missing that of the files.
    books.sort_by_key(|book| book.meant_for.unwrap_or(untaught::Place::MAX));
    let order: Vec<usize> = (0..books.len()).collect();
    let new = new_words(&books, &order);
    for (book, new) in books.iter_mut().zip(new) {
        book.new = new;
    }
    let whole = whole(shelf, &settings, books, args);
    let mut sink = Sink::open(args.texts.output.as_deref(), args.format == ShelfFormat::Text)?;
    let report = match args.format {
        ShelfFormat::Text => report::text(&whole).into_bytes(),
        ShelfFormat::Json => report::json(&whole, &failed)?,
        ShelfFormat::Csv => report::csv(&whole)?,
        ShelfFormat::Html => html::page(&whole, &failed)?.into_bytes(),
    };
    sink.write(&report)?;
    sink.close()?;
    let amiss = whole.books.iter().any(|book| matches!(book.sits(), Sits::Early | Sits::Late));
    Ok(match (failed.len(), amiss) {
        (0, false) => Outcome::Met,
        (0, true) => Outcome::Short,
        _ => Outcome::Failed,
    })
}

fn book(checked: Checked, practice: &mut Practice<'static>) -> Book {
    let (plan, report) = (&checked.plan, &checked.report);
    let curve = curve(report, plan.scope);
    let named = plan.lesson_said != Said::Default;
    let teaches = named && !report.focus.labels.is_empty();
    Book {
        meant_for: named.then_some(plan.lesson),
        first: curve.first(plan.thresholds.decodable.unwrap_or(0.0), plan.thresholds.readable),
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

/// For each book in an order, its words that none before it has.
fn new_words(books: &[Book], order: &[usize]) -> Vec<Vec<String>> {
    let mut seen: HashSet<&str> = HashSet::new();
    let mut new = vec![Vec::new(); books.len()];
    for number in order {
        let types = &books[*number].types;
        new[*number] = types.iter().filter(|word| seen.insert(word)).cloned().collect();
    }
    new
}

fn whole(scope: Option<&'static Scope>, settings: &Settings, books: Vec<Book>, args: &Shelf) -> Whole {
    let practice = scope.map(|scope| Practice::new(Judge { reader: settings.reader, scope }));
    let patterns = practice.as_ref().map_or(&[][..], Practice::patterns);
    let row = |(number, taught): (usize, &untaught::Taught)| {
        let counts = books.iter().map(|book| book.practised[number]);
        let readers = counts.clone().filter(|n| *n > 0).count();
        Row { label: taught.label.clone(), lesson: taught.lesson, words: counts.sum(), readers }
    };
    let rows: Vec<Row> = patterns.iter().enumerate().map(row).collect();
    let last = books.iter().filter_map(|book| book.meant_for.or(book.first)).max();
    let too_little = rows.iter().enumerate().filter(|(_, row)| last.is_some_and(|last| row.lesson <= last));
    let too_little = too_little.filter(|(_, row)| row.words < args.enough).map(|(number, _)| number).collect();
    let order = args.order.then(|| proposed(&books));
    Whole { scope, books, rows, too_little, order, enough: args.enough }
}

/// An order for the shelf: by the lesson at which each can first be read; among those of one lesson the one with the fewest words
/// that are new by then goes first. What never can be read comes last.
fn proposed(books: &[Book]) -> Vec<usize> {
    let mut left: Vec<usize> = (0..books.len()).collect();
    left.sort_by_key(|number| books[*number].first.unwrap_or(untaught::Place::MAX));
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

    fn book(name: &str, first: Option<u16>, words: &str) -> Book {
        Book {
            name: name.to_owned(),
            title: None,
            meant_for: None,
            first,
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
        let order: Vec<&str> = proposed(&books).into_iter().map(|number| books[number].name.as_str()).collect();
        assert_eq!(order, ["early", "short", "long", "after short", "never"]);
        assert_eq!(new_words(&books, &[2, 1])[1], ["c", "d", "e"]);
    }

    #[test]
    fn a_book_sits_early_right_or_late() {
        let mut one = book("one", Some(5), "a");
        assert_eq!(one.sits(), Sits::Nowhere);
        one.meant_for = Some(4);
        assert_eq!(one.sits(), Sits::Early);
        one.meant_for = Some(9);
        assert_eq!(one.sits(), Sits::Right);
        one.focus = Some(0);
        assert_eq!(one.sits(), Sits::Late);
    }
}
