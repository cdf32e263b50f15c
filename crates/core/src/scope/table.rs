//! The earliest lesson of every pattern of a scope, by correspondence and by chunk.

use std::collections::HashMap;

use untaught_phonics::formation::AffixId;
use untaught_phonics::formation::affixes::ED;
use untaught_phonics::{Accent, CORRESPONDENCES, CorrespondenceId, Grade, SoundId, SoundKind, spelled};

use super::{Chunk, ChunkId, LessonIndex, Pattern, When};

/// The earliest lesson of every pattern.
#[derive(Clone, Debug)]
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

    pub(super) fn new(named: &NamedPatterns, schwa: When, accent: Accent) -> Table {
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
            // American scopes that keep *sister* apart from *her* do so only for the spellings that they name.
            if let Some(full) = full_r_of_weak(id).filter(|_| !accent.is_british() && !named.names(id)) {
                lessons[id.index()] = lessons[id.index()].min(lessons[full.index()]);
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

pub(super) fn everyday(spelling: &str) -> impl Iterator<Item = CorrespondenceId> {
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

/// `er` of *her* for `er` of *sister*, `or` of *word* for `or` of *doctor*.
pub(super) fn full_r_of_weak(id: CorrespondenceId) -> Option<CorrespondenceId> {
    let part = id.get();
    let is_weak = part.sound.get().name == "AX R";
    is_weak.then(|| CorrespondenceId::find(part.spelling, SoundId::named("ER")?)).flatten()
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
pub(super) struct NamedPatterns {
    pub(super) one: Vec<(CorrespondenceId, String, When)>,
    pub(super) bare: Vec<(&'static str, When)>,
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
    pub(super) fn names(&self, id: CorrespondenceId) -> bool {
        self.one.iter().any(|(one, ..)| *one == id)
    }

    fn spellings(&self) -> impl Iterator<Item = &str> {
        self.one.iter().map(|(id, ..)| id.get().spelling).chain(self.bare.iter().map(|(spelling, _)| *spelling))
    }

    /// The lesson that named the same pattern before.
    pub(super) fn earlier(&self, pattern: &Pattern) -> Option<LessonIndex> {
        let lesson = match pattern {
            Pattern::Bare(spelling) => self.bare.iter().find(|(known, _)| known == spelling).map(|(_, lesson)| *lesson),
            Pattern::One(id, _) => self.one.iter().find(|(known, ..)| known == id).map(|(.., lesson)| *lesson),
            Pattern::Chunk(chunk) => self.known_chunks.get(&key(chunk)).copied(),
            Pattern::Skill(_) => None,
        };
        lesson.and_then(When::lesson)
    }

    pub(super) fn add(&mut self, pattern: Pattern, lesson: When) {
        match pattern {
            Pattern::Bare(spelling) => self.bare.push((spelling, lesson)),
            Pattern::One(id, label) => self.one.push((id, label, lesson)),
            Pattern::Chunk(chunk) => {
                self.known_chunks.insert(key(&chunk), lesson);
                self.chunks.push((chunk, lesson));
            }
            // Skills have a table of their own.
            Pattern::Skill(_) => {}
        }
    }
}
