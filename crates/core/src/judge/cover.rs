//! The cheapest covering of a reading by patterns: a bottleneck path. A pattern covers one part or a run of them; a covering costs
//! the latest lesson it uses, and no less than the lesson of every skill the word demands.

use untaught_phonics::CorrespondenceId;

use super::demands::demands_one;
use super::{Judge, demands, named_skills};
use crate::scope::{NEVER, Run};
use crate::word::{Base, Bases, Change, Ending, LONGEST_TAIL, strip};
use crate::{Origin, Part, Place, Reading, Skill, Word};

/// How a reading is covered.
#[derive(Debug)]
pub struct Cover {
    /// The patterns used, in the order of the parts.
    pub steps: Vec<Step>,
    /// The skills demanded that the scope names, with their lessons.
    pub skills: Vec<(Skill, Place)>,
}

/// One pattern where it covers parts.
#[derive(Clone, Debug)]
pub struct Step {
    /// Number of parts covered.
    pub parts: usize,
    /// The pattern, for people.
    pub label: String,
    /// The lesson that teaches it; [`crate::Place::MAX`] for never.
    pub lesson: Place,
}

impl Cover {
    /// Each part of the reading with the step that covers it.
    pub fn parts<'c>(&'c self, reading: &'c Reading) -> impl Iterator<Item = (&'c Part, &'c Step)> {
        let steps = self.steps.iter().flat_map(|step| std::iter::repeat_n(step, step.parts));
        reading.parts.iter().zip(steps)
    }
}

/// The best way found so far to cover the parts up to a place.
#[derive(Clone)]
struct Reached {
    /// The bottleneck, then the sum, so that of equals the covering with the earlier lessons is shown.
    cost: (Place, u64),
    from: usize,
    step: Step,
}

/// Parts for which no memory has to be asked for.
const FEW: usize = 24;

