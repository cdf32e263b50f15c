//! Places in a text as the protocol counts them: lines, and columns in units of the encoding that client and server agreed on.

use lsp_types::{Position, PositionEncodingKind, Range};

/// What a column counts.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Encoding {
    /// Bytes.
    Utf8,
    /// Code units of UTF-16: what counts unless something else was agreed on.
    Utf16,
    /// Unicode scalar values.
    Utf32,
}

impl Encoding {
    /// Its name in the protocol.
    #[must_use]
    pub fn kind(self) -> PositionEncodingKind {
        match self {
            Encoding::Utf8 => PositionEncodingKind::UTF8,
            Encoding::Utf16 => PositionEncodingKind::UTF16,
            Encoding::Utf32 => PositionEncodingKind::UTF32,
        }
    }

    fn units(self, c: char) -> usize {
        match self {
            Encoding::Utf8 => c.len_utf8(),
            Encoding::Utf16 => c.len_utf16(),
            Encoding::Utf32 => 1,
        }
    }
}

/// A character of several bytes.
#[derive(Debug)]
struct Wide {
    start: usize,
    end: usize,
    /// Bytes less units of all such characters up to here.
    saved: usize,
}

/// Where the lines of a text begin, and its characters of several bytes. Made anew for each version of a text.
#[derive(Debug)]
pub struct LineIndex {
    /// Where each line begins, and where it ends without its line break.
    lines: Vec<(usize, usize)>,
    wide: Vec<Wide>,
}

impl LineIndex {
    /// Looks through a text. LF, CRLF and a lone CR each end a line, as the protocol says. Cost: one pass.
    #[must_use]
    pub fn new(text: &str, encoding: Encoding) -> LineIndex {
        let bytes = text.as_bytes();
        let (mut lines, mut start, mut at) = (Vec::new(), 0, 0);
        while let Some(byte) = bytes.get(at) {
            let length = match byte {
                b'\r' if bytes.get(at + 1) == Some(&b'\n') => 2,
                b'\r' | b'\n' => 1,
                _ => {
                    at += 1;
                    continue;
                }
            };
            lines.push((start, at));
            at += length;
            start = at;
        }
        lines.push((start, bytes.len()));
        let mut wide = Vec::new();
        if !text.is_ascii() {
            let mut saved = 0;
            for (start, c) in text.char_indices().filter(|(_, c)| !c.is_ascii()) {
                saved += c.len_utf8() - encoding.units(c);
                wide.push(Wide { start, end: start + c.len_utf8(), saved });
            }
        }
        LineIndex { lines, wide }
    }

    /// How many of the characters of several bytes end at an offset or before it.
    fn passed(&self, offset: usize) -> usize {
        self.wide.partition_point(|wide| wide.end <= offset)
    }

    fn saved(&self, offset: usize) -> usize {
        self.passed(offset).checked_sub(1).map_or(0, |last| self.wide[last].saved)
    }

    /// The place of a byte offset. An offset inside a line break is the end of its line. Cost: two binary searches.
    #[must_use]
    pub fn to_position(&self, offset: usize) -> Position {
        self.within(self.lines.partition_point(|(start, _)| *start <= offset).saturating_sub(1), offset)
    }

    /// The place of an offset in a line.
    fn within(&self, line: usize, offset: usize) -> Position {
        let (start, end) = self.lines[line];
        let offset = offset.min(end);
        let column = (offset - start) - (self.saved(offset) - self.saved(start));
        Position::new(line as u32, column as u32)
    }

    /// The byte offset of a place. What lies past the end of a line is its end, what lies past the last line is the end of the text,
    /// and the middle of a character is its beginning. Cost: two binary searches.
    #[must_use]
    pub fn to_offset(&self, position: Position) -> usize {
        let last = self.lines.len() - 1;
        let Some((start, end)) = self.lines.get(position.line as usize).copied() else { return self.lines[last].1 };
        let (column, saved) = (position.character as usize, self.saved(start));
        let here = &self.wide[self.passed(start)..self.passed(end)];
        // The last character of several bytes that ends at the column or before it.
        let passed = here.partition_point(|wide| (wide.end - start) - (wide.saved - saved) <= column);
        let skipped = passed.checked_sub(1).map_or(0, |last| here[last].saved - saved);
        let offset = start + column + skipped;
        let inside = here.get(passed).filter(|next| next.start < offset);
        inside.map_or(offset, |next| next.start).min(end)
    }

