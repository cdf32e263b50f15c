//! A scope that is being written on the page: its fields as typed, the scope file that they make, and what is wrong with which field.

mod columns;
mod entries;
mod faults;
mod pasted;
mod writing;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use untaught::yaml::{Id, first};
use untaught::{Accent, Fault, Reader, Scope, messages, yaml};

use crate::ask::ScopeSource;
use crate::refusal::{FaultAnswer, Refusal};

pub(crate) use pasted::lessons_in;

/// A scope as its fields are typed. Lists are text: entries with commas or spaces between them.
#[derive(Clone, PartialEq, Eq, Debug, Default, Deserialize, Serialize)]
#[serde(default)]
pub(crate) struct Draft {
    title: String,
    /// Empty for the usual one.
    accent: String,
    /// The age of the oldest children; empty for the usual one.
    age: String,
    about: String,
    source: String,
    /// A line for each name or local word: `Priya: p·r·i=/iː/·y·a=/ə/`.
    pronounce: String,
    lessons: Vec<DraftLesson>,
}

/// A lesson as its fields are typed.
#[derive(Clone, PartialEq, Eq, Debug, Default, Deserialize, Serialize)]
#[serde(default)]
pub(crate) struct DraftLesson {
    /// Empty for its place in the list.
    id: String,
    title: String,
    teach: String,
    sight: String,
    skills: String,
    review: String,
}

/// A draft to be written and checked.
#[derive(Debug, Deserialize)]
pub(crate) struct DraftQuestion {
    pub(crate) draft: Draft,
}

/// A scope to begin a draft with.
#[derive(Debug, Deserialize)]
pub(crate) struct BeginQuestion {
    pub(crate) scope: ScopeSource,
}

/// The scope file of a draft, and everything that is wrong with it.
#[derive(Serialize)]
pub(crate) struct DraftAnswer {
    text: String,
    faults: Vec<FieldFault>,
}

/// What is wrong with a field.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub(crate) struct FieldFault {
    /// The place of the lesson from 0; none for the scope's own fields.
    lesson: Option<usize>,
    /// The key of the field in the scope file.
    field: &'static str,
    /// The place of the entry in the field from 0, if it has several.
    entry: Option<usize>,
    message: String,
}

/// A draft made of a scope.
#[derive(Serialize)]
pub(crate) struct BegunDraft {
    draft: Draft,
    /// Whether the file has comments, which a draft does not keep.
    comments: bool,
}

/// Skills that can be chosen.
#[derive(Serialize)]
pub(crate) struct SkillName {
    name: &'static str,
    label: &'static str,
}

/// Accents that can be chosen.
#[derive(Serialize)]
pub(crate) struct AccentName {
    name: &'static str,
    label: &'static str,
}

/// What the fields of a draft can be chosen from.
#[derive(Serialize)]
pub(crate) struct DraftChoices {
    skills: Vec<SkillName>,
    accents: Vec<AccentName>,
}

pub(crate) fn choices() -> DraftChoices {
    let skills = untaught::Skill::ALL.into_iter();
    let accents = Accent::ALL.into_iter();
    DraftChoices {
        skills: skills.map(|skill| SkillName { name: skill.name(), label: skill.label() }).collect(),
        accents: accents.map(|accent| AccentName { name: accent.name(), label: accent.label() }).collect(),
    }
}

/// Faults that are shown at once.
const FAULTS: usize = 500;

/// Writes a draft as a scope file, and checks it as the command would.
pub(crate) fn check(reader: &Reader, draft: &Draft) -> DraftAnswer {
    let (file, mut faults) = draft.file();
    let text = writing::written(&file);
    if let Err(found) = Scope::parse(&text, reader) {
        faults.extend(faults::fields_of(&first(&found, FAULTS), &text, &file));
    }
    DraftAnswer { text, faults }
}

/// The scope file as it is written, in the order in which it is read.
#[derive(Clone, PartialEq, Eq, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    #[serde(rename = "format")]
    _format: u32,
    title: Option<String>,
    accent: Option<String>,
    age: Option<u8>,
    about: Option<String>,
    source: Option<String>,
    #[serde(default)]
    pronounce: BTreeMap<String, String>,
    lessons: Vec<FileLesson>,
}

