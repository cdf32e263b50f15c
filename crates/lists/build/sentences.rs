//! The sentence frames, and the words for their gaps by category.

use std::collections::{BTreeMap, BTreeSet};

use crate::word_lists::WordLists;
use crate::{generate_deflated, lines};

pub(crate) fn write(lists: &mut WordLists) {
    let frames = lines("sentences/frames.txt");
    let mut by_slot: BTreeMap<String, Vec<String>> = BTreeMap::new();
    let mut known_to_children = BTreeSet::new();
    for line in lines("sentences/slots.tsv") {
        let (word, categories) = line.split_once('\t').unwrap_or_else(|| panic!("data/sentences/slots.tsv: {line}"));
        known_to_children.insert(word.to_owned());
        for category in categories.split_whitespace() {
            by_slot.entry(category.to_owned()).or_default().push(word.to_owned());
        }
    }
    by_slot.insert("Name".to_owned(), lines("sentences/names.txt"));
    let mut bank = lines("sentences/bank.txt").join("\n");
    bank.push('\n');
    generate_deflated("sentences.bin", &bank);
    lists.add("KNOWN_TO_CHILDREN", known_to_children.iter().map(String::as_str));
    // A line for each frame, an empty one, a line for each category: its name and its words, separated by tabs.
    let slots = by_slot.into_iter().map(|(slot, words)| [vec![slot], words].concat().join("\t"));
    let parts: Vec<String> = frames.into_iter().chain([String::new()]).chain(slots).collect();
    generate_deflated("frames.bin", parts.join("\n"));
}
