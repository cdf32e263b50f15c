//! `untaught contrast`.

use untaught::Reader;
use untaught_lists::{contrast, sound_named};

use crate::args::{ContrastArgs, TextOrJson};
use crate::output::{self, DIM, Failure, Outcome, STRONG, Sink, one_line};

pub(crate) fn run(args: &ContrastArgs) -> Result<Outcome, Failure> {
    let reader = Reader::new(args.accent);
    let sound = sound_named(&args.sound, &reader).map_err(Failure::Message)?;
    let position = args.position.map(Into::into);
    let made = contrast(&reader, sound, position, &[], usize::from(args.count), args.seed);
    let made = made.map_err(|why| Failure::Message(why.0))?;
    if args.format == TextOrJson::Json {
        output::json(&made)?;
        return Ok(Outcome::Met);
    }
    let mut sink = Sink::open(None, true)?;
    sink.write(format!("{STRONG}Listen for {}{STRONG:#}\n\n", one_line(&made.heading())).as_bytes())?;
    for (number, item) in made.items.iter().enumerate() {
        let key = match item.foil {
            None => "yes".to_owned(),
            Some(foil) => format!("no: /{foil}/"),
        };
        sink.write(format!("  {:>2}. {:<10} {DIM}{key}{DIM:#}\n", number + 1, one_line(&item.word)).as_bytes())?;
    }
    if !made.pairs.is_empty() {
        let pairs: Vec<String> = made.pairs.iter().map(|(one, other)| format!("{one}–{other}")).collect();
        sink.write(
            format!("\n  {DIM}pairs that differ only in this sound: {}{DIM:#}\n", one_line(&pairs.join(", ")))
                .as_bytes(),
        )?;
    }
    sink.close()?;
    Ok(Outcome::Met)
}
