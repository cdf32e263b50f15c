//! Shows the words that are offered for the untaught words of a story, each with its line:
//!
//! `cargo run -p untaught-lists --example swaps -- SCOPE LESSON FILE|TEXT`.

use untaught::{Judge, Options, Reader, Scope, check};
use untaught_lists::{Around, Swap, swaps};

fn main() -> Result<(), String> {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let [name, lesson, story] = &args[..] else {
        return Err("the arguments are a scope, a lesson and a story".to_owned());
    };
    let text = std::fs::read_to_string(story).unwrap_or_else(|_| story.clone());
    let reader = Reader::default();
    let scope = Scope::embedded(name, &reader).ok_or("no scope with this name comes with the program")?;
    let (judge, at) = (Judge::new(&reader, &scope), scope.index_of(lesson).map_err(|error| error.to_string())?);
    for finding in check(&text, &scope, &reader, &Options::at(at)).findings {
        let place = finding.places[0].clone();
        let found = swaps(&text[place.clone()], Around::of(&text, &place), &judge, at);
        let texts = |swaps: &[Swap]| swaps.iter().map(Swap::with_article).collect::<Vec<_>>().join(", ");
        let line = text[..place.start].rfind('\n').map_or(0, |at| at + 1);
        let line = text[line..].lines().next().unwrap_or_default();
        if !found.is_empty() && !finding.likely_name {
            let wider: Vec<String> =
                found.rewordings.iter().map(|made| format!("{} → {}", made.old, made.new)).collect();
            let (same, kind, wider) = (texts(&found.same), texts(&found.of_the_kind), wider.join(", "));
            println!("{}: {same} / {kind} / {wider}   | {line}", finding.word());
        }
    }
    Ok(())
}
