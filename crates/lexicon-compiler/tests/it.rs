//! Tests that the packed lexicon is up to date with its sources and that every reviewed exception is needed.

use untaught_lexicon_compiler::{Sources, compile, idle_exceptions};

const PACKED: &[u8] = include_bytes!("../../lexicon/data/lexicon.bin");

#[test]
fn the_packed_lexicon_is_what_its_sources_give() {
    let compiled = compile(&Sources::embedded()).unwrap();
    assert!(compiled == PACKED, "run `cargo run --release -p untaught-lexicon-compiler` and commit what it writes");
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
}
