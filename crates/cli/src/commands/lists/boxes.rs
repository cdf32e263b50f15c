//! `untaught boxes`.

use untaught::messages::excerpt;
use untaught::{Reader, fold_word, tokens};
use untaught_lists::{Boxes, boxes};

use crate::args::{BoxFormat, BoxesArgs};
use crate::output::{self, DIM, Failure, Outcome, STRONG, Sink, complain, one_line};

pub(crate) fn run(args: &BoxesArgs) -> Result<Outcome, Failure> {
    let reader = Reader::new(args.accent);
    let mut made: Vec<Boxes> = Vec::new();
    if let Some(count) = args.blank {
        made.push(Boxes::blank(usize::from(count)));
    }
    // The other words have their boxes all the same.
    let mut outcome = Outcome::Met;
    let mut fail = |message: String| {
        complain(message);
        outcome = Outcome::Failed;
    };
    for argument in &args.words {
        let mut found = false;
        let words = tokens(argument).map(|token| fold_word(&argument[token.span]));
        for word in words.filter(|word| word.chars().any(char::is_alphabetic)) {
            let read = reader.read(&word);
            let boxed = read.readings.iter().find_map(|reading| boxes(&word, reading));
            found = true;
            match boxed {
                Some(boxed) => made.push(boxed),
                None => {
                    fail(format!("“{}” is irregular, so it has no boxes: teach it as a sight word", excerpt(&word)))
                }
            }
        }
        if !found {
            fail(format!("“{}” is not a word", excerpt(argument)));
        }
    }
    match args.format {
        BoxFormat::Json => output::json(&made)?,
        BoxFormat::Svg => {
            let mut sink = Sink::open(None, false)?;
            for boxes in &made {
                sink.write(format!("{}\n", boxes.svg()).as_bytes())?;
            }
            sink.close()?;
        }
        BoxFormat::Text => {
            let mut sink = Sink::open(None, true)?;
            for boxes in &made {
                let s = if boxes.sounds == 1 { "" } else { "s" };
                let note = boxes.note.as_ref().map_or(String::new(), |note| format!("; {note}"));
                let head = if boxes.word.is_empty() {
                    String::new()
                } else {
                    format!("{STRONG}{}{STRONG:#}  ", one_line(&boxes.word))
                };
                sink.write(format!("{head}{DIM}{} sound{s}{note}{DIM:#}\n", boxes.sounds).as_bytes())?;
                sink.write(format!("{}\n", boxes.text()).as_bytes())?;
            }
            sink.close()?;
        }
    }
    Ok(outcome)
}
