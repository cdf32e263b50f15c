//! How much is read: far more than any scope, settings or front matter needs, and little enough to be read in no time.

use super::{Fault, Outline, Position};
use crate::messages::{excerpt, thousands};

/// The largest file that is read, in bytes.
pub const LARGEST: usize = 4 << 20;

/// The longest entry, in characters: a pattern, a word, an id.
pub const LONGEST: usize = 100;

/// Lines that begin with a percent sign. YAML has its directives there; none is needed.
const DIRECTIVES: usize = 20;

/// Refuses a text that is too large to be read, or that has so many directives that they take long.
pub(super) fn check(text: &str) -> Result<(), Fault> {
    if text.len() > LARGEST {
        return Err(Fault::new(Position::START, &format!("it is larger than {} MB", LARGEST >> 20)));
    }
    let mut directives = text.lines().enumerate().filter(|(_, line)| line.starts_with('%'));
    match directives.nth(DIRECTIVES) {
        Some((number, _)) => {
            let place = Position { line: number + 1, column: 1 };
            Err(Fault::new(place, "too many lines begin with `%`; YAML takes them for directives, and none is needed"))
        }
        None => Ok(()),
    }
}

/// What is wrong with an entry that is too long.
pub(crate) fn too_long(text: &str) -> Option<String> {
    let long = text.len() > LONGEST && text.chars().nth(LONGEST).is_some();
    long.then(|| format!("`{}` is too long: an entry has at most {LONGEST} characters", excerpt(text)))
}

/// What is wrong with a list: too many entries, or one that is too long. `path` leads to it in the outline.
#[must_use]
pub fn bounded(list: &[String], most: usize, path: &[&str], outline: &Outline) -> Option<Fault> {
    if list.len() > most {
        let message = format!("this list has {} entries; it may have {}", thousands(list.len()), thousands(most));
        return Some(Fault::new(outline.position(path), &message));
    }
    let (at, message) = (0..).zip(list).find_map(|(at, text)| Some((i32::to_string(&at), too_long(text)?)))?;
    Some(Fault::new(outline.position(&[path, &[&at]].concat()), &message))
}

#[cfg(test)]
mod tests {
    use serde::de::IgnoredAny;

    use super::*;
    use crate::yaml;

    fn refused(text: &str) -> String {
        yaml::read::<IgnoredAny>(text).map_or_else(|fault| fault.to_string(), |_| String::new())
    }

    #[test]
    fn what_is_too_large_is_refused() {
        assert_eq!(refused(&"# nothing\n".repeat(LARGEST / 10 + 1)), "line 1, column 1: it is larger than 4 MB");
        assert_eq!(refused(&format!("a: {}", "b".repeat(LARGEST - 3))), "");
        assert!(refused(&format!("a: 1\n{}", "- b\n".repeat(10))).contains("not well-formed"));
        let many = format!("{}---\na: 1\n", (0..1000).map(|n| format!("%TAG !t{n}! tag:x:\n")).collect::<String>());
        assert_eq!(
            refused(&many),
            "line 21, column 1: too many lines begin with `%`; YAML takes them for directives, and none is needed"
        );
        let list = format!("a: [{}]", "b,".repeat(100_001));
        assert!(refused(&list).ends_with("it has more than 100,000 entries"), "{}", refused(&list));
        let empty = format!("a: [{}]", "{},".repeat(100_001));
        assert!(refused(&empty).ends_with("it has more than 100,000 entries"));
        let keys: String = (0..100_001).map(|n| format!("k{n}:\n")).collect();
        assert!(refused(&keys).ends_with("it has more than 100,000 entries"));
        let keys: String = (0..40_000).map(|n| format!("k{n}:\n")).collect();
        assert_eq!(refused(&format!("{keys}k7:\n")), "line 40001, column 1: duplicate key `k7`");
    }

    #[test]
    fn aliases_count_for_what_they_stand_for() {
        assert_eq!(refused("a: &list [b, c]\nd: *list\n"), "");
        let many = format!("a: &a [{}]\nb: [{}]\n", "b,".repeat(1000), "*a,".repeat(100));
        assert!(refused(&many).contains("line 2, column "), "{}", refused(&many));
        assert!(refused(&many).ends_with("aliases (`*name`) repeat too much here; write out what is needed"));
        let text = format!("a: &a {}\nb: [{}]\n", "b".repeat(1 << 20), "*a,".repeat(4));
        assert!(refused(&text).contains("repeat too much"), "{}", refused(&text));
        let multiplied: String = (b'b'..=b'z')
            .map(|name| {
                let before = vec![format!("*{}", char::from(name - 1)); 9].join(", ");
                format!("{0}: &{0} [{before}]\n", char::from(name))
            })
            .collect();
        assert!(refused(&format!("a: &a [x]\n{multiplied}")).contains("repeat too much"));
        assert!(refused("a: &a [*a]\n").ends_with("this alias stands for something that it is part of"));
    }

    #[test]
    fn what_is_nested_too_deeply_is_refused() {
        for text in [&"- ".repeat(100), &"? ".repeat(100), &"[".repeat(20), &"{a: ".repeat(20), &": ".repeat(100)] {
            assert!(refused(text).ends_with("lists are nested too deeply"), "{text}: {}", refused(text));
        }
    }

    #[test]
    fn a_long_text_is_told_by_its_beginning() {
        let long = "x".repeat(1 << 20);
        for text in [format!("? {long}\n: 1\n"), format!("? [{long}]\n: 1\n"), format!("{long}: 1\n")] {
            assert!(refused(&text).len() < 200, "{}", refused(&text));
        }
        assert!(refused(&format!("? {long}\n: 1\n")).contains("a key has at most 64 characters"));
        assert_eq!(too_long(&"é".repeat(100)), None);
        assert_eq!(
            too_long(&"é".repeat(101)).unwrap(),
            format!("`{}…` is too long: an entry has at most 100 characters", "é".repeat(40))
        );
    }
}
