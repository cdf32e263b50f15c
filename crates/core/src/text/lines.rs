//! Lines and columns: made from byte offsets only where something is printed.

/// Where the lines of a text begin.
#[derive(Debug)]
pub struct Lines<'t> {
    text: &'t str,
    starts: Vec<usize>,
}

impl<'t> Lines<'t> {
    /// Finds the lines. LF, CRLF and a lone CR each end one; a byte order mark counts for no column. Cost: one pass.
    #[must_use]
    pub fn new(text: &'t str) -> Lines<'t> {
        let bytes = text.as_bytes();
        let mut starts = vec![0];
        let ends = bytes.iter().enumerate().filter(|(_, b)| matches!(b, b'\n' | b'\r'));
        starts.extend(ends.filter(|(at, b)| **b == b'\n' || bytes.get(at + 1) != Some(&b'\n')).map(|(at, _)| at + 1));
        Lines { text, starts }
    }

    /// Line and column of a byte offset, both from 1; the column in Unicode scalar values.
    /// Cost: a binary search and the length of the line up to there.
    #[must_use]
    pub fn position(&self, offset: usize) -> (usize, usize) {
        let line = self.starts.partition_point(|start| *start <= offset);
        let start = self.starts[line - 1];
        let before = &self.text[start..offset];
        let mark = usize::from(start == 0 && before.starts_with('\u{feff}'));
        let column = if before.is_ascii() { before.len() } else { before.chars().count() };
        (line, column - mark + 1)
    }

    /// Lines and columns of many offsets, in the order given. Cost: a sort and one pass over the lines they stand on, so that a
    /// text of a single huge line is walked once.
    #[must_use]
    pub fn positions(&self, offsets: &[usize]) -> Vec<(usize, usize)> {
        let mut order: Vec<usize> = (0..offsets.len()).collect();
        order.sort_by_key(|number| offsets[*number]);
        let mut positions = vec![(1, 1); offsets.len()];
        let (mut line, mut at, mut column) = (0, 0, 0);
        for number in order {
            let offset = offsets[number];
            let next = self.starts.partition_point(|start| *start <= offset);
            if next != line {
                (line, at, column) = (next, self.starts[next - 1], 1);
                if at == 0 && self.text.starts_with('\u{feff}') {
                    at = '\u{feff}'.len_utf8().min(offset);
                }
            }
            let between = &self.text[at..offset];
            column += if between.is_ascii() { between.len() } else { between.chars().count() };
            at = offset;
            positions[number] = (line, column);
        }
        positions
    }

    /// The text of a line, from 1, without its end.
    #[must_use]
    pub fn line(&self, number: usize) -> &'t str {
        let start = self.starts[number - 1];
        let end = self.starts.get(number).copied().unwrap_or(self.text.len());
        self.text[start..end].trim_end_matches(['\r', '\n'])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_count_scalar_values_and_no_byte_order_mark() {
        let text = "\u{feff}é cat\r\n😀 dog\rpig\n";
        let lines = Lines::new(text);
        let at = |word: &str| lines.position(text.find(word).unwrap());
        assert_eq!(at("cat"), (1, 3));
        assert_eq!(at("dog"), (2, 3));
        assert_eq!(at("pig"), (3, 1));
        assert_eq!(lines.line(2), "😀 dog");
        let offsets: Vec<usize> = ["pig", "cat", "dog", "é"].iter().map(|word| text.find(word).unwrap()).collect();
        assert_eq!(lines.positions(&offsets), [(3, 1), (1, 3), (2, 3), (1, 1)]);
    }
}
