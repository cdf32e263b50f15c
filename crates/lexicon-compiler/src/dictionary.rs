//! The published dictionary: words with their pronunciations.

use std::collections::BTreeMap;

use cmudict_fast::Cmudict;
use untaught_phonics::{Phone, parse_phones};

/// One pronunciation.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Pronunciation {
    pub(crate) phones: Vec<Phone>,
    /// The index of the phone with the main stress.
    pub(crate) stressed: Option<usize>,
}

impl Pronunciation {
    pub(crate) fn parse(text: &str) -> Result<Pronunciation, String> {
        let (phones, stressed) = parse_phones(text)?;
        Ok(Pronunciation { phones, stressed })
    }
}

/// Words in alphabetical order, each with its readings, the usual one first.
pub(crate) type Words = BTreeMap<String, Vec<Pronunciation>>;

/// Reads the dictionary file. The parsing crate cannot list its words, so they are taken from the lines of the file.
pub(crate) fn read(text: &str) -> Words {
    let dictionary: Cmudict = text.parse().expect("the dictionary is well formed");
    let mut words = Words::new();
    for line in text.lines().filter(|line| !line.starts_with(";;;")) {
        let label = line.split(' ').next().unwrap_or_default();
        let word = label.split('(').next().unwrap_or_default();
        if words.contains_key(word) {
            continue;
        }
        let rules = dictionary.get(word).unwrap_or_default();
        let readings = rules.iter().map(|rule| {
            let symbols: Vec<String> = rule.pronunciation().iter().map(ToString::to_string).collect();
            Pronunciation::parse(&symbols.join(" ")).expect("the dictionary's symbols are phones")
        });
        words.insert(word.to_owned(), readings.collect());
    }
    words
}
