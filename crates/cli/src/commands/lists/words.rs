//! `untaught words`.

use serde::Serialize;
use untaught::Part;
use untaught_lists::{Bank, OralWord, Shape, WordFilter, WordRow, nonsense};

use super::ListLesson;
use crate::args::{ListFormat, WordsArgs};
use crate::output::{self, DIM, Failure, Outcome, STRONG, Sink, complain, one_line, table};

#[derive(Serialize)]
struct WordsReport<'a> {
    format: u32,
    scope: &'a str,
    lesson: &'a str,
    patterns: &'a [String],
    /// How many there are; `words` may be fewer.
    found: usize,
    words: Vec<WordRow<'a>>,
}

/// Nonsense words in one list, at most.
const MOST_NONSENSE: usize = 60;

pub(crate) fn run(args: &WordsArgs) -> Result<Outcome, Failure> {
    let at = ListLesson::new(&args.lesson)?;
    if args.nonsense {
        return nonsense_words(&at, args);
    }
    let focus = if args.all { at.focus(&[])? } else { at.focus(&args.focus)? };
    let focus = Some(focus).filter(|focus| !args.all && !focus.is_empty());
    let span = |range: Option<(usize, usize)>| range.map_or(1..=usize::MAX, |(low, high)| low..=high);
    let filter = WordFilter {
        position: args.position.map(Into::into),
        sounds: span(args.sounds),
        syllables: span(args.syllables),
        shape: args.shape.clone(),
        only_new: args.new,
        focus: focus.clone(),
    };
    let bank = Bank::practising(at.judge(), at.lesson, at.vocabulary, filter.syllables.clone(), filter.focus.as_ref());
    let mut words = bank.select(&filter);
    let found = words.len();
    words.truncate(args.limit);
    let labels = focus.map(|focus| focus.labels).unwrap_or_default();
    let mut sink = Sink::open(args.output.as_deref(), args.format == ListFormat::Text)?;
    if args.format == ListFormat::Json {
        let root = WordsReport {
            format: 1,
            scope: at.scope.title(),
            lesson: at.scope.id(at.lesson),
            patterns: &labels,
            found,
            words: words.iter().map(|word| WordRow::of(word, at.scope)).collect(),
        };
        sink.write_json(&root)?;
        sink.close()?;
        return Ok(Outcome::Met);
    }
    if args.format == ListFormat::Csv {
        sink.write(&table::headings(&["word", "spelling", "ipa", "sounds", "syllables", "shape", "lesson"])?)?;
        for word in &words {
            let parts: Vec<&str> = word.reading.parts.iter().map(Part::spelling).collect();
            sink.write(&table::row(&[
                &word.word,
                &parts.join(" "),
                &word.reading.ipa(),
                &word.sounds.len().to_string(),
                &word.reading.syllables().to_string(),
                &Shape::of(&word.sounds).to_string(),
                at.scope.id(word.first),
            ])?)?;
        }
        sink.close()?;
        return Ok(Outcome::Met);
    }
    let practise = if labels.is_empty() { String::new() } else { format!(" that practise {}", labels.join(", ")) };
    if words.is_empty() {
        let practise = if labels.is_empty() { String::new() } else { format!("practises {} and ", labels.join(", ")) };
        complain(format!("no common word that {practise}matches these options can be sounded out at {}", at.named()));
        return Ok(Outcome::Short);
    }
    let head = format!("Words{practise} at {}", at.named());
    let some = if found > words.len() { format!(", {} of {found}", words.len()) } else { format!(": {found}") };
    sink.write(format!("{STRONG}{}{STRONG:#}{DIM}{some}{DIM:#}\n\n", one_line(&head)).as_bytes())?;
    // By number of sounds, the short ones first.
    let mut groups: Vec<usize> = words.iter().map(|word| word.sounds.len()).collect();
    groups.sort_unstable();
    groups.dedup();
    for sounds in groups {
        let of: Vec<&str> =
            words.iter().filter(|word| word.sounds.len() == sounds).map(|word| word.word.as_str()).collect();
        let s = if sounds == 1 { "" } else { "s" };
        sink.write(format!("  {DIM}{sounds} sound{s}{DIM:#}\n").as_bytes())?;
        for line in output::wrapped(&of, 76) {
            sink.write(format!("    {}\n", one_line(&line)).as_bytes())?;
        }
    }
    sink.close()?;
    Ok(Outcome::Met)
}

#[derive(Serialize)]
struct NonsenseReport<'a> {
    format: u32,
    scope: &'a str,
    lesson: &'a str,
    patterns: &'a [String],
    nonsense: &'a [OralWord],
}

fn nonsense_words(at: &ListLesson, args: &WordsArgs) -> Result<Outcome, Failure> {
    let focus = at.focus(&args.focus)?;
    let made = nonsense(&at.bank(1..=1), &focus, args.limit.min(MOST_NONSENSE), args.seed);
    let made = made.map_err(|why| Failure::Message(why.0))?;
    let mut sink = Sink::open(args.output.as_deref(), args.format == ListFormat::Text)?;
    match args.format {
        ListFormat::Json => sink.write_json(&NonsenseReport {
            format: 1,
            scope: at.scope.title(),
            lesson: at.scope.id(at.lesson),
            patterns: &focus.labels,
            nonsense: &made,
        })?,
        ListFormat::Csv => {
            sink.write(&table::headings(&["word", "spelling"])?)?;
            for word in &made {
                sink.write(&table::row(&[&word.word, &word.sounds.join(" ")])?)?;
            }
        }
        ListFormat::Text => {
            let head = format!("Nonsense words for {}", at.named());
            sink.write(format!("{STRONG}{}{STRONG:#}\n\n", one_line(&head)).as_bytes())?;
            for word in &made {
                let line =
                    format!("  {:<10} {DIM}{}{DIM:#}\n", one_line(&word.word), one_line(&word.sounds.join(" – ")));
                sink.write(line.as_bytes())?;
            }
        }
    }
    sink.close()?;
    Ok(Outcome::Met)
}
