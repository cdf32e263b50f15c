//! Finds the cheapest way to cover a reading with patterns: a bottleneck path. All verdicts are based on it.
//!
//! A pattern covers one or more adjacent parts. The cost of a cover is the latest lesson it uses. The earliest lesson of a
//! reading is the cost of its cheapest cover, but not earlier than the lesson of any skill or affix that the word requires.
//! The same relaxation runs with two costs: to find when a reading can first be covered ([`When`]), and how ([`Lessons`]: of
//! the covers possible by then, the one with the earliest lessons).

use untaught_phonics::formation::affixes::{ED, ES};
use untaught_phonics::formation::{AffixId, Change, Side};
use untaught_phonics::{CorrespondenceId, Formation, Part, Reading, SoundId};

use super::skills::{demands, skills_demanded};
use super::{Judge, Need, named_skills};
use crate::scope::{Chunk, ChunkId, When};
use crate::{LessonIndex, Skill, Word};

/// How patterns cover a reading.
#[derive(Debug)]
pub struct Cover {
    /// The patterns used, in the order of the parts.
    pub steps: Vec<CoverStep>,
    /// The required skills that the scope names, with their lessons.
    pub skills: Vec<(Skill, LessonIndex)>,
}

/// One pattern and the parts it covers.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct CoverStep {
    /// Number of parts covered.
    pub parts: usize,
    /// What is needed to read them, with the lesson that teaches it.
    pub need: Need,
}

impl CoverStep {
    fn when(&self) -> When {
        self.need.lesson().into()
    }
}

impl Cover {
    /// Returns each part of the reading with the step that covers it.
    pub fn parts<'c>(&'c self, reading: &'c Reading) -> impl Iterator<Item = (&'c Part, &'c CoverStep)> {
        let steps = self.steps.iter().flat_map(|step| std::iter::repeat_n(step, step.parts));
        reading.parts.iter().zip(steps)
    }
}

/// The cost of a partial cover.
trait Cost: Copy + Ord {
    /// Nothing covered yet.
    const START: Self;
    /// Not reached.
    const UNREACHED: Self;
    /// Adds one more pattern that covers `parts` parts.
    fn with(self, lesson: When, parts: usize) -> Self;
}

/// The bottleneck cost: the latest lesson used.
impl Cost for When {
    const START: When = When::FIRST;
    const UNREACHED: When = When::NEVER;

    fn with(self, lesson: When, _: usize) -> When {
        self.max(lesson)
    }
}

/// The lessons used, summed over the parts, then the number of patterns.
type Lessons = (u64, usize);

impl Cost for Lessons {
    const START: Lessons = (0, 0);
    const UNREACHED: Lessons = (u64::MAX, usize::MAX);

    fn with(self, lesson: When, parts: usize) -> Lessons {
        (self.0 + lesson.rank() * parts as u64, self.1 + 1)
    }
}

/// One way to continue from a part.
#[derive(Clone, Copy)]
enum CoverEdge {
    /// The part by itself.
    Part,
    /// A chunk of the scope.
    Chunk(ChunkId),
}

/// Number of parts that need no heap allocation.
const FEW: usize = 24;

