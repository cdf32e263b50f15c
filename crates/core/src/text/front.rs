//! Front matter: what a text says about itself before it begins.

use std::sync::LazyLock;

use regex::Regex;
use serde::Deserialize;

use crate::yaml::{self, Fault, Id, Outline, Position};

/// What a text says about itself.
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
    /// Names told to the child beforehand.
    #[serde(default)]
    pub names: Vec<String>,
    /// Other words told to the child beforehand.
    #[serde(default)]
    pub story_words: Vec<String>,
    /// The patterns it is to practise, if not those of its lesson.
    #[serde(default)]
    pub focus: Vec<String>,
    /// Where everything stands in the block.
    #[serde(skip)]
    outline: Outline,
}

impl FrontMatter {
    /// Where the value of a key stands in the text.
    #[must_use]
    pub fn position(&self, key: &str) -> Position {
        in_text(self.outline.position(&[key]))
    }
}

/// The block begins on the second line of the text.
fn in_text(position: Position) -> Position {
    Position { line: position.line + 1, ..position }
}

fn id<'de, D: serde::Deserializer<'de>>(from: D) -> Result<Option<String>, D::Error> {
    Ok(Option::<Id>::deserialize(from)?.map(|id| id.0))
}

static BLOCK: LazyLock<Option<Regex>> =
    LazyLock::new(|| Regex::new(r"\A\x{feff}?---[ \t]*\r?\n((?s:.*?))(?m:^)(?:---|\.\.\.)[ \t]*(?:\r?\n|\z)").ok());

/// Reads the front matter of a text: a YAML block between lines of `---` at its very start. The number is where the story begins,
/// in bytes; 0 where there is no front matter.
///
/// # Errors
/// What is wrong with the block, and where in the text.
pub fn front_matter(text: &str) -> Result<(FrontMatter, usize), Fault> {
    if !text.strip_prefix('\u{feff}').unwrap_or(text).starts_with("---") {
        return Ok((FrontMatter::default(), 0));
    }
    let Some(block) = BLOCK.as_ref().and_then(|block| block.captures(text)) else {
        return Ok((FrontMatter::default(), 0));
    };
    let (whole, inner) = (block.get(0).map_or(0, |m| m.end()), block.get(1).map_or("", |m| m.as_str()));
    // A story may stand between two rules: front matter has keys.
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
        let text = "---\nlesson: 12\nnames: [Rob, \"No\"]\nstory-words: [ferry]\n---\nRob sat.\n";
        let (front, start) = front_matter(text).unwrap();
        assert_eq!(front.lesson.as_deref(), Some("12"));
        assert_eq!(front.names, ["Rob", "No"]);
        assert_eq!(front.story_words, ["ferry"]);
        assert_eq!(&text[start..], "Rob sat.\n");
    }

    #[test]
    fn a_text_without_a_block_is_left_alone() {
        for text in ["", "Tam sat.", "---\nTam sat.\n---\nRob ran.", "---", "--- a dash\nTam", "---\nnever closed\n"] {
            assert_eq!(front_matter(text), Ok((FrontMatter::default(), 0)), "{text:?}");
        }
        assert_eq!(front_matter("---\n---\nTam").unwrap().1, 8);
    }

    #[test]
    fn an_unknown_key_is_an_error_at_its_line() {
        let fault = front_matter("---\nlesson: 3\nlevel: 4\n---\n").unwrap_err();
        assert_eq!(fault.position.line, 3);
        assert!(fault.message.contains("unknown key `level`"), "{}", fault.message);
    }
}