#[derive(Clone, PartialEq, Eq, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct FileLesson {
    id: Option<Id>,
    title: Option<String>,
    #[serde(default)]
    teach: Vec<String>,
    #[serde(default)]
    sight: Vec<String>,
    #[serde(default)]
    skills: Vec<String>,
    #[serde(default)]
    review: Vec<String>,
}

fn some(text: &str) -> Option<String> {
    Some(text.trim()).filter(|text| !text.is_empty()).map(str::to_owned)
}

impl Draft {
    /// The entries of the fields, and what is wrong with fields that cannot be written.
    fn file(&self) -> (File, Vec<FieldFault>) {
        let (pronounce, faults) = entries::pronounced(&self.pronounce);
        let lessons = self.lessons.iter().map(|lesson| FileLesson {
            id: some(&lesson.id).map(Id),
            title: some(&lesson.title),
            teach: entries::patterns(&lesson.teach),
            sight: entries::words(&lesson.sight),
            skills: entries::skills(&lesson.skills),
            review: entries::patterns(&lesson.review),
        });
        let file = File {
            _format: 1,
            title: some(&self.title),
            accent: some(&self.accent),
            // What is no number is as wrong as a number that is no age.
            age: some(&self.age).map(|age| age.parse().unwrap_or(0)),
            about: some(&self.about),
            source: some(&self.source),
            pronounce,
            lessons: lessons.collect(),
        };
        let faults = faults.into_iter();
        let faults = faults.map(|message| FieldFault { lesson: None, field: "pronounce", entry: None, message });
        (file, faults.collect())
    }
}

impl From<File> for Draft {
    fn from(file: File) -> Draft {
        let lesson = |lesson: FileLesson| DraftLesson {
            id: lesson.id.map(|id| id.0).unwrap_or_default(),
            title: lesson.title.unwrap_or_default(),
            teach: lesson.teach.join(", "),
            sight: lesson.sight.join(", "),
            skills: lesson.skills.join(", "),
            review: lesson.review.join(", "),
        };
        let pronounce = file.pronounce.iter().map(|(word, cutting)| format!("{word}: {cutting}\n"));
        Draft {
            title: file.title.unwrap_or_default(),
            accent: file.accent.unwrap_or_default(),
            age: file.age.map(|age| age.to_string()).unwrap_or_default(),
            about: file.about.unwrap_or_default().trim_end().to_owned(),
            source: file.source.unwrap_or_default().trim_end().to_owned(),
            pronounce: pronounce.collect(),
            lessons: file.lessons.into_iter().map(lesson).collect(),
        }
    }
}

/// Makes a draft of a scope: of a file too whose entries have faults, as long as it is a scope file.
pub(crate) fn begin(asked: &BeginQuestion) -> Result<BegunDraft, Refusal> {
    let text = match &asked.scope {
        ScopeSource::Text(text) => text,
        ScopeSource::Name(name) => {
            let found = Scope::all_embedded().find(|(known, _)| known == name);
            found.map(|(_, text)| text).ok_or_else(|| no_scope(name))?
        }
    };
    let draft = read(text).map_err(|fault| Refusal::Faults(vec![FaultAnswer::from(&fault)]))?;
    let comments = text.lines().any(|line| line.trim_start().starts_with('#'));
    Ok(BegunDraft { draft, comments })
}

fn no_scope(name: &str) -> String {
    format!("this page has no scope called {}", messages::excerpt(name))
}

