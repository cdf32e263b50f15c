//! From the file to "the earliest lesson of every pattern".

use std::collections::HashMap;

use untaught_phonics::{CORRESPONDENCES, CorrespondenceId, Grade, SoundId, SoundKind, spelled};

use super::file::{LessonEntry, ScopeFile};
use super::{Lesson, NEVER, Pattern, Place, Run, Scope, Skill};
use crate::Reader;
use crate::say::thousands;
use crate::yaml::{Fault, Outline, bounded, nearest, too_long};

/// Lessons of a file. A school year has some two hundred days.
const LESSONS: usize = 5_000;

/// Entries of a list of a lesson: some teach all their sight words in one.
const ENTRIES: usize = 1_000;

/// Patterns of a file, taught and reviewed: the catalogue has some six hundred.
const PATTERNS: usize = 10_000;

/// The longest title, in characters: each report has it.
const TITLE: usize = 1_000;

/// Faults that are told with what was probably meant, which takes time: more than anybody reads.
const WITH_HINTS: usize = 100;

/// The earliest lesson of every pattern.
#[derive(Debug)]
pub(crate) struct Table {
    /// By correspondence.
    lessons: Vec<Place>,
    /// By correspondence: the lesson at which it counts in an unstressed syllable of a longer word.
    weak: Vec<Place>,
    /// By correspondence: the lesson once the e of its spelling stands in a split spelling before it (`g` in *age*: `ge`).
    after_split: Vec<Place>,
    /// By correspondence: the lesson once an ending has taken its e (`o_e` in *hoping*: `o as in go` does too).
    e_dropped: Vec<Place>,
    /// Runs, with their lessons.
    runs: Vec<(Run, Place)>,
    /// By correspondence: the runs that begin with it.
    runs_from: Vec<Vec<u16>>,
    /// What the file calls a correspondence, where it gives a key word of its own.
    labels: Vec<(CorrespondenceId, String)>,
}

impl Table {
    pub(crate) fn lesson(&self, id: CorrespondenceId) -> Place {
        self.lessons[id.index()]
    }

    pub(crate) fn weak(&self, id: CorrespondenceId) -> Place {
        self.weak[id.index()]
    }

    pub(crate) fn after_split(&self, id: CorrespondenceId) -> Place {
        self.after_split[id.index()]
    }

    pub(crate) fn e_dropped(&self, id: CorrespondenceId) -> Place {
        self.e_dropped[id.index()]
    }

    /// The correspondences in runs taught by a lesson.
    pub(crate) fn ids_of_runs(&self, at: Place) -> impl Iterator<Item = CorrespondenceId> {
        let taught = self.runs.iter().filter(move |(_, lesson)| *lesson <= at);
        taught.flat_map(|(run, _)| run.parts.iter().flatten().copied())
    }

    /// The runs that begin with a correspondence: number, alternatives, lesson.
    pub(crate) fn runs_from(&self, id: CorrespondenceId) -> impl Iterator<Item = (usize, &Run, Place)> {
        self.runs_from[id.index()].iter().map(|number| {
            let (run, lesson) = &self.runs[usize::from(*number)];
            (usize::from(*number), run, *lesson)
        })
    }

    /// Whether the file names a correspondence on its own.
    pub(crate) fn is_named(&self, id: CorrespondenceId) -> bool {
        self.labels.iter().any(|(known, _)| *known == id)
    }

    /// The endings and beginnings that the file names, with their lessons.
    pub(crate) fn affixes(&self) -> impl Iterator<Item = (&Run, Place)> {
        self.runs.iter().filter(|(run, _)| run.start != run.end).map(|(run, lesson)| (run, *lesson))
    }

    /// What a correspondence is called: by the file's own key word, if it gives one.
    pub(crate) fn label(&self, id: CorrespondenceId) -> String {
        let own = self.labels.iter().find(|(known, _)| *known == id);
        own.map_or_else(|| super::scope_label(id), |(_, label)| label.clone())
    }

    pub(crate) fn run(&self, number: usize) -> &Run {
        &self.runs[number].0
    }

