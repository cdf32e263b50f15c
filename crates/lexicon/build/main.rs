//! Reads the pronouncing dictionary, mends it, cuts every reading into parts and packs the result for [`include_bytes!`].

mod commonness;
mod cut;
mod dictionary;
mod endings;
#[path = "../src/format.rs"]
mod format;
mod mend;
mod pack;
mod seams;

use std::path::Path;
use std::{env, fs};

fn main() {
    println!("cargo::rerun-if-changed=build");
    println!("cargo::rerun-if-changed=data");
    let dictionary = fs::read_to_string("data/cmudict.dict").expect("data/cmudict.dict is part of the project");
    let review = fs::read_to_string("data/readings.tsv").expect("data/readings.tsv is part of the project");
    let commonness = fs::read_to_string("data/commonness.tsv").expect("data/commonness.tsv is part of the project");
    let commonness = commonness::read(&commonness).unwrap_or_else(|error| panic!("data/commonness.tsv:{error}"));
    let mut words = dictionary::read(&dictionary);
    mend::by_rule(&mut words, &commonness);
    mend::by_review(&mut words, &review).unwrap_or_else(|error| panic!("data/readings.tsv:{error}"));
    mend::follow_bases(&mut words, &commonness);
    let not_bases = fs::read_to_string("data/not-bases.tsv").expect("data/not-bases.tsv is part of the project");
    let lexicon = cut::cut_all(&words, &commonness, &not_bases);
    let target = Path::new(&env::var("OUT_DIR").expect("cargo sets OUT_DIR")).join("lexicon.bin");
    fs::write(target, pack::pack(&lexicon)).expect("the build folder can be written");
}
