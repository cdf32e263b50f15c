//! Words written as YAML.

/// A word as YAML takes it for text.
#[must_use]
pub fn quoted(word: &str) -> String {
    let plain = word.starts_with(char::is_alphabetic)
        && word.chars().all(|c| c.is_alphabetic() || matches!(c, '\'' | '-' | '\u{2019}'));
    let special = ["yes", "no", "on", "off", "true", "false", "null", "y", "n"];
    if plain && !special.contains(&word.to_lowercase().as_str()) {
        return word.to_owned();
    }
    let mut out = String::from("\"");
    for c in word.chars() {
        match c {
            '\\' | '"' => out.extend(['\\', c]),
            '\n' => out += "\\n",
            // What YAML does not let stand as it is.
            _ if c.is_control() || matches!(c, '\u{2028}' | '\u{2029}' | '\u{feff}') => {
                out += &format!("\\U{:08X}", u32::from(c));
            }
            _ => out.push(c),
        }
    }
    out + "\""
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_is_what_is_read() {
        for word in [
            "Rob",
            "no",
            "it's",
            "\"",
            "a\\b",
            "two\nlines",
            "\u{7}",
            "\u{2028}",
            "12",
            "- a",
            "[x]",
            "#",
            "é",
            "",
            " ",
        ] {
            let read: String = serde_yaml::from_str(&quoted(word)).unwrap_or_else(|e| panic!("{word:?}: {e}"));
            assert_eq!(read, word);
        }
        assert_eq!(quoted("Rob"), "Rob");
    }
}
