//! Tokens: finds the words of a text with UAX #29.
//!
//! The text is split into runs at ASCII white space, where the annex always separates words. Nearly all runs have only ASCII
//! letters and apostrophes; these are split here by the annex's rules for them. `unicode-segmentation` splits all other
//! runs. A property test compares the two.

use std::ops::Range;

use unicode_segmentation::UnicodeSegmentation as _;

use super::fold::is_invisible;

/// The kind of a token.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum TokenKind {
    /// A word; it is counted.
    Word,
    /// Something else with letters or digits; it is not counted: a number, a single letter used as its name, `3rd`.
    Other,
}

/// A word or another token of a text.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Token {
    /// Its byte range, always on character boundaries.
    pub span: Range<usize>,
    /// Its kind.
    pub kind: TokenKind,
}

/// An iterator over the tokens of a text, in order.
#[derive(Debug)]
pub struct Tokens<'t> {
    text: &'t str,
    at: usize,
    /// The tokens of a run that needed the slow path, in reverse order.
    waiting: Vec<Token>,
}

/// Finds the tokens of a text. Cost: one pass; fast for ASCII, with look-ups in Unicode tables for other characters.
#[must_use]
pub fn tokens(text: &str) -> Tokens<'_> {
    Tokens { text, at: 0, waiting: Vec::new() }
}

/// Classes of bytes for the fast path.
const GAP: u8 = 0;
/// Punctuation that separates words.
const PUNCTUATION: u8 = 1;
const APOSTROPHE: u8 = 2;
const LETTER: u8 = 3;
/// Joins words under the annex's rules, or is part of a number: take the slow path.
const LONG_WAY: u8 = 4;

const CLASSES: [u8; 256] = {
    let mut classes = [PUNCTUATION; 256];
    let mut byte = 0;
    while byte < 256 {
        let b = byte as u8;
        classes[byte] = match b {
            b'a'..=b'z' | b'A'..=b'Z' => LETTER,
            b'\'' => APOSTROPHE,
            b' ' | b'\n' | b'\r' | b'\t' => GAP,
            b'0'..=b'9' | b'_' | 0x80.. => LONG_WAY,
            _ => PUNCTUATION,
        };
        byte += 1;
    }
    classes
};

#[inline]
fn class(byte: u8) -> u8 {
    CLASSES[usize::from(byte)]
}

/// Counts the ASCII letters that the bytes begin with, eight at a time.
#[inline]
fn letters(bytes: &[u8]) -> usize {
    const HIGH: u64 = 0x8080_8080_8080_8080;
    const ONES: u64 = 0x0101_0101_0101_0101;
    let mut count = 0;
    while let Some(chunk) = bytes.get(count..).and_then(|rest| rest.first_chunk()) {
        let chunk = u64::from_le_bytes(*chunk);
        // Lower case, without the high bits, so that sums do not carry into the next byte.
        let low = (chunk | (ONES * 0x20)) & !HIGH;
        let from_a = low + ONES * (0x80 - 0x61);
        let past_z = low + ONES * (0x80 - 0x7b);
        let others = !(from_a & !past_z & !chunk) & HIGH;
        if others != 0 {
            return count + (others.trailing_zeros() / 8) as usize;
        }
        count += 8;
    }
    count + bytes[count..].iter().take_while(|b| b.is_ascii_alphabetic()).count()
}

impl Iterator for Tokens<'_> {
    type Item = Token;

    #[inline]
    fn next(&mut self) -> Option<Token> {
        if let Some(token) = self.waiting.pop() {
            return Some(token);
        }
        let bytes = self.text.as_bytes();
        loop {
            // Skip to the next letter, or to a run that needs the slow path.
            while self.at < bytes.len() && class(bytes[self.at]) < LETTER {
                self.at += 1;
            }
            if self.at == bytes.len() {
                return None;
            }
            if class(bytes[self.at]) == LETTER {
                let start = self.at;
                let mut end = start + letters(&bytes[start..]);
                while end + 1 < bytes.len() && bytes[end] == b'\'' && class(bytes[end + 1]) == LETTER {
                    end += 1 + letters(&bytes[end + 1..]);
                }
                // Rare: a digit or another script follows, perhaps after a joining character.
                let next = |n: usize| bytes.get(end + n).map_or(GAP, |b| class(*b));
                let long = next(0) == LONG_WAY || next(0) != GAP && next(1) == LONG_WAY;
                if !long {
                    self.at = end;
                    let kind = if end - start == 1 { word_kind(&self.text[start..end]) } else { TokenKind::Word };
                    return Some(Token { span: start..end, kind });
                }
            }
            self.long_way();
            if let Some(token) = self.waiting.pop() {
                return Some(token);
            }
        }
    }
}

