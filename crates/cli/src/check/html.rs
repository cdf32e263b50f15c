//! One page over all texts: what the run came to, an index, and each story with its words marked.

use std::io;

use serde::Serialize;

use super::format::{Format, Whole};
use super::{Checked, Wanted, shown, story};
use crate::output::Failed;
use crate::page;

pub(super) struct Html;

/// What the index says of a text.
#[derive(Serialize)]
pub(super) struct Summary {
    title: String,
    /// Its file, where the title is not its name.
    file: Option<String>,
    scope: String,
    lesson: String,
    decodable: String,
    readable: String,
    words: usize,
    untaught: usize,
    met: bool,
}

impl Summary {
    pub(super) fn of(checked: &Checked) -> Summary {
        let counts = &checked.report.tokens;
        let (title, file) = titles(checked);
        Summary {
            title,
            file,
            scope: checked.plan.scope.title().to_owned(),
            lesson: checked.lesson_id().to_owned(),
            decodable: shown(counts.percent_decodable()),
            readable: shown(counts.percent_readable()),
            words: counts.words,
            untaught: counts.untaught,
            met: checked.met(),
        }
    }
}

/// What a text is called, and its file where that says more.
pub(crate) fn titles(checked: &Checked) -> (String, Option<String>) {
    titles_of(checked.plan.title.as_deref(), &checked.source.name)
}

/// The same by the title it gives itself and the name of its file.
pub(crate) fn titles_of(title: Option<&str>, name: &str) -> (String, Option<String>) {
    let file = name.trim_start_matches("./");
    match (title, file) {
        (Some(title), "-") => (title.to_owned(), None),
        (Some(title), file) => (title.to_owned(), Some(file.to_owned())),
        (None, "-") => ("The story".to_owned(), None),
        (None, file) => {
            let last = file.rsplit(['/', std::path::MAIN_SEPARATOR]).next().unwrap_or(file);
            (last.to_owned(), (last != file).then(|| file.to_owned()))
        }
    }
}

/// The page over all stories.
#[derive(Serialize)]
struct Page<'a> {
    title: String,
    more: Option<String>,
    complaints: &'a [Failed],
    stories: &'a [Summary],
}

impl Format for Html {
    fn wanted(&self) -> Wanted {
        Wanted { every_word: true, ..Wanted::default() }
    }

    fn piece(&self, checked: &Checked) -> io::Result<Vec<u8>> {
        page::render("story.html", story::of(checked)).map(String::into_bytes)
    }

    fn keeps_pieces(&self) -> bool {
        true
    }

    fn tail(&self, whole: &Whole) -> io::Result<Vec<u8>> {
        let texts = whole.texts + whole.failed;
        let mut title = match (texts, whole.short) {
            (1, 0) if whole.failed == 0 => "1 story, and it meets its thresholds".to_owned(),
            (1, 1) => "1 story, and it falls short".to_owned(),
            (_, 0) => format!("{}, none falls short", stories(texts)),
            (_, 1) => format!("{}, 1 falls short", stories(texts)),
            (_, short) => format!("{}, {short} fall short", stories(texts)),
        };
        if whole.failed > 0 {
            title += &format!(", {} could not be checked", whole.failed);
        }
        let page =
            Page { title, more: scopes(&whole.summaries), complaints: &whole.failures, stories: &whole.summaries };
        page::render("check.html", page).map(String::into_bytes)
    }
}

fn stories(n: usize) -> String {
    if n == 1 { "1 story".to_owned() } else { format!("{n} stories") }
}

/// The scopes that the stories were checked by.
fn scopes(summaries: &[Summary]) -> Option<String> {
    let mut titles: Vec<&str> = summaries.iter().map(|summary| summary.scope.as_str()).collect();
    titles.sort_unstable();
    titles.dedup();
    (!titles.is_empty()).then(|| format!("Checked by: {}.", titles.join("; ")))
}