    fn new(named: &Named, schwa: Place) -> Table {
        let mut lessons = vec![NEVER; CORRESPONDENCES.len()];
        for (id, _, lesson) in &named.one {
            lessons[id.index()] = *lesson;
        }
        for (spelling, lesson) in &named.bare {
            for id in everyday(spelling).filter(|id| !named.names(*id)) {
                lessons[id.index()] = *lesson;
            }
        }
        // The part `ed` is nothing but that ending, even where the base is not known: *panicked*, *unwanted*, *supposedly*.
        for (run, lesson) in named.runs.iter().filter(|(run, _)| run.affix().is_some_and(|affix| affix.letters == "ed"))
        {
            for id in run.parts.iter().filter_map(|parts| <[_; 1]>::try_from(parts.as_slice()).ok()).map(|[id]| id) {
                lessons[id.index()] = lessons[id.index()].min(*lesson);
            }
        }
        // A doubled consonant is covered by its single, unless the file names the double; so is a syllabic m or n by the plain one.
        for id in CorrespondenceId::all() {
            let part = id.get();
            let is_named = || named.spellings().any(|spelling| spelling == part.spelling);
            if let Some(single) = part.undoubled().filter(|_| !is_named()) {
                let single = CorrespondenceId::find(single, part.sound);
                lessons[id.index()] = single.map_or(NEVER, |single| lessons[single.index()]);
            }
            if let Some(plain) = plain_of_syllabic(id)
                && !named.names(id)
            {
                lessons[id.index()] = lessons[id.index()].min(lessons[plain.index()]);
            }
        }
        // *gadget* is read with the `dge` of *badge*, whose e is at work in it as another vowel.
        let find = |spelling: &str| CorrespondenceId::find(spelling, SoundId::named("JH")?);
        if let (Some(dg), Some(dge)) = (find("dg").filter(|id| !named.names(*id)), find("dge")) {
            lessons[dg.index()] = lessons[dg.index()].min(lessons[dge.index()]);
        }
        let twin = |twin: Option<CorrespondenceId>| twin.map_or(NEVER, |twin| lessons[twin.index()]);
        let weak = CorrespondenceId::all().map(|id| match short_of_weak(id) {
            Some(short) if !named.names(id) => {
                let short = lessons[short.index()];
                // Once the skill is named, a schwa waits for it.
                if schwa == NEVER { short } else { short.max(schwa) }
            }
            _ => lessons[id.index()],
        });
        let weak = weak.collect();
        let after_split = CorrespondenceId::all().map(|id| lessons[id.index()].min(twin(with_e(id)))).collect();
        let e_dropped = CorrespondenceId::all()
            .map(|id| match id.get().spelling {
                // The l of *giggling* is still the `le` of *giggle*.
                "le" => lessons[id.index()],
                _ => lessons[id.index()].min(lessons[id.without_e().index()]),
            })
            .collect();
        let mut runs_from = vec![Vec::new(); CORRESPONDENCES.len()];
        for (number, (run, _)) in (0u16..).zip(&named.runs) {
            for parts in &run.parts {
                let from: &mut Vec<u16> = &mut runs_from[parts[0].index()];
                if !from.contains(&number) {
                    from.push(number);
                }
            }
        }
        let labels = named.one.iter().map(|(id, label, _)| (*id, label.clone())).collect();
        Table { lessons, weak, after_split, e_dropped, runs: named.runs.clone(), runs_from, labels }
    }
}

fn everyday(spelling: &str) -> impl Iterator<Item = CorrespondenceId> {
    spelled(spelling).filter(|id| id.get().grade == Grade::Everyday)
}

/// `m` of *prism*, `n` of *didn't*, `s` of *church's*: their plain consonants.
fn plain_of_syllabic(id: CorrespondenceId) -> Option<CorrespondenceId> {
    let part = id.get();
    let consonant = matches!(part.spelling, "m" | "n" | "l" | "d" | "s") && part.sound.get().kind == SoundKind::Weak;
    let plain = part.sound.get().name.strip_prefix("AX ").filter(|_| consonant)?;
    CorrespondenceId::find(part.spelling, SoundId::named(plain)?)
}

/// The short sound of a vowel letter that spells a schwa.
fn short_of_weak(id: CorrespondenceId) -> Option<CorrespondenceId> {
    let part = id.get();
    if part.sound.get().name != "AX" || part.spelling.len() != 1 {
        return None;
    }
    let short = match part.spelling {
        "a" => "AE",
        "e" => "EH",
        "i" | "y" => "IH",
        "o" => "AA",
        "u" => "AH",
        _ => return None,
    };
    CorrespondenceId::find(part.spelling, SoundId::named(short)?)
}

/// `ge` for `g`, with the same sound.
fn with_e(id: CorrespondenceId) -> Option<CorrespondenceId> {
    let part = id.get();
    matches!(part.spelling, "c" | "g" | "s" | "z" | "v" | "th")
        .then(|| CorrespondenceId::find(&format!("{}e", part.spelling), part.sound))
        .flatten()
}

/// Everything that the file names, with lessons.
#[derive(Default)]
struct Named {
    one: Vec<(CorrespondenceId, String, Place)>,
    bare: Vec<(&'static str, Place)>,
    runs: Vec<(Run, Place)>,
    /// The lesson of each run, by what it is made of and where it stands.
    known_runs: HashMap<RunKey, Place>,
}

type RunKey = (Vec<Vec<CorrespondenceId>>, bool, bool);

fn key(run: &Run) -> RunKey {
    (run.parts.clone(), run.start, run.end)
}

impl Named {
    /// Whether the file names this correspondence on its own.
    fn names(&self, id: CorrespondenceId) -> bool {
        self.one.iter().any(|(one, ..)| *one == id)
    }

