//! What is fit for children aged four to eight: the gate that every generated list goes through.
//!
//! A word is turned down if a reviewed list has it, or if it sounds just like one of the worst. The lists and where they come from
//! are in `data/`.

use crate::sieve;
use crate::sounds::Heard;

include!(concat!(env!("OUT_DIR"), "/fit.rs"));

static SIEVE: &[u8; 1 << (sieve::BITS - 3)] = include_bytes!(concat!(env!("OUT_DIR"), "/sieve.bin"));

/// Whether some list may have a line. Lets a few too many through, never one too few.
fn may_be_listed(line: impl Iterator<Item = u8>) -> bool {
    let place = sieve::place(line);
    SIEVE[place / 8] & 1 << (place % 8) != 0
}

/// Whether a word (lower case) may stand in a list for children, or appear in one by its letters.
#[must_use]
pub fn is_fit(word: &str) -> bool {
    !is_in(TURNED_DOWN, word)
}

/// Whether some sounds are not just those of one of the worst words.
#[must_use]
pub fn sounds_fit(sounds: &[Heard]) -> bool {
    let spaced = |(at, heard): (usize, &Heard)| [if at == 0 { "" } else { " " }, heard.sound.get().arpabet];
    let names = || sounds.iter().enumerate().flat_map(spaced);
    !may_be_listed(names().flat_map(str::bytes)) || !has_line(UNFIT_SOUNDS, &names().collect::<String>())
}

/// Whether a text of sorted lines has a word.
pub(crate) fn is_in(list: &str, word: &str) -> bool {
    may_be_listed(word.bytes()) && has_line(list, word)
}

/// Whether a text of sorted lines has a line. Cost: a binary search.
fn has_line(text: &str, line: &str) -> bool {
    let bytes = text.as_bytes();
    let (mut low, mut high) = (0, bytes.len());
    while low < high {
        let middle = usize::midpoint(low, high);
        let start = bytes[..middle].iter().rposition(|b| *b == b'\n').map_or(0, |at| at + 1);
        let end = bytes[middle..].iter().position(|b| *b == b'\n').map_or(bytes.len(), |at| middle + at);
        match bytes[start..end].cmp(line.as_bytes()) {
            std::cmp::Ordering::Equal => return true,
            std::cmp::Ordering::Less => low = end + 1,
            std::cmp::Ordering::Greater => high = start,
        }
    }
    false
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_found_and_nothing_else() {
        for list in [TURNED_DOWN, UNFIT_SOUNDS] {
            for line in list.lines() {
                assert!(has_line(list, line) && may_be_listed(line.bytes()), "{line}");
                assert!(!has_line(list, &format!("{line}~")) && !has_line(list, ""));
            }
        }
        assert!(!has_line("", "a") && has_line("a", "a") && !has_line("a\nc", "b"));
        assert!(TURNED_DOWN.lines().all(|line| !is_fit(line)));
        assert!(is_fit("cat") && is_fit("class") && is_fit("peacock"));
    }
}
