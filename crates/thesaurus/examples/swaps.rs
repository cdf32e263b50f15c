//! Shows what is offered for words: `cargo run -p untaught-thesaurus --example swaps -- SCOPE LESSON WORD…`.

use untaught::{Judge, Reader, Scope};
use untaught_thesaurus::swaps;

fn main() -> Result<(), String> {
    let mut args = std::env::args().skip(1);
    let (Some(name), Some(lesson)) = (args.next(), args.next()) else { return Err("a scope and a lesson".to_owned()) };
    let reader = Reader::default();
    let scope = Scope::embedded(&name, &reader).ok_or("no such scope")?;
    let (judge, at) = (Judge { reader: &reader, scope: &scope }, scope.place(&lesson)?);
    for word in args {
        println!("{word}: {}", swaps(&word, &judge, at).join(", "));
    }
    Ok(())
}
