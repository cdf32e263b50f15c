//! Prints every common word that is recognised as a base with a suffix or a prefix, for review: words that only look like
//! one belong in `lexicon-compiler/data/exceptions.tsv`. `cargo run --release -p untaught --example affixes -- -er -est`

fn main() {
    let reader = untaught::Reader::default();
    for affix in std::env::args().skip(1) {
        for (word, base) in reader.made_with(&affix) {
            println!("{affix}\t{word}\t{base}");
        }
    }
}
