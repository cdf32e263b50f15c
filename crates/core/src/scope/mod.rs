//! Scope files: what each lesson teaches, compiled to "the earliest lesson of every pattern".

mod compile;
pub(crate) mod file;
mod lesson_index;
mod notation;
mod packed;
mod pronounce;
mod skill;
mod table;

use std::collections::HashMap;

pub use lesson_index::LessonIndex;
pub(crate) use lesson_index::When;
pub(crate) use notation::label as catalogue_label;
pub use notation::{Chunk, Pattern};
pub use skill::Skill;

use untaught_phonics::{Accent, CorrespondenceId, Grade, Reading};

use crate::wording::excerpt;
use crate::yaml::{Fault, Outline, nearest};
use crate::{Need, Reader};
use table::Table;

/// The number of a chunk in its scope.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct ChunkId(u16);

impl ChunkId {
    pub(crate) fn index(self) -> usize {
        usize::from(self.0)
    }
}

/// A scope and sequence.
#[derive(Clone, Debug)]
pub struct Scope {
    /// A number that no other scope of this process has.
    serial: u64,
    title: String,
    accent: Accent,
    keeps_weak_r: bool,
    pronounced: HashMap<String, Reading>,
    age: u8,
    about: Option<String>,
    source: Option<String>,
    /// At least one.
    lessons: Vec<Lesson>,
    table: Table,
    sight: HashMap<String, LessonIndex>,
    skills: [Option<LessonIndex>; Skill::ALL.len()],
}

/// One step of a scope.
#[derive(Clone, Debug)]
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

impl Lesson {
    /// Everything that it teaches but sight words: patterns and skills.
    #[must_use]
    pub fn taught(&self) -> Vec<Pattern> {
        self.patterns.iter().cloned().chain(self.skills.iter().map(|skill| Pattern::Skill(*skill))).collect()
    }
}

impl Scope {
    /// Reads and checks a scope file. Its accent is that of the file, or of the reader if the file names none. Cost: under a millisecond for sixty lessons.
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

    /// Its title.
    #[must_use]
    pub fn title(&self) -> &str {
        &self.title
    }

    /// The accent in which it reads words.
    #[must_use]
    pub fn accent(&self) -> Accent {
        self.accent
    }