/// A scope file as a draft.
fn read(text: &str) -> Result<Draft, Fault> {
    yaml::read::<File>(text).map(|(file, _)| Draft::from(file))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn text(draft: &Draft) -> String {
        check(&Reader::default(), draft).text
    }

    #[test]
    fn each_scope_of_the_program_is_the_same_after_it_went_through_a_draft() {
        let reader = Reader::default();
        for (name, _) in Scope::all_embedded() {
            let begun = begin(&BeginQuestion { scope: ScopeSource::Name(name.to_owned()) }).ok().unwrap();
            let answer = check(&reader, &begun.draft);
            assert_eq!(answer.faults, [], "{name}");
            let (before, after) =
                (Scope::embedded(name, &reader).unwrap(), Scope::parse(&answer.text, &reader).unwrap());
            assert_eq!((before.title(), before.accent(), before.age()), (after.title(), after.accent(), after.age()));
            assert_eq!(format!("{:?}", before.lessons()), format!("{:?}", after.lessons()), "{name}");
            let once_more = begin(&BeginQuestion { scope: ScopeSource::Text(answer.text.clone()) }).ok().unwrap();
            assert_eq!(text(&once_more.draft), answer.text, "{name}");
        }
    }

    #[test]
    fn all_faults_are_told_at_once_with_their_fields() {
        let lesson = |teach: &str, sight: &str| DraftLesson {
            teach: teach.to_owned(),
            sight: sight.to_owned(),
            ..DraftLesson::default()
        };
        let mut draft = Draft {
            title: "Ours".to_owned(),
            pronounce: "Priya p·r\nTam: t·q".to_owned(),
            lessons: vec![lesson("s, shh, t", "the he110"), lesson("s ea as in bed", ""), lesson("", "the")],
            ..Draft::default()
        };
        draft.lessons[1].skills = "final blends, jumping".to_owned();
        draft.lessons[2].review = "igh".to_owned();
        draft.lessons[2].id = "1".to_owned();
        let answer = check(&Reader::default(), &draft);
        let found: Vec<(Option<usize>, &str, Option<usize>)> =
            answer.faults.iter().map(|fault| (fault.lesson, fault.field, fault.entry)).collect();
        assert_eq!(
            found,
            [
                (None, "pronounce", None),
                (None, "pronounce", None),
                (Some(0), "teach", Some(1)),
                (Some(0), "sight", Some(1)),
                (Some(1), "teach", Some(0)),
                (Some(1), "teach", Some(1)),
                (Some(1), "skills", Some(1)),
                (Some(2), "id", None),
                (Some(2), "sight", Some(0)),
                (Some(2), "review", Some(0)),
            ],
            "{:?}\n{}",
            answer.faults,
            answer.text
        );
        assert!(answer.faults[4].message.contains("taught twice"), "{:?}", answer.faults[4]);
    }

    #[test]
    fn a_scope_without_lessons_and_one_of_an_unknown_accent_say_so() {
        let reader = Reader::default();
        let of = |draft: &Draft| {
            let fault = check(&reader, draft).faults.remove(0);
            (fault.lesson, fault.field)
        };
        assert_eq!(of(&Draft::default()), (None, "lessons"));
        let lessons = vec![DraftLesson::default()];
        let long = Draft { title: "x".repeat(2000), lessons: lessons.clone(), ..Draft::default() };
        assert_eq!(of(&long), (None, "title"));
        let old = Draft { age: "ten".to_owned(), lessons: lessons.clone(), ..Draft::default() };
        assert_eq!(of(&old), (None, "age"));
        assert_eq!(of(&Draft { accent: "martian".to_owned(), lessons, ..Draft::default() }), (None, "accent"));
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(200))]

        /// Whatever is typed, the file that is written is YAML, and what is read from it writes the same file.
        #[test]
        fn what_is_written_is_read_again(
            title in "\\PC{0,12}", id in "[0-9a-z. ]{0,4}", teach in "[-a-z_'=/, ;\n()ɛ]{0,24}", sight in "\\PC{0,16}", skills in "[-a-z ,\"]{0,20}",
            about in "[\\PC\n]{0,20}", pronounce in "[A-Za-z]{1,5}: \\PC{1,8}",
        ) {
            let lesson = DraftLesson { id, title: title.clone(), teach: teach.clone(), sight, skills, review: teach };
            let draft = Draft { title, about, pronounce, lessons: vec![lesson.clone(), DraftLesson::default(), lesson], ..Draft::default() };
            let written = text(&draft);
            let again = read(&written);
            prop_assert!(again.is_ok(), "{:?} in {}", again, written);
            prop_assert_eq!(text(&again.unwrap_or_default()), written);
        }
    }
}