impl Judge<'_> {
    /// The earliest lesson at which a reading is covered: the bottleneck of its cheapest path.
    pub(super) fn earliest<'j>(&'j self, word: &Word, bases: &Bases<'j>) -> Place {
        let reading = bases.reading;
        let parts = &reading.parts;
        let long = reading.syllables() > 1;
        // Hardly any word has more parts than fit here.
        let (mut few, mut many);
        let best: &mut [Place] = if parts.len() < FEW {
            few = [NEVER; FEW];
            &mut few
        } else {
            many = vec![NEVER; parts.len() + 1];
            &mut many
        };
        best[0] = 0;
        for at in 0..parts.len() {
            let reached = best[at];
            if reached == NEVER {
                continue;
            }
            let mut relax = |to: usize, lesson: Place| best[to] = best[to].min(reached.max(lesson));
            relax(at + 1, self.part_lesson(word, parts, at, long));
            if let Some(id) = parts[at].id() {
                for (_, run, lesson) in self.scope.table().runs_from(id) {
                    // A chunk such as `-tion` reads *national* too.
                    let end = run.end && run.affix().is_some();
                    let fits = |list: &&Vec<CorrespondenceId>| {
                        run_fits(parts, at, list, run.start, end) && (!run.end || at > 0)
                    };
                    if let Some(list) = run.parts.iter().filter(fits).max_by_key(|list| list.len())
                        && may_cover(bases, run)
                    {
                        relax(at + list.len(), lesson);
                    }
                }
            }
        }
        let covered = best[parts.len()];
        if covered == NEVER {
            return NEVER;
        }
        let covered = self.affixes(bases).map(|(_, lesson, _)| lesson).fold(covered, Place::max);
        // No word is easier with an s than without.
        let covered = match self.reader.without_s(&word.text, reading) {
            Some(base) => covered.max(self.earliest(&base, &Bases::new(self.reader, &base.text, &base.readings[0]))),
            None => covered,
        };
        let skills = named_skills(self.scope).filter(|(skill, _)| *skill != Skill::Schwa);
        skills
            .filter(|(_, lesson)| *lesson > covered)
            .filter(|(skill, _)| demands_one(self.reader, word, reading, *skill))
            .map(|(_, lesson)| lesson)
            .fold(covered, Place::max)
    }

    /// The endings and beginnings of a reading that the scope names, with their lessons and numbers of parts: once named, they hold
    /// back the words that are made with them.
    fn affixes<'j>(&'j self, bases: &Bases<'j>) -> impl Iterator<Item = (&'j Run, Place, usize)> {
        self.scope.table().affixes().filter_map(move |(run, lesson)| {
            let parts = &bases.reading.parts;
            let spelled = |list: &&Vec<CorrespondenceId>| {
                let n = list.len();
                let at = if run.start { 0 } else { parts.len().saturating_sub(n) };
                parts.len() > n && (0..n).all(|k| stands_for(parts, at + k, list[k]))
            };
            let length = run.parts.iter().find(spelled)?.len();
            bases.have(run.affix()?).then_some((run, lesson, length))
        })
    }

    /// The covering that decides, with what each part needs. Slower than judging; for explaining.
    #[must_use]
    pub fn cover(&self, word: &Word, reading: &Reading) -> Cover {
        let parts = &reading.parts;
        let bases = Bases::new(self.reader, &word.text, reading);
        let long = reading.syllables() > 1;
        let mut best: Vec<Option<Reached>> = vec![None; parts.len() + 1];
        for at in 0..parts.len() {
            let (bottleneck, sum) = match &best[at] {
                Some(reached) => reached.cost,
                None if at == 0 => (0, 0),
                None => continue,
            };
            let mut relax = |step: Step| {
                let cost = (step.lesson.max(bottleneck), sum + u64::from(step.lesson) + 1);
                let target = &mut best[at + step.parts];
                if target.as_ref().is_none_or(|known| cost < known.cost) {
                    *target = Some(Reached { cost, from: at, step });
                }
            };
            let lesson = self.part_lesson(word, parts, at, long);
            relax(Step { parts: 1, label: self.part_label(&parts[at]), lesson });
            if let Some(id) = parts[at].id() {
                for (number, run, lesson) in self.scope.table().runs_from(id) {
                    let end = run.end && run.affix().is_some();
                    let fits = |list: &&Vec<CorrespondenceId>| {
                        run_fits(parts, at, list, run.start, end) && (!run.end || at > 0)
                    };
                    for list in run.parts.iter().filter(fits).filter(|_| may_cover(&bases, run)) {
                        let label = self.scope.table().run(number).label.clone();
                        relax(Step { parts: list.len(), label, lesson });
                    }
                }
            }
        }
        let mut steps = Vec::new();
        let mut at = parts.len();
        while let Some(reached) = best[at].take() {
            steps.push(reached.step);
            at = reached.from;
        }
        steps.reverse();
        // An ending that the file names is read as that ending, however soon its letters were taught.
        for (run, lesson, parts) in self.affixes(&bases) {
            put_affix(&mut steps, &Step { parts, label: run.label.clone(), lesson }, run.start);
        }
        let demanded = demands(self.reader, word, reading);
        let skills = named_skills(self.scope).filter(|(skill, _)| demanded.contains(skill)).collect();
        Cover { steps, skills }
    }

    /// The y of the base that an ending turned into i or ie: *happier*, *cried*, *cities*.
    fn y_of_base(&self, word: &Word, parts: &[Part], at: usize) -> Option<CorrespondenceId> {
        let part = parts[at].id()?.get();
        let joined = match part.spelling {
            "i" => "",
            "ie" => "e",
            _ => return None,
        };
        // No ending has more parts.
        let rest = parts.get(at + 1..).filter(|rest| rest.len() <= LONGEST_TAIL)?;
        let letters: String = std::iter::once(joined).chain(rest.iter().map(Part::letters)).collect();
        // *Twistier* is of *twisty*, which is of *twist*.
        let derived = |base: &str| word.origin == Origin::Derived && self.reader.read(base).origin != Origin::Letters;
        let is_base = |(base, ending, change): (Base<'_>, Ending, Change)| {
            change == Change::YToI && ending.spelling() == letters && (self.reader.is_ordinary(&base) || derived(&base))
        };
        strip(&word.text).any(is_base).then(|| CorrespondenceId::find("y", part.sound)).flatten()
    }

    /// What the first parts are called in which two readings of a word differ: the patterns that cover them.
    pub(crate) fn first_difference(&self, word: &Word, one: &Reading, other: &Reading) -> (String, String) {
        let Some(at) = one.parts.iter().zip(&other.parts).position(|(a, b)| a != b) else { return Default::default() };
        let label = |reading: &Reading| {
            let mut end = 0;
            let steps = self.cover(word, reading).steps;
            let over = steps.into_iter().find(|step| {
                end += step.parts;
                at < end
            });
            over.map(|step| step.label).unwrap_or_default()
        };
        (label(one), label(other))
    }

    fn part_label(&self, part: &Part) -> String {
        match part {
            Part::Known { id, .. } => self.scope.table().label(*id),
            Part::Odd { letters, .. } => {
                let short: String = letters.chars().take(20).collect();
                let more = if short.len() < letters.len() { "…" } else { "" };
                format!("the irregular part {short}{more} (a word to teach whole)")
            }
        }
    }

    /// The lesson from which a part can be read where it stands.
    fn part_lesson(&self, word: &Word, parts: &[Part], at: usize, long: bool) -> Place {
        let table = self.scope.table();
        let (id, e_dropped) = match &parts[at] {
            Part::Known { id, e_dropped } => (*id, *e_dropped),
            Part::Odd { .. } => return NEVER,
        };
        if e_dropped {
            return table.e_dropped(id);
        }
        if at + 1 == parts.len()
            && let Some(plain) = shortened(&word.text, id)
        {
            return table.lesson(id).min(table.lesson(plain));
        }
        if let Some(y) = self.y_of_base(word, parts, at) {
            return table.weak(id).min(table.lesson(y));
        }
        let after_split = at > 0 && parts[at - 1].is_split() || at > 1 && parts[at - 2].is_split();
        if after_split && !parts[at].is_vowel() {
            return table.after_split(id);
        }
        if long { table.weak(id) } else { table.lesson(id) }
    }
}

