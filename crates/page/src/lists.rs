//! The lists of a lesson, from the same calls as the command's.

use serde::{Deserialize, Serialize};
use untaught::{Focus, Judge, LessonIndex, Pattern, Reader, Scope, fold_word, tokens};
use untaught_materials::json::{BankWordOut, BoxesOut, ChainOut, ContrastOut, DictationOut};
use untaught_materials::{Bank, ChainWanted, Lacking, PackWanted, Position, USUAL, Wanted, sound_named, sound_taught};

use crate::ask::ScopeSource;

fn judge<'a>(reader: &'a Reader, scope: &'a Scope) -> Judge<'a> {
    Judge::new(reader, scope)
}

/// Where a pattern stands.
#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum Where {
    Start,
    Middle,
    End,
}

impl From<Where> for Position {
    fn from(place: Where) -> Position {
        match place {
            Where::Start => Position::Start,
            Where::Middle => Position::Middle,
            Where::End => Position::End,
        }
    }
}

/// Words asked for.
#[derive(Debug, Deserialize)]
pub(crate) struct Words {
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
    position: Option<Where>,
    #[serde(default)]
    only_new: bool,
    limit: usize,
}

#[derive(Serialize)]
pub(crate) struct Found {
    patterns: Vec<String>,
    found: usize,
    words: Vec<serde_json::Value>,
}

pub(crate) fn words(reader: &Reader, scope: &Scope, asked: &Words) -> Result<Found, String> {
    let place = asked.lesson.min(scope.last());
    let patterns: Vec<Pattern> =
        asked.focus.iter().map(|text| Pattern::parse(text, reader)).collect::<Result<_, _>>()?;
    let focus = if patterns.is_empty() { Focus::practised_at(scope, place) } else { Focus::of(scope, &patterns) };
    let focus = Some(focus).filter(|focus| !asked.all && !focus.is_empty());
    let span = |range: Option<(usize, usize)>| range.map_or(1..=usize::MAX, |(low, high)| low..=high);
    let wanted = Wanted {
        position: asked.position.map(Position::from).filter(|_| focus.is_some()),
        sounds: span(asked.sounds),
        syllables: span(asked.syllables),
        shape: asked.shape.as_deref().map(untaught_materials::Shape::parse).transpose()?,
        only_new: asked.only_new,
        focus: focus.clone(),
    };
    let bank = Bank::practising(judge(reader, scope), place, USUAL, wanted.syllables.clone(), wanted.focus.as_ref());
    let words = bank.select(&wanted);
    let out =
        words.iter().take(asked.limit).map(|word| serde_json::to_value(BankWordOut::of(word, scope.id(word.first))));
    Ok(Found {
        patterns: focus.map(|focus| focus.labels).unwrap_or_default(),
        found: words.len(),
        words: out.collect::<Result<_, _>>().map_err(|error| error.to_string())?,
    })
}

/// A chain asked for.
#[derive(Debug, Deserialize)]
pub(crate) struct Chain {
    pub(crate) scope: ScopeSource,
    pub(crate) lesson: LessonIndex,
    steps: Option<usize>,
    from: Option<String>,
    to: Option<String>,
    #[serde(default)]
    seed: u64,
}

pub(crate) fn chain(reader: &Reader, scope: &Scope, asked: &Chain) -> Result<ChainOut, String> {
    let place = asked.lesson.min(scope.last());
    let bank = Bank::new(judge(reader, scope), place, USUAL, 1..=1);
    let written = |word: &Option<String>| word.as_deref().map(fold_word).filter(|word| !word.is_empty());
    let wanted = ChainWanted {
        steps: asked.steps,
        from: written(&asked.from),
        to: written(&asked.to),
        changes: Vec::new(),
        focus: Some(Focus::practised_at(scope, place)),
        seed: asked.seed,
    };
    untaught_materials::chain(&bank, &wanted).map(|made| ChainOut::of(&made)).map_err(|lacking| lacking.0)
}

#[derive(Serialize)]
pub(crate) struct Boxed {
    words: Vec<BoxedWord>,
}

#[derive(Serialize)]
struct BoxedWord {
    word: String,
    boxes: Option<BoxesOut>,
    drawing: Option<String>,
}

/// The boxes of each word of a text.
pub(crate) fn boxes(reader: &Reader, text: &str) -> Boxed {
    let words = tokens(text).map(|token| fold_word(&text[token.span]));
    let words = words.filter(|word| word.chars().any(char::is_alphabetic)).take(MOST_BOXES).map(|word| {
        let read = reader.read(&word);
        let made = read.readings.iter().find_map(|reading| untaught_materials::boxes(&word, reading));
        let drawing = made.as_ref().map(untaught_materials::Boxes::svg);
        BoxedWord { boxes: made.as_ref().map(BoxesOut::of), drawing, word }
    });
    Boxed { words: words.collect() }
}

