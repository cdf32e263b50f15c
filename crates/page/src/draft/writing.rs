//! A scope file written so that people like to read it.

use untaught::yaml::quoted;

use super::{File, FileLesson};

/// The longest line of a list, in characters.
const LINE: usize = 100;

/// Words that YAML takes for something else than text.
const SPECIAL: [&str; 9] = ["yes", "no", "on", "off", "true", "false", "null", "y", "n"];

/// A text as YAML: without quotes where it needs none.
fn text(value: &str) -> String {
    let is_plain = |c: char| c.is_alphabetic() || matches!(c, '_' | '-' | '\'' | '\u{2019}');
    let word = |word: &str| {
        let begins = word.strip_prefix('-').unwrap_or(word).starts_with(char::is_alphabetic);
        begins && word.chars().all(is_plain)
    };
    let plain = value.split(' ').all(word) && !SPECIAL.contains(&value.to_lowercase().as_str());
    if plain { value.to_owned() } else { quoted(value) }
}

/// A list on one line, or on several if it is long.
fn list(out: &mut String, key: &str, entries: &[String], indent: &str) {
    let start = format!("{indent}{key}: [");
    let mut column = start.chars().count();
    out.push_str(&start);
    for (at, entry) in entries.iter().enumerate() {
        let written = text(entry);
        let length = written.chars().count();
        if at > 0 {
            out.push(',');
            if column + length + 3 > LINE {
                out.push_str(&format!("\n{indent}  "));
                column = indent.len() + 2;
            } else {
                out.push(' ');
                column += 2;
            }
        }
        out.push_str(&written);
        column += length;
    }
    out.push_str("]\n");
}

/// The scope file.
pub(super) fn written(file: &File) -> String {
    let mut out = "format: 1\n".to_owned();
    for (key, value) in
        [("title", &file.title), ("accent", &file.accent), ("about", &file.about), ("source", &file.source)]
    {
        if let Some(value) = value {
            out += &format!("{key}: {}\n", text(value));
        }
    }
    if let Some(age) = file.age {
        out += &format!("age: {age}\n");
    }
    if !file.pronounce.is_empty() {
        out += "pronounce:\n";
    }
    for (word, cutting) in &file.pronounce {
        out += &format!("  {}: {}\n", text(word), text(cutting));
    }
    if file.lessons.is_empty() {
        return out + "lessons: []\n";
    }
    out += "lessons:\n";
    for one in &file.lessons {
        lesson(&mut out, one);
    }
    out
}

fn lesson(out: &mut String, lesson: &FileLesson) {
    let from = out.len();
    if let Some(id) = &lesson.id {
        // Always in quotes: 2.10 would be the number 2.1.
        let id = text(&id.0);
        let id = if id.starts_with('"') { id } else { format!("\"{id}\"") };
        out.push_str(&format!("    id: {id}\n"));
    }
    if let Some(title) = &lesson.title {
        out.push_str(&format!("    title: {}\n", text(title)));
    }
    let lists =
        [("teach", &lesson.teach), ("sight", &lesson.sight), ("skills", &lesson.skills), ("review", &lesson.review)];
    for (key, entries) in lists {
        if !entries.is_empty() {
            list(out, key, entries, "    ");
        }
    }
    if out.len() == from {
        out.push_str("    teach: []\n");
    }
    out.replace_range(from..from + 4, "  - ");
}

#[cfg(test)]
mod tests {
    use untaught::yaml::Id;

    use super::*;

    #[test]
    fn a_file_is_written_as_a_teacher_would() {
        let own = |list: &[&str]| list.iter().map(|text| (*text).to_owned()).collect();
        let lesson = FileLesson {
            id: Some(Id("2.10".to_owned())),
            title: Some("First sounds".to_owned()),
            teach: own(&["s", "n", "th as in thin", "-ed", "ea = /ɛ/"]),
            ..FileLesson::default()
        };
        let file = File {
            _format: 1,
            title: Some("Ours: a start".to_owned()),
            accent: None,
            age: Some(6),
            about: None,
            source: None,
            pronounce: [("Tam".to_owned(), "t·a·m".to_owned())].into(),
            lessons: vec![lesson, FileLesson::default()],
        };
        assert_eq!(
            written(&file),
            "format: 1\ntitle: \"Ours: a start\"\nage: 6\npronounce:\n  Tam: \"t·a·m\"\nlessons:\n  - id: \"2.10\"\n    title: First sounds\n    \
             teach: [s, \"n\", th as in thin, -ed, \"ea = /ɛ/\"]\n  - teach: []\n"
        );
    }
}
