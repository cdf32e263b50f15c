//! Lessons from lines that were pasted: a line of patterns for each lesson, the rows of a spreadsheet, or a scope file.

use serde::{Deserialize, Serialize};
use untaught::{Pattern, Reader};

use super::columns::{Column, ENTRIES, columns, id_of};
use super::{Draft, DraftLesson, entries};
use crate::refusal::Refusal;

/// Lines that were pasted.
#[derive(Debug, Deserialize)]
pub(crate) struct LinesQuestion {
    pub(crate) text: String,
    /// Lessons that are there already.
    #[serde(default)]
    pub(crate) after: usize,
}

/// The lessons in them.
#[derive(Debug, Serialize)]
pub(crate) struct PastedLessons {
    lessons: Vec<DraftLesson>,
    /// The whole scope, if a scope file was pasted.
    draft: Option<Draft>,
    /// What each column of a table was taken for.
    columns: Vec<Column>,
    /// Whether the first row was taken for the headings of the columns.
    headings: bool,
}

/// Lessons that are taken at once: as many as a scope may have.
const MOST: usize = 5_000;

/// The longest text that is read, in bytes.
const LONGEST: usize = 1 << 20;

/// The lessons in pasted lines.
pub(crate) fn lessons_in(asked: &LinesQuestion, reader: &Reader) -> Result<PastedLessons, Refusal> {
    let text = asked.text.trim_start_matches('\u{feff}');
    if text.len() > LONGEST {
        return Err(Refusal::Problem("this is too long for a list of lessons".to_owned()));
    }
    let made = |lessons: Vec<DraftLesson>, columns: Vec<Column>, headings: bool| PastedLessons {
        lessons: numbered(lessons, asked.after),
        draft: None,
        columns,
        headings,
    };
    if text.lines().any(|line| line.trim_end() == "lessons:") {
        let draft = super::read(text)
            .map_err(|fault| Refusal::Problem(format!("this looks like a scope file, but {fault}")))?;
        return Ok(PastedLessons {
            lessons: draft.lessons.clone(),
            draft: Some(draft),
            columns: Vec::new(),
            headings: false,
        });
    }
    if text.contains('\t') {
        let rows = rows_of(text);
        let (columns, headings) = columns(&rows, reader);
        let lessons = rows.iter().skip(usize::from(headings)).take(MOST).map(|row| lesson_of_row(row, &columns));
        let lessons = lessons.collect();
        return Ok(made(lessons, columns, headings));
    }
    let lines = text.lines().map(str::trim).filter(|line| line.contains(char::is_alphanumeric));
    Ok(made(lines.take(MOST).map(|line| lesson_of_line(line, reader)).collect(), Vec::new(), false))
}

/// The rows of a table with tabs between its cells; a cell in quotes may have lines of its own.
fn rows_of(text: &str) -> Vec<Vec<String>> {
    let mut reader = csv::ReaderBuilder::new();
    let reader = reader.delimiter(b'\t').has_headers(false).flexible(true).from_reader(text.as_bytes());
    let rows = reader.into_records().filter_map(Result::ok);
    let rows = rows.map(|row| row.iter().map(|cell| cell.trim().to_owned()).collect::<Vec<String>>());
    rows.filter(|row| row.iter().any(|cell| !cell.is_empty())).collect()
}

fn lesson_of_row(row: &[String], columns: &[Column]) -> DraftLesson {
    let mut lesson = DraftLesson::default();
    for (cell, column) in row.iter().zip(columns) {
        match column {
            Column::Id => lesson.id = id_of(cell).map_or_else(|| cell.clone(), |(id, _)| id),
            Column::Title => lesson.title = cell.split_whitespace().collect::<Vec<_>>().join(" "),
            // *final blends* among the patterns is a skill.
            Column::Teach if lesson.skills.is_empty() && !cell.is_empty() && entries::are_skills(cell) => {
                lesson.skills = entries::skills(cell).join(", ");
            }
            Column::Teach => lesson.teach = entries::patterns(cell).join(", "),
            Column::Sight => lesson.sight = entries::words(cell).join(", "),
            Column::Skills if cell.is_empty() => {}
            Column::Skills => lesson.skills = entries::skills(cell).join(", "),
            Column::Review => lesson.review = entries::patterns(cell).join(", "),
            Column::Unused => {}
        }
    }
    lesson
}

