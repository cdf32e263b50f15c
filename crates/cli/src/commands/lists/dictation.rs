//! `untaught dictation`.

use serde::Serialize;
use untaught_lists::{Dictation, dictation};

use super::ListLesson;
use crate::args::{DictationArgs, TextOrJson};
use crate::output::{self, Failure, Outcome, STRONG, Sink, one_line};

#[derive(Serialize)]
struct DictationReport<'a> {
    format: u32,
    scope: &'a str,
    lesson: &'a str,
    dictation: &'a Dictation,
}

pub(crate) fn run(args: &DictationArgs) -> Result<Outcome, Failure> {
    let at = ListLesson::new(&args.lesson)?;
    let made = dictation(&at.bank(1..=3), &at.focus(&[])?, args.words, args.sentences, args.seed);
    let made = made.map_err(|why| Failure::Message(why.0))?;
    if args.format == TextOrJson::Json {
        output::json(&DictationReport {
            format: 1,
            scope: at.scope.title(),
            lesson: at.scope.id(at.lesson),
            dictation: &made,
        })?;
        return Ok(Outcome::Met);
    }
    let mut sink = Sink::open(None, true)?;
    sink.write(format!("{STRONG}Dictation{STRONG:#} for {}\n\n", one_line(&at.named())).as_bytes())?;
    for (heading, words) in made.lists() {
        sink.write(format!("  {heading:<12} {}\n", one_line(&words.join(", "))).as_bytes())?;
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
        crate::output::remark(&format!("{only} can be made at this lesson: too few words can be read"));
    }
    sink.close()?;
    Ok(Outcome::Met)
}
