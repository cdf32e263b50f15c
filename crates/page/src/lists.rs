//! The lists of a lesson, from the same calls as the command's.

use serde::{Deserialize, Serialize};
use untaught::{Focus, Judge, LessonIndex, Pattern, Reader, Scope, fold_word, tokens};
use untaught_lists::{
    Bank, Boxes, CannotMake, ChainRequest, Dictation, PackRequest, Vocabulary, WordFilter, WordPosition, WordRow,
    sound_named, taught_sounds,
};

use crate::ask::ScopeSource;

fn judge<'a>(reader: &'a Reader, scope: &'a Scope) -> Judge<'a> {
    Judge::new(reader, scope)
}

/// Words asked for.
#[derive(Debug, Deserialize)]
pub(crate) struct WordsQuestion {
    pub(crate) scope: ScopeSource,
    pub(crate) lesson: LessonIndex,
    /// Patterns to practise; none for those of the lesson.
    #[serde(default)]
    focus: Vec<String>,
    /// Words of any pattern.
    #[serde(default)]
    all: bool,
    sounds: Option<(usize, usize)>,
    syllables: Option<(usize, usize)>,
    shape: Option<String>,
    position: Option<WordPosition>,
    #[serde(default)]
    only_new: bool,
    /// Also words that the children of the scope are too young to know.
    #[serde(default)]
    older: bool,
    limit: usize,
}

#[derive(Serialize)]
pub(crate) struct WordsAnswer {
    patterns: Vec<String>,
    found: usize,
    words: Vec<serde_json::Value>,
}

pub(crate) fn words(reader: &Reader, scope: &Scope, asked: &WordsQuestion) -> Result<WordsAnswer, String> {
    let lesson = asked.lesson.min(scope.last());
    let patterns: Vec<Pattern> =
        asked.focus.iter().map(|text| Pattern::parse(text, reader)).collect::<Result<_, _>>()?;
    let focus = if patterns.is_empty() { Focus::practised_at(scope, lesson) } else { Focus::of(scope, &patterns) };
    let focus = Some(focus).filter(|focus| !asked.all && !focus.is_empty());
    let span = |range: Option<(usize, usize)>| range.map_or(1..=usize::MAX, |(low, high)| low..=high);
    let filter = WordFilter {
        position: asked.position.filter(|_| focus.is_some()),
        sounds: span(asked.sounds),
        syllables: span(asked.syllables),
        shape: asked.shape.as_deref().map(untaught_lists::Shape::parse).transpose()?,
        only_new: asked.only_new,
        focus: focus.clone(),
    };
    let bank = Bank::practising(
        judge(reader, scope),
        lesson,
        Vocabulary { older: asked.older, ..Vocabulary::default() },
        filter.syllables.clone(),
        filter.focus.as_ref(),
    );
    let words = bank.select(&filter);
    let out = words.iter().take(asked.limit).map(|word| serde_json::to_value(WordRow::of(word, scope)));
    Ok(WordsAnswer {
        patterns: focus.map(|focus| focus.labels).unwrap_or_default(),
        found: words.len(),
        words: out.collect::<Result<_, _>>().map_err(|error| error.to_string())?,
    })
}

/// A chain asked for.
#[derive(Debug, Deserialize)]
pub(crate) struct ChainQuestion {
    pub(crate) scope: ScopeSource,
    pub(crate) lesson: LessonIndex,
    steps: Option<usize>,
    from: Option<String>,
    to: Option<String>,
    #[serde(default)]
    seed: u64,
}

pub(crate) fn chain(reader: &Reader, scope: &Scope, asked: &ChainQuestion) -> Result<untaught_lists::Chain, String> {
    let lesson = asked.lesson.min(scope.last());
    let bank = Bank::new(judge(reader, scope), lesson, Vocabulary::default(), 1..=3);
    let written = |word: &Option<String>| word.as_deref().map(fold_word).filter(|word| !word.is_empty());
    let request = ChainRequest {
        steps: asked.steps,
        from: written(&asked.from),
        to: written(&asked.to),
        changes: Vec::new(),
        focus: Some(Focus::practised_at(scope, lesson)),
        respell: false,
        seed: asked.seed,
    };
    untaught_lists::chain(&bank, &request).map_err(|why| why.0)
}

#[derive(Serialize)]
pub(crate) struct BoxesAnswer {
    words: Vec<WordBoxes>,
}

#[derive(Serialize)]
struct WordBoxes {
    word: String,
    boxes: Option<Boxes>,
    drawing: Option<String>,
}

/// Words to draw in boxes, in the accent of a scope.
#[derive(Debug, Deserialize)]
pub(crate) struct BoxesQuestion {
    pub(crate) scope: Option<ScopeSource>,
    pub(crate) text: String,
}

