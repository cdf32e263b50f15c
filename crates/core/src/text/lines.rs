//! Lines and columns: computed from byte offsets only when a position is shown.

use memchr::{memchr, memchr_iter, memrchr2};

use crate::position::Position;

/// Finds lines and columns in a text. LF, CRLF and a lone CR each end a line; a byte order mark does not count as a column.
#[derive(Clone, Copy, Debug)]
pub struct Lines<'t> {
    text: &'t str,
}

impl<'t> Lines<'t> {
    /// Wraps a text. Cost: none.
    #[must_use]
    pub fn new(text: &'t str) -> Lines<'t> {
        Lines { text }
    }

    /// Returns the position of a byte offset. Cost: a pass over the text up to there.
    #[must_use]
    pub fn position(&self, offset: usize) -> Position {
        self.positions(&[offset])[0]
    }

    /// Returns the positions of byte offsets, in the order given. Cost: a sort and one pass over the text, however long its
    /// lines are.
    #[must_use]
    pub fn positions(&self, offsets: &[usize]) -> Vec<Position> {
        let mut order: Vec<usize> = (0..offsets.len()).collect();
        order.sort_by_key(|number| offsets[*number]);
        let mut positions = vec![Position::START; offsets.len()];
        let bytes = self.text.as_bytes();
        let lone_returns = has_lone_return(bytes);
        let (mut line, mut column) = (1, 1);
        let mut at = if self.text.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
        for number in order {
            let offset = offsets[number].max(at).min(bytes.len());
            let passed = &bytes[at..offset];
            let mut ends = memchr_iter(b'\n', passed).count();
            if lone_returns {
                ends += memchr_iter(b'\r', passed).filter(|end| bytes.get(at + end + 1) != Some(&b'\n')).count();
            }
            if ends > 0 {
                (line, column) = (line + ends, 0);
            }
            let start = memrchr2(b'\n', b'\r', passed).map_or(at, |last| at + last + 1);
            let between = &self.text[start..offset];
            column = column.max(1) + if between.is_ascii() { between.len() } else { between.chars().count() };
            at = offset;
            positions[number] = Position { line, column };
        }
        positions
    }
}

/// Whether the text has a carriage return without a line feed. Cost: a pass over the bytes, many at a time.
fn has_lone_return(bytes: &[u8]) -> bool {
    let Some(first) = memchr(b'\r', bytes) else { return false };
    let (these, next) = (&bytes[first..bytes.len() - 1], &bytes[first + 1..]);
    let lone = |(these, next): (&[u8], &[u8])| {
        these.iter().zip(next).fold(0, |found, (a, b)| found | u8::from(*a == b'\r') & u8::from(*b != b'\n')) != 0
    };
    bytes.ends_with(b"\r") || these.chunks(256).zip(next.chunks(256)).any(lone)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn positions(text: &str, offsets: &[usize]) -> Vec<(usize, usize)> {
        let found = Lines::new(text).positions(offsets);
        found.into_iter().map(|position| (position.line, position.column)).collect()
    }

    #[test]
    fn columns_count_scalar_values_but_not_the_byte_order_mark() {
        let text = "\u{feff}é cat\r\n😀 dog\rpig\n";
        let offsets: Vec<usize> = ["pig", "cat", "dog", "é"].iter().map(|word| text.find(word).unwrap()).collect();
        assert_eq!(positions(text, &offsets), [(3, 1), (1, 3), (2, 3), (1, 1)]);
        assert_eq!(Lines::new(text).position(0), Position::START);
        assert_eq!(positions("a\n\nb", &[3]), [(3, 1)]);
        assert_eq!(positions("a\r\n\r\nb\r", &[5, 6, 7]), [(3, 1), (3, 2), (4, 1)]);
        assert_eq!(positions("a\r\n\r\nb", &[1, 3, 5]), [(1, 2), (2, 1), (3, 1)]);
        assert_eq!(positions("ab cd ab", &[0, 3, 6, 8]), [(1, 1), (1, 4), (1, 7), (1, 9)]);
    }
}
