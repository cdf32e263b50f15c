//! The readings of British accents that no rule gives, packed beside the lexicon and read in place.
//!
//! All numbers are little-endian. Number of words (u32); for each the offset of its entry (u32), in alphabetical order; the
//! entries. Entry: length and letters of the word, number of changes, the changes. Change: the accents that have it (bit 0
//! southern British, bit 1 northern English), number of the reading, the stressed part (255: none), number of parts, their codes
//! (u16, as in [`crate::format`]).

use untaught_phonics::{Accent, CorrespondenceId, Part};

use crate::format::E_DROPPED;

static BYTES: &[u8] = include_bytes!("../data/accents.bin");

/// The checksum of the packed readings.
pub(crate) fn checksum() -> u64 {
    crate::format::hash(BYTES)
}

/// A reading of a British accent, in place of the dictionary's with the same number.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct AccentReading {
    /// The number of the reading, in the order of the dictionary.
    pub number: usize,
    /// The part with the main stress.
    pub stressed: Option<usize>,
    /// Its parts.
    pub parts: Vec<Part>,
}

/// The bit of an accent in a change.
#[must_use]
pub fn bit(accent: Accent) -> u8 {
    match accent {
        Accent::GeneralAmerican => 0,
        Accent::SouthernBritish => 1,
        Accent::NorthernEnglish => 2,
    }
}

/// The reviewed readings of a word in an accent. Cost: a binary search.
#[must_use]
pub fn readings(word: &str, accent: Accent) -> Vec<AccentReading> {
    find(BYTES, word, accent).unwrap_or_default()
}

/// Whether a word has a reviewed reading in some British accent.
#[must_use]
pub fn has(word: &str) -> bool {
    entry(BYTES, word).is_some()
}

fn number(bytes: &[u8], at: usize) -> Option<usize> {
    bytes.get(at..)?.first_chunk::<4>().map(|bytes| u32::from_le_bytes(*bytes) as usize)
}

/// What follows the letters of a word.
fn entry<'b>(bytes: &'b [u8], word: &str) -> Option<&'b [u8]> {
    let (mut from, mut to) = (0, number(bytes, 0)?);
    while from < to {
        let middle = from.midpoint(to);
        let (length, rest) = bytes.get(number(bytes, 4 + 4 * middle)?..)?.split_first()?;
        let (letters, rest) = rest.split_at_checked(usize::from(*length))?;
        match letters.cmp(word.as_bytes()) {
            std::cmp::Ordering::Equal => return Some(rest),
            std::cmp::Ordering::Less => from = middle + 1,
            std::cmp::Ordering::Greater => to = middle,
        }
    }
    None
}

fn find(bytes: &[u8], word: &str, accent: Accent) -> Option<Vec<AccentReading>> {
    let (count, mut rest) = entry(bytes, word)?.split_first()?;
    let mut found = Vec::new();
    for _ in 0..*count {
        let ([accents, number, stressed, parts], tail) = rest.split_first_chunk::<4>()?;
        let (codes, tail) = tail.split_at_checked(2 * usize::from(*parts))?;
        rest = tail;
        if accents & bit(accent) != 0 {
            let part = |code: &[u8]| {
                let code = u16::from_le_bytes([code[0], code[1]]);
                Part::Known { id: CorrespondenceId(code & !E_DROPPED), e_dropped: code & E_DROPPED != 0 }
            };
            found.push(AccentReading {
                number: usize::from(*number),
                stressed: Some(usize::from(*stressed)).filter(|stressed| *stressed < usize::from(u8::MAX)),
                parts: codes.chunks_exact(2).map(part).collect(),
            });
        }
    }
    Some(found)
}
