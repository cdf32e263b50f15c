//! Text taken out of a source piece by piece, and the way back.

use std::ops::Range;

/// A run of the text: letter for letter what stands in the source, or something else that stands for what is there.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
struct Piece {
    text: usize,
    source: usize,
    verbatim: bool,
}

/// Where in the source the text comes from. Without pieces the text is the source.
#[derive(Clone, Debug, Default)]
pub(crate) struct Map(Vec<Piece>);

impl Map {
    /// The way back, for an offset on a character boundary of the text.
    pub(crate) fn to_source(&self, offset: usize) -> usize {
        match self.0.partition_point(|piece| piece.text <= offset).checked_sub(1) {
            None => offset,
            Some(number) => {
                let piece = self.0[number];
                piece.source + if piece.verbatim { offset - piece.text } else { 0 }
            }
        }
    }
}

/// A text in the making. Its pieces stand in the order of the source.
#[derive(Debug, Default)]
pub(crate) struct Extract {
    text: String,
    pieces: Vec<Piece>,
    /// Where in the source the last piece ends.
    end: usize,
}

impl Extract {
    pub(crate) fn text(&self) -> &str {
        &self.text
    }

    /// Adds what stands in the source.
    pub(crate) fn verbatim(&mut self, source: &str, range: Range<usize>) {
        let Some(text) = source.get(range.clone()).filter(|text| !text.is_empty()) else { return };
        if range.start < self.end {
            // Nothing that is read should stand earlier; if it does, its place is less important than its words.
            return self.instead(self.end..self.end, text);
        }
        let joins = self.pieces.last().is_some_and(|last| last.verbatim) && range.start == self.end;
        if !joins {
            self.pieces.push(Piece { text: self.text.len(), source: range.start, verbatim: true });
        }
        self.text.push_str(text);
        self.end = range.end;
    }

    /// Adds a text that stands for what is in the source.
    pub(crate) fn instead(&mut self, range: Range<usize>, text: &str) {
        if text.is_empty() {
            return;
        }
        let source = range.start.max(self.end);
        self.pieces.push(Piece { text: self.text.len(), source, verbatim: false });
        self.text.push_str(text);
        self.end = range.end.max(source);
    }

    /// Adds a gap before what begins at `next`. It costs nothing where the source has the same gap.
    pub(crate) fn gap(&mut self, source: &str, gap: &str, next: usize) {
        if source.get(self.end..next) == Some(gap) {
            self.verbatim(source, self.end..next);
        } else {
            self.instead(self.end..self.end, gap);
        }
    }

    /// The text and the way back.
    pub(crate) fn finish(mut self) -> (String, Map) {
        self.text.shrink_to_fit();
        self.pieces.shrink_to_fit();
        (self.text, Map(self.pieces))
    }
}

/// The character boundary at or before an offset.
pub(crate) fn floor(text: &str, offset: usize) -> usize {
    let mut at = offset.min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_piece_leads_back() {
        let source = "é**b** &amp; c\n\nd";
        let mut extract = Extract::default();
        extract.verbatim(source, 0..2);
        extract.verbatim(source, 4..5);
        extract.verbatim(source, 7..8);
        extract.instead(8..13, "&");
        extract.verbatim(source, 13..15);
        extract.gap(source, "\n\n", 17);
        extract.verbatim(source, 17..18);
        let (text, map) = extract.finish();
        assert_eq!(text, "éb & c\n\nd");
        let places: Vec<usize> = text.char_indices().map(|(at, _)| map.to_source(at)).collect();
        assert_eq!(places, [0, 4, 7, 8, 13, 14, 15, 16, 17]);
        assert_eq!(map.to_source(text.len()), source.len());
        assert_eq!(map.0.len(), 5);
    }

    #[test]
    fn a_piece_out_of_order_does_not_lead_backwards() {
        let mut extract = Extract::default();
        extract.verbatim("abcdef", 3..6);
        extract.verbatim("abcdef", 0..2);
        let (text, map) = extract.finish();
        assert_eq!((text.as_str(), map.to_source(2), map.to_source(4)), ("defab", 5, 6));
    }
}
