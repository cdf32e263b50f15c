//! The text of a page: entities, white space, lines.

use std::ops::Range;

use html5gum::emitters::callback::CallbackEvent;

use crate::extract::Extract;

/// The gap between two pieces of text. The stronger wins.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Gap {
    None,
    Space,
    Break,
    Block,
}

/// Text as it is shown, with the way back.
pub(super) struct Flow<'s> {
    source: &'s str,
    /// Where what the tokenizer reads begins.
    offset: usize,
    line_break: char,
    extract: Extract,
    gap: Gap,
}

impl<'s> Flow<'s> {
    pub(super) fn new(source: &'s str, offset: usize, line_break: char) -> Flow<'s> {
        Flow { source, offset, line_break, extract: Extract::default(), gap: Gap::None }
    }

    pub(super) fn finish(self) -> Extract {
        self.extract
    }

    /// A block begins or ends.
    pub(super) fn block(&mut self) {
        self.gap = Gap::Block;
    }

    pub(super) fn line_break(&mut self) {
        self.gap = self.gap.max(Gap::Break);
    }

    /// What stood here is not text, but parts words.
    pub(super) fn space(&mut self) {
        self.gap = self.gap.max(Gap::Space);
    }

    /// Adds text. It stands somewhere in the range of what the tokenizer reads, its entities not yet decoded.
    pub(super) fn text(&mut self, text: &str, range: Range<usize>, preformatted: bool) {
        let start = (self.offset + range.start).min(self.source.len());
        let mut raw =
            Raw { source: self.source, at: start, end: (self.offset + range.end).clamp(start, self.source.len()) };
        let mut rest = text;
        while !rest.is_empty() {
            // As far as no entity and no return stands in the way, text and source are the same.
            let same = raw.same(rest);
            if same > 0 {
                self.run(&rest[..same], Some(raw.at), raw.at..raw.at + same, preformatted);
                raw.at += same;
                rest = &rest[same..];
                continue;
            }
            let (taken, length) = raw.different(rest);
            let stands = raw.at..raw.at + length;
            if taken == 0 && length == 0 {
                // The source is at its end: whatever is left comes from there.
                self.run(rest, None, stands, preformatted);
                return;
            }
            self.run(&rest[..taken], None, stands.clone(), preformatted);
            raw.at = stands.end;
            rest = &rest[taken..];
        }
    }

    /// Adds a run of text that stands in the source letter for letter at a place, or as something else in a range.
    fn run(&mut self, text: &str, at: Option<usize>, range: Range<usize>, preformatted: bool) {
        let mut done = 0;
        while done < text.len() {
            let rest = &text[done..];
            let white = rest.len() - rest.trim_start_matches(is_white).len();
            if white > 0 {
                if preformatted && self.line_break == '\n' {
                    self.white(&rest[..white], at.map(|at| at + done), range.clone());
                } else {
                    self.space();
                }
                done += white;
                continue;
            }
            let shown = rest.find(is_white).unwrap_or(rest.len());
            let here = at.map_or(range.start, |at| at + done);
            self.flush(here);
            match at {
                Some(_) => self.extract.verbatim(self.source, here..here + shown),
                None => self.extract.instead(range.clone(), &rest[..shown]),
            }
            done += shown;
        }
    }

    /// Preformatted white space.
    fn white(&mut self, white: &str, at: Option<usize>, range: Range<usize>) {
        if self.extract.text().is_empty() || self.gap == Gap::Block {
            return;
        }
        match at {
            Some(at) => self.extract.verbatim(self.source, at..at + white.len()),
            None => self.extract.instead(range, white),
        }
    }

    /// Adds the gap before what stands at a place.
    fn flush(&mut self, next: usize) {
        let gap = match self.gap {
            Gap::None => None,
            Gap::Space => Some(' '),
            Gap::Break => Some(self.line_break),
            Gap::Block => Some('\n'),
        };
        self.gap = Gap::None;
        if let Some(gap) = gap.filter(|_| !self.extract.text().is_empty()) {
            self.extract.gap(self.source, gap.encode_utf8(&mut [0; 4]), next);
        }
    }
}

/// The white space of HTML: a no-break space is none.
fn is_white(c: char) -> bool {
    matches!(c, ' ' | '\t' | '\n' | '\r' | '\x0c')
}

/// Source that is still to be matched with the text that the tokenizer made of it.
struct Raw<'s> {
    source: &'s str,
    at: usize,
    end: usize,
}

impl Raw<'_> {
    fn rest(&self) -> &str {
        self.source.get(self.at..self.end).unwrap_or("")
    }

    /// How many bytes are the same in text and source, up to the next entity.
    fn same(&self, text: &str) -> usize {
        // Both are read together, so that what is looked at is also passed: a search ahead would be made again and again.
        let pairs = self.rest().bytes().zip(text.bytes());
        let same = pairs.take_while(|(a, b)| a == b && !matches!(a, b'&' | b'\r')).count();
        crate::extract::floor(text, same)
    }

    /// Where text and source differ: how many bytes of the text are made of how many of the source.
    fn different(&self, text: &str) -> (usize, usize) {
        let source = self.rest();
        let Some(first) = source.chars().next() else { return (0, 0) };
        match first {
            '\r' => {
                let length = if source.starts_with("\r\n") { 2 } else { 1 };
                (usize::from(text.starts_with('\n')), length)
            }
            '&' => {
                let name = source[1..]
                    .find(|c: char| !c.is_ascii_alphanumeric() && c != '#')
                    .map_or(source.len(), |at| at + 1);
                let entity = &source[..name + usize::from(source[name..].starts_with(';'))];
                match entity_text(entity) {
                    // An ampersand that begins no entity.
                    shown if shown == entity => (usize::from(text.starts_with('&')), 1),
                    shown if text.starts_with(&shown) => (shown.len(), entity.len()),
                    _ => (0, 1),
                }
            }
            // The tokenizer dropped something.
            other => (0, other.len_utf8()),
        }
    }
}

/// What an entity stands for, with the letters after it that only look as if they belonged to it.
fn entity_text(entity: &str) -> String {
    if entity.len() == 1 {
        return entity.to_owned();
    }
    let mut text = String::new();
    super::events::read(entity, &mut |event, _| {
        if let CallbackEvent::String { value } = event {
            text.push_str(&String::from_utf8_lossy(value));
        }
        None
    });
    text
}
