//! The shelf for people.

use std::fmt::Write as _;

use untaught::messages;

use crate::analysis::{Book, PatternTotals, Shelf, Timing};
use crate::output::{DIM, STRONG, UNTAUGHT, count, one_line};

/// New words named in the text report.
const NEW: usize = 12;

/// The report on a shelf.
pub(super) fn report(shelf: &Shelf) -> String {
    let mut out = String::new();
    let readers = count(shelf.books.len(), "reader");
    let by = shelf.scope.map_or_else(String::new, |scope| format!(" by {}", scope.title()));
    let _ = writeln!(out, "{STRONG}{readers}{STRONG:#}{}\n", one_line(&by));
    for book in &shelf.books {
        let _ = one(&mut out, shelf, book);
    }
    let amiss: Vec<&Book> = shelf.misplaced().collect();
    if !amiss.is_empty() {
        let _ = writeln!(out, "{STRONG}Out of place{STRONG:#}");
        for book in amiss {
            let first = shelf.id(book.first).map_or("at no lesson".to_owned(), |id| format!("from lesson {id}"));
            let more = match book.timing() {
                Timing::Late => ", and it practises nothing its lesson teaches",
                _ => "",
            };
            let _ = writeln!(
                out,
                "  {UNTAUGHT}✗{UNTAUGHT:#} {} comes {}: meant for lesson {}, readable {}{more}",
                one_line(&book.name),
                book.timing().name(),
                one_line(shelf.id(book.meant_for).unwrap_or_default()),
                one_line(&first)
            );
        }
        let _ = writeln!(out);
    }
    if !shelf.too_little.is_empty() {
        let _ = writeln!(
            out,
            "{STRONG}Practised fewer than {} times{STRONG:#} {DIM}(of the patterns taught by the last reader's lesson){DIM:#}",
            shelf.enough
        );
        for number in &shelf.too_little {
            let PatternTotals { label, lesson, words, readers } = &shelf.patterns[*number];
            let id = shelf.id(Some(*lesson)).unwrap_or_default();
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
    if let Some(order) = &shelf.order {
        let _ = writeln!(
            out,
            "{STRONG}Suggested order{STRONG:#} {DIM}(by the first lesson at which each can be read, then by fewest new words){DIM:#}"
        );
        for (at, number) in order.iter().enumerate() {
            let book = &shelf.books[*number];
            let first = shelf.id(book.first).map_or("at no lesson".to_owned(), |id| format!("from lesson {id}"));
            let _ = writeln!(out, "  {:>3}. {}  {DIM}{}{DIM:#}", at + 1, one_line(&book.name), one_line(&first));
        }
        let _ = writeln!(out);
    }
    out
}

fn one(out: &mut String, shelf: &Shelf, book: &Book) -> std::fmt::Result {
    let lesson = match shelf.id(book.meant_for) {
        Some(id) => format!("lesson {id}, {} readable", messages::percent(book.percent_readable)),
        None => shelf
            .id(book.first)
            .map_or("not readable at any lesson".to_owned(), |id| format!("readable from lesson {id}")),
    };
    let words = count(book.words, "word");
    let title = book.title.as_ref().map_or(String::new(), |title| format!(" ({title})"));
    writeln!(out, "  {STRONG}{}{STRONG:#}{}  {}, {words}", one_line(&book.name), one_line(&title), one_line(&lesson))?;
    let mut practised: Vec<(usize, &PatternTotals)> =
        book.practised.iter().copied().zip(&shelf.patterns).filter(|(n, _)| *n > 0).collect();
    // What was taught last tells most.
    practised.sort_by_key(|(_, row)| std::cmp::Reverse(row.lesson));
    let listed: Vec<String> = practised.iter().take(8).map(|(n, row)| format!("{} ({n})", row.label)).collect();
    if !listed.is_empty() {
        let more = if practised.len() > listed.len() { ", …" } else { "" };
        writeln!(out, "      practises {}{more}", one_line(&listed.join(", ")))?;
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
