//! Rows of spellings, as they stand at the head of a page: *ck gh ng st*. They are no words of the story.

use std::ops::Range;

use memchr::memchr;
use untaught_phonics::spelled;

use crate::{Reader, tokens};

/// Letters of the longest spelling.
const LONGEST: usize = 4;

/// Tells which words are in such a row, asked from the first to the last.
#[derive(Debug, Default)]
pub(super) struct SpellingRows {
    /// The end of the line that was looked at last, and whether it is a row.
    end: usize,
    is_row: bool,
}

impl SpellingRows {
    /// Whether a word of a text is in a row of spellings. Cost: for short words, a look at the line, once.
    pub(super) fn have(&mut self, reader: &Reader, text: &str, word: &Range<usize>) -> bool {
        if word.len() > LONGEST {
            return false;
        }
        if word.start >= self.end {
            let bytes = text.as_bytes();
            self.end = memchr(b'\n', &bytes[word.start..]).map_or(text.len(), |n| word.start + n);
            // It must begin the line.
            let line_start = text[..word.start].trim_end_matches([' ', '\t']);
            let begins = line_start.is_empty() || line_start.ends_with('\n');
            self.is_row = begins && is_row(reader, &text[word.start..self.end]);
        }
        self.is_row
    }
}

/// Whether a line has only spellings, at least two, and at least one that is no word.
fn is_row(reader: &Reader, line: &str) -> bool {
    let (mut spellings, mut strange) = (0, false);
    if line.chars().any(|c| !(c.is_ascii_lowercase() || c.is_ascii_whitespace() || matches!(c, ',' | ';' | '/' | '|')))
    {
        return false;
    }
    for token in tokens(line) {
        let word = &line[token.span];
        if spelled(word).next().is_none() {
            return false;
        }
        spellings += 1;
        strange |= word.len() > 1 && !reader.spells(word);
    }
    spellings > 1 && strange
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_are_told_from_sentences() {
        let reader = Reader::default();
        for (line, row) in [
            ("ck gh ng st", true),
            ("ee, ea, ai", true),
            ("sh ch th", true),
            ("ck", false),
            ("or are our", false),
            ("sh", false),
            ("Sh ch", false),
            ("ck gh in", false),
            ("a i o", false),
            ("tsk tsk", false),
            ("", false),
        ] {
            assert_eq!(is_row(&reader, line), row, "{line}");
        }
        let text = "ck gh ng\nThe duck. ck gh\nsh ch\r\nee\tea";
        let mut rows = SpellingRows::default();
        let in_rows: Vec<&str> =
            tokens(text).filter(|token| rows.have(&reader, text, &token.span)).map(|token| &text[token.span]).collect();
        assert_eq!(in_rows, ["ck", "gh", "ng", "sh", "ch", "ee", "ea"]);
    }
}
