//! Tests that the packed lexicon is up to date with its sources and that every reviewed exception is needed.

use untaught_lexicon_compiler::{Sources, compile, idle_exceptions};

const LEXICON: &[u8] = include_bytes!("../../lexicon/data/lexicon.bin");
const ACCENTS: &[u8] = include_bytes!("../../lexicon/data/accents.bin");

#[test]
fn the_packed_lexicon_is_what_its_sources_give() {
    let compiled = compile(&Sources::embedded()).unwrap();
    let same = compiled.lexicon == LEXICON && compiled.accents == ACCENTS;
    assert!(same, "run `cargo run --release -p untaught-lexicon-compiler` and commit what it writes");
}

#[test]
fn every_exception_denies_what_a_rule_would_claim() {
    let idle = idle_exceptions(&Sources::embedded()).unwrap();
    assert!(idle.is_empty(), "{} idle lines: {idle:#?}", idle.len());
}

#[test]
fn a_mistake_in_a_list_is_reported_with_its_line() {
    let sources = Sources { exceptions: "# heading\ncorner\tnot-ending\tcorn -er\t\n", ..Sources::embedded() };
    assert_eq!(compile(&sources).unwrap_err(), "data/exceptions.tsv:2: the reason is missing");
    let sources = Sources { commonness: "cat\tten\n", ..Sources::embedded() };
    assert_eq!(compile(&sources).unwrap_err(), "data/commonness.tsv:1: ten is not a class");
    let british = |line| compile(&Sources { british: line, ..Sources::embedded() }).unwrap_err();
    assert_eq!(british("bath\tsouthern\ta=AE > a=QQ\tx\n"), "data/british.tsv:1: bath: there is no sound QQ");
    let useless = "bath\tsouthern\tth=TH > th=TH\tx\n";
    assert_eq!(british(useless), "data/british.tsv:1: bath has no such part, or the rules give the same");
}
