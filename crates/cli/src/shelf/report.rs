//! The shelf for people, for programs and for spreadsheets.

use std::fmt::Write as _;
use std::io;

use serde::Serialize;

use super::{Book, Row, Sits, Whole, new_words};
use crate::check::{rounded, shown};
use crate::output::{DIM, Failed, STRONG, UNTAUGHT, json_bytes, one_line, table};

impl Whole {
    pub(super) fn id(&self, place: Option<untaught::LessonIndex>) -> Option<&'static str> {
        self.scope?.lesson(place?).map(|lesson| lesson.id.as_str())
    }
}

/// New words named in the text report.
const NEW: usize = 12;

pub(super) fn text(whole: &Whole) -> String {
    let mut out = String::new();
    let n = whole.books.len();
    let readers = if n == 1 { "1 reader".to_owned() } else { format!("{n} readers") };
    let by = whole.scope.map_or_else(String::new, |scope| format!(" by {}", scope.title()));
    let _ = writeln!(out, "{STRONG}{readers}{STRONG:#}{}\n", one_line(&by));
    for book in &whole.books {
        let _ = one(&mut out, whole, book);
    }
    let amiss: Vec<&Book> = whole.books.iter().filter(|book| matches!(book.sits(), Sits::Early | Sits::Late)).collect();
    if !amiss.is_empty() {
        let _ = writeln!(out, "{STRONG}Out of place{STRONG:#}");
        for book in amiss {
            let first = whole.id(book.first).map_or("at no lesson".to_owned(), |id| format!("from lesson {id}"));
            let more = match book.sits() {
                Sits::Late => ", and nothing in it practises what its lesson teaches",
                _ => "",
            };
            let _ = writeln!(
                out,
                "  {UNTAUGHT}✗{UNTAUGHT:#} {} sits {}: meant for lesson {}, readable {}{more}",
                one_line(&book.name),
                book.sits().name(),
                one_line(whole.id(book.meant_for).unwrap_or_default()),
                one_line(&first)
            );
        }
        let _ = writeln!(out);
    }
    if !whole.too_little.is_empty() {
        let _ = writeln!(
            out,
            "{STRONG}Practised fewer than {} times{STRONG:#} {DIM}(of the patterns taught by the last reader's lesson){DIM:#}",
            whole.enough
        );
        for number in &whole.too_little {
            let Row { label, lesson, words, readers } = &whole.rows[*number];
            let id = whole.id(Some(*lesson)).unwrap_or_default();
            let times = match (words, readers) {
                (0, _) => "never".to_owned(),
                (1, _) => "once".to_owned(),
                (n, 1) => format!("{n} times, all in one reader"),
                (n, readers) => format!("{n} times in {readers} readers"),
            };
            let _ = writeln!(out, "  {}, lesson {}: {times}", one_line(label), one_line(id));
        }
        let _ = writeln!(out);
    }
    if let Some(order) = &whole.order {
        let _ = writeln!(
            out,
            "{STRONG}A proposed order{STRONG:#} {DIM}(by the first lesson each can be read, then by the fewest new words){DIM:#}"
        );
        for (at, number) in order.iter().enumerate() {
            let book = &whole.books[*number];
            let first = whole.id(book.first).map_or("at no lesson".to_owned(), |id| format!("from lesson {id}"));
            let _ = writeln!(out, "  {:>3}. {}  {DIM}{}{DIM:#}", at + 1, one_line(&book.name), one_line(&first));
        }
        let _ = writeln!(out);
    }
    out
}

fn one(out: &mut String, whole: &Whole, book: &Book) -> std::fmt::Result {
    let lesson = match whole.id(book.meant_for) {
        Some(id) => format!("lesson {id}, {} readable", shown(book.percent_readable)),
        None => {
            whole.id(book.first).map_or("readable at no lesson".to_owned(), |id| format!("readable from lesson {id}"))
        }
    };
    let words = if book.words == 1 { "1 word".to_owned() } else { format!("{} words", book.words) };
    let title = book.title.as_ref().map_or(String::new(), |title| format!(" ({title})"));
    writeln!(out, "  {STRONG}{}{STRONG:#}{}  {}, {words}", one_line(&book.name), one_line(&title), one_line(&lesson))?;
    let mut practised: Vec<(usize, &Row)> =
        book.practised.iter().copied().zip(&whole.rows).filter(|(n, _)| *n > 0).collect();
    // What was taught last tells most.
    practised.sort_by_key(|(_, row)| std::cmp::Reverse(row.lesson));
    let shown: Vec<String> = practised.iter().take(8).map(|(n, row)| format!("{} ({n})", row.label)).collect();
    if !shown.is_empty() {
        let more = if practised.len() > shown.len() { ", …" } else { "" };
        writeln!(out, "      practises {}{more}", one_line(&shown.join(", ")))?;
    }
    let new: Vec<&str> = book.new.iter().take(NEW).map(String::as_str).collect();
    let more = if book.new.len() > new.len() { ", …" } else { "" };
    match book.new.len() {
        0 => writeln!(out, "      no new words"),
        n => writeln!(
            out,
            "      {n} new {}: {}{more}",
            if n == 1 { "word" } else { "words" },
            one_line(&new.join(", "))
        ),
    }?;
    writeln!(out)
}