impl Judge<'_> {
    /// The earliest lesson at which a reading can be read.
    pub(super) fn earliest(&self, word: &Word, reading: &Reading) -> When {
        // Few words have more parts than fit here.
        let (mut few, mut many);
        let best: &mut [When] = if reading.parts.len() < FEW {
            few = [When::NEVER; FEW];
            &mut few[..=reading.parts.len()]
        } else {
            many = vec![When::NEVER; reading.parts.len() + 1];
            &mut many
        };
        let covered = self.cheapest(word, reading, best, When::NEVER, |_, _, _, _| ());
        if covered == When::NEVER {
            return When::NEVER;
        }
        let covered = self.affixes(word, reading).map(|(_, lesson, _)| lesson).fold(covered, When::max);
        // A form is never easier than its base word.
        let covered = match self.form_of(word, reading) {
            Some(base) => covered.max(self.earliest(&base, &base.readings[0])),
            None => covered,
        };
        let skills = named_skills(self.scope).filter(|(skill, _)| *skill != Skill::Schwa);
        skills
            .map(|(skill, lesson)| (skill, When::at(lesson)))
            .filter(|(_, lesson)| *lesson > covered)
            .filter(|(skill, _)| demands(self.reader, &word.text, reading, *skill))
            .map(|(_, lesson)| lesson)
            .fold(covered, When::max)
    }

    /// Returns the base word, if this reading is a form that is never easier than it.
    pub(super) fn form_of(&self, word: &Word, reading: &Reading) -> Option<Word> {
        self.reader.base(&word.text, reading).filter(crate::word::Base::is_form).map(|base| base.word)
    }

    /// Returns the cover that decides when the reading can be read, with what each part needs. Slower than judging; for
    /// explanations.
    #[must_use]
    pub fn cover(&self, word: &Word, reading: &Reading) -> Cover {
        let length = reading.parts.len();
        let mut bottlenecks = vec![When::UNREACHED; length + 1];
        let limit = self.cheapest(word, reading, &mut bottlenecks, When::NEVER, |_, _, _, _| ());
        let mut costs = vec![Lessons::UNREACHED; length + 1];
        let mut reached: Vec<Option<(usize, CoverEdge, When)>> = vec![None; length + 1];
        self.cheapest(word, reading, &mut costs, limit, |from, to, edge, lesson| {
            reached[to] = Some((from, edge, lesson));
        });
        let mut steps = Vec::new();
        let mut at = length;
        while let Some((from, edge, lesson)) = reached[at].take() {
            let lesson = lesson.lesson();
            let need = match edge {
                CoverEdge::Part => self.part_need(word, reading, from, lesson),
                CoverEdge::Chunk(chunk) => Need::Chunk { chunk, lesson },
            };
            steps.push(CoverStep { parts: at - from, need });
            at = from;
        }
        steps.reverse();
        // A suffix that the file names is read as that suffix, however early its letters were taught.
        for (chunk, lesson, parts) in self.affixes(word, reading) {
            let step = CoverStep { parts, need: Need::Chunk { chunk, lesson: lesson.lesson() } };
            put_affix(&mut steps, &step, self.scope.chunk(chunk).start);
        }
        let demanded = skills_demanded(self.reader, word, reading);
        let skills = named_skills(self.scope).filter(|(skill, _)| demanded.contains(skill)).collect();
        Cover { steps, skills }
    }

    /// The relaxation: returns the cost of the cheapest cover that does not use a lesson after `limit`, with the cost up to
    /// each part in `best`. Calls `improved` for every better way to reach a part: from, to, how, and the lesson.
    fn cheapest<C: Cost>(
        &self,
        word: &Word,
        reading: &Reading,
        best: &mut [C],
        limit: When,
        mut improved: impl FnMut(usize, usize, CoverEdge, When),
    ) -> C {
        let parts = &reading.parts;
        let table = self.scope.table();
        best[0] = C::START;
        for at in 0..parts.len() {
            let reached = best[at];
            if reached == C::UNREACHED {
                continue;
            }
            let mut relax = |length: usize, edge: CoverEdge, lesson: When| {
                let cost = reached.with(lesson, length);
                if lesson <= limit && cost < best[at + length] {
                    best[at + length] = cost;
                    improved(at, at + length, edge, lesson);
                }
            };
            let Some(id) = parts[at].id() else {
                relax(1, CoverEdge::Part, self.part_lesson(word, reading, at));
                continue;
            };
            // *camel* waits for a named -el, although its letters are known and a weak vowel counts as the short one.
            let waits = table.chunks_from(id).any(|(chunk, _)| {
                let entry = self.scope.chunk(chunk);
                let last = |run: &&Vec<CorrespondenceId>| at + run.len() == parts.len() && fits(parts, at, run, entry);
                entry.is_weak_ending() && entry.runs.iter().any(|run| last(&run))
            });
            if !waits {
                relax(1, CoverEdge::Part, self.part_lesson(word, reading, at));
            }
            for (chunk, lesson) in table.chunks_from(id) {
                let entry = self.scope.chunk(chunk);
                for run in entry.runs.iter().filter(|run| fits(parts, at, run, entry)) {
                    // A suffix or prefix covers parts only if the word is formed with it: -s does not read *is*.
                    if entry.affix.is_none_or(|affix| self.reader.has_affix(&word.text, reading, affix)) {
                        relax(run.len(), CoverEdge::Chunk(chunk), lesson);
                    }
                }
            }
        }
        best[parts.len()]
    }

    /// The suffixes and prefixes of a reading that the scope names, with their lessons and numbers of parts. Naming them
    /// holds back the words formed with them.
    fn affixes<'j>(
        &'j self,
        word: &'j Word,
        reading: &'j Reading,
    ) -> impl Iterator<Item = (ChunkId, When, usize)> + 'j {
        self.scope.table().affixes().filter_map(move |(chunk, affix, lesson)| {
            let entry = self.scope.chunk(chunk);
            let parts = &reading.parts;
            let spelled = |run: &&Vec<CorrespondenceId>| {
                let n = run.len();
                let at = if entry.start { 0 } else { parts.len().saturating_sub(n) };
                parts.len() > n && (0..n).all(|k| stands_for(parts, at + k, run[k]))
            };
            let length = entry.runs.iter().find(spelled)?.len();
            self.reader.has_affix(&word.text, reading, affix).then_some((chunk, lesson, length))
        })
    }

    /// The lesson from which a part can be read in this reading.
    fn part_lesson(&self, word: &Word, reading: &Reading, at: usize) -> When {
        let parts = &reading.parts;
        let table = self.scope.table();
        let (id, e_dropped) = match &parts[at] {
            Part::Known { id, e_dropped } => (*id, *e_dropped),
            Part::Odd { .. } => return When::NEVER,
        };
        if e_dropped {
            return table.e_dropped(id);
        }
        if at + 1 == parts.len()
            && let Some(plain) = shortened(&word.text, id)
        {
            return table.lesson(id).min(table.lesson(plain));
        }
        if let Some(y) = changed_y(reading, at) {
            return table.weak(id).min(table.lesson(y));
        }
        let after_split = at > 0 && parts[at - 1].is_split() || at > 1 && parts[at - 2].is_split();
        // In *faces* and *nicest* the e of the ending stands where that of *face* and *nice* stood.
        let has_its_e = at > 0
            && matches!(parts[at - 1], Part::Known { e_dropped: true, .. })
            && parts.get(at + 1).is_some_and(|next| next.spelling().starts_with('e'));
        if (after_split || has_its_e) && !parts[at].is_vowel() {
            return table.after_split(id);
        }
        if reading.syllables() > 1 { table.weak(id) } else { table.lesson(id) }
    }

    /// What a part by itself needs.
    fn part_need(&self, word: &Word, reading: &Reading, at: usize, lesson: Option<LessonIndex>) -> Need {
        let part = &reading.parts[at];
        let Some(id) = part.id() else {
            // A word with a single odd part is an abbreviation or something else that cannot be sounded out.
            return match word.origin {
                crate::WordOrigin::Abbreviation => Need::Abbreviation,
                _ => Need::Irregular { letters: part.spelling().into() },
            };
        };
        match changed_y(reading, at) {
            Some(y) => Need::ChangedY { y, into: id, lesson },
            None => self.scope.need_of(id, &word.text, lesson),
        }
    }

    /// Finds the first parts in which two readings of a word differ, and returns what each needs.
    pub(crate) fn first_difference(&self, word: &Word, one: &Reading, other: &Reading) -> Option<[Need; 2]> {
        let at = one.parts.iter().zip(&other.parts).position(|(a, b)| a != b)?;
        let need = |reading: &Reading| {
            let mut end = 0;
            let steps = self.cover(word, reading).steps;
            let over = steps.into_iter().find(|step| {
                end += step.parts;
                at < end
            });
            over.map(|step| step.need)
        };
        Some([need(one)?, need(other)?])
    }
}