impl Tokens<'_> {
    /// Splits the rest of the run by the annex's full rules.
    fn long_way(&mut self) {
        let bytes = self.text.as_bytes();
        let end = bytes[self.at..].iter().position(|b| class(*b) == GAP).map_or(bytes.len(), |n| self.at + n);
        let start = self.at;
        self.at = end;
        let run = &self.text[start..end];
        let mut pieces: Vec<Range<usize>> = Vec::new();
        for (at, segment) in run.split_word_bound_indices() {
            // An invisible character does not separate words: join the pieces on both sides.
            let glued = segment.chars().all(is_invisible) || run[..at].chars().next_back().is_some_and(is_invisible);
            match pieces.last_mut() {
                Some(last) if glued && last.end == at => last.end = at + segment.len(),
                _ => pieces.push(at..at + segment.len()),
            }
        }
        for piece in pieces {
            let segment = &run[piece.clone()];
            if segment.chars().any(char::is_alphanumeric) {
                self.refine(start + piece.start, segment);
            }
        }
        self.waiting.reverse();
    }

    /// Splits what the annex joins although a reader sees separate words or marks: `end.Next`, `a:b`, `_so_`. Numbers stay whole.
    fn refine(&mut self, start: usize, segment: &str) {
        let mut from = 0;
        let mut before = None;
        let mut rest = segment.char_indices().peekable();
        while let Some((at, c)) = rest.next() {
            let mark = matches!(c, '.' | ':' | '_' | '\u{b7}' | '\u{2024}' | '\u{2027}');
            let digits = |c: Option<char>| c.is_some_and(char::is_numeric);
            if mark && !(digits(before) && digits(rest.peek().map(|(_, c)| *c))) {
                self.piece(start + from, &segment[from..at]);
                from = at + c.len_utf8();
            }
            before = Some(c);
        }
        self.piece(start + from, &segment[from..]);
    }

    fn piece(&mut self, start: usize, piece: &str) {
        let word = piece.trim_matches(is_invisible);
        if word.chars().any(char::is_alphanumeric) {
            let from = start + (piece.len() - piece.trim_start_matches(is_invisible).len());
            let kind = if word.chars().any(char::is_numeric) { TokenKind::Other } else { word_kind(word) };
            self.waiting.push(Token { span: from..from + word.len(), kind });
        }
    }
}

/// A single letter is not a word, except *a*, *I* and *O*.
fn word_kind(word: &str) -> TokenKind {
    match word.as_bytes() {
        [b'a' | b'A' | b'i' | b'I' | b'o' | b'O'] => TokenKind::Word,
        [_] => TokenKind::Other,
        bytes if bytes.len() > 4 || bytes.is_ascii() => TokenKind::Word,
        _ if word.chars().nth(1).is_none() => TokenKind::Other,
        _ => TokenKind::Word,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words(text: &str) -> Vec<&str> {
        tokens(text).filter(|t| t.kind == TokenKind::Word).map(|t| &text[t.span]).collect()
    }

    fn others(text: &str) -> Vec<&str> {
        tokens(text).filter(|t| t.kind == TokenKind::Other).map(|t| &text[t.span]).collect()
    }

    #[test]
    fn words_are_those_of_the_annex() {
        assert_eq!(words("Don't sit, \u{201c}Sam\u{201d}!"), ["Don't", "sit", "Sam"]);
        assert_eq!(words("the dogs' well-known can\u{2019}t"), ["the", "dogs", "well", "known", "can\u{2019}t"]);
        assert_eq!(words("the end.Next one"), ["the", "end", "Next", "one"]);
        assert_eq!(words("an _old_ hat"), ["an", "old", "hat"]);
        assert_eq!(words("ra\u{ad}bbit c\u{200b}at ﬁsh"), ["ra\u{ad}bbit", "c\u{200b}at", "ﬁsh"]);
        assert_eq!(words("'Tis the cat's"), ["Tis", "the", "cat's"]);
        assert_eq!(words("I had a cat"), ["I", "had", "a", "cat"]);
        assert_eq!(words("café naïve"), ["café", "naïve"]);
    }

    #[test]
    fn counting_eight_letters_at_a_time_gives_the_same_result() {
        for byte in 0..=255u8 {
            for at in 0..10 {
                let mut bytes = *b"abcXYZmnop";
                bytes[at] = byte;
                let slow = bytes.iter().take_while(|b| b.is_ascii_alphabetic()).count();
                assert_eq!(letters(&bytes), slow, "{byte} at {at}");
            }
        }
    }

    #[test]
    fn tokens_that_are_not_words_are_not_counted() {
        assert_eq!(others("on the 3rd of May 1,000 b c 3.14"), ["3rd", "1,000", "b", "c", "3.14"]);
        assert_eq!(words("--- *** … !? \u{1f600}"), Vec::<&str>::new());
        assert_eq!(others("--- *** … !? \u{1f600}"), Vec::<&str>::new());
    }
}
