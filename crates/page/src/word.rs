//! All about one word: how it is cut, what it needs and when that is taught, its other reading, words to swap in.

use serde::Serialize;
use untaught::{Focus, Judge, Origin, Place, Reader, Reading, Scope, Status, Verdict, fold_word};
use untaught_materials::boxes;
use untaught_materials::json::BoxesOut;
use untaught_thesaurus::swaps;

use crate::ask::AboutWord;

#[derive(Serialize)]
pub(crate) struct About {
    word: String,
    status: &'static str,
    /// Where the verdict comes from, if not from the dictionary.
    origin: Option<&'static str>,
    /// The reading that counts.
    reading: Option<ReadingOut>,
    /// Another that cannot be sounded out yet.
    other: Option<ReadingOut>,
    missing: Vec<Missing>,
    /// The places of the lessons from which it can be sounded out, and read.
    decodable: Option<Place>,
    readable: Option<Place>,
    practises: bool,
    swaps: Vec<String>,
}

#[derive(Serialize)]
struct ReadingOut {
    ipa: String,
    boxes: Option<BoxesOut>,
    drawing: Option<String>,
    parts: Vec<PartOut>,
    skills: Vec<Missing>,
}

#[derive(Serialize)]
struct PartOut {
    spelling: String,
    ipa: String,
    key: Option<&'static str>,
    pattern: String,
    lesson: Option<Place>,
}

#[derive(Serialize)]
struct Missing {
    label: String,
    lesson: Option<Place>,
}

pub(crate) fn about(reader: &Reader, scope: &Scope, asked: &AboutWord) -> Result<About, String> {
    let judge = Judge { reader, scope };
    let lesson = asked.lesson.min(scope.last());
    let word = fold_word(&asked.word);
    if !word.chars().any(char::is_alphabetic) {
        return Err(format!("“{}” is not a word", asked.word));
    }
    let verdict = judge.judge(&word);
    let status = verdict.status(lesson, asked.declared);
    let first = verdict.word.readings.first();
    let focus = Focus::of_lesson(scope, lesson);
    Ok(About {
        status: status.name(),
        origin: match verdict.word.origin {
            Origin::Dictionary => None,
            Origin::Derived => Some("made of words that the dictionary has"),
            Origin::Letters => Some("not in the dictionary: read by its letters"),
        },
        reading: first.map(|reading| reading_out(&judge, &verdict, reading)),
        other: verdict.other_reading(lesson).map(|other| reading_out(&judge, &verdict, other)),
        missing: if status == Status::Untaught { missing(&judge, &verdict, lesson) } else { Vec::new() },
        decodable: verdict.first_decodable(),
        readable: verdict.first_readable(),
        practises: first.is_some_and(|reading| focus.is_in(reader, &word, reading)),
        swaps: if status == Status::Untaught { swaps(&asked.word, &asked.before, &judge, lesson) } else { Vec::new() },
        word,
    })
}

fn missing(judge: &Judge<'_>, verdict: &Verdict, lesson: Place) -> Vec<Missing> {
    let needs = judge.needs(verdict, lesson).into_iter();
    needs.map(|need| Missing { label: need.label, lesson: need.lesson }).collect()
}

fn reading_out(judge: &Judge<'_>, verdict: &Verdict, reading: &Reading) -> ReadingOut {
    let cover = judge.cover(&verdict.word, reading);
    let taught = |place: Place| judge.scope.lesson(place).map(|_| place);
    let parts = cover.parts(reading).map(|(part, step)| PartOut {
        spelling: part.spelling().to_owned(),
        ipa: part.ipa(),
        key: part.id().map(|id| id.get().key),
        pattern: step.label.clone(),
        lesson: taught(step.lesson),
    });
    let boxes = boxes(&verdict.word.text, reading);
    let skills = cover.skills.iter();
    ReadingOut {
        ipa: reading.ipa(),
        drawing: boxes.as_ref().map(untaught_materials::Boxes::svg),
        boxes: boxes.as_ref().map(BoxesOut::of),
        parts: parts.collect(),
        skills: skills
            .map(|(skill, place)| Missing { label: skill.label().to_owned(), lesson: taught(*place) })
            .collect(),
    }
}
