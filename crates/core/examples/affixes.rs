//! Prints every common word that is recognised as a base with an ending or a beginning, for reading by eye: what only looks like
//! one belongs into `data/lookalikes.txt`. `cargo run --release -p untaught --example affixes -- -er -est`

fn main() {
    let reader = untaught::Reader::default();
    for affix in std::env::args().skip(1) {
        for (word, base) in reader.made_with(&affix) {
            println!("{affix}\t{word}\t{base}");
        }
    }
}