/// The boxes of each word of a text.
pub(crate) fn boxes(reader: &Reader, text: &str) -> BoxesAnswer {
    let words = tokens(text).map(|token| fold_word(&text[token.span]));
    let words = words.filter(|word| word.chars().any(char::is_alphabetic)).take(MOST_BOXES).map(|word| {
        let read = reader.read(&word);
        let made = read.readings.iter().find_map(|reading| untaught_lists::boxes(&word, reading));
        let drawing = made.as_ref().map(Boxes::svg);
        WordBoxes { boxes: made, drawing, word }
    });
    BoxesAnswer { words: words.collect() }
}

/// Words drawn at once.
const MOST_BOXES: usize = 60;

/// A listening list asked for.
#[derive(Debug, Deserialize)]
pub(crate) struct ContrastQuestion {
    pub(crate) scope: ScopeSource,
    pub(crate) lesson: LessonIndex,
    /// A sound; none for that of the lesson, or of the last one before it that teaches any.
    sound: Option<String>,
    position: Option<WordPosition>,
    count: usize,
    #[serde(default)]
    seed: u64,
}

#[derive(Serialize)]
pub(crate) struct ContrastAnswer {
    heading: String,
    #[serde(flatten)]
    list: untaught_lists::Contrast,
}

pub(crate) fn contrast(reader: &Reader, scope: &Scope, asked: &ContrastQuestion) -> Result<ContrastAnswer, String> {
    let count = asked.count.clamp(1, 20);
    let made = match &asked.sound {
        Some(sound) => {
            untaught_lists::contrast(reader, sound_named(sound, reader)?, asked.position, &[], count, asked.seed)
        }
        None => of_lesson(reader, scope, asked, count),
    };
    made.map(|list| ContrastAnswer { heading: list.plain_heading(), list }).map_err(|why| why.0)
}

/// The list of the lesson, or of the last one before it for which there is one.
fn of_lesson(
    reader: &Reader,
    scope: &Scope,
    asked: &ContrastQuestion,
    count: usize,
) -> Result<untaught_lists::Contrast, CannotMake> {
    let bank = Bank::new(judge(reader, scope), asked.lesson.min(scope.last()), Vocabulary::default(), 1..=3);
    let mut why = None;
    for (_, lesson) in scope.indexed_lessons().rev().filter(|(index, _)| *index <= asked.lesson) {
        let taught =
            taught_sounds(&bank, if lesson.patterns.is_empty() { &lesson.review_patterns } else { &lesson.patterns });
        for one in &taught {
            let rivals: Vec<_> = taught.iter().map(|taught| taught.sound).collect();
            for position in asked.position.map_or_else(|| one.positions.clone(), |position| vec![position]) {
                match untaught_lists::contrast(reader, one.sound, Some(position), &rivals, count, asked.seed) {
                    Ok(made) => return Ok(made.named_by(one)),
                    Err(reason) => why = why.or(Some(reason)),
                }
            }
        }
    }
    let none =
        || CannotMake("no list fits, because no lesson so far teaches a sound that can be listened for".to_owned());
    Err(why.unwrap_or_else(none))
}

/// Lists of random words.
#[derive(Debug, Deserialize)]
pub(crate) struct ListQuestion {
    pub(crate) scope: ScopeSource,
    pub(crate) lesson: LessonIndex,
    #[serde(default)]
    seed: u64,
}

/// Words and sentences of a dictation.
const SPELLED: usize = 6;
const SENTENCES: usize = 3;

pub(crate) fn dictation(reader: &Reader, scope: &Scope, asked: &ListQuestion) -> Result<Dictation, String> {
    let lesson = asked.lesson.min(scope.last());
    let bank = Bank::new(judge(reader, scope), lesson, Vocabulary::default(), 1..=3);
    let focus = Focus::practised_at(scope, lesson);
    untaught_lists::dictation(&bank, &focus, SPELLED, SENTENCES, asked.seed).map_err(|why| why.0)
}

/// A pack, the question of its listening list, and a drawing for each word in boxes.
#[derive(Serialize)]
pub(crate) struct PackAnswer {
    #[serde(flatten)]
    pack: untaught_lists::Pack,
    /// The questions of the listening lists.
    headings: Vec<String>,
    drawings: Vec<String>,
}

pub(crate) fn pack(reader: &Reader, scope: &Scope, asked: &ListQuestion) -> PackAnswer {
    let lesson = asked.lesson.min(scope.last());
    let request = PackRequest { lesson, focus: None, vocabulary: Vocabulary::default(), seed: asked.seed };
    let pack = untaught_lists::pack(judge(reader, scope), &request);
    let drawings = pack.blending.iter().flatten().map(Boxes::svg).collect();
    let lists = pack.listening.iter().chain(&pack.listening_more);
    PackAnswer { headings: lists.map(untaught_lists::Contrast::plain_heading).collect(), drawings, pack }
}
