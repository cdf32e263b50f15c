//! A pack as a page to print: the teacher's sheets, and one to write on.

use std::collections::BTreeMap;

use minijinja::Value;
use serde::Serialize;
use untaught_lists::{Boxes, Contrast, Dictation, Pack, StoryQuestion};

use unicode_segmentation::UnicodeSegmentation as _;

use super::PackStory;
use crate::args::PackPart;
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
    /// The listening lists, each with its question.
    listens: Vec<Listen<'a>>,
    /// Whether each part is wanted.
    parts: BTreeMap<String, bool>,
    /// Whether sounds are shown in IPA.
    with_ipa: bool,
    /// The words of the lesson in rows, to be read fluently.
    rows: Vec<Vec<&'a str>>,
    groups: Vec<DrawingGroup>,
    /// The letters to trace, each once.
    trace: Vec<&'a str>,
    /// What to cut out: the letters of each pattern, and `as in` with its key word if it has one.
    pattern_cards: Vec<(&'a str, String)>,
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
    /// The same for the child: lines of plain text, a sentence each if that is wanted.
    clean: Vec<Vec<String>>,
    /// Whether it fits on one sheet in smaller letters, but not in the usual ones.
    snug: bool,
    /// What to say to the teacher first, if the story is too early for the lesson.
    warning: Option<String>,
    checks: Vec<String>,
    /// To ask afterwards.
    questions: Vec<StoryQuestion>,
    told: Vec<&'a str>,
}

/// A stretch of the story; a word that practises a pattern of the lesson is one of its own.
#[derive(Serialize)]
struct StoryPiece {
    text: String,
    focus: bool,
}

#[derive(Serialize)]
struct Listen<'a> {
    question: String,
    #[serde(flatten)]
    list: &'a Contrast,
}

/// How the pack is to look.
pub(super) struct PackLook<'a> {
    /// The parts that are wanted; all if none is named.
    pub(super) parts: &'a [PackPart],
    pub(super) ipa: bool,
    /// Whether each sentence of the child's copy has a line of its own.
    pub(super) sentence_lines: bool,
}

/// Words in a row of the reading sheet.
const IN_ROW: usize = 4;

pub(super) fn pack(pack: &Pack, story: Option<&PackStory>, look: &PackLook<'_>) -> Result<String, Failure> {
    let boxes = pack.blending.as_deref().unwrap_or_default();
    let longest = boxes.iter().map(|boxes| boxes.sounds).max().unwrap_or(*ROW.start());
    let row = Boxes::blank(longest.clamp(*ROW.start(), *ROW.end()));
    let page = PackPage {
        pack,
        listens: pack.listening.iter().chain(&pack.listening_more).map(|list| listen(list, look)).collect(),
        parts: PackPart::all()
            .map(|(part, name)| (name, look.parts.is_empty() || look.parts.contains(&part)))
            .collect(),
        with_ipa: look.ipa,
        rows: rows(pack),
        groups: groups(boxes),
        trace: trace(pack),
        pattern_cards: pack.patterns.iter().map(|pattern| pattern_card(pattern)).collect(),
        spelling: pack.dictation.as_ref().map(spelling).unwrap_or_default(),
        missing: pack.lacking.iter().map(|list| (list.heading(), list.why.as_str())).collect(),
        story: story.map(|story| read(story, look.sentence_lines)),
        empty: Value::from_safe_string(row.svg()),
    };
    Ok(pages::render("pack.html", page)?)
}

/// Short words three in a row, longer ones two. A long word that would be alone in its last row is left out.
fn groups(words: &[Boxes]) -> Vec<DrawingGroup> {
    let (short, mut long): (Vec<&Boxes>, Vec<&Boxes>) = words.iter().partition(|boxes| boxes.sounds <= 3);
    if long.len() > 2 && long.len() % 2 == 1 {
        long.pop();
    }
    let group = |(columns, words): (usize, Vec<&Boxes>)| {
        let sounds = || words.iter().map(|boxes| boxes.sounds);
        let (fewest, most) = (sounds().min()?, sounds().max()?);
        let label = if fewest == most { String::new() } else { format!("{fewest} to ") };
        let drawings = words.iter().map(|boxes| Value::from_safe_string(boxes.svg())).collect();
        Some(DrawingGroup { columns, label: label + &crate::output::count(most, "sound"), drawings })
    };
    [(3, short), (2, long)].into_iter().filter_map(group).collect()
}

