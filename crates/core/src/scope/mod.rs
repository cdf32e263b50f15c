//! Scope files: what each lesson teaches, compiled to "the earliest lesson of every pattern".

mod compile;
mod file;
mod notation;
mod packed;
mod skill;

use std::collections::HashMap;

pub(crate) use notation::label as scope_label;
pub use notation::{Pattern, Run};
pub use skill::Skill;

use crate::Reader;
use crate::say::excerpt;
use crate::yaml::{Fault, Outline, nearest};
use compile::Table;

/// The place of a lesson in its scope, from 0.
pub type Place = u16;

/// Later than every lesson: never.
pub(crate) const NEVER: Place = Place::MAX;

/// A scope and sequence.
#[derive(Debug)]
pub struct Scope {
    /// Its title.
    pub title: String,
    /// What the file says about itself.
    pub about: Option<String>,
    /// Where its order comes from.
    pub source: Option<String>,
    /// The lessons in order.
    pub lessons: Vec<Lesson>,
    table: Table,
    sight: HashMap<String, Place>,
    skills: [Place; Skill::ALL.len()],
}

/// One step of a scope.
#[derive(Debug)]
pub struct Lesson {
    /// Its id; its number from 1 where the file gives none.
    pub id: String,
    /// Its title.
    pub title: String,
    /// The patterns it teaches.
    pub patterns: Vec<Pattern>,
    /// The words it teaches whole, as written.
    pub sight: Vec<String>,
    /// The skills it teaches.
    pub skills: Vec<Skill>,
    /// The patterns it practises again, as written.
    pub review: Vec<String>,
    /// The same, read.
    pub review_patterns: Vec<Pattern>,
}

impl Scope {
    /// Reads and checks a scope file. Cost: under a millisecond for sixty lessons.
    ///
    /// # Errors
    /// Everything that is wrong with it, in the order of the file; nothing is half-read.
    pub fn parse(text: &str, reader: &Reader) -> Result<Scope, Vec<Fault>> {
        let (file, outline) = file::read(text).map_err(|fault| vec![fault])?;
        compile::compile(file, outline, reader)
    }

    /// A scope that comes with the program, by name; none of another name. Cost: as [`Scope::parse`], but without the YAML.
    #[must_use]
    pub fn embedded(name: &str, reader: &Reader) -> Option<Scope> {
        let packed = packed::all().iter().find(|packed| packed.name == name)?;
        compile::compile(packed.unpack(), Outline::default(), reader).ok()
    }

    /// The scopes that come with the program: name and text of the file.
    pub fn all_embedded() -> impl Iterator<Item = (&'static str, &'static str)> {
        packed::all().iter().map(|packed| (packed.name, packed.text))
    }

    /// Their names and titles. Cost: none.
    pub fn embedded_titles() -> impl Iterator<Item = (&'static str, &'static str)> {
        packed::all().iter().map(|packed| (packed.name, packed.title))
    }

    /// The place of the lesson with that id.
    ///
    /// # Errors
    /// A sentence with the nearest id or the ids there are.
    pub fn place(&self, id: &str) -> Result<Place, String> {
        if let Some(place) = self.lessons.iter().position(|lesson| lesson.id == id) {
            return Ok(place as Place);
        }
        let id = excerpt(id);
        let (first, last) = (&self.lessons[0].id, &self.lessons[self.lessons.len() - 1].id);
        let near = nearest(&id, self.lessons.iter().map(|lesson| lesson.id.as_str()));
        let near = match near {
            Some(near) => format!("did you mean {near}? "),
            None => String::new(),
        };
        Err(format!(
            "the scope “{}” has no lesson {id}; {near}its lessons go from {first} to {last}",
            excerpt(&self.title)
        ))
    }

    /// The last lesson's place.
    #[must_use]
    pub fn last(&self) -> Place {
        (self.lessons.len() - 1) as Place
    }

    /// The lesson at a place; none past the end.
    #[must_use]
    pub fn lesson(&self, place: Place) -> Option<&Lesson> {
        self.lessons.get(usize::from(place))
    }

