//! What the columns of a pasted table hold: by their headings, otherwise by what is in them.

use serde::Serialize;
use untaught::{Pattern, Reader};

use super::entries;

/// What a column holds.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum Column {
    Id,
    Title,
    Teach,
    Sight,
    Skills,
    Review,
    /// Nothing that a scope has.
    Unused,
}

/// Rows whose cells are looked at.
const LOOKED_AT: usize = 40;

/// Columns that are looked at.
const COLUMNS: usize = 30;

/// Entries of a cell or a line that are looked at.
pub(super) const ENTRIES: usize = 12;

/// Headings, by what they contain. The first that fits counts.
const HEADINGS: [(Column, &[&str]); 6] = [
    (Column::Sight, &["sight", "tricky", "irregular", "exception", "high-frequency", "high frequency", "words"]),
    (Column::Skills, &["skill"]),
    (Column::Review, &["review", "revis", "practise", "practice", "again"]),
    (Column::Teach, &["pattern", "spelling", "grapheme", "phonic", "sound", "teach", "letters", "new"]),
    (Column::Title, &["title", "topic", "name", "focus", "about"]),
    (Column::Id, &["lesson", "week", "unit", "step", "number", "no.", "id", "day", "#"]),
];

/// The columns of a table, and whether its first row has their headings.
pub(super) fn columns(rows: &[Vec<String>], reader: &Reader) -> (Vec<Column>, bool) {
    let width = rows.iter().map(Vec::len).max().unwrap_or(0);
    match rows.first().and_then(|row| by_headings(row)) {
        Some(mut columns) => {
            columns.resize(width, Column::Unused);
            find_taught(&mut columns, rows, reader);
            (columns, true)
        }
        None => (by_content(rows, width, reader), false),
    }
}

/// Finds the patterns by content where no heading names them: people call that column the focus, which may be a title too.
fn find_taught(columns: &mut [Column], rows: &[Vec<String>], reader: &Reader) {
    if columns.contains(&Column::Teach) {
        return;
    }
    let share = |column: usize| {
        let cells = rows.iter().skip(1).take(LOOKED_AT).filter_map(|row| row.get(column));
        let shares: Vec<f64> = cells.filter(|cell| !cell.is_empty()).map(|cell| taught_of(cell, reader)).collect();
        shares.iter().sum::<f64>() / shares.len().max(1) as f64
    };
    let is_free = |column: &usize| matches!(columns[*column], Column::Title | Column::Unused);
    let free = (0..columns.len().min(COLUMNS)).filter(is_free).map(|column| (column, share(column)));
    let best = free.reduce(|best, next| if next.1 > best.1 { next } else { best });
    let Some((taught, _)) = best.filter(|(_, share)| *share > 0.5) else { return };
    let was_title = columns[taught] == Column::Title;
    columns[taught] = Column::Teach;
    // Another column may be called a title.
    let is_title = |column: &usize| {
        columns[*column] == Column::Unused
            && column_of(rows[0].get(*column).map_or("", |cell| cell)) == Some(Column::Title)
    };
    if let Some(title) = (0..columns.len()).find(is_title).filter(|_| was_title) {
        columns[title] = Column::Title;
    }
}

/// How many of the entries of a cell are patterns; a cell that names skills counts too.
fn taught_of(cell: &str, reader: &Reader) -> f64 {
    if entries::are_skills(cell) { 1.0 } else { patterns_of(cell, reader) }
}

/// What a column with that heading holds.
fn column_of(heading: &str) -> Option<Column> {
    let heading = heading.trim().to_lowercase();
    let fits = |(_, words): &&(Column, &[&str])| words.iter().any(|word| heading.contains(word));
    // A long cell is no heading.
    HEADINGS.iter().find(fits).map(|(column, _)| *column).filter(|_| heading.chars().count() <= 30)
}

