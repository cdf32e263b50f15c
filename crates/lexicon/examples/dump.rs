//! Prints every word in the dictionary, one reading per line, with the reading's parts and what the word is made of:
//! `cargo run --release -p untaught-lexicon --example dump`.

use std::io::Write as _;

use untaught_lexicon::{Lexicon, PackedPart};
use untaught_phonics::Formation;

fn main() {
    let lexicon = Lexicon::embedded();
    let mut out = std::io::BufWriter::new(std::io::stdout().lock());
    for entry in lexicon.entries() {
        for reading in entry.readings() {
            let parts: Vec<String> = reading
                .parts()
                .map(|part| match part {
                    PackedPart::Known { id, e_dropped } => {
                        let (part, mark) = (id.get(), if e_dropped { "-" } else { "" });
                        format!("{}{mark}={}", part.spelling, part.sound.get().name)
                    }
                    PackedPart::Odd(odd) => lexicon.oddity(odd).map_or_else(String::new, |(l, p)| format!("?{l}={p}")),
                })
                .collect();
            let word = entry.word();
            let made = match reading.made() {
                None => String::new(),
                Some(Formation::Affixed { affix, change, .. }) => {
                    format!("{} {}", change.base_of(word, affix).unwrap_or_default(), affix.get().name)
                }
                Some(Formation::Compound { seam, .. }) => {
                    let (first, second) = word.split_at(usize::from(seam));
                    format!("{first} + {second}")
                }
            };
            if writeln!(out, "{word}\t{}\t{made}", parts.join(" · ")).is_err() {
                return;
            }
        }
    }
}