/// The y of the base that a suffix changed to i or ie: *happier*, *cried*, *cities*.
fn changed_y(reading: &Reading, at: usize) -> Option<CorrespondenceId> {
    let Some(Formation::Affixed { affix, change: Change::YToI, .. }) = reading.made else { return None };
    let part = reading.parts[at].id()?.get();
    let tail = if matches!(affix, ED | ES) { 1 } else { ending_length(affix) };
    let is_it = matches!(part.spelling, "i" | "ie") && at + 1 + tail == reading.parts.len();
    is_it.then(|| CorrespondenceId::find("y", part.sound)).flatten()
}

fn ending_length(affix: AffixId) -> usize {
    affix.get().cut.first().map_or(0, |cut| cut.len())
}

/// `'re` and `'ve` are the r and v of *are* and *have*.
fn shortened(word: &str, id: CorrespondenceId) -> Option<CorrespondenceId> {
    let (ending, consonant) = match id.get().spelling {
        "re" => ("'re", "R"),
        "ve" => ("'ve", "V"),
        "ll" => ("'ll", "L"),
        _ => return None,
    };
    let sound = SoundId::named(consonant)?;
    word.ends_with(ending).then(|| CorrespondenceId::find(&ending[1..2], sound)).flatten()
}

/// Whether a part counts as a suffix's part: the part itself, its double (*really*), or the d after an e that stayed with
/// the base (*nibbled*).
fn stands_for(parts: &[Part], at: usize, wanted: CorrespondenceId) -> bool {
    let Some(id) = parts[at].id() else { return false };
    let (part, wanted_part) = (id.get(), wanted.get());
    let same_sound = part.sound == wanted_part.sound;
    id == wanted
        || same_sound && part.undoubled() == Some(wanted_part.spelling)
        || same_sound
            && (part.spelling, wanted_part.spelling) == ("d", "ed")
            && at > 0
            && parts[at - 1].spelling().ends_with('e')
}

