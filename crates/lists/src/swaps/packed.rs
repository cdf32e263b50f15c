//! The packed groups, read in place.
//!
//! All numbers are little-endian. Number of words and of groups (u32 each), then for every sixteenth of them, words first, the place of
//! its entry (u32), counted from the end of these places. A word's entry: length and letters, its size class, the number of its groups, how
//! often it was met as noun, verb, adjective and adverb (255 at most); of each group the kind of word, the share of that sense in percent of
//! its uses as that kind, the number of the group (u16). A group's entry: number of words that it offers, number of groups near it; of each
//! word its number (u16) and the share of that sense, of each group its number (u16). Words that are unfit to be offered have an entry,
//! but no group offers them.

static BYTES: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/groups.bin"));

/// A word of the thesaurus.
#[derive(Clone, Copy, Debug)]
pub(crate) struct PackedWord {
    pub(crate) text: &'static str,
    /// Size class: 10 the commonest.
    pub(crate) class: u8,
    met: &'static [u8],
    groups: &'static [u8],
}

/// A group of words with one meaning.
#[derive(Clone, Copy, Debug)]
pub(crate) struct SynonymGroup {
    words: &'static [u8],
    near: &'static [u8],
}

fn number(at: usize) -> usize {
    BYTES.get(at..).and_then(|rest| rest.first_chunk()).map_or(0, |bytes| u32::from_le_bytes(*bytes) as usize)
}

fn short(bytes: &[u8]) -> usize {
    bytes.first_chunk().map_or(0, |bytes| usize::from(u16::from_le_bytes(*bytes)))
}

fn counts() -> (usize, usize) {
    (number(0), number(4))
}

/// How many entries share one kept place.
const STEP: usize = 16;

/// The bytes from an entry on: the one of that number among words or groups, whose kept places begin at `first`.
fn entry(first: usize, at: usize, length: impl Fn(&[u8]) -> Option<usize>) -> Option<&'static [u8]> {
    let (words, groups) = counts();
    let body = 8 + 4 * (words.div_ceil(STEP) + groups.div_ceil(STEP));
    let mut rest = BYTES.get(body + number(8 + 4 * (first + at / STEP))..)?;
    for _ in 0..at % STEP {
        rest = rest.get(length(rest)?..)?;
    }
    Some(rest)
}

fn word(place: usize) -> Option<PackedWord> {
    let length = |entry: &[u8]| {
        let text = usize::from(*entry.first()?);
        Some(text + 7 + 4 * usize::from(*entry.get(text + 2)?))
    };
    let (text, rest) = entry(0, place, length)?.split_first()?;
    let (text, rest) = rest.split_at_checked(usize::from(*text))?;
    let (met, groups) = rest.get(2..6 + 4 * usize::from(*rest.get(1)?))?.split_at(4);
    Some(PackedWord { text: std::str::from_utf8(text).ok()?, class: rest[0], met, groups })
}

/// Finds a word. Cost: a binary search.
pub(crate) fn find(text: &str) -> Option<PackedWord> {
    let (mut from, mut to) = (0, counts().0);
    while from < to {
        let middle = (from + to) / 2;
        let found = word(middle)?;
        match found.text.cmp(text) {
            std::cmp::Ordering::Equal => return Some(found),
            std::cmp::Ordering::Less => from = middle + 1,
            std::cmp::Ordering::Greater => to = middle,
        }
    }
    None
}

/// Every word, in alphabetical order.
#[cfg(test)]
pub(crate) fn words() -> impl Iterator<Item = PackedWord> {
    (0..counts().0).filter_map(word)
}

impl PackedWord {
    /// How often it was met as a word of a kind (n noun, v verb, a adjective, r adverb), and once more; 0 if it is none of that kind.
    pub(crate) fn met(self, kind: u8) -> u32 {
        let at = b"nvar".iter().position(|known| *known == kind);
        at.and_then(|at| self.met.get(at)).map_or(0, |met| u32::from(*met))
    }

    /// Its meanings: the kind of word, how often of a hundred times that kind of word has that meaning, the group.
    pub(crate) fn groups(self) -> impl Iterator<Item = (u8, u8, SynonymGroup)> {
        self.groups.chunks_exact(4).filter_map(|bytes| Some((bytes[0], bytes[1], group(short(&bytes[2..]))?)))
    }
}

fn group(place: usize) -> Option<SynonymGroup> {
    let sizes = |entry: &[u8]| Some((3 * usize::from(*entry.first()?), 2 * usize::from(*entry.get(1)?)));
    let first = counts().0.div_ceil(STEP);
    let bytes = entry(first, place, |entry| sizes(entry).map(|(words, near)| 2 + words + near))?;
    let (words, near) = sizes(bytes)?;
    let (words, rest) = bytes[2..].split_at_checked(words)?;
    Some(SynonymGroup { words, near: rest.get(..near)? })
}

impl SynonymGroup {
    /// The words that it offers, each with how often of a hundred times it has that meaning.
    pub(crate) fn words(self) -> impl Iterator<Item = (PackedWord, u8)> {
        self.words.chunks_exact(3).filter_map(|bytes| Some((word(short(bytes))?, bytes[2])))
    }

    /// The groups that are broader or similar.
    pub(crate) fn near(self) -> impl Iterator<Item = SynonymGroup> {
        self.near.chunks_exact(2).filter_map(|bytes| group(short(bytes)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fitness::{Purpose, is_fit};

    #[test]
    fn every_word_is_found_and_its_groups_offer_it_if_it_is_fit() {
        let mut last = String::new();
        let (mut count, mut held_back) = (0, 0);
        for word in words() {
            assert!(word.text > last.as_str(), "{}", word.text);
            assert_eq!(find(word.text).map(|found| found.text), Some(word.text));
            let fit = is_fit(word.text, Purpose::OfferedForMeaning);
            for (_, sense, group) in word.groups() {
                let offered = group.words().any(|(member, at)| member.text == word.text && at == sense);
                assert_eq!(offered, fit, "{}", word.text);
                group.near().for_each(|near| assert!(near.words().count() < 100));
            }
            last = word.text.to_owned();
            count += 1;
            held_back += usize::from(!fit);
        }
        assert!(count > 10_000 && held_back > 100, "{count} {held_back}");
        assert!(BYTES.len() < 500_000, "{}", BYTES.len());
        assert!(find("splunk").is_none());
    }
}