/// A lesson on one line: a number, a title before a colon, patterns, `sight:` and sight words.
fn lesson_of_line(line: &str, reader: &Reader) -> DraftLesson {
    let line = ["- ", "* ", "• ", "· "].iter().find_map(|bullet| line.strip_prefix(bullet)).unwrap_or(line).trim();
    let (id, line) = id_of(line).map_or((String::new(), line), |(id, rest)| (id, rest));
    let (line, sight) = split_at_sight(line);
    let (title, teach) = match line.split_once(':') {
        Some((title, teach)) => (title.trim(), teach),
        None => ("", line),
    };
    let taught = entries::patterns(teach);
    let is_pattern = |text: &String| Pattern::parse(text, reader).is_ok();
    // A line of words of which none is a pattern is a title.
    if title.is_empty() && taught.len() > 1 && !taught.iter().take(ENTRIES).any(is_pattern) {
        return DraftLesson {
            id,
            title: teach.trim().to_owned(),
            sight: entries::words(sight).join(", "),
            ..DraftLesson::default()
        };
    }
    DraftLesson {
        id,
        title: title.to_owned(),
        teach: taught.join(", "),
        sight: entries::words(sight).join(", "),
        ..DraftLesson::default()
    }
}

/// What is before and after `sight:` or `sight words:`; a bar before it goes too.
fn split_at_sight(line: &str) -> (&str, &str) {
    let small = line.to_lowercase();
    let label = ["sight words:", "sight word:", "sight:", "tricky words:", "tricky:"];
    let found = label.iter().find_map(|label| small.find(label).map(|at| (at, at + label.len())));
    match found.and_then(|(from, to)| Some((line.get(..from)?, line.get(to..)?))) {
        Some((before, after)) => (before.trim_end_matches(['|', ';', '(', ' ', ',', '+']), after),
        None => line.split_once('|').unwrap_or((line, "")),
    }
}

