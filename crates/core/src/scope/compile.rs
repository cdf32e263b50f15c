//! From the file to "the earliest lesson of every pattern".

use std::collections::HashMap;
use std::sync::atomic::{AtomicU64, Ordering};

use untaught_phonics::formation::AffixId;
use untaught_phonics::formation::affixes::ED;
use untaught_phonics::{Accent, CORRESPONDENCES, CorrespondenceId, Grade, SoundId, SoundKind, spelled};

use super::file::{LessonEntry, ScopeFile};
use super::{Chunk, ChunkId, Lesson, LessonIndex, Pattern, Scope, Skill, When};
use crate::Reader;
use crate::wording::{excerpt, thousands};
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
    lessons: Vec<When>,
    /// By correspondence: the lesson at which it counts in an unstressed syllable of a longer word.
    weak: Vec<When>,
    /// By correspondence: the lesson once the e of its spelling stands in a split spelling before it (`g` in *age*: `ge`).
    after_split: Vec<When>,
    /// By correspondence: the lesson once an ending has taken its e (`o_e` in *hoping*: `o as in go` does too).
    e_dropped: Vec<When>,
    /// Chunks, with their lessons.
    chunks: Vec<(Chunk, When)>,
    /// By correspondence: the chunks that begin with it.
    chunks_from: Vec<Vec<ChunkId>>,
    /// What the file calls a correspondence, where it gives a key word of its own.
    labels: HashMap<CorrespondenceId, String>,
    /// The endings and beginnings among the chunks.
    affixes: Vec<(ChunkId, AffixId, When)>,
}

impl Table {
    pub(crate) fn lesson(&self, id: CorrespondenceId) -> When {
        self.lessons[id.index()]
    }

    pub(crate) fn weak(&self, id: CorrespondenceId) -> When {
        self.weak[id.index()]
    }

    pub(crate) fn after_split(&self, id: CorrespondenceId) -> When {
        self.after_split[id.index()]
    }

    pub(crate) fn e_dropped(&self, id: CorrespondenceId) -> When {
        self.e_dropped[id.index()]
    }

    /// The correspondences in chunks taught by a lesson.
    pub(crate) fn ids_of_chunks(&self, at: LessonIndex) -> impl Iterator<Item = CorrespondenceId> {
        let taught = self.chunks.iter().filter(move |(_, lesson)| lesson.by(at));
        taught.flat_map(|(chunk, _)| chunk.runs.iter().flatten().copied())
    }

    /// The chunks that begin with a correspondence, with their lessons.
    pub(crate) fn chunks_from(&self, id: CorrespondenceId) -> impl Iterator<Item = (ChunkId, When)> {
        self.chunks_from[id.index()].iter().map(|number| (*number, self.chunks[number.index()].1))
    }

    /// Whether the file names a correspondence on its own.
    pub(crate) fn is_named(&self, id: CorrespondenceId) -> bool {
        self.labels.contains_key(&id)
    }

    /// The endings and beginnings that the file names, with their lessons.
    pub(crate) fn affixes(&self) -> impl Iterator<Item = (ChunkId, AffixId, When)> {
        self.affixes.iter().copied()
    }

    /// What the file calls a correspondence, where it gives a key word of its own.
    pub(crate) fn label(&self, id: CorrespondenceId) -> Option<&str> {
        self.labels.get(&id).map(String::as_str)
    }

    pub(crate) fn chunk(&self, id: ChunkId) -> &Chunk {
        &self.chunks[id.index()].0
    }

