//! From the file to the scope, or to all of its faults.

use std::collections::{BTreeMap, HashMap};
use std::sync::atomic::{AtomicU64, Ordering};

use untaught_phonics::{Accent, CorrespondenceId, Reading};

use super::file::{LessonEntry, ScopeFile};
use super::table::{NamedPatterns, Table, everyday, full_r_of_weak};
use super::{Lesson, LessonIndex, Pattern, Scope, Skill, When, pronounce};
use crate::Reader;
use crate::wording::{excerpt, thousands};
use crate::yaml::{Fault, Outline, bounded, nearest, too_long};

/// Lessons of a file. A school year has some two hundred days.
const LESSONS: usize = 5_000;

/// Entries of a list of a lesson: some teach all their sight words in one.
const ENTRIES: usize = 1_000;

/// Ages of the oldest children of a scope.
const YOUNGEST: u8 = 5;
const OLDEST: u8 = 8;

/// Patterns of a file, taught and reviewed: the catalogue has some six hundred.
const PATTERNS: usize = 10_000;

/// The longest title, in characters: each report has it.
const TITLE: usize = 1_000;

/// Faults that are told with what was probably meant, which takes time: more than anybody reads.
const WITH_HINTS: usize = 100;

/// The number of the next scope.
static SERIAL: AtomicU64 = AtomicU64::new(0);

pub(super) fn next_serial() -> u64 {
    SERIAL.fetch_add(1, Ordering::Relaxed)
}

struct Compiler<'a> {
    reader: &'a Reader,
    outline: Outline,
    named: NamedPatterns,
    sight: HashMap<String, LessonIndex>,
    skills: [Option<LessonIndex>; Skill::ALL.len()],
    lessons: Vec<Lesson>,
    /// The places of the lessons by their ids.
    ids: HashMap<String, usize>,
    faults: Vec<Fault>,
    /// Whether patterns that are the same in the accent are no faults.
    lenient: bool,
}

pub(super) fn compile(mut file: ScopeFile, outline: Outline, reader: &Reader) -> Result<Scope, Vec<Fault>> {
    let mut compiler = Compiler {
        reader,
        outline,
        named: NamedPatterns::default(),
        sight: HashMap::new(),
        skills: [None; Skill::ALL.len()],
        lessons: Vec::new(),
        ids: HashMap::new(),
        faults: Vec::new(),
        lenient: false,
    };
    if let Some(fault) = compiler.too_much(&file) {
        return Err(vec![fault]);
    }
    let accent = match file.accent.as_deref().map(Accent::named) {
        // A scope written for one accent is read in another: patterns may fall together there.
        None => {
            compiler.lenient = reader.accent().is_british();
            reader.accent()
        }
        Some(Some(accent)) => accent,
        Some(None) => return Err(vec![compiler.unknown_accent(file.accent.as_deref().unwrap_or_default())]),
    };
    compiler.reader = reader.in_accent(accent);
    let keeps_weak_r = compiler.keeps_weak_r(&file);
    if keeps_weak_r {
        compiler.reader = reader.with_weak_r();
    }
    let age = compiler.age(file.age);
    let pronounce = std::mem::take(&mut file.pronounce);
    for (number, lesson) in file.lessons.into_iter().enumerate() {
        compiler.lesson(number, lesson);
    }
    let pronounced = compiler.pronounced(&pronounce);
    compiler.check_bare();
    compiler.check_reviews();
    if !compiler.faults.is_empty() {
        compiler.faults.sort_by_key(|fault| fault.position);
        return Err(compiler.faults);
    }
    let schwa = compiler.skills[Skill::Schwa as usize].into();
    Ok(Scope {
        serial: next_serial(),
        title: file.title.unwrap_or_else(|| "Untitled scope".to_owned()),
        accent,
        keeps_weak_r,
        pronounced,
        age,
        about: file.about,
        source: file.source,
        lessons: compiler.lessons,
        table: Table::new(&compiler.named, schwa, accent),
        sight: compiler.sight,
        skills: compiler.skills,
    })
}