/// Words drawn at once.
const MOST_BOXES: usize = 60;

/// A listening list asked for.
#[derive(Debug, Deserialize)]
pub(crate) struct Contrast {
    pub(crate) scope: ScopeSource,
    pub(crate) lesson: LessonIndex,
    /// A sound; none for that of the lesson, or of the last one before it that teaches any.
    sound: Option<String>,
    position: Option<Where>,
    count: usize,
    #[serde(default)]
    seed: u64,
}

#[derive(Serialize)]
pub(crate) struct Listening {
    heading: String,
    #[serde(flatten)]
    list: ContrastOut,
}

fn listening(made: &untaught_materials::Contrast) -> Listening {
    Listening { heading: made.heading(), list: ContrastOut::of(made) }
}

pub(crate) fn contrast(reader: &Reader, scope: &Scope, asked: &Contrast) -> Result<Listening, String> {
    let position = asked.position.map(Position::from);
    let make = |sound| untaught_materials::contrast(reader, sound, position, asked.count.clamp(1, 20), asked.seed);
    let made = match &asked.sound {
        Some(sound) => make(sound_named(sound, reader)?),
        None => {
            let lessons = scope.indexed_lessons().rev().filter(|(index, _)| *index <= asked.lesson);
            let patterns = lessons.flat_map(|(_, lesson)| lesson.patterns.iter().chain(&lesson.review_patterns));
            let mut made = patterns.filter_map(|pattern| sound_taught(scope, pattern)).map(make);
            made.find(Result::is_ok).ok_or("no sound of this lesson has enough words to listen for; name one")?
        }
    };
    made.map(|made| listening(&made)).map_err(|lacking| lacking.0)
}

/// Lists drawn by lot.
#[derive(Debug, Deserialize)]
pub(crate) struct Drawn {
    pub(crate) scope: ScopeSource,
    pub(crate) lesson: LessonIndex,
    #[serde(default)]
    seed: u64,
}

/// Words and sentences of a dictation.
const SPELLED: usize = 6;
const SENTENCES: usize = 3;

pub(crate) fn dictation(reader: &Reader, scope: &Scope, asked: &Drawn) -> Result<DictationOut, String> {
    let place = asked.lesson.min(scope.last());
    let bank = Bank::new(judge(reader, scope), place, USUAL, 1..=3);
    let focus = Focus::practised_at(scope, place);
    let made = untaught_materials::dictation(&bank, &focus, SPELLED, SENTENCES, asked.seed);
    made.map(|made| DictationOut::of(&made)).map_err(|lacking| lacking.0)
}

#[derive(Serialize)]
pub(crate) struct Pack {
    patterns: Vec<String>,
    sight_new: Vec<String>,
    sight_review: Vec<String>,
    listening: Made<Listening>,
    blending: Made<Vec<Drawing>>,
    chain: Made<ChainOut>,
    dictation: Made<DictationOut>,
}

/// A list, or a sentence why it cannot be made.
#[derive(Serialize)]
#[serde(rename_all = "snake_case")]
enum Made<T> {
    List(T),
    Why(String),
}

impl<T> Made<T> {
    fn of<F>(list: Result<F, Lacking>, out: impl FnOnce(F) -> T) -> Made<T> {
        match list {
            Ok(list) => Made::List(out(list)),
            Err(lacking) => Made::Why(lacking.0),
        }
    }
}

#[derive(Serialize)]
struct Drawing {
    word: String,
    sounds: usize,
    drawing: String,
    note: Option<String>,
}

pub(crate) fn pack(reader: &Reader, scope: &Scope, asked: &Drawn) -> Result<Pack, String> {
    let wanted = PackWanted { lesson: asked.lesson.min(scope.last()), focus: None, class: USUAL, seed: asked.seed };
    let made = untaught_materials::pack(judge(reader, scope), &wanted);
    let drawing = |boxes: untaught_materials::Boxes| Drawing {
        drawing: boxes.svg(),
        word: boxes.word,
        sounds: boxes.sounds,
        note: boxes.note,
    };
    Ok(Pack {
        patterns: made.patterns,
        sight_new: made.sight_new,
        sight_review: made.sight_review,
        listening: Made::of(made.listening, |list| listening(&list)),
        blending: Made::of(made.blending, |all| all.into_iter().map(drawing).collect()),
        chain: Made::of(made.chain, |chain| ChainOut::of(&chain)),
        dictation: Made::of(made.dictation, |dictation| DictationOut::of(&dictation)),
    })
}