/// Replaces the steps over the first or last parts with the affix's step, if there is a boundary between steps there.
fn put_affix(steps: &mut Vec<CoverStep>, affix: &CoverStep, at_start: bool) {
    let (mut parts, mut count) = (0, 0);
    while parts < affix.parts && count < steps.len() {
        let at = if at_start { count } else { steps.len() - 1 - count };
        parts += steps[at].parts;
        count += 1;
    }
    if parts == affix.parts {
        let range = if at_start { 0..count } else { steps.len() - count..steps.len() };
        steps.splice(range, [affix.clone()]);
    } else if let Some(step) = if at_start { steps.first_mut() } else { steps.last_mut() } {
        // A chunk crosses the seam: the later lesson decides.
        if step.when() < affix.when() {
            step.need = affix.need.clone();
        }
    }
}

/// Whether a sequence of correspondences covers the parts from `at` on.
fn fits(parts: &[Part], at: usize, run: &[CorrespondenceId], chunk: &Chunk) -> bool {
    let to = at + run.len();
    // A chunk such as -tion also reads *national*; a suffix must end the word, or be followed only by a plural s: *nations*.
    let ends = chunk.affix.is_some_and(|affix| affix.get().side() == Side::After);
    to <= parts.len()
        && (!chunk.start || at == 0 && to < parts.len())
        && (!chunk.end || at > 0)
        && (!ends || to == parts.len() || to + 1 == parts.len() && parts[to].spelling() == "s")
        && parts[at..to].iter().zip(run).all(|(part, id)| part.id() == Some(*id))
}
