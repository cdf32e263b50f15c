//! Sorted lists of words, made when the crate is built and searched as they are.

mod bloom;

use std::sync::LazyLock;

use crate::deflated::inflated;

/// A text of sorted lines, inflated for the first line that the filter lets through.
pub(crate) struct WordList(LazyLock<String>);

include!(concat!(env!("OUT_DIR"), "/word_lists.rs"));

static FILTER: &[u8; bloom::BYTES] = include_bytes!(concat!(env!("OUT_DIR"), "/bloom.bin"));

/// Whether some list may have a line, given as bytes. Lets a few too many through, never one too few.
pub(crate) fn may_be_listed(line: impl Iterator<Item = u8>) -> bool {
    let bit = bloom::bit(line);
    FILTER[bit / 8] & 1 << (bit % 8) != 0
}

impl WordList {
    /// Whether the list has a line. Cost: a look at the filter, seldom a binary search.
    pub(crate) fn has(&self, line: &str) -> bool {
        may_be_listed(line.bytes()) && has_line(&self.0, line)
    }

    /// Every line.
    #[cfg(test)]
    pub(crate) fn lines(&self) -> impl Iterator<Item = &str> {
        self.0.lines()
    }
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
        for list in [&UNFIT, &ODD, &UNFIT_BY_MEANING, &UNFIT_SOUNDS, &KNOWN_TO_CHILDREN, &KNOWN_AT_5, &KNOWN_AT_8] {
            assert!(list.lines().count() > 50);
            for line in list.lines() {
                assert!(list.has(line), "{line}");
                assert!(!has_line(&list.0, &format!("{line}~")) && !list.has(""));
            }
        }
        assert!(!has_line("", "a") && has_line("a", "a") && !has_line("a\nc", "b"));
    }
}
