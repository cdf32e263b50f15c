//! Prints how words are read in an accent: the word, its IPA, and its parts with the sound of each.
//!
//!     echo car bath hurry | cargo run --release -p untaught --example pronounce -- southern-british

use std::io::{self, BufWriter, Read as _, Write as _};
use std::process::ExitCode;

use untaught::{Accent, Reader};

fn main() -> ExitCode {
    let name = std::env::args().nth(1).unwrap_or_default();
    let Some(accent) = Accent::named(&name) else {
        let names = Accent::ALL.map(Accent::name).join(", ");
        eprintln!("usage: pronounce ACCENT < WORDS; the accents are {names}");
        return ExitCode::from(2);
    };
    let reader = Reader::new(accent);
    let mut words = String::new();
    let mut out = BufWriter::new(io::stdout().lock());
    let done = io::stdin().read_to_string(&mut words).and_then(|_| {
        for word in words.split_whitespace() {
            for reading in &reader.read(word).readings {
                let parts = reading.parts_with_ipa().map(|(part, ipa)| format!("{}/{ipa}", part.spelling()));
                writeln!(out, "{word}\t{}\t{}", reading.ipa(), parts.collect::<Vec<_>>().join(" "))?;
            }
        }
        out.flush()
    });
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}