/// Without numbers that say no more than the place of each lesson does.
fn numbered(mut lessons: Vec<DraftLesson>, after: usize) -> Vec<DraftLesson> {
    let counts = |from: usize| {
        move |(at, lesson): (usize, &DraftLesson)| lesson.id.is_empty() || lesson.id == (from + at + 1).to_string()
    };
    if lessons.iter().enumerate().all(counts(after)) || after == 0 && lessons.iter().enumerate().all(counts(0)) {
        for lesson in &mut lessons {
            lesson.id.clear();
        }
    }
    lessons
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pasted(text: &str) -> PastedLessons {
        lessons_in(&LinesQuestion { text: text.to_owned(), after: 0 }, &Reader::default()).ok().unwrap()
    }

    fn rows(text: &str) -> Vec<[String; 5]> {
        let rows = pasted(text).lessons.into_iter();
        rows.map(|lesson| [lesson.id, lesson.title, lesson.teach, lesson.sight, lesson.skills]).collect()
    }

    fn one(text: &str) -> [String; 5] {
        rows(text).remove(0)
    }

    #[test]
    fn a_line_is_a_lesson() {
        let lines = rows("s a t p i n\n\n2. m d g o\r\n3) Two letters, one sound: sh ch | the, of\n");
        assert_eq!(lines[0], ["", "", "s, a, t, p, i, n", "", ""]);
        assert_eq!(lines[1], ["", "", "m, d, g, o", "", ""]);
        assert_eq!(lines[2], ["", "Two letters, one sound", "sh, ch", "the, of", ""]);
        assert_eq!(one("Week 7: ai ay sight words: they"), ["7", "", "ai, ay", "they", ""]);
        assert_eq!(one("• 2.3 -ing, -ed as in jumped"), ["2.3", "", "-ing, -ed as in jumped", "", ""]);
        assert_eq!(one("Nothing new here"), ["", "Nothing new here", "", "", ""]);
        assert!(pasted("\n ---\n").lessons.is_empty());
    }

    #[test]
    fn the_columns_of_a_table_are_told_by_their_headings_or_by_what_is_in_them() {
        let named = pasted("Week\tTricky words\tGraphemes\tNotes\n1\tthe I\ts a t\tsongs\n2\tto\tp i n\t\n");
        assert!(named.headings);
        assert_eq!(named.columns, [Column::Id, Column::Sight, Column::Teach, Column::Unused]);
        assert_eq!(named.lessons[1].teach, "p, i, n");
        assert_eq!((named.lessons[1].id.as_str(), named.lessons[0].sight.as_str()), ("", "the, I"));
        let bare = pasted("1\tFirst sounds\ts a t p\tI the\t\n2\tMore\tsh, ch\tsaid\tfinal blends\n");
        assert!(!bare.headings);
        assert_eq!(bare.columns, [Column::Id, Column::Title, Column::Teach, Column::Sight, Column::Skills]);
        assert_eq!(bare.lessons[1].skills, "final-blends");
        assert_eq!(rows("s a t\tthe\nsh ch\tsaid was\n")[1], ["", "", "sh, ch", "said, was", ""]);
        assert_eq!(rows("Start\ts a t\nMore\tsh ch\n")[0], ["", "Start", "s, a, t", "", ""]);
        assert_eq!(one("First\t\"s\na\nt\"\n"), ["", "First", "s, a, t", "", ""]);
    }

    #[test]
    fn patterns_are_found_in_a_column_that_is_called_the_focus() {
        let named = pasted(
            "Lesson\tFocus\tTitle\tTricky words\n1\ts a t\tsat\tthe\n2\tfinal blends\tbest\tto\n3\tsh and ch\tship\t\n",
        );
        assert_eq!(named.columns, [Column::Id, Column::Teach, Column::Title, Column::Sight]);
        let lessons: Vec<_> = named.lessons.iter().map(|one| [&one.teach, &one.title, &one.skills]).collect();
        assert_eq!(lessons, [["s, a, t", "sat", ""], ["", "best", "final-blends"], ["sh, ch", "ship", ""]]);
        let without = pasted("Week\tFocus\n1\ts a t\n2\tp i n\n");
        assert_eq!(without.columns, [Column::Id, Column::Teach]);
        // A focus that is a title stays one.
        let titled = pasted("Focus\tPatterns\nFirst sounds\ts a t\n");
        assert_eq!(titled.columns, [Column::Title, Column::Teach]);
    }

    #[test]
    fn odd_and_large_pastes_end_soon() {
        for text in [
            "zq ".repeat(300_000),
            "zq\t".repeat(250_000),
            "1\t\n".repeat(100_000),
            "\"a\tb".to_owned(),
            "\t".to_owned(),
        ] {
            let begun = std::time::Instant::now();
            let taken = pasted(&text);
            assert!(taken.lessons.len() <= MOST);
            assert!(begun.elapsed().as_secs() < 5, "{text:.20}");
        }
        let long = LinesQuestion { text: "s ".repeat(LONGEST), after: 0 };
        assert!(matches!(lessons_in(&long, &Reader::default()), Err(Refusal::Problem(_))));
    }

    #[test]
    fn a_pasted_scope_file_is_one() {
        let whole = pasted("format: 1\ntitle: Ours\nlessons:\n- teach: [s, a]\n");
        assert_eq!(whole.draft.unwrap().title, "Ours");
        let refused =
            lessons_in(&LinesQuestion { text: "lessons:\n- teech: [s]".to_owned(), after: 0 }, &Reader::default());
        let Err(Refusal::Problem(why)) = refused else { panic!("it is refused") };
        assert!(why.contains("line 2"), "{why}");
    }
}
