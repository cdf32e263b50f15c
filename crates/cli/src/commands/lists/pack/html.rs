//! A pack as a page to print: the teacher's sheets, and one to write on.

use minijinja::Value;
use serde::Serialize;
use untaught_lists::{Boxes, Contrast, Dictation, Pack};

use super::PackStory;
use crate::output::Failure;
use crate::pages;
use untaught::messages::percent as shown;

/// Empty boxes in a row on the learner's sheet: as many as the longest word has sounds, within reason.
const ROW: std::ops::RangeInclusive<usize> = 4..=6;

/// The pack as the template has it, and what is drawn or counted for it.
#[derive(Serialize)]
struct PackPage<'a> {
    #[serde(flatten)]
    pack: &'a Pack,
    /// The question of the listening list.
    listen_for: Option<String>,
    groups: Vec<DrawingGroup>,
    spelling: Spelling<'a>,
    missing: Vec<(&'static str, &'a str)>,
    story: Option<StorySheet<'a>>,
    empty: Value,
}

/// Words that are drawn in so many columns.
#[derive(Serialize)]
struct DrawingGroup {
    columns: usize,
    label: String,
    drawings: Vec<Value>,
}

/// The words to spell.
#[derive(Default, Serialize)]
struct Spelling<'a> {
    lists: Vec<SpellingList<'a>>,
    /// How many words there are in all lists.
    words: usize,
}

#[derive(Serialize)]
struct SpellingList<'a> {
    heading: &'static str,
    /// The number of its first word: numbers run on from list to list, as on the learner's sheet.
    start: usize,
    words: &'a [String],
}

#[derive(Serialize)]
struct StorySheet<'a> {
    /// Its heading: the title that it gives itself, else its first line if that looks like one.
    title: Option<Vec<StoryPiece>>,
    /// Paragraphs, their lines, and the pieces of these.
    paragraphs: Vec<Vec<Vec<StoryPiece>>>,
    checks: Vec<String>,
    told: Vec<&'a str>,
}

/// A stretch of the story; a word that practises a pattern of the lesson is one of its own.
#[derive(Serialize)]
struct StoryPiece {
    text: String,
    focus: bool,
}

pub(super) fn pack(pack: &Pack, story: Option<&PackStory>) -> Result<String, Failure> {
    let boxes = pack.blending.as_deref().unwrap_or_default();
    let longest = boxes.iter().map(|boxes| boxes.sounds).max().unwrap_or(*ROW.start());
    let row = Boxes::blank(longest.clamp(*ROW.start(), *ROW.end()));
    let page = PackPage {
        pack,
        listen_for: pack.listening.as_ref().map(Contrast::heading),
        groups: groups(boxes),
        spelling: pack.dictation.as_ref().map(spelling).unwrap_or_default(),
        missing: pack.lacking.iter().map(|list| (list.heading(), list.why.as_str())).collect(),
        story: story.map(read),
        empty: Value::from_safe_string(row.svg()),
    };
    Ok(pages::render("pack.html", page)?)
}

/// Short words three in a row, longer ones two.
fn groups(words: &[Boxes]) -> Vec<DrawingGroup> {
    let (short, long): (Vec<&Boxes>, Vec<&Boxes>) = words.iter().partition(|boxes| boxes.sounds <= 3);
    let group = |(columns, words): (usize, Vec<&Boxes>)| {
        let sounds = || words.iter().map(|boxes| boxes.sounds);
        let (fewest, most) = (sounds().min()?, sounds().max()?);
        let label = if fewest == most { String::new() } else { format!("{fewest} to ") };
        let drawings = words.iter().map(|boxes| Value::from_safe_string(boxes.svg())).collect();
        Some(DrawingGroup { columns, label: label + &crate::output::count(most, "sound"), drawings })
    };
    [(3, short), (2, long)].into_iter().filter_map(group).collect()
}

fn spelling(made: &Dictation) -> Spelling<'_> {
    let mut spelling = Spelling::default();
    for (heading, words) in made.lists() {
        spelling.lists.push(SpellingList { heading, start: spelling.words + 1, words });
        spelling.words += words.len();
    }
    spelling
}

fn read(story: &PackStory) -> StorySheet<'_> {
    let report = story.report();
    let counts = &report.tokens;
    let words = crate::output::count(counts.words, "word");
    let checks = vec![
        format!("{} decodable: {} of {words}", shown(counts.percent_decodable()), counts.decodable),
        format!("{} readable: {} of {words}", shown(counts.percent_readable()), counts.words - counts.untaught),
        format!(
            "{} practise {}: {} of {words}",
            shown(untaught::percent(report.focus.tokens, counts.words)),
            if report.focus.labels.is_empty() { "what is new".to_owned() } else { report.focus.labels.join(", ") },
            report.focus.tokens
        ),
    ];
    let mut paragraphs = paragraphs(story);
    let title = match story.title() {
        Some(title) => Some(vec![StoryPiece { text: title.to_owned(), focus: false }]),
        None if is_title(paragraphs.first()) => paragraphs.remove(0).into_iter().next(),
        None => None,
    };
    StorySheet { title, paragraphs, checks, told: story.told() }
}

/// Whether a paragraph is a title: one short line that ends with a letter.
fn is_title(paragraph: Option<&Vec<Vec<StoryPiece>>>) -> bool {
    let Some([line]) = paragraph.map(Vec::as_slice) else { return false };
    let text: String = line.iter().map(|piece| piece.text.as_str()).collect();
    text.chars().count() <= 80 && text.trim_end().ends_with(char::is_alphanumeric)
}

/// The story by paragraphs, which empty lines separate; a paragraph is its lines.
fn paragraphs(story: &PackStory) -> Vec<Vec<Vec<StoryPiece>>> {
    let mut paragraphs: Vec<Vec<Vec<StoryPiece>>> = vec![vec![Vec::new()]];
    for (text, focus) in story.pieces() {
        let text = text.replace("\r\n", "\n").replace('\r', "\n");
        for (number, stretch) in text.split('\n').enumerate() {
            if number > 0 {
                end_line(&mut paragraphs);
            }
            if !stretch.is_empty()
                && let Some(line) = paragraphs.last_mut().and_then(|lines| lines.last_mut())
            {
                line.push(StoryPiece { text: stretch.to_owned(), focus });
            }
        }
    }
    end_line(&mut paragraphs);
    for lines in &mut paragraphs {
        lines.retain(|line| !line.is_empty());
    }
    paragraphs.retain(|lines| !lines.is_empty());
    paragraphs
}

/// Begins another line; another paragraph after an empty one.
fn end_line(paragraphs: &mut Vec<Vec<Vec<StoryPiece>>>) {
    let Some(lines) = paragraphs.last_mut() else { return };
    let empty = lines.last().is_none_or(|line| line.iter().all(|piece| piece.text.trim().is_empty()));
    if empty {
        lines.pop();
        paragraphs.push(vec![Vec::new()]);
    } else {
        lines.push(Vec::new());
    }
}
