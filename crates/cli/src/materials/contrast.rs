//! `untaught contrast`.

use serde::Serialize;
use untaught::{Pattern, Reader};
use untaught_materials::{Contrast, Position, contrast};
use untaught_spelling::{SoundId, spelled};

use crate::Outcome;
use crate::args::{ContrastArgs, Format};
use crate::output::{self, DIM, Failure, STRONG, Sink, safe};

#[derive(Serialize)]
pub(super) struct Out {
    sound: &'static str,
    key: &'static str,
    position: &'static str,
    items: Vec<ItemOut>,
    pairs: Vec<[String; 2]>,
}

#[derive(Serialize)]
struct ItemOut {
    word: String,
    has: bool,
    foil: Option<&'static str>,
}

impl Out {
    pub(super) fn of(made: &Contrast) -> Out {
        let item = |item: &untaught_materials::Item| ItemOut {
            word: item.word.clone(),
            has: item.has,
            foil: item.foil.map(|sound| sound.get().ipa[0]),
        };
        Out {
            sound: made.sound.get().ipa[0],
            key: made.sound.get().key,
            position: position(made.position),
            items: made.items.iter().map(item).collect(),
            pairs: made.pairs.iter().map(|(one, other)| [one.clone(), other.clone()]).collect(),
        }
    }
}

fn position(position: Position) -> &'static str {
    match position {
        Position::Start => "start",
        Position::Middle => "middle",
        Position::End => "end",
    }
}

/// What to listen for: `/ʃ/ as in ship, at the start`.
pub(super) fn heading(made: &Contrast) -> String {
    let sound = made.sound.get();
    let place = match made.position {
        Position::Start => "at the start",
        Position::Middle => "in the middle",
        Position::End => "at the end",
    };
    format!("/{}/ as in {}, {place}", sound.ipa[0], sound.key)
}

pub(crate) fn run(args: &ContrastArgs) -> Result<Outcome, Failure> {
    let reader = Reader::default();
    let sound = sound(&args.sound, &reader)?;
    let position = args.position.map(crate::args::Where::position);
    let made = contrast(&reader, sound, position, usize::from(args.count), args.seed);
    let made = made.map_err(|lacking| Failure::Message(lacking.0))?;
    if args.format == Format::Json {
        output::json(&Out::of(&made))?;
        return Ok(Outcome::Met);
    }
    let mut sink = Sink::open(None, true)?;
    sink.write(format!("{STRONG}Listen for {}{STRONG:#}\n\n", safe(&heading(&made))).as_bytes())?;
    for (number, item) in made.items.iter().enumerate() {
        let key = match item.foil {
            None => "yes".to_owned(),
            Some(foil) => format!("no: /{}/", foil.get().ipa[0]),
        };
        sink.write(
            format!("  {:>2}. {:<10} {DIM}{key}{DIM:#}\n", number + 1, safe(&item.word).to_string()).as_bytes(),
        )?;
    }
    if !made.pairs.is_empty() {
        let pairs: Vec<String> = made.pairs.iter().map(|(one, other)| format!("{one}–{other}")).collect();
        sink.write(format!("\n  {DIM}only the sound differs: {}{DIM:#}\n", safe(&pairs.join(", "))).as_bytes())?;
    }
    sink.close()?;
    Ok(Outcome::Met)
}

/// The sound that was asked for.
fn sound(written: &str, reader: &Reader) -> Result<SoundId, Failure> {
    if written.starts_with('/') {
        let sound = SoundId::from_ipa(written).next();
        return sound
            .ok_or_else(|| Failure::Message(format!("there is no sound {written}; untaught patterns lists them")));
    }
    let pattern = Pattern::parse(written, reader).map_err(Failure::Message)?;
    let id = match &pattern {
        Pattern::One(id, _) => Some(*id),
        Pattern::Bare(spelling) => spelled(spelling).next(),
        Pattern::Run(_) => None,
    };
    let single = id
        .map(|id| id.get().sound)
        .filter(|sound| sound.get().name.split(' ').count() == 1 || sound.get().kind.is_vowel());
    single
        .ok_or_else(|| Failure::Message(format!("{written} is not one sound; name one such as `sh` or `i as in sit`")))
}
