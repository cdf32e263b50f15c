//! The shelf for spreadsheets.

use std::io;

use crate::analysis::{Shelf, new_words};
use crate::output::table;

/// A row for each reader, a column for each pattern. In the proposed order if that was asked for; what is new in a reader is what no
/// row above it has.
pub(super) fn report(shelf: &Shelf) -> io::Result<Vec<u8>> {
    let head = ["file", "lesson", "first_readable", "sits", "words", "percent_readable", "new_words"];
    let mut columns: Vec<String> = head.iter().map(|cell| (*cell).to_owned()).collect();
    columns.extend(
        shelf
            .patterns
            .iter()
            .map(|row| format!("{} (lesson {})", row.label, shelf.id(Some(row.lesson)).unwrap_or_default())),
    );
    let cells = |cells: &[String]| table::row(&cells.iter().map(String::as_str).collect::<Vec<_>>());
    let mut out = table::headings(&columns.iter().map(String::as_str).collect::<Vec<_>>())?;
    let order = shelf.order.clone().unwrap_or_else(|| (0..shelf.books.len()).collect());
    let new = new_words(&shelf.books, &order);
    for (book, new) in order.iter().map(|number| (&shelf.books[*number], &new[*number])) {
        let mut row = vec![
            book.name.clone(),
            shelf.id(book.meant_for).unwrap_or_default().to_owned(),
            shelf.id(book.first).unwrap_or("never").to_owned(),
            book.timing().name().to_owned(),
            book.words.to_string(),
            table::percent(book.percent_readable),
            new.len().to_string(),
        ];
        row.extend(book.practised.iter().map(ToString::to_string));
        out.extend(cells(&row)?);
    }
    let mut sums = vec!["all".to_owned()];
    sums.extend(std::iter::repeat_n(String::new(), head.len() - 1));
    sums.extend(shelf.patterns.iter().map(|row| row.words.to_string()));
    out.extend(cells(&sums)?);
    Ok(out)
}