impl Compiler<'_> {
    fn fault(&mut self, lesson: usize, key: &str, number: usize, message: &str) {
        let position = self.outline.position(&["lessons", &lesson.to_string(), key, &number.to_string()]);
        self.faults.push(Fault::new(position, message));
    }

    fn unknown_accent(&self, written: &str) -> Fault {
        let names = Accent::ALL.map(Accent::name);
        let near =
            nearest(written, names.into_iter()).map_or_else(String::new, |near| format!("did you mean {near}? "));
        let message = format!("there is no accent {}; {near}the accents are {}", excerpt(written), names.join(", "));
        Fault::new(self.outline.position(&["accent"]), &message)
    }

    /// What makes the file too large to be read.
    fn too_much(&self, file: &ScopeFile) -> Option<Fault> {
        let fault = |what: usize, name: &str, most: usize| {
            let message = format!("a scope file has at most {} {name}, not {}", thousands(most), thousands(what));
            Some(Fault::new(self.outline.position(&["lessons"]), &message))
        };
        let patterns = file.lessons.iter().map(|lesson| lesson.teach.len() + lesson.review.len()).sum();
        if file.lessons.len() > LESSONS {
            return fault(file.lessons.len(), "lessons", LESSONS);
        }
        let lists = file.lessons.iter().enumerate().find_map(|(number, lesson)| {
            let number = number.to_string();
            let lists = [
                ("teach", &lesson.teach),
                ("sight", &lesson.sight),
                ("skills", &lesson.skills),
                ("review", &lesson.review),
            ];
            lists.iter().find_map(|(key, list)| bounded(list, ENTRIES, &["lessons", &number, key], &self.outline))
        });
        let is_long = |title: &Option<String>| title.as_ref().is_some_and(|title| title.chars().nth(TITLE).is_some());
        let long = |path: &[&str]| {
            let message = format!("this title has more than {} characters", thousands(TITLE));
            Some(Fault::new(self.outline.position(path), &message))
        };
        if is_long(&file.title) {
            return long(&["title"]);
        }
        if let Some(number) = file.lessons.iter().position(|lesson| is_long(&lesson.title)) {
            return long(&["lessons", &number.to_string(), "title"]);
        }
        lists.or_else(|| if patterns > PATTERNS { fault(patterns, "patterns", PATTERNS) } else { None })
    }

    /// Whether an American scope teaches `er as in sister` apart from `er as in her`: it names both, or such a pair for another spelling.
    fn keeps_weak_r(&self, file: &ScopeFile) -> bool {
        if self.reader.accent().is_british() {
            return false;
        }
        let reader = self.reader.with_weak_r();
        let named: Vec<CorrespondenceId> = file
            .lessons
            .iter()
            .flat_map(|lesson| &lesson.teach)
            .filter(|text| text.contains("r as in "))
            .filter_map(|text| match Pattern::read(text, reader, false) {
                Ok(Pattern::One(id, _)) => Some(id),
                _ => None,
            })
            .collect();
        named.iter().any(|id| full_r_of_weak(*id).is_some_and(|full| named.contains(&full)))
    }

    /// The age of the oldest children.
    fn age(&mut self, written: Option<u8>) -> u8 {
        let age = written.unwrap_or(OLDEST);
        if !(YOUNGEST..=OLDEST).contains(&age) {
            let message = format!("`age` is that of the oldest children the scope is for, from {YOUNGEST} to {OLDEST}");
            self.faults.push(Fault::new(self.outline.position(&["age"]), &message));
        }
        age
    }

    /// The readings that the file gives for names and local words.
    fn pronounced(&mut self, given: &BTreeMap<String, String>) -> HashMap<String, Reading> {
        let mut found = HashMap::new();
        for (written, cutting) in given {
            let position = self.outline.position(&["pronounce", written]);
            let read = if given.len() > ENTRIES {
                Err(format!("`pronounce` may have {} words", thousands(ENTRIES)))
            } else {
                pronounce::entry(written, cutting, self.reader.accent())
            };
            match read {
                Ok((word, reading)) => drop(found.insert(word, reading)),
                Err(message) => self.faults.push(Fault::new(position, &message)),
            }
            if given.len() > ENTRIES {
                break;
            }
        }
        found
    }

    /// How a pattern with a key word is the same as one with another key word.
    fn same_sound(&self, pattern: &Pattern) -> Option<String> {
        let Pattern::One(id, label) = pattern else { return None };
        let earlier = self.named.one.iter().find(|(known, ..)| known == id).map(|(_, earlier, _)| earlier)?;
        let accent = self.reader.accent();
        let ipa = id.get().sound.get().ipa(accent);
        (earlier != label).then(|| format!("has the same sound in {accent}, /{ipa}/, as `{earlier}`"))
    }

    /// Reads a pattern, with what was probably meant where that may still be read.
    fn pattern(&self, text: &str) -> Result<Pattern, String> {
        Pattern::read(text, self.reader, self.faults.len() < WITH_HINTS)
    }

    fn lesson(&mut self, number: usize, entry: LessonEntry) {
        let Some(index) = LessonIndex::new(number) else { return };
        let id = entry.id.map_or_else(|| (number + 1).to_string(), |id| id.to_string());
        let position = self.outline.position(&["lessons", &number.to_string(), "id"]);
        if id.trim().is_empty() {
            self.faults.push(Fault::new(position, "the id of this lesson is empty"));
        }
        if let Some(message) = too_long(&id) {
            self.faults.push(Fault::new(position, &message));
        }
        if let Some(earlier) = self.ids.get(&id) {
            let message = format!("two lessons have the id {id}: the first is lesson {} of the list", earlier + 1);
            self.faults.push(Fault::new(position, &message));
        } else {
            self.ids.insert(id.clone(), number);
        }
        let mut lesson = Lesson {
            id,
            title: entry.title.unwrap_or_default(),
            patterns: Vec::new(),
            sight: Vec::new(),
            skills: Vec::new(),
            review: entry.review,
            review_patterns: Vec::new(),
        };
        for (at, text) in entry.teach.iter().enumerate() {
            match self.pattern(text) {
                Err(message) => self.fault(number, "teach", at, &message),
                Ok(pattern) => {
                    if let Some(earlier) = self.named.earlier(&pattern) {
                        if self.lenient {
                            continue;
                        }
                        let id = self.lessons.get(earlier.get()).map_or(&lesson.id, |lesson| &lesson.id);
                        let message = match self.same_sound(&pattern) {
                            Some(same) => format!("`{text}` {same}, which lesson {id} teaches already"),
                            None => format!("`{text}` is taught twice: lesson {id} teaches it already"),
                        };
                        self.fault(number, "teach", at, &message);
                        continue;
                    }
                    self.named.add(pattern.clone(), When::at(index));
                    lesson.patterns.push(pattern);
                }
            }
        }
        for (at, text) in entry.sight.iter().enumerate() {
            let word = crate::fold_word(text);
            // *merry-go-round* is judged part by part: so it is taught.
            for part in word.split('-').filter(|part| part.len() < word.len() && !part.is_empty()) {
                self.sight.entry(part.to_owned()).or_insert(index);
            }
            if word.is_empty() || !word.bytes().all(|b| b.is_ascii_lowercase() || b == b'\'' || b == b'-') {
                self.fault(number, "sight", at, &format!("`{text}` is not a word"));
            } else if let Some(earlier) = self.sight.get(&word) {
                let id = self.lessons.get(earlier.get()).map_or(&lesson.id, |lesson| &lesson.id);
                let message = format!("the sight word {text} is taught twice: lesson {id} teaches it already");
                self.fault(number, "sight", at, &message);
            } else {
                self.sight.insert(word, index);
                lesson.sight.push(text.clone());
            }
        }
        for (at, text) in entry.skills.iter().enumerate() {
            match Skill::named(text) {
                Some(skill) if self.skills[skill as usize].is_none() => {
                    self.skills[skill as usize] = Some(index);
                    lesson.skills.push(skill);
                }
                Some(_) => self.fault(number, "skills", at, &format!("the skill {text} is taught twice")),
                None => {
                    let all: Vec<&str> = Skill::ALL.into_iter().map(Skill::name).collect();
                    let near = nearest(text, all.iter().copied()).filter(|_| self.faults.len() < WITH_HINTS);
                    let near = near.map_or_else(String::new, |near| format!("did you mean {near}? "));
                    let message = format!("there is no skill {text}; {near}the skills are {}", all.join(", "));
                    self.fault(number, "skills", at, &message);
                }
            }
        }
        self.lessons.push(lesson);
    }

    /// A bare spelling all of whose sounds are named elsewhere teaches nothing.
    fn check_bare(&mut self) {
        if self.lenient {
            return;
        }
        for (spelling, lesson) in self.named.bare.clone() {
            if everyday(spelling).all(|id| self.named.names(id)) {
                let number = lesson.lesson().map_or(0, LessonIndex::get);
                let at = self.lessons[number].patterns.iter().position(|p| *p == Pattern::Bare(spelling));
                let message = format!(
                    "`{spelling}` teaches nothing here: each of its everyday sounds is named on its own elsewhere in the file"
                );
                self.fault(number, "teach", at.unwrap_or(0), &message);
            }
        }
    }

    fn check_reviews(&mut self) {
        for number in 0..self.lessons.len() {
            for at in 0..self.lessons[number].review.len() {
                let text = self.lessons[number].review[at].clone();
                match self.pattern(&text) {
                    Err(message) => self.fault(number, "review", at, &message),
                    Ok(pattern) => {
                        if self.named.earlier(&pattern).is_none_or(|earlier| earlier.get() >= number) {
                            let message = format!("`{text}` is to be practised again but no lesson before teaches it");
                            self.fault(number, "review", at, &message);
                        } else {
                            self.lessons[number].review_patterns.push(pattern);
                        }
                    }
                }
            }
        }
    }
}