    fn new(named: &NamedPatterns, schwa: When, accent: Accent) -> Table {
        let mut lessons = vec![When::NEVER; CORRESPONDENCES.len()];
        for (id, _, lesson) in &named.one {
            lessons[id.index()] = *lesson;
        }
        for (spelling, lesson) in &named.bare {
            for id in everyday(spelling).filter(|id| !named.names(*id)) {
                lessons[id.index()] = *lesson;
            }
        }
        // The part `ed` is nothing but that ending, even where the base is not known: *panicked*, *unwanted*, *supposedly*.
        for (chunk, lesson) in named.chunks.iter().filter(|(chunk, _)| chunk.affix == Some(ED)) {
            for id in chunk.runs.iter().filter_map(|run| <[_; 1]>::try_from(run.as_slice()).ok()).map(|[id]| id) {
                lessons[id.index()] = lessons[id.index()].min(*lesson);
            }
        }
        // A doubled consonant is covered by its single, unless the file names the double; so is a syllabic m or n by the plain one.
        for id in CorrespondenceId::all() {
            let part = id.get();
            let is_named = || named.spellings().any(|spelling| spelling == part.spelling);
            if let Some(single) = part.undoubled().filter(|_| !is_named()) {
                let single = CorrespondenceId::find(single, part.sound);
                lessons[id.index()] = single.map_or(When::NEVER, |single| lessons[single.index()]);
            }
            if let Some(plain) = plain_of_syllabic(id).or_else(|| plain_of_mute_e(id)).or_else(|| full_of_short(id))
                && !named.names(id)
            {
                lessons[id.index()] = lessons[id.index()].min(lessons[plain.index()]);
            }
        }
        // *fire* and *wire* are read with the `i_e` of *five*, where no r is heard, until the file names `ire`.
        if accent.is_british() && !named.spellings().any(|spelling| spelling == "ire") {
            const IRE: CorrespondenceId = CorrespondenceId::known("ire", "AY R");
            const I_E: CorrespondenceId = CorrespondenceId::known("i_e", "AY");
            lessons[IRE.index()] = lessons[IRE.index()].min(lessons[I_E.index()]);
        }
        // *gadget* is read with the `dge` of *badge*, whose e is at work in it as another vowel.
        let find = |spelling: &str| CorrespondenceId::find(spelling, SoundId::named("JH")?);
        if let (Some(dg), Some(dge)) = (find("dg").filter(|id| !named.names(*id)), find("dge")) {
            lessons[dg.index()] = lessons[dg.index()].min(lessons[dge.index()]);
        }
        let twin = |twin: Option<CorrespondenceId>| twin.map_or(When::NEVER, |twin| lessons[twin.index()]);
        let weak = CorrespondenceId::all().map(|id| match short_of_weak(id) {
            Some(short) if !named.names(id) => {
                let short = lessons[short.index()];
                // Once the skill is named, a schwa waits for it.
                if schwa == When::NEVER { short } else { short.max(schwa) }
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
        let mut chunks_from = vec![Vec::new(); CORRESPONDENCES.len()];
        let mut affixes = Vec::new();
        for (id, (chunk, lesson)) in (0u16..).map(ChunkId).zip(&named.chunks) {
            for run in &chunk.runs {
                let from: &mut Vec<ChunkId> = &mut chunks_from[run[0].index()];
                if !from.contains(&id) {
                    from.push(id);
                }
            }
            affixes.extend(chunk.affix.map(|affix| (id, affix, *lesson)));
        }
        let labels = named.one.iter().map(|(id, label, _)| (*id, label.clone())).collect();
        Table { lessons, weak, after_split, e_dropped, chunks: named.chunks.clone(), chunks_from, labels, affixes }
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

/// `xe` of *axe*, `the` of *breathe*: the e is mute and changes nothing.
fn plain_of_mute_e(id: CorrespondenceId) -> Option<CorrespondenceId> {
    let part = id.get();
    let plain = matches!(part.spelling, "xe" | "the").then(|| part.spelling.strip_suffix('e')).flatten()?;
    CorrespondenceId::find(plain, part.sound)
}

/// `er` of *every*, `or` of *laboratory*: the vowel goes in running speech.
fn full_of_short(id: CorrespondenceId) -> Option<CorrespondenceId> {
    let part = id.get();
    let short = matches!(part.spelling, "er" | "or" | "ar") && part.sound.get().name == "R";
    short.then(|| CorrespondenceId::find(part.spelling, SoundId::named("ER")?)).flatten()
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
struct NamedPatterns {
    one: Vec<(CorrespondenceId, String, When)>,
    bare: Vec<(&'static str, When)>,
    chunks: Vec<(Chunk, When)>,
    /// The lesson of each chunk, by what it is made of and where it stands.
    known_chunks: HashMap<ChunkKey, When>,
}

type ChunkKey = (Vec<Vec<CorrespondenceId>>, bool, bool);

fn key(chunk: &Chunk) -> ChunkKey {
    (chunk.runs.clone(), chunk.start, chunk.end)
}

impl NamedPatterns {
    /// Whether the file names this correspondence on its own.
    fn names(&self, id: CorrespondenceId) -> bool {
        self.one.iter().any(|(one, ..)| *one == id)
    }

    fn spellings(&self) -> impl Iterator<Item = &str> {
        self.one.iter().map(|(id, ..)| id.get().spelling).chain(self.bare.iter().map(|(spelling, _)| *spelling))
    }

    /// The lesson that named the same pattern before.
    fn earlier(&self, pattern: &Pattern) -> Option<LessonIndex> {
        let lesson = match pattern {
            Pattern::Bare(spelling) => self.bare.iter().find(|(known, _)| known == spelling).map(|(_, lesson)| *lesson),
            Pattern::One(id, _) => self.one.iter().find(|(known, ..)| known == id).map(|(.., lesson)| *lesson),
            Pattern::Chunk(chunk) => self.known_chunks.get(&key(chunk)).copied(),
        };
        lesson.and_then(When::lesson)
    }

    fn add(&mut self, pattern: Pattern, lesson: When) {
        match pattern {
            Pattern::Bare(spelling) => self.bare.push((spelling, lesson)),
            Pattern::One(id, label) => self.one.push((id, label, lesson)),
            Pattern::Chunk(chunk) => {
                self.known_chunks.insert(key(&chunk), lesson);
                self.chunks.push((chunk, lesson));
            }
        }
    }
}

/// The number of the next scope.
static SERIAL: AtomicU64 = AtomicU64::new(0);

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

pub(super) fn compile(file: ScopeFile, outline: Outline, reader: &Reader) -> Result<Scope, Vec<Fault>> {
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
    for (number, lesson) in file.lessons.into_iter().enumerate() {
        compiler.lesson(number, lesson);
    }
    compiler.check_bare();
    compiler.check_reviews();
    if !compiler.faults.is_empty() {
        compiler.faults.sort_by_key(|fault| fault.position);
        return Err(compiler.faults);
    }
    let schwa = compiler.skills[Skill::Schwa as usize].into();
    Ok(Scope {
        serial: SERIAL.fetch_add(1, Ordering::Relaxed),
        title: file.title.unwrap_or_else(|| "Untitled scope".to_owned()),
        accent,
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