/// An ending or a beginning covers only where the word is made with it: `-s` does not read *is*.
fn may_cover<'a>(bases: &Bases<'a>, run: &'a Run) -> bool {
    run.affix().is_none_or(|affix| bases.have(affix))
}

/// `'re` and `'ve` are the r and v of *are* and *have*.
fn shortened(word: &str, id: CorrespondenceId) -> Option<CorrespondenceId> {
    let (ending, consonant) = match id.get().spelling {
        "re" => ("'re", "R"),
        "ve" => ("'ve", "V"),
        "ll" => ("'ll", "L"),
        _ => return None,
    };
    let sound = untaught_phonics::SoundId::named(consonant)?;
    word.ends_with(ending).then(|| CorrespondenceId::find(&ending[1..2], sound)).flatten()
}

/// Whether a part is that of an ending: itself, its double (*really*), or the d after an e that stayed with the base (*nibbled*).
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

/// Replaces the steps over the first or last parts by one, if steps begin or end there.
fn put_affix(steps: &mut Vec<Step>, affix: &Step, at_start: bool) {
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
        // A chunk reaches across the seam: what comes later decides.
        if step.lesson < affix.lesson {
            (step.label, step.lesson) = (affix.label.clone(), affix.lesson);
        }
    }
}

fn run_fits(parts: &[Part], at: usize, run: &[CorrespondenceId], start: bool, end: bool) -> bool {
    let to = at + run.len();
    to <= parts.len()
        && (!start || at == 0 && to < parts.len())
        && (!end || at > 0 && (to == parts.len() || to + 1 == parts.len() && is_plural(&parts[to])))
        && parts[at..to].iter().zip(run).all(|(part, id)| part.id() == Some(*id))
}

/// A plural s may follow an ending: *nations*.
fn is_plural(part: &Part) -> bool {
    part.spelling() == "s"
}
