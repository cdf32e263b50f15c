//! The tables of a shelf, one definition for every format that has tables: csv and the spreadsheet.

use crate::analysis::{Book, Shelf, Trace, new_words};
use crate::output::sheets::{Cell, Column, Table};
use crate::reports::titles;

/// Widths in letters: of a number, of a short and of a long text.
const NUMBER: usize = 10;
const SHORT: usize = 16;
const LONG: usize = 30;

fn columns<'a>(all: impl IntoIterator<Item = (&'a str, usize)>) -> Vec<Column> {
    all.into_iter().map(|(name, width)| Column { name: name.to_owned(), width, count: false }).collect()
}

/// A row for each reader, in the proposed order if that was asked for; what is new in a reader is what no row above it has. If asked
/// for, with a column for each pattern; after these, what was added later.
pub(super) fn readers(shelf: &Shelf, with_patterns: bool) -> Table<'_> {
    let head = [
        ("file", LONG),
        ("lesson", NUMBER),
        ("first_readable", NUMBER),
        ("sits", SHORT),
        ("words", NUMBER),
        ("percent_readable", NUMBER),
        ("new_words", NUMBER),
    ];
    let mut all = columns(head);
    if with_patterns {
        all.extend(pattern_columns(shelf));
    }
    all.extend(columns([
        ("percent_decodable", NUMBER),
        ("different_words", NUMBER),
        ("percent_different_words_decodable", NUMBER),
        ("different_words_so_far", NUMBER),
        ("title", LONG),
    ]));
    if shelf.other.is_some() {
        all.extend(columns(AGAINST));
    }
    let order = shelf.order.clone().unwrap_or_else(|| (0..shelf.books.len()).collect());
    let mut so_far = 0;
    let rows = new_words(&shelf.books, order).into_iter().map(move |(number, new)| {
        let book = &shelf.books[number];
        so_far += new.len();
        let mut row = vec![
            Cell::from(book.name.as_str()),
            id(shelf.id(book.fit.meant_for)),
            id(shelf.id(book.fit.first).or(Some("never"))),
            book.fit.timing().name().into(),
            book.words.into(),
            Cell::Percent(book.fit.percent_readable),
            new.len().into(),
        ];
        if with_patterns {
            row.extend(shelf.practised(book).into_iter().map(Cell::Number));
        }
        row.extend([
            Cell::Percent(book.fit.percent_decodable),
            book.uses.len().into(),
            Cell::Percent(book.percent_types_decodable()),
            so_far.into(),
            book.title.as_deref().into(),
        ]);
        if shelf.other.is_some() {
            row.extend(against(shelf, book));
        }
        row
    });
    Table { name: "Readers", columns: all, rows: Box::new(rows) }
}

/// A row for each reader in the order of the lessons, with how often it practises each pattern taught by the last of them; and the
/// sums.
pub(super) fn practice(shelf: &Shelf) -> Table<'_> {
    let shown: Vec<usize> = shelf
        .series
        .patterns
        .iter()
        .enumerate()
        .filter(|(_, row)| row.practice.times > 0 || shelf.lacks.last.is_some_and(|last| row.lesson <= last))
        .map(|(number, _)| number)
        .collect();
    let mut all = columns([("file", LONG), ("lesson", NUMBER)]);
    let mut names: Vec<Option<Column>> = pattern_columns(shelf).map(Some).collect();
    all.extend(shown.iter().filter_map(|number| names[*number].take()));
    let mut sums: Vec<Cell<'_>> = vec!["all".into(), Cell::Empty];
    sums.extend(shown.iter().map(|number| Cell::Number(shelf.series.patterns[*number].practice.times)));
    let rows = shelf.books.iter().map(move |book| {
        let practised = shelf.practised(book);
        let mut row = vec![Cell::from(book.name.as_str()), id(shelf.id(book.fit.meant_for))];
        row.extend(shown.iter().map(|number| Cell::Number(practised[*number])));
        row
    });
    Table { name: "Practice", columns: all, rows: Box::new(rows.chain(std::iter::once(sums))) }
}

fn pattern_columns(shelf: &Shelf) -> impl Iterator<Item = Column> + '_ {
    shelf.series.patterns.iter().map(|row| {
        let name = format!("{} (lesson {})", row.label, shelf.id(Some(row.lesson)).unwrap_or_default());
        Column { name, width: 5, count: true }
    })
}

/// The sums below the table of readers with its patterns.
pub(super) fn reader_sums(shelf: &Shelf) -> Vec<Cell<'_>> {
    let mut sums = vec![Cell::from("all")];
    sums.extend(std::iter::repeat_n(Cell::Empty, 6));
    sums.extend(shelf.series.patterns.iter().map(|row| Cell::Number(row.practice.times)));
    let after = 5 + if shelf.other.is_some() { AGAINST.len() } else { 0 };
    sums.extend(std::iter::repeat_n(Cell::Empty, after));
    sums
}

/// The columns about the scope that the shelf is compared with.
const AGAINST: [(&str, usize); 4] = [
    ("against_lesson", NUMBER),
    ("against_first_readable", NUMBER),
    ("against_sits", SHORT),
    ("against_percent_readable", NUMBER),
];

fn against<'a>(shelf: &'a Shelf, book: &'a Book) -> [Cell<'a>; AGAINST.len()] {
    match book.refit.as_ref().filter(|refit| !refit.no_lesson) {
        None => [Cell::Empty, Cell::Empty, "no lesson there".into(), Cell::Empty],
        Some(refit) => [
            id(shelf.other_id(refit.fit.meant_for)),
            id(shelf.other_id(refit.fit.first).or(Some("never"))),
            refit.fit.timing().name().into(),
            Cell::Percent(refit.fit.percent_readable),
        ],
    }
}

