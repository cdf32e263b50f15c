//! Prints every word of the dictionary with the parts of each reading, one reading a line, for reading by eye:
//! `cargo run --release -p untaught-lexicon --example dump`.

use std::io::Write as _;

use untaught_lexicon::{Lexicon, Part};

fn main() {
    let lexicon = Lexicon::embedded();
    let mut out = std::io::BufWriter::new(std::io::stdout().lock());
    for entry in lexicon.entries() {
        for reading in entry.readings() {
            let parts: Vec<String> = reading
                .parts()
                .map(|part| match part {
                    Part::Known { id, e_dropped } => {
                        let (part, mark) = (id.get(), if e_dropped { "-" } else { "" });
                        format!("{}{mark}={}", part.spelling, part.sound.get().name)
                    }
                    Part::Odd(odd) => lexicon.oddity(odd).map_or_else(String::new, |(l, p)| format!("?{l}={p}")),
                })
                .collect();
            if writeln!(out, "{}\t{}", entry.word(), parts.join(" · ")).is_err() {
                return;
            }
        }
    }
}
