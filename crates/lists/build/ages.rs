//! At what age children know a word.

use crate::lines;
use crate::word_lists::WordLists;

/// Reads the list and holds it to its form: `word<TAB>age`, sorted.
pub(crate) fn write(lists: &mut WordLists) {
    let lines = lines("ages.tsv");
    let mut by_age: [Vec<&str>; 4] = Default::default();
    let mut last = "";
    for line in &lines {
        let known = line.split_once('\t').and_then(|(word, age)| Some((word, age.parse::<usize>().ok()?)));
        let (word, age) = known
            .filter(|(_, age)| (5..=8).contains(age))
            .unwrap_or_else(|| panic!("data/ages.tsv: `{line}` is not a word, a tab and an age from 5 to 8"));
        assert!(last < word, "data/ages.tsv: {word} is not in order");
        last = word;
        by_age[age - 5].push(word);
    }
    for (words, name) in by_age.into_iter().zip(["KNOWN_AT_5", "KNOWN_AT_6", "KNOWN_AT_7", "KNOWN_AT_8"]) {
        lists.add(name, words);
    }
}
