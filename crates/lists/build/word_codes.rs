//! Texts of few words that come again and again, as numbers for the words: half as long when deflated. `src/word_codes.rs` reads them.

use std::cmp::Reverse;
use std::collections::HashMap;

/// The commonest words and signs take one byte, this many of them.
const SHORT: usize = 200;

/// The words and signs of a text, each ended by a zero byte, the commonest first; another zero byte; then the text, one or two bytes for
/// each. `joiner` between two words is left out.
pub(crate) fn coded(text: &str, joiner: char) -> Vec<u8> {
    let all = words(text);
    let mut counts: HashMap<&str, usize> = HashMap::new();
    all.iter().for_each(|word| *counts.entry(word).or_default() += 1);
    let mut known: Vec<&str> = counts.keys().copied().collect();
    known.sort_by_key(|word| (Reverse(counts[word]), *word));
    assert!(known.len() <= SHORT + (256 - SHORT) * 256, "too many words for two bytes: {}", known.len());
    let numbers: HashMap<&str, usize> = known.iter().enumerate().map(|(number, word)| (*word, number)).collect();
    let mut out: Vec<u8> = known.iter().flat_map(|word| word.bytes().chain([0])).chain([0]).collect();
    for (at, word) in all.iter().enumerate() {
        let joins = at > 0 && all.get(at + 1).is_some_and(|after| is_word(all[at - 1]) && is_word(after));
        if joins && word.chars().eq([joiner]) {
            continue;
        }
        let byte = |number: usize| u8::try_from(number).expect("the numbers fit");
        match numbers[word].checked_sub(SHORT) {
            None => out.push(byte(numbers[word])),
            Some(number) => out.extend([byte(SHORT + number / 256), byte(number % 256)]),
        }
    }
    out
}

/// The words of a text and, one by one, the signs between them.
fn words(text: &str) -> Vec<&str> {
    let mut found = Vec::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let length = rest.find(|c| !is_of_word(c)).unwrap_or(rest.len()).max(first.len_utf8());
        let (word, after) = rest.split_at(if is_of_word(first) { length } else { first.len_utf8() });
        found.push(word);
        rest = after;
    }
    found
}

fn is_word(text: &str) -> bool {
    text.starts_with(is_of_word)
}

fn is_of_word(c: char) -> bool {
    c.is_alphanumeric() || c == '\''
}
