//! The reviewed lists of what is unfit for children, read once for all that are made of them.

use std::collections::{BTreeMap, BTreeSet};

use crate::lines;
use crate::word_lists::WordLists;

/// The reviewed lists.
pub(crate) struct Fitness {
    /// Words that are never shown.
    unfit: BTreeSet<String>,
    /// Words that no list has.
    odd: BTreeSet<String>,
    /// Words that are never offered for their meaning.
    by_meaning: BTreeSet<String>,
    /// Sounds of the worst words, however they are spelled.
    sounds: BTreeSet<String>,
}

/// Reads them, and holds them to their form: `word<TAB>reason`, sorted, every word in one file only.
pub(crate) fn read() -> Fitness {
    let mut known: BTreeMap<String, &str> = BTreeMap::new();
    let mut words = |file: &'static str| -> BTreeSet<String> {
        let mut found = BTreeSet::new();
        for line in lines(file) {
            let reason = line.split_once('\t').filter(|(_, reason)| !reason.is_empty() && !reason.contains('\t'));
            let (word, _) = reason.unwrap_or_else(|| panic!("data/{file}: `{line}` is not a word, a tab and a reason"));
            assert!(
                found.last().is_none_or(|last: &String| last.as_str() < word),
                "data/{file}: {word} is not in order"
            );
            if let Some(other) = known.insert(word.to_owned(), file) {
                panic!("data/{file}: {word} is in data/{other} too");
            }
            found.insert(word.to_owned());
        }
        found
    };
    let [unfit, odd, by_meaning] = ["fitness/unfit.tsv", "fitness/odd.tsv", "fitness/by-meaning.tsv"].map(&mut words);
    let sounds = lines("fitness/sounds.tsv").into_iter().map(|line| match line.split_once('\t') {
        Some((_, sounds)) => sounds.to_owned(),
        None => panic!("data/fitness/sounds.tsv: `{line}` is not a word, a tab and its sounds"),
    });
    Fitness { unfit, odd, by_meaning, sounds: sounds.collect() }
}

impl Fitness {
    pub(crate) fn write(&self, lists: &mut WordLists) {
        let lists_of = [
            ("UNFIT", &self.unfit),
            ("ODD", &self.odd),
            ("UNFIT_BY_MEANING", &self.by_meaning),
            ("UNFIT_SOUNDS", &self.sounds),
        ];
        for (name, words) in lists_of {
            lists.add(name, words.iter().map(String::as_str));
        }
    }

    /// Whether a word may be offered for its meaning.
    pub(crate) fn may_be_offered(&self, word: &str) -> bool {
        ![&self.unfit, &self.odd, &self.by_meaning].iter().any(|list| list.contains(word))
    }
}
