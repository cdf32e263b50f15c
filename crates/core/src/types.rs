//! The distinct words of a text, numbered in order of first appearance.
//!
//! Every running word is looked up in this table. Nearly all words are ASCII and have at most sixteen letters: these are
//! compared as two machine words, already in lower case, without touching other memory.

use std::collections::HashMap;

use crate::fold_word;

/// Finds the number of each distinct word.
#[derive(Debug)]
pub(crate) struct Types {
    /// Open addressing; at most half full.
    slots: Vec<Slot>,
    short: usize,
    long: HashMap<Box<str>, usize>,
    count: usize,
}

#[derive(Clone, Copy, Debug, Default)]
struct Slot {
    key: Key,
    /// The word's number plus one; 0 for an empty slot.
    number: u32,
}

/// Up to sixteen letters and apostrophes in lower case, padded with zeros.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
struct Key(u64, u64);

impl Key {
    /// Makes the key of a word, if it is short and has only ASCII letters and apostrophes.
    #[inline(always)]
    fn of(text: &str, start: usize, end: usize) -> Option<Key> {
        const LOW: u64 = 0x2020_2020_2020_2020;
        let length = end - start;
        if length > 16 || length == 0 {
            return None;
        }
        let bytes = text.as_bytes();
        let eight = |from: usize, length: usize| {
            let window = match bytes.get(from..).and_then(|rest| rest.first_chunk()) {
                Some(window) => u64::from_le_bytes(*window),
                None => bytes[from..from + length].iter().rev().fold(0, |word, byte| word << 8 | u64::from(*byte)),
            };
            let mask = u64::MAX >> (64 - 8 * length);
            // Sets the lower-case bit of letters; apostrophes already have it.
            (window & mask, (window | LOW) & mask)
        };
        let (raw, first) = eight(start, length.min(8));
        let (more, second) = if length > 8 { eight(start + 8, length - 8) } else { (0, 0) };
        ((raw | more) & (LOW << 2) == 0).then_some(Key(first, second))
    }

    fn hash(self) -> u64 {
        const FACTOR: u64 = 0x9e37_79b9_7f4a_7c15;
        let mixed = (self.0.wrapping_mul(FACTOR).rotate_left(23) ^ self.1).wrapping_mul(FACTOR);
        mixed ^ mixed >> 32
    }
}

impl Default for Types {
    fn default() -> Self {
        Types { slots: vec![Slot::default(); 1 << 12], short: 0, long: HashMap::new(), count: 0 }
    }
}

impl Types {
    /// Returns the number of the word at `start..end`, and whether this is its first occurrence.
    #[inline]
    pub(crate) fn number(&mut self, text: &str, start: usize, end: usize) -> (usize, bool) {
        let Some(key) = Key::of(text, start, end) else { return self.long(&text[start..end]) };
        let mask = self.slots.len() - 1;
        let mut at = key.hash() as usize & mask;
        loop {
            let slot = &self.slots[at & mask];
            if slot.key == key && slot.number != 0 {
                return (slot.number as usize - 1, false);
            }
            if slot.number == 0 {
                break;
            }
            at += 1;
        }
        let number = self.count;
        let Ok(stored) = u32::try_from(number + 1) else { return self.long(&text[start..end]) };
        self.slots[at & mask] = Slot { key, number: stored };
        self.count += 1;
        self.short += 1;
        if 2 * self.short > self.slots.len() {
            self.grow();
        }
        (number, true)
    }

    fn long(&mut self, word: &str) -> (usize, bool) {
        let folded = fold_word(word);
        // A word that folds to a short ASCII word is that word: “ﬁsh”, “DON’T”.
        if folded.len() < word.len() || !word.is_ascii() {
            let end = folded.len();
            if Key::of(&folded, 0, end).is_some() {
                return self.number(&folded, 0, end);
            }
        }
        if let Some(number) = self.long.get(folded.as_str()) {
            return (*number, false);
        }
        self.long.insert(folded.into_boxed_str(), self.count);
        self.count += 1;
        (self.count - 1, true)
    }

    fn grow(&mut self) {
        let bigger = vec![Slot::default(); self.slots.len() * 2];
        let old = std::mem::replace(&mut self.slots, bigger);
        let mask = self.slots.len() - 1;
        for slot in old.into_iter().filter(|slot| slot.number != 0) {
            let mut at = slot.key.hash() as usize & mask;
            while self.slots[at].number != 0 {
                at = (at + 1) & mask;
            }
            self.slots[at] = slot;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_word_has_one_number_however_it_is_written() {
        let words = [
            "cat",
            "Cat",
            "CAT",
            "don't",
            "don\u{2019}t",
            "Don'T",
            "\u{fb01}sh",
            "fish",
            "i",
            "I",
            "antidisestablishmentarianism",
            "Antidisestablishmentarianism",
            "abcdefghijklmnop",
            "ABCDEFGHIJKLMNOP",
            "caf\u{e9}",
            "cafe",
        ];
        let mut types = Types::default();
        let mut numbers = Vec::new();
        for word in words {
            let text = format!("xx {word} and much more text behind it");
            numbers.push(types.number(&text, 3, 3 + word.len()).0);
            assert_eq!(types.number(word, 0, word.len()), (numbers[numbers.len() - 1], false), "{word}");
        }
        assert_eq!(numbers, [0, 0, 0, 1, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5, 6, 6]);
    }

    #[test]
    fn many_words_keep_their_numbers() {
        let words: Vec<String> =
            (0..20_000u32).map(|n| n.to_string().bytes().map(|b| (b + 49) as char).collect()).collect();
        let mut types = Types::default();
        for (number, word) in words.iter().enumerate() {
            assert_eq!(types.number(word, 0, word.len()), (number, true));
        }
        for (number, word) in words.iter().enumerate() {
            assert_eq!(types.number(word, 0, word.len()), (number, false));
        }
    }
}
