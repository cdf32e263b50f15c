//! Front matter: settings at the start of a text.

use serde::Deserialize;

use crate::yaml::{self, Fault, Id, LONGEST, Outline, Position, bounded};

/// Names, and other words, that a text may declare.
const WORDS: usize = 5_000;

/// Patterns that a text may ask to practise.
const PATTERNS: usize = 100;

/// The longest path of a scope, in bytes, as systems have it; no title needs more either.
const PATH: usize = 4096;

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

    /// A value that is too long, or a list that is.
    fn too_much(&self, outline: &Outline) -> Option<Fault> {
        let lists = [
            ("names", &self.names, WORDS),
            ("story-words", &self.story_words, WORDS),
            ("focus", &self.focus, PATTERNS),
        ];
        let texts = [("title", &self.title, PATH), ("lesson", &self.lesson, LONGEST), ("scope", &self.scope, PATH)];
        let long = texts.iter().find(|(_, text, most)| text.as_ref().is_some_and(|text| text.len() > *most));
        let long = long.map(|(key, ..)| Fault::new(outline.position(&[key]), &format!("the {key} is too long")));
        long.or_else(|| lists.iter().find_map(|(key, list, most)| bounded(list, *most, &[key], outline)))
    }
}

/// Converts a position in the block to one in the text: the block begins on the second line.
fn in_text(position: Position) -> Position {
    Position { line: position.line + 1, ..position }
}

fn id<'de, D: serde::Deserializer<'de>>(from: D) -> Result<Option<String>, D::Error> {
    Ok(Option::<Id>::deserialize(from)?.map(|id| id.0))
}

/// The block: where it begins, where it ends, and where the story begins. Without a pattern matcher, for which a whole book without
/// an end of the block is a long way.
fn block(text: &str) -> Option<(usize, usize, usize)> {
    let is_rule = |line: &str, rule: &str| {
        let line = line.strip_suffix('\n').map_or(line, |line| line.strip_suffix('\r').unwrap_or(line));
        line.strip_prefix(rule).is_some_and(|rest| rest.bytes().all(|b| b == b' ' || b == b'\t'))
    };
    let mut at = text.len() - text.strip_prefix('\u{feff}').unwrap_or(text).len();
    let mut begin = None;
    for line in text[at..].split_inclusive('\n') {
        let next = at + line.len();
        match begin {
            None if is_rule(line, "---") && line.ends_with('\n') => begin = Some(next),
            None => return None,
            Some(begin) if is_rule(line, "---") || is_rule(line, "...") => return Some((begin, at, next)),
            Some(_) => {}
        }
        at = next;
    }
    None
}

/// Reads the front matter of a text: a YAML block between lines of `---` at the very start. The number is the byte offset at
/// which the story begins; 0 if there is no front matter.
///
/// # Errors
/// If the block is not valid: what is wrong, and where in the text.
pub fn front_matter(text: &str) -> Result<(FrontMatter, usize), Fault> {
    if !text.strip_prefix('\u{feff}').unwrap_or(text).starts_with("---") {
        return Ok((FrontMatter::default(), 0));
    }
    let Some((begin, end, whole)) = block(text) else { return Ok((FrontMatter::default(), 0)) };
    let inner = &text[begin..end];
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
        .and_then(|(front, outline): (FrontMatter, Outline)| match front.too_much(&outline) {
            Some(fault) => Err(fault),
            None => Ok((front, outline)),
        })
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
    fn the_block_ends_at_a_line_of_dashes_or_dots() {
        let lesson = |text: &str| front_matter(text).map(|(front, start)| (front.lesson, start)).unwrap();
        let found = |start| (Some("3".to_owned()), start);
        assert_eq!(lesson("---\nlesson: 3\n---"), found(17));
        assert_eq!(lesson("\u{feff}--- \t\r\nlesson: 3\r\n...\t\r\nSam"), found(27));
        assert_eq!(lesson("---\nlesson: 3\n----\n...x\n ---\n"), (None, 0));
        assert_eq!(lesson("---\nlesson: 3\n---\r"), (None, 0));
        assert_eq!(lesson("---\rlesson: 3\r---\r"), (None, 0));
    }

    #[test]
    fn front_matter_has_bounds() {
        let fault = |block: &str| front_matter(&format!("---\n{block}\n---\nSam")).unwrap_err().to_string();
        let long = "ab".repeat(1 << 19);
        for (block, said) in [
            (format!("names: [{long}]"), "line 2, column 9: in the front matter: `abab"),
            (format!("story-words: [{}]", "Sam, ".repeat(5_001)), "this list has 5,001 entries; it may have 5,000"),
            (format!("focus: [{}]", "sh, ".repeat(101)), "this list has 101 entries; it may have 100"),
            (format!("lesson: {long}"), "line 2, column 9: in the front matter: the lesson is too long"),
            (format!("scope: {long}"), "in the front matter: the scope is too long"),
            (format!("title: {long}"), "in the front matter: the title is too long"),
            (format!("title: x\n{}", "# nothing\n".repeat(500_000)), "in the front matter: it is larger than 4 MB"),
        ] {
            let fault = fault(&block);
            assert!(fault.contains(said) && fault.len() < 200, "{fault}");
        }
    }

    #[test]
    fn an_unknown_key_is_an_error_at_its_line() {
        let fault = front_matter("---\nlesson: 3\nlevel: 4\n---\n").unwrap_err();
        assert_eq!(fault.position.line, 3);
        assert!(fault.message.contains("unknown key `level`"), "{}", fault.message);
    }
}
