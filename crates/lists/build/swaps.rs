//! Packs the table of swaps: its lines in alphabetical order, and where the lines of every sixteenth headword begin. Holds it to its form.

use std::collections::BTreeSet;

use crate::fitness::Fitness;
use crate::{generate, generate_deflated, lines};

/// The files of the table.
const FILES: [&str; 4] = ["swaps/nouns.tsv", "swaps/verbs.tsv", "swaps/describing.tsv", "swaps/other.tsv"];

/// The place of one headword in so many is kept; the others are found from there.
const EACH: usize = 16;

pub(crate) fn write(fitness: &Fitness) {
    let mut all: Vec<String> = Vec::new();
    for file in FILES {
        let found = lines(file);
        assert!(found.is_sorted_by(|one, other| headword(one) <= headword(other)), "data/{file}: not in order");
        found.iter().for_each(|line| check(file, line, fitness));
        all.extend(found);
    }
    let distinct: BTreeSet<Vec<&str>> = all.iter().map(|line| line.split('\t').take(3).collect()).collect();
    assert_eq!(distinct.len(), all.len(), "a headword has two lines with one part of speech and sense");
    // The lines of a headword keep the order of the files, and in a file their own.
    all.sort_by(|one, other| headword(one).cmp(headword(other)));
    let mut text = String::new();
    let mut places: Vec<u8> = Vec::new();
    let mut headwords = 0;
    for (number, line) in all.iter().enumerate() {
        if number == 0 || headword(&all[number - 1]) != headword(line) {
            if headwords % EACH == 0 {
                places.extend(u32::try_from(text.len()).expect("far smaller than 4 GiB").to_le_bytes());
            }
            headwords += 1;
        }
        text += &packed(line);
        text.push('\n');
    }
    generate_deflated("swaps.bin", &text);
    generate("swaps.places", places);
}

/// A line without what is never offered: what suits some sentences only; another action for a verb, which seldom takes the words around
/// it (*told them a story*); another manner for an adverb.
fn packed(line: &str) -> String {
    let strong = |list: &str| {
        let strong: Vec<&str> = list.split(", ").filter(|phrase| !phrase.starts_with('~')).collect();
        if strong.is_empty() { "-".to_owned() } else { strong.join(", ") }
    };
    let [word, kind, sense, same, of_the_kind] = line.split('\t').collect::<Vec<_>>()[..] else {
        return line.to_owned();
    };
    let of_the_kind = if matches!(kind, "v" | "r" | "o") { "-" } else { of_the_kind };
    let long = |list: &str| list.split(", ").any(|phrase| phrase.contains(' ') && !phrase.starts_with('~'));
    assert!(matches!(kind, "r" | "o") || !long(same) && !long(of_the_kind), "a phrase that is not marked: {line}");
    [word, kind, sense, &strong(same), &strong(of_the_kind)].join("\t")
}

fn headword(line: &str) -> &str {
    line.split('\t').next().unwrap_or_default()
}

fn check(file: &str, line: &str, fitness: &Fitness) {
    let fields: Vec<&str> = line.split('\t').collect();
    let [word, kind, _, same, of_the_kind] = fields[..] else { panic!("data/{file}: not five fields: {line}") };
    assert!(matches!(kind, "n" | "v" | "a" | "r" | "o"), "data/{file}: no part of speech: {line}");
    assert!(fields.iter().all(|field| !field.is_empty()) && (same, of_the_kind) != ("-", "-"), "data/{file}: {line}");
    for offered in [same, of_the_kind] {
        let phrases: Vec<&str> = offered.split(", ").filter(|phrase| *phrase != "-").collect();
        assert!(phrases.len() <= 8, "data/{file}: more than eight: {line}");
        for phrase in phrases.iter().map(|phrase| phrase.strip_prefix('~').unwrap_or(phrase)) {
            assert!(phrase != word, "data/{file}: a word for itself: {line}");
            let mut parts = phrase.split(' ').map(|part| part.strip_suffix('*').unwrap_or(part));
            assert!(parts.all(|part| fitness.may_be_offered(part)), "data/{file}: {phrase} is unfit: {line}");
        }
    }
}
