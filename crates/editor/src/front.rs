//! Changes to front matter: a word added to a list, or the lesson set, and nothing else touched.
//!
//! People write YAML in many ways. So each change is tried on the text and read back: only one that says just what was meant, and
//! leaves all else as it was, is made.

use std::ops::Range;

use serde::de::IgnoredAny;
use untaught::yaml::{self, Outline, quoted};
use untaught::{FrontMatter, front_matter};

use crate::positions::{Encoding, LineIndex};

/// A change of the text: these bytes give way to that text.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct TextChange {
    pub(crate) span: Range<usize>,
    pub(crate) text: String,
}

/// A list of front matter.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum DeclaredList {
    Names,
    StoryWords,
}

impl DeclaredList {
    fn key(self) -> &'static str {
        match self {
            DeclaredList::Names => "names",
            DeclaredList::StoryWords => "story-words",
        }
    }

    fn of(self, front: &mut FrontMatter) -> &mut Vec<String> {
        match self {
            DeclaredList::Names => &mut front.names,
            DeclaredList::StoryWords => &mut front.story_words,
        }
    }
}

/// Adds a word to a list of the front matter, which is made if there is none. None where it cannot be done without harm.
pub(crate) fn add(text: &str, list: DeclaredList, word: &str) -> Option<TextChange> {
    let block = Block::of(text)?;
    let mut wanted = block.front.clone();
    list.of(&mut wanted).push(word.to_owned());
    let word = quoted(word);
    let key = list.key();
    let written = list.of(&mut block.front.clone()).len();
    let new_line = TextChange { span: block.end..block.end, text: format!("{key}: [{word}]{}", block.line_break) };
    let mut tries = Vec::new();
    match block.value(key) {
        None => tries.push(new_line),
        Some(start) if text[start..].starts_with('[') => {
            tries.extend(in_brackets(text, start, block.end, &word, written));
        }
        Some(_) => {
            let last = block.offset(&[key, &written.checked_sub(1)?.to_string()]);
            tries.push(below(text, last, &block, &word)?);
        }
    }
    tries.into_iter().find(|change| holds(text, change, &wanted, &block))
}

/// Adds several words, as one change. None where one of them cannot be added.
pub(crate) fn add_all(text: &str, words: &[(DeclaredList, String)]) -> Option<TextChange> {
    let mut changed = text.to_owned();
    for (list, word) in words {
        let change = add(&changed, *list, word).and_then(|change| framed_for(&changed, change))?;
        changed = apply(&changed, &change);
    }
    // Only what is new is sent: the head of the file.
    let same = |one: &str, other: &str| one.char_indices().zip(other.chars()).find(|((_, a), b)| a != b);
    let start = same(text, &changed).map_or(text.len().min(changed.len()), |((at, _), _)| at);
    let (old, new) = (&text[start..], &changed[start..]);
    let tail = old.chars().rev().zip(new.chars().rev()).take_while(|(a, b)| a == b);
    let tail: usize = tail.map(|(c, _)| c.len_utf8()).sum();
    Some(TextChange { span: start..text.len() - tail, text: new[..new.len() - tail].to_owned() })
}

/// Sets the lesson in the front matter.
pub(crate) fn lesson(text: &str, id: &str) -> Option<TextChange> {
    let block = Block::of(text)?;
    let mut wanted = block.front.clone();
    wanted.lesson = Some(id.to_owned());
    let number = id.parse::<u64>().is_ok_and(|number| number.to_string() == id);
    let id = if number { id.to_owned() } else { quoted(id) };
    let change = match block.value("lesson") {
        None => TextChange { span: block.start..block.start, text: format!("lesson: {id}{}", block.line_break) },
        Some(start) => {
            let line = text[start..block.end].lines().next()?;
            let length = match line.chars().next()? {
                quote @ ('"' | '\'') => line[1..].find(quote)? + 2,
                _ => line.find(" #").map_or(line, |at| &line[..at]).trim_end().len(),
            };
            TextChange { span: start..start + length, text: id }
        }
    };
    Some(change).filter(|change| holds(text, change, &wanted, &block))
}

/// The front matter of a text: where its lines stand and where everything stands in it.
struct Block {
    front: FrontMatter,
    outline: Outline,
    lines: LineIndex,
    text: String,
    /// Its first line, after the dashes.
    start: usize,
    /// The line of dashes at its end.
    end: usize,
    line_break: &'static str,
    /// There is none yet.
    missing: bool,
}

impl Block {
    fn of(text: &str) -> Option<Block> {
        let (front, story) = front_matter(text).ok()?;
        let line_break = match text.find('\n') {
            Some(at) if text[..at].ends_with('\r') => "\r\n",
            _ => "\n",
        };
        let mark = if text.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
        let missing = story == 0;
        let start = if missing { mark } else { text.find('\n')? + 1 };
        let closing = text[..story].trim_end().rfind('\n').map_or(start, |at| at + 1);
        let end = if missing { mark } else { closing.max(start) };
        let inner = text[start..end].to_owned();
        let outline = yaml::read::<IgnoredAny>(&inner).map(|(_, outline)| outline).unwrap_or_default();
        let lines = LineIndex::new(&inner, Encoding::Utf8);
        Some(Block { front, outline, lines, text: inner, start, end, line_break, missing })
    }

    fn offset(&self, path: &[&str]) -> usize {
        self.start + self.lines.offset_of(&self.text, self.outline.position(path))
    }

    /// Where the value of a key begins, if the block has the key.
    fn value(&self, key: &str) -> Option<usize> {
        let has = self.text.lines().any(|line| line.split_once(':').is_some_and(|(found, _)| found.trim_end() == key));
        has.then(|| self.offset(&[key]))
    }
}