    fn spellings(&self) -> impl Iterator<Item = &str> {
        self.one.iter().map(|(id, ..)| id.get().spelling).chain(self.bare.iter().map(|(spelling, _)| *spelling))
    }

    /// The lesson that named the same pattern before.
    fn earlier(&self, pattern: &Pattern) -> Option<Place> {
        match pattern {
            Pattern::Bare(spelling) => self.bare.iter().find(|(known, _)| known == spelling).map(|(_, lesson)| *lesson),
            Pattern::One(id, _) => self.one.iter().find(|(known, ..)| known == id).map(|(.., lesson)| *lesson),
            Pattern::Run(run) => self.known_runs.get(&key(run)).copied(),
        }
    }

    fn add(&mut self, pattern: Pattern, lesson: Place) {
        match pattern {
            Pattern::Bare(spelling) => self.bare.push((spelling, lesson)),
            Pattern::One(id, label) => self.one.push((id, label, lesson)),
            Pattern::Run(run) => {
                self.known_runs.insert(key(&run), lesson);
                self.runs.push((run, lesson));
            }
        }
    }
}

struct Compiler<'a> {
    reader: &'a Reader,
    outline: Outline,
    named: Named,
    sight: HashMap<String, Place>,
    skills: [Place; Skill::ALL.len()],
    lessons: Vec<Lesson>,
    /// The places of the lessons by their ids.
    ids: HashMap<String, usize>,
    faults: Vec<Fault>,
}

pub(super) fn compile(file: ScopeFile, outline: Outline, reader: &Reader) -> Result<Scope, Vec<Fault>> {
    let mut compiler = Compiler {
        reader,
        outline,
        named: Named::default(),
        sight: HashMap::new(),
        skills: [NEVER; Skill::ALL.len()],
        lessons: Vec::new(),
        ids: HashMap::new(),
        faults: Vec::new(),
    };
    if let Some(fault) = compiler.too_much(&file) {
        return Err(vec![fault]);
    }
    for (number, lesson) in file.lessons.into_iter().enumerate() {
        compiler.lesson(number, lesson);
    }
    compiler.check_bare();
    compiler.check_reviews();
    if !compiler.faults.is_empty() {
        compiler.faults.sort_by_key(|fault| fault.position);
        return Err(compiler.faults);
    }
    let schwa = compiler.skills[Skill::Schwa as usize];
    Ok(Scope {
        title: file.title.unwrap_or_else(|| "Untitled scope".to_owned()),
        about: file.about,
        source: file.source,
        lessons: compiler.lessons,
        table: Table::new(&compiler.named, schwa),
        sight: compiler.sight,
        skills: compiler.skills,
    })
}

impl Compiler<'_> {
    fn fault(&mut self, lesson: usize, key: &str, number: usize, message: &str) {
        let position = self.outline.position(&["lessons", &lesson.to_string(), key, &number.to_string()]);
        self.faults.push(Fault::new(position, message));
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

    /// Reads a pattern, with what was probably meant where that may still be read.
    fn pattern(&self, text: &str) -> Result<Pattern, String> {
        Pattern::read(text, self.reader, self.faults.len() < WITH_HINTS)
    }

    fn lesson(&mut self, number: usize, entry: LessonEntry) {
        let place = number as Place;
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
                        let id = self.lessons.get(usize::from(earlier)).map_or(&lesson.id, |lesson| &lesson.id);
                        let message = format!("`{text}` is taught twice: lesson {id} teaches it already");
                        self.fault(number, "teach", at, &message);
                        continue;
                    }
                    self.named.add(pattern.clone(), place);
                    lesson.patterns.push(pattern);
                }
            }
        }
        for (at, text) in entry.sight.iter().enumerate() {
            let word = crate::fold_word(text);
            // *merry-go-round* is judged part by part: so it is taught.
            for part in word.split('-').filter(|part| part.len() < word.len() && !part.is_empty()) {
                self.sight.entry(part.to_owned()).or_insert(place);
            }
            if word.is_empty() || !word.bytes().all(|b| b.is_ascii_lowercase() || b == b'\'' || b == b'-') {
                self.fault(number, "sight", at, &format!("`{text}` is not a word"));
            } else if let Some(earlier) = self.sight.get(&word) {
                let id = self.lessons.get(usize::from(*earlier)).map_or(&lesson.id, |lesson| &lesson.id);
                let message = format!("the sight word {text} is taught twice: lesson {id} teaches it already");
                self.fault(number, "sight", at, &message);
            } else {
                self.sight.insert(word, place);
                lesson.sight.push(text.clone());
            }
        }
        for (at, text) in entry.skills.iter().enumerate() {
            match Skill::named(text) {
                Some(skill) if self.skills[skill as usize] == NEVER => {
                    self.skills[skill as usize] = place;
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
        for (spelling, place) in self.named.bare.clone() {
            if everyday(spelling).all(|id| self.named.names(id)) {
                let number = usize::from(place);
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
                        if self.named.earlier(&pattern).is_none_or(|earlier| usize::from(earlier) >= number) {
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
