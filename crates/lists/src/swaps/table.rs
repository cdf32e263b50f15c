//! The table of swaps, deflated when the crate is built, and inflated when a swap is asked for first.
//!
//! A text with a line for each meaning of a headword, in alphabetical order, and the place of every sixteenth headword's first line in it.

use std::sync::LazyLock;

use crate::deflated::inflated;

static LINES: LazyLock<String> = LazyLock::new(|| inflated(include_bytes!(concat!(env!("OUT_DIR"), "/swaps.bin"))));
/// Little-endian numbers of four bytes.
static PLACES: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/swaps.places"));

/// What kind of word a headword is in one of its meanings.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum PartOfSpeech {
    Noun,
    Verb,
    Adjective,
    Adverb,
    /// A preposition, a conjunction, a pronoun, an exclamation.
    Other,
}

/// A headword in one of its meanings.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Meaning {
    pub(crate) word: &'static str,
    pub(crate) part_of_speech: PartOfSpeech,
    /// A few words that tell it from the other meanings; empty if there is no other.
    pub(crate) sense: &'static str,
    /// What means the same, the nearest first, separated by commas.
    same: &'static str,
    /// Others of the kind.
    kind: &'static str,
}

impl Meaning {
    fn parse(line: &'static str) -> Option<Meaning> {
        let mut fields = line.split('\t');
        let mut next = || fields.next().map(|field| if field == "-" { "" } else { field });
        let word = next()?;
        let part_of_speech = match next()? {
            "n" => PartOfSpeech::Noun,
            "v" => PartOfSpeech::Verb,
            "a" => PartOfSpeech::Adjective,
            "r" => PartOfSpeech::Adverb,
            _ => PartOfSpeech::Other,
        };
        Some(Meaning { word, part_of_speech, sense: next()?, same: next()?, kind: next()? })
    }

    /// The words and phrases that mean the same, in their base form.
    pub(crate) fn same(self) -> impl Iterator<Item = &'static str> {
        self.same.split(", ").filter(|phrase| !phrase.is_empty())
    }

    /// Others of the kind, in their base form.
    pub(crate) fn of_the_kind(self) -> impl Iterator<Item = &'static str> {
        self.kind.split(", ").filter(|phrase| !phrase.is_empty())
    }
}

fn lines_from(number: usize) -> Option<&'static str> {
    let place = PLACES.get(4 * number..)?.first_chunk().map(|bytes| u32::from_le_bytes(*bytes))?;
    LINES.get(usize::try_from(place).ok()?..)
}

fn headword(lines: &'static str) -> &'static str {
    lines.split('\t').next().unwrap_or_default()
}

/// The meanings of a headword, the likeliest in a story first; none if the table lacks it. Cost: a binary search and a few lines.
pub(crate) fn find(word: &str) -> impl Iterator<Item = Meaning> {
    let (mut from, mut to) = (0, PLACES.len() / 4);
    while from < to {
        let middle = usize::midpoint(from, to);
        match lines_from(middle).map(headword).unwrap_or_default() <= word {
            true => from = middle + 1,
            false => to = middle,
        }
    }
    let lines = from.checked_sub(1).and_then(lines_from).unwrap_or_default().lines();
    let lines = lines.skip_while(move |line| headword(line) < word);
    lines.map_while(Meaning::parse).take_while(move |meaning| meaning.word == word)
}

/// Every meaning, in alphabetical order of the headwords.
#[cfg(test)]
pub(crate) fn all() -> impl Iterator<Item = Meaning> {
    LINES.lines().filter_map(Meaning::parse)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_headword_is_found_with_all_of_its_meanings() {
        let meanings: Vec<Meaning> = all().collect();
        for same in meanings.chunk_by(|one, other| one.word == other.word) {
            assert_eq!(find(same[0].word).collect::<Vec<_>>(), same);
        }
        for word in ["", "a\tn", "splunk", "é", "zzz"] {
            assert_eq!(find(word).next(), None, "{word}");
        }
    }
}