#[derive(Serialize)]
struct Root<'a> {
    format: u32,
    scope: Option<&'a str>,
    patterns: Vec<PatternOut<'a>>,
    readers: Vec<Reader<'a>>,
    /// Patterns practised fewer times than this are listed.
    enough: usize,
    practised_too_little: Vec<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    order: Option<Vec<&'a str>>,
    errors: &'a [Failed],
}

#[derive(Serialize)]
struct PatternOut<'a> {
    pattern: &'a str,
    lesson: Option<&'a str>,
    words: usize,
    readers: usize,
}

#[derive(Serialize)]
struct Reader<'a> {
    file: &'a str,
    title: Option<&'a str>,
    lesson: Option<&'a str>,
    readable_from: Option<&'a str>,
    sits: &'static str,
    words: usize,
    percent_readable: Option<f64>,
    practises: Vec<Practised<'a>>,
    new_words: &'a [String],
}

#[derive(Serialize)]
struct Practised<'a> {
    pattern: &'a str,
    words: usize,
}

pub(super) fn json(whole: &Whole, failed: &[Failed]) -> io::Result<Vec<u8>> {
    let pattern =
        |row: &'_ Row| -> (Option<&'static str>, usize, usize) { (whole.id(Some(row.lesson)), row.words, row.readers) };
    let practised = |book: &'_ Book| -> Vec<(usize, usize)> {
        book.practised.iter().copied().enumerate().filter(|(_, n)| *n > 0).collect()
    };
    let root = Root {
        format: 1,
        scope: whole.scope.map(|scope| scope.title()),
        patterns: whole
            .rows
            .iter()
            .map(|row| {
                let (lesson, words, readers) = pattern(row);
                PatternOut { pattern: &row.label, lesson, words, readers }
            })
            .collect(),
        readers: whole
            .books
            .iter()
            .map(|book| Reader {
                file: &book.name,
                title: book.title.as_deref(),
                lesson: whole.id(book.meant_for),
                readable_from: whole.id(book.first),
                sits: book.sits().name(),
                words: book.words,
                percent_readable: rounded(book.percent_readable),
                practises: practised(book)
                    .into_iter()
                    .map(|(number, words)| Practised { pattern: &whole.rows[number].label, words })
                    .collect(),
                new_words: &book.new,
            })
            .collect(),
        enough: whole.enough,
        practised_too_little: whole.too_little.iter().map(|number| whole.rows[*number].label.as_str()).collect(),
        order: whole
            .order
            .as_ref()
            .map(|order| order.iter().map(|number| whole.books[*number].name.as_str()).collect()),
        errors: failed,
    };
    let mut out = json_bytes(&root)?;
    out.push(b'\n');
    Ok(out)
}

/// A row for each reader, a column for each pattern. In the proposed order if that was asked for; what is new in a reader is what no
/// row above it has.
pub(super) fn csv(whole: &Whole) -> io::Result<Vec<u8>> {
    let head = ["file", "lesson", "readable from", "sits", "words", "percent readable", "new words"];
    let mut columns: Vec<String> = head.iter().map(|cell| (*cell).to_owned()).collect();
    columns.extend(
        whole
            .rows
            .iter()
            .map(|row| format!("{} (lesson {})", row.label, whole.id(Some(row.lesson)).unwrap_or_default())),
    );
    let cells = |cells: &[String]| table::row(&cells.iter().map(String::as_str).collect::<Vec<_>>());
    let mut out = cells(&columns)?;
    let order = whole.order.clone().unwrap_or_else(|| (0..whole.books.len()).collect());
    let new = new_words(&whole.books, &order);
    for (book, new) in order.iter().map(|number| (&whole.books[*number], &new[*number])) {
        let percent = rounded(book.percent_readable).map_or_else(String::new, |percent| percent.to_string());
        let mut row = vec![
            book.name.clone(),
            whole.id(book.meant_for).unwrap_or_default().to_owned(),
            whole.id(book.first).unwrap_or("never").to_owned(),
            book.sits().name().to_owned(),
            book.words.to_string(),
            percent,
            new.len().to_string(),
        ];
        row.extend(book.practised.iter().map(ToString::to_string));
        out.extend(cells(&row)?);
    }
    let mut sums = vec!["all".to_owned()];
    sums.extend(std::iter::repeat_n(String::new(), head.len() - 1));
    sums.extend(whole.rows.iter().map(|row| row.words.to_string()));
    out.extend(cells(&sums)?);
    Ok(out)
}
