//! `untaught dictation`.

use serde::Serialize;
use untaught_materials::dictation;

pub(super) use untaught_materials::json::DictationOut as Out;

use super::At;
use crate::args::{DictationArgs, TextOrJson};
use crate::output::{self, Failure, Outcome, STRONG, Sink, one_line};

#[derive(Serialize)]
struct Root<'a> {
    format: u32,
    scope: &'a str,
    lesson: &'a str,
    dictation: Out,
}

pub(crate) fn run(args: &DictationArgs) -> Result<Outcome, Failure> {
    let at = At::new(&args.lesson)?;
    let made = dictation(&at.bank(1..=3), &at.focus(&[])?, args.words, args.sentences, args.seed);
    let made = made.map_err(|lacking| Failure::Message(lacking.0))?;
    if args.format == TextOrJson::Json {
        output::json(&Root { format: 1, scope: at.scope.title(), lesson: at.id(at.place), dictation: Out::of(&made) })?;
        return Ok(Outcome::Met);
    }
    let mut sink = Sink::open(None, true)?;
    sink.write(format!("{STRONG}Dictation{STRONG:#} for {}\n\n", one_line(&at.named())).as_bytes())?;
    for (name, words) in [("new", &made.new), ("review", &made.review), ("known whole", &made.sight)] {
        if !words.is_empty() {
            sink.write(format!("  {name:<12} {}\n", one_line(&words.join(", "))).as_bytes())?;
        }
    }
    if !made.sentences.is_empty() {
        sink.write(b"\n")?;
    }
    for (number, sentence) in made.sentences.iter().enumerate() {
        sink.write(format!("  {}. {}\n", number + 1, one_line(sentence)).as_bytes())?;
    }
    if made.sentences.len() < args.sentences {
        let only = match made.sentences.len() {
            0 => "no sentence".to_owned(),
            1 => "only one sentence".to_owned(),
            n => format!("only {n} sentences"),
        };
        crate::output::remark(&format!("{only} of the frames can be read at this lesson"));
    }
    sink.close()?;
    Ok(Outcome::Met)
}