fn trace(pack: &Pack) -> Vec<&str> {
    let mut letters: Vec<&str> = Vec::new();
    for one in &pack.introduce {
        if !letters.contains(&one.letters.as_str()) {
            letters.push(&one.letters);
        }
    }
    letters
}

/// The key word stands small under the letters: together they are too wide for a card.
fn pattern_card(pattern: &str) -> (&str, String) {
    pattern.split_once(" as in ").map_or((pattern, String::new()), |(letters, key)| (letters, format!("as in {key}")))
}

fn spelling(made: &Dictation) -> Spelling<'_> {
    let mut spelling = Spelling::default();
    for (heading, words) in made.lists() {
        spelling.lists.push(SpellingList { heading, start: spelling.words + 1, words });
        spelling.words += words.len();
    }
    spelling
}

fn listen<'a>(list: &'a Contrast, look: &PackLook<'_>) -> Listen<'a> {
    Listen { question: if look.ipa { list.heading() } else { list.plain_heading() }, list }
}

/// The words of the lesson that the pack has, in rows.
fn rows(pack: &Pack) -> Vec<Vec<&str>> {
    let mut words: Vec<&str> = Vec::new();
    let boxed = pack.blending.iter().flatten().map(|boxes| boxes.word.as_str());
    let spelled = pack.dictation.iter().flat_map(|made| &made.new).map(String::as_str);
    let oral = pack.oral.blend.iter().chain(&pack.oral.segment).map(|word| word.word.as_str());
    for word in boxed.chain(spelled).chain(oral) {
        if !words.contains(&word) {
            words.push(word);
        }
    }
    words.truncate(words.len().min(6 * IN_ROW) / IN_ROW * IN_ROW);
    words.chunks(IN_ROW).map(<[&str]>::to_vec).collect()
}

fn read(story: &PackStory, sentence_lines: bool) -> StorySheet<'_> {
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
    let untaught = report.findings.iter().map(|finding| finding.word());
    let warning = (counts.untaught > 0).then(|| {
        let words: Vec<&str> = untaught.take(WARNED).collect();
        let more = if report.findings.len() > words.len() { ", …" } else { "" };
        format!(
            "{} of {} words of the story cannot be read at this lesson yet: {}{more}",
            counts.untaught,
            counts.words,
            words.join(", ")
        )
    });
    let clean: Vec<Vec<String>> = paragraphs.iter().map(|lines| clean(lines, sentence_lines)).collect();
    let snug = is_snug(&clean);
    StorySheet { title, paragraphs, clean, snug, warning, checks, questions: story.questions(), told: story.told() }
}

/// Whether a story goes on one sheet of either paper in letters of 18 points, but not in letters of 20. Measured in Chromium: a line of
/// 20 points has some 46 letters, and a sheet 17 such lines with the space after its paragraphs counted as four tenths of one.
fn is_snug(story: &[Vec<String>]) -> bool {
    let height = |letters: usize, gap: f64| {
        let lines = story.iter().flatten().map(|line| line.chars().count().div_ceil(letters)).sum::<usize>();
        lines as f64 + story.len() as f64 * gap
    };
    height(46, 0.42) > 16.0 && height(51, 0.34) <= 21.0
}

/// Words that a warning names.
const WARNED: usize = 8;

/// A paragraph for the child: its lines without marks, or its sentences.
fn clean(lines: &[Vec<StoryPiece>], sentence_lines: bool) -> Vec<String> {
    let lines: Vec<String> =
        lines.iter().map(|pieces| pieces.iter().map(|piece| piece.text.as_str()).collect::<String>()).collect();
    if !sentence_lines {
        return lines;
    }
    let text = lines.join(" ");
    text.split_sentence_bounds().map(|sentence| sentence.trim().to_owned()).filter(|text| !text.is_empty()).collect()
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
