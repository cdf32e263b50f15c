//! The scope after England's national curriculum against the document's own words.
//!
//! Source: Department for Education, National curriculum in England, English Appendix 1: Spelling (2013, framework December 2014),
//! Open Government Licence v3.0; rows read in a public copy (`tests/data`). Words are read in southern British, as the document prints them.

use crate::shared::rows;
use untaught::{Judge, LessonIndex, Reader, Scope, fold_word};

const EXAMPLES: &str = include_str!("data/england_appendix1.tsv");
const EXCEPTIONS: &str = include_str!("data/england_exception_words.tsv");

/// Example words that are not decodable by the end of their year, each with its reason.
const NOT_YET: &[(&str, &str)] = &[
    (
        "goes",
        "no form of a word is easier than the word: go is an exception word of year 1, and goes is read as its form",
    ),
    ("cried", "as goes: the y of cry is a rule of year 2"),
    ("tried", "as cried"),
    ("dried", "as cried"),
    ("Thursday", "s for /z/ is stated by no rule of year 1; is, his, has are its exceptions"),
    ("Tuesday", "as Thursday"),
    ("horse", "se is stated by no rule of year 1; house is its exception"),
    ("dinosaur", "the long i of find, an exception word"),
    ("undo", "do is an exception word of year 1"),
    ("football", "a before ll is a rule of year 2"),
    ("where", "an exception word itself"),
    ("giant", "as dinosaur"),
    ("motion", "the long o of most, an exception word"),
    ("couldn't", "could is an exception word"),
    ("I'll", "I is an exception word"),
    ("child's", "child is an exception word"),
    ("Ravi's", "a name from another language"),
    ("Megan's", "a name, with a long e in the dictionary"),
    ("there", "an exception word, listed again among homophones"),
    ("here", "as there"),
    ("one", "as there"),
    ("to", "as there"),
    ("be", "as there"),
    ("they're", "they is an exception word"),
    ("their", "a homophone that no rule reads"),
    ("two", "a homophone that no rule reads"),
    ("quiet", "a homophone that no rule reads: the long i of find"),
    ("can't", "the a of path, an exception word"),
];

/// Exception words that are decodable by the patterns of their year, each with its reason.
const DECODABLE: &[(&str, &str)] = &[
    ("children", "regular by its letters; listed beside child"),
    ("every", "three syllables in the dictionary, with its er sounded"),
    ("everybody", "as every"),
    ("today", "its weak first vowel is taught with the words of two syllables; listed beside to"),
    ("clothes", "with its th sounded, as in the dictionary"),
    ("money", "o as in mother and ey as in key are both rules of year 2"),
];

/// The words of a table that pass a test at the last lesson of their year.
fn found(table: &str, columns: (usize, usize), wanted: impl Fn(bool) -> bool) -> Vec<String> {
    let reader = Reader::default();
    let scope = Scope::embedded("england-years-1-2", &reader).unwrap();
    let judge = Judge::new(&reader, &scope);
    let last_of = |year: &str| {
        let of_year = |id: &str| id.starts_with('R') || id.split('.').next().is_some_and(|of| of <= year);
        scope.lessons().iter().rposition(|lesson| of_year(&lesson.id)).and_then(LessonIndex::new).unwrap()
    };
    let mut found = Vec::new();
    for row in rows(table) {
        let (year, word) = (row[columns.0], row[columns.1]);
        let first = judge.judge(&fold_word(word)).first_decodable();
        if wanted(first.is_some_and(|first| first <= last_of(year))) && !found.contains(&word.to_owned()) {
            found.push(word.to_owned());
        }
    }
    found
}

fn assert_listed(found: &[String], listed: &[(&str, &str)]) {
    let unlisted: Vec<&String> = found.iter().filter(|word| !listed.iter().any(|(known, _)| known == word)).collect();
    let stale: Vec<&str> =
        listed.iter().map(|(word, _)| *word).filter(|word| !found.iter().any(|one| one == word)).collect();
    assert!(unlisted.is_empty() && stale.is_empty(), "not listed: {unlisted:?}; listed but no longer so: {stale:?}");
    assert!(listed.iter().all(|(_, reason)| !reason.is_empty()));
}

#[test]
fn englands_example_words_are_decodable_by_the_end_of_their_year() {
    assert_listed(&found(EXAMPLES, (0, 4), |decodable| !decodable), NOT_YET);
}

#[test]
fn englands_exception_words_are_not_decodable_in_their_year() {
    assert_listed(&found(EXCEPTIONS, (0, 1), |decodable| decodable), DECODABLE);
}