    /// The lesson that teaches a word whole.
    #[must_use]
    pub fn sight_lesson(&self, word: &str) -> Option<Place> {
        self.sight.get(word).copied()
    }

    pub(crate) fn skill_lesson(&self, skill: Skill) -> Place {
        self.skills[skill as usize]
    }

    /// Whether the file names a correspondence on its own, so that the bare spelling does not teach it.
    pub(crate) fn names(&self, id: untaught_phonics::CorrespondenceId) -> bool {
        self.table.is_named(id)
    }

    pub(crate) fn table(&self) -> &Table {
        &self.table
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn faults(lessons: &str) -> Vec<Fault> {
        Scope::parse(&format!("format: 1\nlessons:\n{lessons}"), &Reader::default())
            .map_or_else(|faults| faults, |_| Vec::new())
    }

    #[test]
    fn a_scope_file_has_bounds() {
        let only = |lessons: &str| {
            let faults = faults(lessons);
            assert_eq!(faults.len(), 1, "{:?}", &faults[..faults.len().min(3)]);
            faults[0].to_string()
        };
        let lessons = |count: u32| (0..count).map(|n| format!("- title: {n}\n")).collect::<String>();
        assert_eq!(faults(&lessons(5_000)), []);
        assert_eq!(only(&lessons(5_001)), "line 3, column 3: a scope file has at most 5,000 lessons, not 5,001");
        for key in ["teach", "sight", "skills", "review"] {
            let list = format!("- {key}: [{}]\n", vec!["sh"; 1_001].join(", "));
            let fault = only(&list);
            assert!(fault.ends_with("this list has 1,001 entries; it may have 1,000"), "{fault}");
            let list = format!("- {key}: [\"{}\"]\n", "ab".repeat(1 << 19));
            let fault = only(&list);
            assert!(fault.contains("abab…` is too long: an entry has at most 100 characters"), "{fault}");
            assert!(fault.len() < 200, "{fault}");
        }
        let patterns = "- review: [".to_owned() + &"sh, ".repeat(1_000) + "]\n";
        assert!(only(&patterns.repeat(11)).ends_with("a scope file has at most 10,000 patterns, not 11,000"));
        assert!(only(&format!("- id: {}\n", "ab".repeat(1 << 19))).contains("is too long"));
    }

    #[test]
    fn many_faults_are_all_counted_but_not_all_with_hints() {
        let entries = |from: u32| (from..from + 10).map(|n| format!("shh{n}")).collect::<Vec<_>>().join(", ");
        let lessons: String = (0..1_000).map(|n| format!("- teach: [{}]\n", entries(n * 10))).collect();
        let faults = faults(&lessons);
        assert_eq!(faults.len(), 10_000);
        assert!(faults[0].message.contains("did you mean `"), "{}", faults[0]);
        assert!(!faults[9_999].message.contains("did you mean"), "{}", faults[9_999]);
    }

    #[test]
    fn ids_and_runs_are_told_apart_however_many() {
        let twice = "- {id: a, teach: [ank as in bank]}\n- {id: b, teach: [ank as in tank]}\n- {id: a}\n";
        let told: Vec<String> = faults(twice).iter().map(ToString::to_string).collect();
        assert_eq!(
            told,
            [
                "line 4, column 19: `ank as in tank` is taught twice: lesson a teaches it already",
                "line 5, column 8: two lessons have the id a: the first is lesson 1 of the list"
            ]
        );
    }

    /// The packed form and the file itself give the same scope, and neither has a fault.
    #[test]
    fn embedded_scopes_are_those_of_their_files() {
        let reader = Reader::default();
        for (name, text) in Scope::all_embedded() {
            let parsed = Scope::parse(text, &reader).unwrap_or_else(|faults| panic!("{name}: {faults:?}"));
            let packed = Scope::embedded(name, &reader).unwrap_or_else(|| panic!("{name}"));
            assert_eq!(format!("{:?}", parsed.lessons), format!("{:?}", packed.lessons), "{name}");
            assert!(parsed.lessons.len() > 1, "{name}");
            assert!(Scope::embedded_titles().any(|known| known == (name, &parsed.title)), "{name}");
        }
    }
}