/// Whether a change says what was meant.
fn holds(text: &str, change: &TextChange, wanted: &FrontMatter, block: &Block) -> bool {
    let changed = apply(text, &framed(change.clone(), block));
    let Ok((front, story)) = front_matter(&changed) else { return false };
    let (_, before) = front_matter(text).unwrap_or_default();
    let mark = if block.missing { block.start } else { before };
    let same = |a: &FrontMatter, b: &FrontMatter| {
        let key = |f: &FrontMatter| (f.title.clone(), f.lesson.clone(), f.scope.clone());
        key(a) == key(b) && a.names == b.names && a.story_words == b.story_words && a.focus == b.focus
    };
    same(&front, wanted) && changed[story..] == text[mark..]
}

/// A change as it is to be made: with the lines of dashes where there are none yet.
pub(crate) fn framed_for(text: &str, change: TextChange) -> Option<TextChange> {
    Block::of(text).map(|block| framed(change, &block))
}

fn framed(change: TextChange, block: &Block) -> TextChange {
    if !block.missing {
        return change;
    }
    let b = block.line_break;
    TextChange { text: format!("---{b}{}---{b}", change.text), ..change }
}

pub(crate) fn apply(text: &str, change: &TextChange) -> String {
    [&text[..change.span.start], &change.text, &text[change.span.end..]].concat()
}

/// A word more in `[a, b]`: before each bracket that may be the last one.
fn in_brackets(text: &str, start: usize, end: usize, word: &str, written: usize) -> Vec<TextChange> {
    let inner = &text[start..end];
    let brackets = inner.match_indices(']').map(|(at, _)| start + at);
    let change = |at: usize| {
        let before = text[start..at].trim_end();
        let at = start + before.len();
        let text = match before.chars().next_back() {
            _ if written == 0 => word.to_owned(),
            Some(',') => format!(" {word}"),
            _ => format!(", {word}"),
        };
        TextChange { span: at..at, text }
    };
    brackets.map(change).collect()
}

/// A word more in a list with a line for each, below the last.
fn below(text: &str, last: usize, block: &Block, word: &str) -> Option<TextChange> {
    let line = text[..last].rfind('\n').map_or(0, |at| at + 1);
    let indent = &text[line..last];
    let dash = indent.find('-')?;
    let next = text[last..].find('\n').map_or(text.len(), |at| last + at + 1).min(block.end);
    let text = format!("{}- {word}{}", &indent[..dash], block.line_break);
    Some(TextChange { span: next..next, text })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn added(text: &str, list: DeclaredList, word: &str) -> String {
        let change = add(text, list, word).unwrap_or_else(|| panic!("{text:?}"));
        apply(text, &framed_for(text, change).unwrap())
    }

    #[test]
    fn a_word_is_added_and_nothing_else_touched() {
        for (text, made) in [
            ("Rob sat.", "---\nnames: [Rob]\n---\nRob sat."),
            ("\u{feff}Rob\r\nsat.", "\u{feff}---\r\nnames: [Rob]\r\n---\r\nRob\r\nsat."),
            ("", "---\nnames: [Rob]\n---\n"),
            ("---\n---\nRob", "---\nnames: [Rob]\n---\nRob"),
            ("---\nlesson: 3 # so\n---\nRob", "---\nlesson: 3 # so\nnames: [Rob]\n---\nRob"),
            ("---\r\nnames: [Tam]\r\n---\r\nRob", "---\r\nnames: [Tam, Rob]\r\n---\r\nRob"),
            ("---\nnames: []\n---\nRob", "---\nnames: [Rob]\n---\nRob"),
            (
                "---\nnames: [ Tam, \"a]b\", ]  # all\nlesson: 3\n---\nRob",
                "---\nnames: [ Tam, \"a]b\", Rob ]  # all\nlesson: 3\n---\nRob",
            ),
            ("---\nnames: [\n  Tam,\n  Ann\n]\n---\nRob", "---\nnames: [\n  Tam,\n  Ann, Rob\n]\n---\nRob"),
            (
                "---\nnames:\n  - Tam\n  # and\n  - Ann # too\nlesson: 3\n...\nRob",
                "---\nnames:\n  - Tam\n  # and\n  - Ann # too\n  - Rob\nlesson: 3\n...\nRob",
            ),
            ("---\nnames:\n- Tam\n---\nRob", "---\nnames:\n- Tam\n- Rob\n---\nRob"),
        ] {
            assert_eq!(added(text, DeclaredList::Names, "Rob"), made, "{text:?}");
        }
        assert_eq!(added("No sat.", DeclaredList::StoryWords, "No"), "---\nstory-words: [\"No\"]\n---\nNo sat.");
        assert_eq!(add("---\nnames: Tam\n---\nRob", DeclaredList::Names, "Rob"), None, "what is broken is left alone");
    }

    #[test]
    fn the_lesson_is_set_and_nothing_else_touched() {
        for (text, made) in [
            ("Rob sat.", "---\nlesson: 12\n---\nRob sat."),
            ("---\nnames: [Rob]\n---\nRob", "---\nlesson: 12\nnames: [Rob]\n---\nRob"),
            ("---\nlesson: 3 # so\n---\nRob", "---\nlesson: 12 # so\n---\nRob"),
            ("---\r\nlesson: \"2.3\"\r\n---\r\nRob", "---\r\nlesson: 12\r\n---\r\nRob"),
        ] {
            let change = lesson(text, "12").unwrap_or_else(|| panic!("{text:?}"));
            assert_eq!(apply(text, &framed_for(text, change).unwrap()), made);
        }
        let change = lesson("Rob", "2.3").unwrap();
        assert_eq!(apply("Rob", &framed_for("Rob", change).unwrap()), "---\nlesson: \"2.3\"\n---\nRob");
    }
}
