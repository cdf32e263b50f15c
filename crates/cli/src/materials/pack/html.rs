//! A pack as a page to print: the teacher's sheets, and one to write on.

use minijinja::Value;
use serde::Serialize;
use untaught_materials::{Boxes, Chain, Contrast, Dictation, Pack};

use super::{At, Story, lacking};
use crate::output::Failure;
use crate::pages;
use untaught::messages::percent as shown;

/// Empty boxes in a row on the learner's sheet: as many as the longest word has sounds, within reason.
const ROW: std::ops::RangeInclusive<usize> = 4..=6;

#[derive(Serialize)]
struct Page<'a> {
    lesson: &'a str,
    title: &'a str,
    scope: &'a str,
    patterns: &'a [String],
    seed: u64,
    sight_new: &'a [String],
    sight_review: &'a [String],
    listening: Option<Listening>,
    blending: Vec<Group>,
    /// Words and what changes on the way to each; nothing for the first.
    chain: Vec<Rung>,
    dictation: Option<Spelled>,
    story: Option<Read<'a>>,
    lacking: Vec<(&'static str, &'a str)>,
    empty: Value,
}

#[derive(Serialize)]
struct Listening {
    heading: String,
    items: Vec<Said>,
    pairs: Vec<String>,
}

/// A word that is said, and what is heard in it.
#[derive(Serialize)]
struct Said {
    word: String,
    has: bool,
    foil: Option<&'static str>,
}

/// Words that are drawn in so many columns.
#[derive(Serialize)]
struct Group {
    columns: usize,
    label: String,
    drawings: Vec<Value>,
}

#[derive(Serialize)]
struct Rung {
    word: String,
    step: Option<String>,
}

#[derive(Serialize)]
struct Spelled {
    lists: Vec<List>,
    /// How many words there are in all lists.
    words: usize,
    sentences: Vec<String>,
}

#[derive(Serialize)]
struct List {
    name: &'static str,
    /// The number of its first word: the lists are counted on, as the lines of the learner's sheet are.
    start: usize,
    words: Vec<String>,
}

#[derive(Serialize)]
struct Read<'a> {
    /// Its heading: the title that it gives itself, else its first line if that looks like one.
    title: Option<Vec<Piece>>,
    /// Paragraphs, their lines, and what these are made of.
    paragraphs: Vec<Vec<Vec<Piece>>>,
    checks: Vec<String>,
    told: Vec<&'a str>,
}

/// A stretch of the story; a word that practises what the lesson teaches is one of its own.
#[derive(Serialize)]
struct Piece {
    text: String,
    focus: bool,
}

pub(super) fn pack(at: &At, pack: &Pack, story: Option<&Story>, seed: u64) -> Result<String, Failure> {
    let blending = pack.blending.as_deref().unwrap_or_default();
    let longest = blending.iter().map(|boxes| boxes.sounds).max().unwrap_or(*ROW.start());
    let row = Boxes::blank(longest.clamp(*ROW.start(), *ROW.end()));
    let page = Page {
        lesson: at.id(at.place),
        title: at.scope.lesson(at.place).map_or("", |lesson| lesson.title.as_str()),
        scope: at.scope.title(),
        patterns: &pack.patterns,
        seed,
        sight_new: &pack.sight_new,
        sight_review: &pack.sight_review,
        listening: pack.listening.as_ref().ok().map(listening),
        blending: groups(blending),
        chain: pack.chain.as_ref().map(rungs).unwrap_or_default(),
        dictation: pack.dictation.as_ref().ok().map(spelled),
        story: story.map(read),
        lacking: lacking(pack),
        empty: Value::from_safe_string(row.svg()),
    };
    Ok(pages::render("pack.html", page)?)
}

fn listening(made: &Contrast) -> Listening {
    let said = |item: &untaught_materials::Item| Said {
        word: item.word.clone(),
        has: item.has,
        foil: item.foil.map(|sound| sound.get().ipa[0]),
    };
    Listening {
        heading: made.heading(),
        items: made.items.iter().map(said).collect(),
        pairs: made.pairs.iter().map(|(one, other)| format!("{one} – {other}")).collect(),
    }
}

/// Short words stand three in a row, longer ones two.
fn groups(words: &[Boxes]) -> Vec<Group> {
    let (short, long): (Vec<&Boxes>, Vec<&Boxes>) = words.iter().partition(|boxes| boxes.sounds <= 3);
    let group = |(columns, words): (usize, Vec<&Boxes>)| {
        let sounds = || words.iter().map(|boxes| boxes.sounds);
        let (fewest, most) = (sounds().min()?, sounds().max()?);
        let label = if fewest == most { String::new() } else { format!("{fewest} to ") };
        let drawings = words.iter().map(|boxes| Value::from_safe_string(boxes.svg())).collect();
        Some(Group { columns, label: label + &crate::output::count(most, "sound"), drawings })
    };
    [(3, short), (2, long)].into_iter().filter_map(group).collect()
}

fn rungs(chain: &Chain) -> Vec<Rung> {
    let steps = std::iter::once(None).chain(chain.steps.iter().map(|step| Some(step.to_string())));
    chain.words.iter().zip(steps).map(|(word, step)| Rung { word: word.word.clone(), step }).collect()
}

fn spelled(made: &Dictation) -> Spelled {
    let mut start = 1;
    let mut lists = Vec::new();
    for (name, words) in [("New", &made.new), ("Again", &made.review), ("Known whole", &made.sight)] {
        if !words.is_empty() {
            lists.push(List { name, start, words: words.clone() });
            start += words.len();
        }
    }
    Spelled { lists, words: start - 1, sentences: made.sentences.clone() }
}

fn read(story: &Story) -> Read<'_> {
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
        Some(title) => Some(vec![Piece { text: title.to_owned(), focus: false }]),
        None if is_title(paragraphs.first()) => paragraphs.remove(0).into_iter().next(),
        None => None,
    };
    Read { title, paragraphs, checks, told: story.told() }
}

/// Whether a paragraph is a title: one short line that ends with a letter.
fn is_title(paragraph: Option<&Vec<Vec<Piece>>>) -> bool {
    let Some([line]) = paragraph.map(Vec::as_slice) else { return false };
    let text: String = line.iter().map(|piece| piece.text.as_str()).collect();
    text.chars().count() <= 80 && text.trim_end().ends_with(char::is_alphanumeric)
}

/// The story by paragraphs, which empty lines part; a paragraph is its lines.
fn paragraphs(story: &Story) -> Vec<Vec<Vec<Piece>>> {
    let mut paragraphs: Vec<Vec<Vec<Piece>>> = vec![vec![Vec::new()]];
    for (text, focus) in story.pieces() {
        let text = text.replace("\r\n", "\n").replace('\r', "\n");
        for (number, stretch) in text.split('\n').enumerate() {
            if number > 0 {
                end_line(&mut paragraphs);
            }
            if !stretch.is_empty()
                && let Some(line) = paragraphs.last_mut().and_then(|lines| lines.last_mut())
            {
                line.push(Piece { text: stretch.to_owned(), focus });
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
fn end_line(paragraphs: &mut Vec<Vec<Vec<Piece>>>) {
    let Some(lines) = paragraphs.last_mut() else { return };
    let empty = lines.last().is_none_or(|line| line.iter().all(|piece| piece.text.trim().is_empty()));
    if empty {
        lines.pop();
        paragraphs.push(vec![Vec::new()]);
    } else {
        lines.push(Vec::new());
    }
}