    /// The range of a stretch of bytes.
    #[must_use]
    pub fn range(&self, span: &std::ops::Range<usize>) -> Range {
        let start = self.to_position(span.start);
        let line = start.line as usize;
        // Most end in the line in which they begin.
        let end = if span.end <= self.lines[line].1 { self.within(line, span.end) } else { self.to_position(span.end) };
        Range::new(start, end)
    }

    /// The range of a line without its break; of the last line if there are fewer.
    #[must_use]
    pub fn line(&self, number: usize) -> std::ops::Range<usize> {
        let (start, end) = self.lines[number.min(self.lines.len() - 1)];
        start..end
    }

    /// The offset of a line and a column as [`untaught::Position`] counts them: from 1, in scalar values, a byte order mark none.
    #[must_use]
    pub fn offset_of(&self, text: &str, position: untaught::Position) -> usize {
        let Some((start, end)) = self.lines.get(position.line.saturating_sub(1)).copied() else { return text.len() };
        let line = &text[start..end];
        let mark = if start == 0 && line.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
        let rest = &line[mark..];
        let column = position.column.saturating_sub(1);
        start + mark + rest.char_indices().nth(column).map_or(rest.len(), |(at, _)| at)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "\u{feff}é cat\r\n😀e\u{301} dog\rpig\n\n";

    #[test]
    fn every_offset_comes_back() {
        for encoding in [Encoding::Utf8, Encoding::Utf16, Encoding::Utf32] {
            let index = LineIndex::new(TEXT, encoding);
            for (offset, _) in
                TEXT.char_indices().filter(|(at, _)| !TEXT[..*at].ends_with('\r') || &TEXT[*at..=*at] != "\n")
            {
                assert_eq!(index.to_offset(index.to_position(offset)), offset, "{encoding:?} {offset}");
            }
            assert_eq!(index.to_offset(index.to_position(TEXT.len())), TEXT.len());
        }
    }

    #[test]
    fn columns_count_what_was_agreed_on() {
        let dog = TEXT.find("dog").unwrap();
        for (encoding, column) in [(Encoding::Utf8, 8), (Encoding::Utf16, 5), (Encoding::Utf32, 4)] {
            assert_eq!(LineIndex::new(TEXT, encoding).to_position(dog), Position::new(1, column), "{encoding:?}");
        }
    }

    #[test]
    fn what_lies_outside_is_drawn_in() {
        let index = LineIndex::new(TEXT, Encoding::Utf16);
        let face = TEXT.find('😀').unwrap();
        assert_eq!(index.to_offset(Position::new(1, 1)), face, "the middle of a pair");
        assert_eq!(index.to_offset(Position::new(0, 99)), TEXT.find('\r').unwrap());
        assert_eq!(index.to_offset(Position::new(0, u32::MAX)), TEXT.find('\r').unwrap());
        assert_eq!(index.to_offset(Position::new(99, 0)), TEXT.len());
        let bytes = LineIndex::new(TEXT, Encoding::Utf8);
        assert_eq!(bytes.to_offset(Position::new(1, 2)), face);
        assert_eq!(LineIndex::new("", Encoding::Utf16).to_offset(Position::new(0, 0)), 0);
    }

    #[test]
    fn places_of_the_checker_are_found() {
        let index = LineIndex::new(TEXT, Encoding::Utf16);
        let at = |line, column| index.offset_of(TEXT, untaught::Position { line, column });
        assert_eq!(at(1, 3), TEXT.find("cat").unwrap());
        assert_eq!(at(2, 5), TEXT.find("dog").unwrap());
        assert_eq!(at(3, 99), TEXT.find("pig").unwrap() + 3);
        assert_eq!(at(99, 1), TEXT.len());
    }
}