/// A row for each word that a reader has, in the order in which they come; then the sight words that none has.
pub(super) fn words(shelf: &Shelf) -> Table<'_> {
    let all = columns([
        ("word", SHORT),
        ("sight_word_lesson", NUMBER),
        ("decodable_from", NUMBER),
        ("readable_from", NUMBER),
        ("times", NUMBER),
        ("readers", NUMBER),
        ("first_reader", LONG),
        ("last_reader", LONG),
        ("longest_gap", NUMBER),
        ("readers_since_last", NUMBER),
    ]);
    let met = shelf.words().map(move |(number, word)| {
        let mut row = vec![
            Cell::from(&*word.text),
            id(shelf.id(word.taught_whole)),
            id(shelf.id(word.decodable)),
            id(shelf.id(word.readable)),
        ];
        row.extend(traced(shelf, &shelf.trace(number)));
        row
    });
    let unmet = shelf.series.sight.iter().filter(|sight| sight.number.is_none()).map(move |sight| {
        let lesson = shelf.id(Some(sight.lesson));
        let mut row = vec![Cell::from(sight.word.as_str()), id(lesson), Cell::Empty, id(lesson)];
        row.extend(traced(shelf, &Trace::default()));
        row
    });
    Table { name: "Words", columns: all, rows: Box::new(met.chain(unmet)) }
}

/// A row for each pattern of the scope.
pub(super) fn patterns(shelf: &Shelf) -> Table<'_> {
    let all = columns([
        ("pattern", SHORT),
        ("lesson", NUMBER),
        ("before_its_lesson", NUMBER),
        ("at_its_lesson", NUMBER),
        ("after_its_lesson", NUMBER),
        ("times", NUMBER),
        ("readers", NUMBER),
        ("first_reader", LONG),
        ("last_reader", LONG),
        ("longest_gap", NUMBER),
        ("readers_since_last", NUMBER),
    ]);
    let rows = shelf.series.patterns.iter().map(move |row| {
        let mut cells = vec![
            Cell::from(row.label.as_str()),
            id(shelf.id(Some(row.lesson))),
            row.before.into(),
            row.at.into(),
            row.after.into(),
        ];
        cells.extend(traced(shelf, &row.practice));
        cells
    });
    Table { name: "Patterns", columns: all, rows: Box::new(rows) }
}

/// A row for each lesson of the scope.
pub(super) fn lessons(shelf: &Shelf) -> Table<'_> {
    let all = columns([
        ("lesson", NUMBER),
        ("title", LONG),
        ("readers", NUMBER),
        ("words", NUMBER),
        ("new_words", NUMBER),
        ("teaches", LONG),
        ("sight_words", LONG),
    ]);
    let scope = shelf.scope.into_iter().flat_map(|scope| scope.indexed_lessons());
    let rows = scope.map(move |(index, lesson)| {
        let of = shelf.series.lessons.get(index.get()).copied().unwrap_or_default();
        let taught: Vec<String> = lesson.taught().iter().map(untaught::Pattern::label).collect();
        vec![
            Cell::Id(&lesson.id),
            lesson.title.as_str().into(),
            of.readers.into(),
            of.words.into(),
            of.new_words.into(),
            taught.join(", ").into(),
            lesson.sight.join(", ").into(),
        ]
    });
    Table { name: "Lessons", columns: all, rows: Box::new(rows) }
}

/// A row for each thing that the scope teaches and the shelf lacks.
pub(super) fn lacking(shelf: &Shelf) -> Table<'_> {
    let all = columns([("what", SHORT), ("name", LONG), ("lesson", NUMBER), ("times", NUMBER), ("readers", NUMBER)]);
    let lacks = &shelf.lacks;
    let lessons = lacks.lessons.iter().chain(&lacks.lessons_to_come).map(move |lesson| {
        let title = shelf.scope.and_then(|scope| scope.lesson(*lesson)).map_or("", |lesson| lesson.title.as_str());
        vec![Cell::from("lesson without a reader"), title.into(), id(shelf.id(Some(*lesson))), Cell::Empty, 0.into()]
    });
    let patterns = lacks.patterns.iter().map(move |number| {
        let row = &shelf.series.patterns[*number];
        let (times, readers) = (row.practice.times, row.practice.readers);
        vec!["pattern".into(), row.label.as_str().into(), id(shelf.id(Some(row.lesson))), times.into(), readers.into()]
    });
    let sight = lacks.sight.iter().map(move |number| {
        let row = &shelf.series.sight[*number];
        let trace = row.number.map_or_else(Trace::default, |number| shelf.trace(number));
        vec![
            "sight word".into(),
            row.word.as_str().into(),
            id(shelf.id(Some(row.lesson))),
            trace.times.into(),
            trace.readers.into(),
        ]
    });
    Table { name: "Lacking", columns: all, rows: Box::new(lessons.chain(patterns).chain(sight)) }
}

fn id(id: Option<&str>) -> Cell<'_> {
    id.map_or(Cell::Empty, Cell::Id)
}

/// What every trace has: times, readers, first and last of these, longest gap, readers since.
fn traced<'a>(shelf: &'a Shelf, trace: &Trace) -> [Cell<'a>; 6] {
    let met = trace.readers > 0;
    let reader = |number: usize| Cell::from(met.then(|| shelf.books[number].name.as_str()));
    [
        trace.times.into(),
        trace.readers.into(),
        reader(trace.first),
        reader(trace.last),
        met.then_some(trace.longest_gap).into(),
        trace.since(shelf.books.len()).into(),
    ]
}

/// What a reader is called in a line: its file, and its title if it has one.
pub(super) fn called(book: &Book) -> String {
    titles::of_named(book.title.as_deref(), &book.name).0
}