    /// The same scope, with the pronunciations that a folder gives for names and local words, as in a scope file: word and cutting.
    /// They override those of the scope.
    ///
    /// # Errors
    /// The number of the first that cannot be read, counted from 0, and what is wrong with it.
    pub fn pronouncing<'w>(
        &self,
        given: impl IntoIterator<Item = (&'w str, &'w str)>,
    ) -> Result<Scope, (usize, String)> {
        let mut pronounced = self.pronounced.clone();
        for (number, (written, cutting)) in given.into_iter().enumerate() {
            let (word, reading) =
                pronounce::entry(written, cutting, self.accent).map_err(|problem| (number, problem))?;
            pronounced.insert(word, reading);
        }
        Ok(Scope { serial: compile::next_serial(), pronounced, ..self.clone() })
    }

    /// The age of the oldest children it is for, from 5 to 8: lists have no words that only older ones know.
    #[must_use]
    pub fn age(&self) -> u8 {
        self.age
    }

    /// The reading that the file gives a word, in lower case.
    pub(crate) fn pronounced(&self, word: &str) -> Option<&Reading> {
        if self.pronounced.is_empty() { None } else { self.pronounced.get(word) }
    }

    /// Whether it teaches the weak r-vowels of *sister* and *doctor* apart from those of *her* and *word*, though its accent is American.
    pub(crate) fn keeps_weak_r(&self) -> bool {
        self.keeps_weak_r
    }

    /// What the file says about itself.
    #[must_use]
    pub fn about(&self) -> Option<&str> {
        self.about.as_deref()
    }

    /// Where its order comes from.
    #[must_use]
    pub fn source(&self) -> Option<&str> {
        self.source.as_deref()
    }

    /// The lessons in order; at least one.
    #[must_use]
    pub fn lessons(&self) -> &[Lesson] {
        &self.lessons
    }

    /// The lessons in order, with their indices.
    pub fn indexed_lessons(&self) -> impl DoubleEndedIterator<Item = (LessonIndex, &Lesson)> {
        self.lessons.iter().enumerate().filter_map(|(index, lesson)| Some((LessonIndex::new(index)?, lesson)))
    }

    /// The index of the lesson with an id.
    ///
    /// # Errors
    /// A sentence with the nearest id or the ids there are.
    pub fn index_of(&self, id: &str) -> Result<LessonIndex, UnknownLesson> {
        if let Some((index, _)) = self.indexed_lessons().find(|(_, lesson)| lesson.id == id) {
            return Ok(index);
        }
        let id = excerpt(id);
        let near = nearest(&id, self.lessons.iter().map(|lesson| lesson.id.as_str()));
        Err(UnknownLesson {
            nearest: near.map(str::to_owned),
            scope: excerpt(&self.title).into_owned(),
            first: self.lessons[0].id.clone(),
            last: self.lessons[self.lessons.len() - 1].id.clone(),
            id: id.into_owned(),
        })
    }

    /// The index of the last lesson.
    #[must_use]
    pub fn last(&self) -> LessonIndex {
        LessonIndex::new(self.lessons.len() - 1).unwrap_or_default()
    }

    /// The lesson at an index; none past the end.
    #[must_use]
    pub fn lesson(&self, index: LessonIndex) -> Option<&Lesson> {
        self.lessons.get(index.get())
    }

    /// The id of the lesson at an index; empty past the end.
    #[must_use]
    pub fn id(&self, index: LessonIndex) -> &str {
        self.lesson(index).map_or("", |lesson| lesson.id.as_str())
    }

    /// The lesson that teaches a word whole.
    #[must_use]
    pub fn sight_lesson(&self, word: &str) -> Option<LessonIndex> {
        self.sight.get(word).copied()
    }

    /// The lesson that teaches a skill, if the scope names it.
    #[must_use]
    pub fn skill_lesson(&self, skill: Skill) -> Option<LessonIndex> {
        self.skills[skill as usize]
    }

    /// A chunk that it teaches.
    #[must_use]
    pub fn chunk(&self, id: ChunkId) -> &Chunk {
        self.table.chunk(id)
    }

    /// Whether the file names a correspondence on its own, so that the bare spelling does not teach it.
    pub(crate) fn names(&self, id: CorrespondenceId) -> bool {
        self.table.is_named(id)
    }

    /// The key word that the file itself gives a correspondence, as a label.
    pub(crate) fn own_label(&self, id: CorrespondenceId) -> Option<&str> {
        self.table.label(id)
    }

    /// What a correspondence in a word needs: itself, or the whole word where hardly any other is read so and nothing
    /// teaches it. Of a rare one the catalogue's key word is such a word: *oh* does not need `oh as in oh`.
    pub(crate) fn need_of(&self, id: CorrespondenceId, word: &str, lesson: Option<LessonIndex>) -> Need {
        let part = id.get();
        let alone = match part.grade {
            Grade::Odd => true,
            Grade::Rare => part.key == word,
            Grade::Everyday | Grade::Common => false,
        };
        if alone && lesson.is_none() && !self.names(id) {
            Need::Irregular { letters: part.spelling.into() }
        } else {
            Need::Correspondence { id, lesson }
        }
    }

    /// A number that no other scope of this process has: what is remembered of one is not taken for another's.
    pub(crate) fn serial(&self) -> u64 {
        self.serial
    }

    /// The entry of the scope file that teaches what is needed: the key of its list (`teach`, `skills` or `sight`) and the number in it,
    /// both in the need's lesson. None where the lesson teaches it only by the way.
    #[must_use]
    pub fn entry_of(&self, need: &Need) -> Option<(&'static str, usize)> {
        let lesson = self.lesson(need.lesson()?)?;
        let pattern =
            |wanted: &dyn Fn(&Pattern) -> bool| lesson.patterns.iter().position(wanted).map(|at| ("teach", at));
        match need {
            Need::Correspondence { id, .. } | Need::ChangedY { y: id, .. } => {
                let spelling = id.get().spelling;
                let single = id.get().undoubled();
                pattern(&|pattern| matches!(pattern, Pattern::One(one, _) if one == id)).or_else(|| {
                    pattern(
                        &|pattern| matches!(pattern, Pattern::Bare(bare) if *bare == spelling || Some(*bare) == single),
                    )
                })
            }
            Need::Chunk { chunk, .. } => {
                let label = &self.chunk(*chunk).label;
                pattern(&|pattern| matches!(pattern, Pattern::Chunk(chunk) if chunk.label == *label))
            }
            Need::Skill { skill, .. } => lesson.skills.iter().position(|one| one == skill).map(|at| ("skills", at)),
            _ => None,
        }
    }

    pub(crate) fn table(&self) -> &Table {
        &self.table
    }
}

/// A scope has no lesson of that id.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct UnknownLesson {
    id: String,
    nearest: Option<String>,
    scope: String,
    first: String,
    last: String,
}

impl std::fmt::Display for UnknownLesson {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let UnknownLesson { id, nearest, scope, first, last } = self;
        write!(f, "the scope “{scope}” has no lesson {id}; ")?;
        if let Some(nearest) = nearest {
            write!(f, "did you mean {nearest}? ")?;
        }
        write!(f, "its lessons go from {first} to {last}")
    }
}

impl std::error::Error for UnknownLesson {}

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
        let twice = "- {id: a, teach: [amp as in stamp]}\n- {id: b, teach: [amp as in lamp]}\n- {id: a}\n";
        let told: Vec<String> = faults(twice).iter().map(ToString::to_string).collect();
        assert_eq!(
            told,
            [
                "line 4, column 19: `amp as in lamp` is taught twice: lesson a teaches it already",
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
