//! All about one word: how it is cut, what it needs and when that is taught, its other reading, words to swap in.

use serde::Serialize;
use untaught::{Focus, Judge, LessonIndex, Reader, Reading, Scope, Status, Verdict, fold_word, messages};
use untaught_lists::{Around, Boxes, Rewording, Swap, Swaps, boxes, swaps};

use crate::ask::WordQuestion;

#[derive(Serialize)]
pub(crate) struct WordAnswer {
    word: String,
    status: &'static str,
    /// Where the verdict comes from, if not from the dictionary.
    origin: Option<&'static str>,
    /// The reading that counts.
    reading: Option<ReadingAnswer>,
    /// Another that cannot be sounded out yet.
    other: Option<ReadingAnswer>,
    missing: Vec<NeedAnswer>,
    /// The lessons from which it can be sounded out, and read.
    decodable: Option<LessonIndex>,
    readable: Option<LessonIndex>,
    practises: bool,
    swaps: Vec<SwapAnswer>,
    of_the_kind: Vec<SwapAnswer>,
    rewordings: Vec<RewordingAnswer>,
    /// What has to change if the word may simply go.
    without: Option<WithoutAnswer>,
}

/// A word that may simply go.
#[derive(Serialize)]
pub(crate) struct WithoutAnswer {
    /// The article that has to stand before the next word, if the one there does not fit.
    article: Option<&'static str>,
}

impl WithoutAnswer {
    pub(crate) fn of(found: &Swaps) -> Option<WithoutAnswer> {
        found.leave_out.then_some(WithoutAnswer { article: found.article_without })
    }
}

/// The word and some of its neighbours said in another way.
#[derive(Serialize)]
pub(crate) struct RewordingAnswer {
    old: String,
    /// Empty if they may simply go.
    new: String,
    /// UTF-16 units of `old` before the word, and after it.
    before: usize,
    after: usize,
}

impl From<&Rewording> for RewordingAnswer {
    fn from(made: &Rewording) -> RewordingAnswer {
        let units = |text: Option<&str>| text.unwrap_or_default().encode_utf16().count();
        RewordingAnswer {
            before: units(made.old.get(..made.before)),
            after: units(made.old.len().checked_sub(made.after).and_then(|at| made.old.get(at..))),
            old: made.old.clone(),
            new: made.new.clone(),
        }
    }
}

/// A word or phrase to put in its place.
#[derive(Serialize)]
pub(crate) struct SwapAnswer {
    text: String,
    /// The article that has to stand before it, if the one there does not fit.
    article: Option<&'static str>,
    takes_an: bool,
    sense: &'static str,
}

impl From<Swap> for SwapAnswer {
    fn from(swap: Swap) -> SwapAnswer {
        SwapAnswer { text: swap.text, article: swap.article, takes_an: swap.takes_an, sense: swap.sense }
    }
}

#[derive(Serialize)]
struct ReadingAnswer {
    ipa: String,
    boxes: Option<Boxes>,
    drawing: Option<String>,
    parts: Vec<PartAnswer>,
    skills: Vec<NeedAnswer>,
}

#[derive(Serialize)]
struct PartAnswer {
    spelling: String,
    ipa: String,
    key: Option<&'static str>,
    pattern: String,
    lesson: Option<LessonIndex>,
}

#[derive(Serialize)]
struct NeedAnswer {
    label: String,
    lesson: Option<LessonIndex>,
}

pub(crate) fn about(reader: &Reader, scope: &Scope, asked: &WordQuestion) -> Result<WordAnswer, String> {
    let judge = Judge::new(reader, scope);
    let lesson = asked.lesson.min(scope.last());
    let word = fold_word(&asked.word);
    if !word.chars().any(char::is_alphabetic) {
        return Err(format!("“{}” is not a word", asked.word));
    }
    let explained = judge.explain(&word);
    let verdict = &explained.verdict;
    let status = verdict.status(lesson, asked.declared);
    // A name that the children are told is not sounded out: its sounds would be a guess.
    let is_told = status == Status::Story && verdict.by_letters();
    let first = verdict.word.readings.first().filter(|_| !is_told);
    let focus = Focus::of_lesson(scope, lesson);
    let around = Around { before: &asked.before, after: &asked.after };
    let found = match status {
        Status::Untaught => swaps(&asked.word, around, &judge, lesson),
        _ => Swaps::default(),
    };
    Ok(WordAnswer {
        status: status.name(),
        origin: explained.where_from().filter(|_| !is_told),
        reading: first.map(|reading| reading_answer(&judge, verdict, reading)),
        other: verdict.other_reading(lesson).map(|other| reading_answer(&judge, verdict, other)),
        missing: if status == Status::Untaught { missing(&judge, verdict, lesson) } else { Vec::new() },
        decodable: verdict.first_decodable(),
        readable: verdict.first_readable(),
        practises: first.is_some_and(|reading| focus.is_in(reader, &word, reading)),
        without: WithoutAnswer::of(&found),
        rewordings: found.rewordings.iter().map(RewordingAnswer::from).collect(),
        swaps: found.same.into_iter().map(SwapAnswer::from).collect(),
        of_the_kind: found.of_the_kind.into_iter().map(SwapAnswer::from).collect(),
        word,
    })
}

fn missing(judge: &Judge<'_>, verdict: &Verdict, lesson: LessonIndex) -> Vec<NeedAnswer> {
    let needs = judge.needs(verdict, lesson).into_iter();
    needs.map(|need| NeedAnswer { label: messages::need(&need, judge.scope()), lesson: need.lesson() }).collect()
}

fn reading_answer(judge: &Judge<'_>, verdict: &Verdict, reading: &Reading) -> ReadingAnswer {
    let explained = judge.explain_reading(verdict, reading);
    let parts = explained.parts.into_iter().zip(&reading.parts).map(|(explained, part)| PartAnswer {
        key: part.id().map(|id| id.get().key),
        lesson: explained.need.lesson(),
        spelling: explained.spelling,
        ipa: explained.ipa,
        pattern: explained.pattern,
    });
    let boxes = boxes(&verdict.word.text, reading);
    let skills = explained.demands.into_iter().filter(|(_, lesson)| lesson.is_some());
    ReadingAnswer {
        ipa: explained.ipa,
        drawing: boxes.as_ref().map(Boxes::svg),
        boxes,
        parts: parts.collect(),
        skills: skills.map(|(skill, lesson)| NeedAnswer { label: skill.label().to_owned(), lesson }).collect(),
    }
}
