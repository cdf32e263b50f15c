//! `untaught dictation`.

use serde::Serialize;
use untaught_lists::{Dictation, dictation};

use super::ListLesson;
use crate::args::{DictationArgs, ListFormat};
use crate::output::{Failure, Outcome, STRONG, Sink, one_line, table};

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
    let mut sink = Sink::open(args.output.as_deref(), args.format == ListFormat::Text)?;
    if args.format == ListFormat::Json {
        sink.write_json(&DictationReport {
            format: 1,
            scope: at.scope.title(),
            lesson: at.scope.id(at.lesson),
            dictation: &made,
        })?;
        sink.close()?;
        return Ok(Outcome::Met);
    }
    if args.format == ListFormat::Csv {
        sink.write(&table::headings(&["list", "number", "text"])?)?;
        let lists =
            [("new", &made.new), ("review", &made.review), ("sight", &made.sight), ("sentences", &made.sentences)];
        for (list, texts) in lists {
            for (number, text) in (1..).zip(texts) {
                sink.write(&table::row(&[list, &i32::to_string(&number), text])?)?;
            }
        }
        sink.close()?;
        return Ok(Outcome::Met);
    }
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