/// Columns by their headings: at least two are known, and one is a list or every one is known.
fn by_headings(row: &[String]) -> Option<Vec<Column>> {
    let mut found: Vec<Column> = Vec::new();
    for cell in row {
        let cell = cell.trim().to_lowercase();
        // A long cell is no heading.
        let fits = |(column, words): &&(Column, &[&str])| {
            cell.chars().count() <= 30 && words.iter().any(|word| cell.contains(word)) && !found.contains(column)
        };
        found.push(HEADINGS.iter().find(fits).map_or(Column::Unused, |(column, _)| *column));
    }
    let known = found.iter().filter(|column| **column != Column::Unused).count();
    let all_known = row.iter().all(|cell| column_of(cell).is_some());
    let lists = found.contains(&Column::Teach) || found.contains(&Column::Sight) || all_known;
    (lists && (known > 1 || row.len() == 1)).then_some(found)
}

/// Numbers come first, then a title, the patterns, the sight words, the skills.
fn by_content(rows: &[Vec<String>], width: usize, reader: &Reader) -> Vec<Column> {
    let cells = |column: usize| {
        let cells = rows.iter().take(LOOKED_AT).filter_map(move |row| row.get(column));
        cells.map(|cell| cell.trim()).filter(|cell| !cell.is_empty())
    };
    let share = |column: usize, test: &dyn Fn(&str) -> f64| {
        let (sum, count) = cells(column).fold((0.0, 0.0), |(sum, count), cell| (sum + test(cell), count + 1.0));
        if count > 0.0 { sum / count } else { 0.0 }
    };
    let is_id = |cell: &str| f64::from(u8::from(id_of(cell).is_some_and(|(_, rest)| rest.is_empty())));
    let is_skill = |cell: &str| f64::from(u8::from(entries::are_skills(cell)));
    let mut out = vec![Column::Unused; width];
    let mut free: Vec<usize> = (0..width.min(COLUMNS)).filter(|column| cells(*column).next().is_some()).collect();
    if free.len() > 1 && share(free[0], &is_id) > 0.8 {
        out[free.remove(0)] = Column::Id;
    }
    if let Some(at) = free.iter().position(|column| share(*column, &is_skill) > 0.8) {
        out[free.remove(at)] = Column::Skills;
    }
    let of_patterns = |column: usize| share(column, &|cell| patterns_of(cell, reader));
    let best = free.iter().copied().map(|column| (column, of_patterns(column)));
    // Of two that are alike the first counts.
    let best = best.reduce(|best, next| if next.1 > best.1 + 0.01 { next } else { best });
    let Some((teach, _)) = best else { return out };
    out[teach] = Column::Teach;
    if let Some(title) = free.iter().find(|column| **column < teach) {
        out[*title] = Column::Title;
    }
    if let Some(sight) = free.iter().find(|column| **column > teach) {
        out[*sight] = Column::Sight;
    }
    out
}

/// How many of the entries of a cell are patterns.
fn patterns_of(cell: &str, reader: &Reader) -> f64 {
    let entries = entries::patterns(cell);
    let looked_at = entries.iter().take(ENTRIES);
    let (mut good, mut all) = (0.0, 0.0);
    for entry in looked_at {
        all += 1.0;
        good += f64::from(u8::from(Pattern::parse(entry, reader).is_ok()));
    }
    if all > 0.0 { good / all } else { 0.0 }
}

/// Words that stand before the number of a lesson.
const BEFORE_NUMBERS: [&str; 8] = ["lesson", "week", "unit", "day", "step", "set", "block", "no."];

/// The number at the start of a line, and what comes after it: `3. sh ch`, `Lesson 12: night words`.
pub(super) fn id_of(line: &str) -> Option<(String, &str)> {
    let small = line.to_lowercase();
    let named = BEFORE_NUMBERS.iter().find(|word| small.starts_with(**word)).map_or(0, |word| word.len());
    let rest = line.get(named..)?.trim_start();
    let end = rest.find(|c: char| !c.is_ascii_alphanumeric() && c != '.').unwrap_or(rest.len());
    let id = rest[..end].trim_end_matches('.');
    let number = id.starts_with(|c: char| c.is_ascii_digit()) && id.len() <= 8;
    let after = rest[end..].trim_start_matches([':', ')', '.', '-', '–', ' ']);
    // A hyphen at the start of an ending belongs to it: `3 -ing`.
    let after = match rest[end..].trim_start().strip_prefix('-') {
        Some(ending) if ending.starts_with(char::is_alphabetic) => rest[end..].trim_start(),
        _ => after,
    };
    number.then(|| (id.to_owned(), after))
}
