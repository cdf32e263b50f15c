//! `untaught explain`.

use serde::Serialize;
use untaught::say::excerpt;
use untaught::{Judge, Place, Reader, Reading, Scope, Verdict, demands, fold_word, tokens};

use crate::args::{Explain, Format};
use crate::output::{self, DIM, Failure, STRONG, one_line};
use crate::{Outcome, input};

#[derive(Serialize)]
struct Word<'a> {
    word: &'a str,
    origin: &'static str,
    first_decodable: Option<&'a str>,
    first_readable: Option<&'a str>,
    readings: Vec<ReadingOut<'a>>,
}

#[derive(Serialize)]
struct ReadingOut<'a> {
    ipa: String,
    parts: Vec<PartOut<'a>>,
    skills: Vec<&'static str>,
    first_decodable: Option<&'a str>,
    /// The skills for people, with their lessons.
    #[serde(skip)]
    also: Vec<String>,
}

#[derive(Serialize)]
struct PartOut<'a> {
    spelling: String,
    sound: String,
    ipa: String,
    pattern: String,
    lesson: Option<&'a str>,
}

pub(crate) fn run(args: &Explain) -> Result<Outcome, Failure> {
    let reader = Reader::default();
    let scope = input::scope(args.scope.as_deref(), &reader)?;
    let judge = Judge { reader: &reader, scope: &scope };
    let mut judged: Vec<(&str, Verdict)> = Vec::new();
    for argument in &args.words {
        // What is pasted with a word, such as its quotation marks, is no part of it; two words are two.
        let before = judged.len();
        for token in tokens(argument) {
            let word = &argument[token.span];
            if word.chars().any(char::is_alphabetic) {
                judged.push((word, judge.judge(&fold_word(word))));
            }
        }
        if judged.len() == before {
            return Err(Failure::Message(format!("“{}” is not a word", excerpt(argument))));
        }
    }
    match args.format {
        Format::Json => {
            let words: Vec<Word<'_>> = judged.iter().map(|(word, verdict)| explain(word, verdict, &judge)).collect();
            output::json(&words)?;
        }
        Format::Text => {
            let mut out = anstream::stdout().lock();
            for (word, verdict) in &judged {
                print(&mut out, &explain(word, verdict, &judge))?;
            }
        }
    }
    Ok(Outcome::Met)
}

fn id(scope: &Scope, place: Option<Place>) -> Option<&str> {
    scope.lesson(place?).map(|lesson| lesson.id.as_str())
}

fn explain<'a>(word: &'a str, verdict: &'a Verdict, judge: &Judge<'a>) -> Word<'a> {
    let reading = |reading: &'a Reading| explain_reading(verdict, reading, judge);
    Word {
        word,
        origin: verdict.word.origin.name(),
        first_decodable: id(judge.scope, verdict.first_decodable()),
        first_readable: id(judge.scope, verdict.first_readable()),
        readings: verdict.word.readings.iter().map(reading).collect(),
    }
}

fn explain_reading<'a>(verdict: &'a Verdict, reading: &'a Reading, judge: &Judge<'a>) -> ReadingOut<'a> {
    let cover = judge.cover(&verdict.word, reading);
    let parts = cover.parts(reading).map(|(part, step)| PartOut {
        spelling: part.spelling().to_owned(),
        sound: part.arpabet().to_owned(),
        ipa: part.ipa(),
        pattern: step.label.clone(),
        lesson: id(judge.scope, judge.scope.lesson(step.lesson).map(|_| step.lesson)),
    });
    let parts = parts.collect();
    let skills = demands(judge.reader, &verdict.word, reading);
    let also = skills.iter().map(|skill| match cover.skills.iter().find(|(named, _)| named == skill) {
        Some((_, lesson)) => {
            format!("{}, lesson {}", skill.label(), id(judge.scope, Some(*lesson)).unwrap_or_default())
        }
        None => skill.label().to_owned(),
    });
    let held = judge.held_back_by(&verdict.word, reading).map(|(base, first)| match id(judge.scope, first) {
        Some(lesson) => format!("no sooner than {base}, lesson {lesson}"),
        None => format!("no sooner than {base}, which is never taught"),
    });
    ReadingOut {
        also: also.chain(held).collect(),
        ipa: reading.ipa(),
        parts,
        skills: skills.into_iter().map(untaught::Skill::name).collect(),
        first_decodable: id(judge.scope, judge.first_decodable(&verdict.word, reading)),
    }
}

fn print(out: &mut impl std::io::Write, word: &Word<'_>) -> Result<(), Failure> {
    let origin = match word.origin {
        "dictionary" => "",
        "derived" => ", made of words of the dictionary",
        _ => ", not in the dictionary: read by its letters",
    };
    let when = match (word.first_decodable, word.first_readable) {
        (Some(first), Some(readable)) if first == readable => format!("decodable from lesson {first}"),
        (Some(first), Some(readable)) => format!("sight word from lesson {readable}, decodable from lesson {first}"),
        (None, Some(readable)) => format!("sight word from lesson {readable}, never decodable"),
        (_, None) => "untaught: never readable in this scope".to_owned(),
    };
    writeln!(out, "{STRONG}{}{STRONG:#}  {}{origin}", one_line(word.word), one_line(&when))?;
    for reading in &word.readings {
        let cut: Vec<&str> = reading.parts.iter().map(|part| part.spelling.as_str()).collect();
        writeln!(out, "  /{}/  {}", one_line(&reading.ipa), one_line(&cut.join("·")))?;
        let (wide, sound) = (widest(reading, |p| &p.spelling), widest(reading, |p| &p.ipa));
        let label = widest(reading, |p| &p.pattern);
        for part in &reading.parts {
            let lesson = part.lesson.map_or_else(|| "never taught".to_owned(), |id| format!("lesson {}", one_line(id)));
            writeln!(
                out,
                "    {:<wide$}  /{}/{:pad$}  {:<label$}  {DIM}{lesson}{DIM:#}",
                one_line(&part.spelling),
                part.ipa,
                "",
                one_line(&part.pattern),
                pad = sound.saturating_sub(part.ipa.chars().count()),
            )?;
        }
        if !reading.also.is_empty() {
            writeln!(out, "    {DIM}also: {}{DIM:#}", one_line(&reading.also.join("; ")))?;
        }
    }
    Ok(())
}

/// What no column is padded beyond.
const WIDEST: usize = 100;

fn widest<'r>(reading: &'r ReadingOut<'_>, column: impl Fn(&'r PartOut<'_>) -> &'r String) -> usize {
    reading.parts.iter().map(|part| column(part).chars().count()).max().unwrap_or(0).min(WIDEST)
}
