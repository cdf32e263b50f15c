//! `untaught chain`.

use serde::Serialize;
use untaught_lists::{Chain, ChainRequest, chain};

use super::ListLesson;
use crate::args::{ChainArgs, ListFormat};
use crate::output::{DIM, Failure, Outcome, STRONG, Sink, one_line, table};

#[derive(Serialize)]
struct ChainReport<'a> {
    format: u32,
    scope: &'a str,
    lesson: &'a str,
    chain: &'a Chain,
}

pub(crate) fn run(args: &ChainArgs) -> Result<Outcome, Failure> {
    let at = ListLesson::new(&args.lesson)?;
    let bank = at.bank(1..=3);
    let request = ChainRequest {
        steps: args.steps.map(usize::from),
        from: args.from.clone(),
        to: args.to.clone(),
        changes: args.change.clone(),
        focus: Some(at.focus(&[])?),
        respell: args.respell,
        seed: args.seed,
    };
    let made = chain(&bank, &request).map_err(|why| Failure::Message(why.0))?;
    let mut sink = Sink::open(args.output.as_deref(), args.format == ListFormat::Text)?;
    if args.format == ListFormat::Json {
        sink.write_json(&ChainReport {
            format: 1,
            scope: at.scope.title(),
            lesson: at.scope.id(at.lesson),
            chain: &made,
        })?;
        sink.close()?;
        return Ok(Outcome::Met);
    }
    if args.format == ListFormat::Csv {
        sink.write(&table::headings(&["number", "word", "change"])?)?;
        for (number, word) in made.words.iter().enumerate() {
            let step = number.checked_sub(1).and_then(|number| made.steps.get(number));
            let change = step.map_or_else(String::new, ToString::to_string);
            sink.write(&table::row(&[&(number + 1).to_string(), word, &change])?)?;
        }
        sink.close()?;
        return Ok(Outcome::Met);
    }
    sink.write(format!("{STRONG}A word chain{STRONG:#} for {}\n\n", one_line(&at.named())).as_bytes())?;
    let wide = made.words.iter().map(String::len).max().unwrap_or(0);
    for (number, word) in made.words.iter().enumerate() {
        let step = number.checked_sub(1).and_then(|number| made.steps.get(number));
        let line = match step {
            Some(step) => format!("  {word:<wide$}   {DIM}{}{DIM:#}\n", one_line(&step.to_string())),
            None => format!("  {word}\n"),
        };
        sink.write(line.as_bytes())?;
    }
    sink.write(format!("\n  {DIM}tiles:{DIM:#} {}\n", one_line(&made.tiles.join("  "))).as_bytes())?;
    sink.close()?;
    Ok(Outcome::Met)
}
