//! Front matter: settings at the start of a text.

use std::sync::LazyLock;

use regex::Regex;
use serde::Deserialize;

use crate::yaml::{self, Fault, Id, Outline, Position};

/// The settings that a text gives for itself.
#[derive(Clone, PartialEq, Eq, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct FrontMatter {
    /// Its title.
    pub title: Option<String>,
    /// The id of the lesson it belongs to.
    #[serde(default, deserialize_with = "id")]
    pub lesson: Option<String>,
    /// The scope it belongs to: a name or a path relative to the text.
    pub scope: Option<String>,
    /// Names that the child already knows.
    #[serde(default)]
    pub names: Vec<String>,
    /// Other words taught to the child before reading.
    #[serde(default)]
    pub story_words: Vec<String>,
    /// The patterns to practise, if they differ from those of its lesson.
    #[serde(default)]
    pub focus: Vec<String>,
    /// The positions of keys and values in the block.
    #[serde(skip)]
    outline: Outline,
}

impl FrontMatter {
    /// The position of a key's value in the text.
    #[must_use]
    pub fn position(&self, key: &str) -> Position {
        in_text(self.outline.position(&[key]))
    }

    /// Where an entry of a list stands in the text, by its number from 0.
    #[must_use]
    pub fn entry_position(&self, key: &str, number: usize) -> Position {
        in_text(self.outline.position(&[key, &number.to_string()]))
    }
}

/// Converts a position in the block to one in the text: the block begins on the second line.
fn in_text(position: Position) -> Position {
    Position { line: position.line + 1, ..position }
}

fn id<'de, D: serde::Deserializer<'de>>(from: D) -> Result<Option<String>, D::Error> {
    Ok(Option::<Id>::deserialize(from)?.map(|id| id.0))
}

static BLOCK: LazyLock<Option<Regex>> =
    LazyLock::new(|| Regex::new(r"\A\x{feff}?---[ \t]*\r?\n((?s:.*?))(?m:^)(?:---|\.\.\.)[ \t]*(?:\r?\n|\z)").ok());

/// Reads the front matter of a text: a YAML block between lines of `---` at the very start. The number is the byte offset at
/// which the story begins; 0 if there is no front matter.
///
/// # Errors
/// If the block is not valid: what is wrong, and where in the text.
pub fn front_matter(text: &str) -> Result<(FrontMatter, usize), Fault> {
    if !text.strip_prefix('\u{feff}').unwrap_or(text).starts_with("---") {
        return Ok((FrontMatter::default(), 0));
    }
    let Some(block) = BLOCK.as_ref().and_then(|block| block.captures(text)) else {
        return Ok((FrontMatter::default(), 0));
    };
    let (whole, inner) = (block.get(0).map_or(0, |m| m.end()), block.get(1).map_or("", |m| m.as_str()));
    // A story may begin between two horizontal rules; only front matter has keys.
    let key = |line: &str| {
        line.split_once(':').is_some_and(|(key, _)| key.chars().all(|c| c.is_ascii_lowercase() || c == '-'))
    };
    if !inner.trim().is_empty() && !inner.lines().any(key) {
        return Ok((FrontMatter::default(), 0));
    }
    if inner.trim().is_empty() {
        return Ok((FrontMatter::default(), whole));
    }
    let (front, outline): (FrontMatter, Outline) = yaml::read(inner)
        .map_err(|fault| Fault::new(in_text(fault.position), &format!("in the front matter: {}", fault.message)))?;
    let front = FrontMatter { outline, ..front };
    Ok((front, whole))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn front_matter_is_read_and_skipped() {
        let text = "---\nlesson: 12\nnames: [Tab, \"No\"]\nstory-words: [ferry]\n---\nTab sat.\n";
        let (front, start) = front_matter(text).unwrap();
        assert_eq!(front.lesson.as_deref(), Some("12"));
        assert_eq!(front.names, ["Tab", "No"]);
        assert_eq!(front.story_words, ["ferry"]);
        assert_eq!(&text[start..], "Tab sat.\n");
    }

    #[test]
    fn a_text_without_a_block_is_left_alone() {
        for text in ["", "Sam sat.", "---\nSam sat.\n---\nTab ran.", "---", "--- a dash\nSam", "---\nnever closed\n"] {
            assert_eq!(front_matter(text), Ok((FrontMatter::default(), 0)), "{text:?}");
        }
        assert_eq!(front_matter("---\n---\nSam").unwrap().1, 8);
    }

    #[test]
    fn an_unknown_key_is_an_error_at_its_line() {
        let fault = front_matter("---\nlesson: 3\nlevel: 4\n---\n").unwrap_err();
        assert_eq!(fault.position.line, 3);
        assert!(fault.message.contains("unknown key `level`"), "{}", fault.message);
    }
}
