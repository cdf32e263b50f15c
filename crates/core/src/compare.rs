//! Two scopes compared: what moves, and which common words become readable sooner or later.

use std::cmp::Ordering;
use std::collections::BTreeMap;

use crate::{Focus, Judge, LessonIndex, Pattern, Reader, Scope, fold_word};

/// Size class of the words that are compared: about the 4,000 commonest.
const COMMONEST: u8 = 10;

/// Which lesson of a new scope corresponds to which of an old one.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct LessonMap {
    /// By lesson of the old scope, and of the new one.
    to_new: Vec<Option<LessonIndex>>,
    to_old: Vec<Option<LessonIndex>>,
    /// Whether lessons that correspond come in the same order.
    in_order: bool,
}

impl LessonMap {
    /// Lessons with the same id correspond.
    #[must_use]
    pub fn by_id(old: &Scope, new: &Scope) -> LessonMap {
        let to_new = old.lessons().iter().map(|lesson| new.index_of(&lesson.id).ok()).collect();
        LessonMap::of(to_new, new)
    }

    /// The first lesson corresponds to the first, the second to the second.
    #[must_use]
    pub fn by_order(old: &Scope, new: &Scope) -> LessonMap {
        let last = new.last();
        let to_new = old.indexed_lessons().map(|(index, _)| (index <= last).then_some(index)).collect();
        LessonMap::of(to_new, new)
    }

    /// Lessons correspond as named in pairs of an old and a new id; the others if they have the same id.
    ///
    /// # Errors
    /// A sentence about an id that a scope does not have, or that is named twice.
    pub fn named(old: &Scope, new: &Scope, pairs: &[(String, String)]) -> Result<LessonMap, String> {
        let mut to_new = LessonMap::by_id(old, new).to_new;
        let mut named: Vec<(LessonIndex, LessonIndex)> = Vec::new();
        for (before, after) in pairs {
            let before = old.index_of(before).map_err(|unknown| unknown.to_string())?;
            let after = new.index_of(after).map_err(|unknown| unknown.to_string())?;
            if named.iter().any(|(known, to)| *known == before || *to == after) {
                return Err(format!("a lesson is named twice: {}={}", old.id(before), new.id(after)));
            }
            named.push((before, after));
        }
        for lesson in to_new.iter_mut().filter(|lesson| named.iter().any(|(_, to)| Some(*to) == **lesson)) {
            *lesson = None;
        }
        for (before, after) in named {
            to_new[before.get()] = Some(after);
        }
        Ok(LessonMap::of(to_new, new))
    }

    fn of(to_new: Vec<Option<LessonIndex>>, new: &Scope) -> LessonMap {
        let mut to_old = vec![None; new.lessons().len()];
        for (at, lesson) in to_new.iter().enumerate() {
            if let Some(lesson) = lesson {
                to_old[lesson.get()] = LessonIndex::new(at);
            }
        }
        let in_order = to_new.iter().flatten().is_sorted();
        LessonMap { to_new, to_old, in_order }
    }

    /// The lesson of the new scope that corresponds to one of the old.
    #[must_use]
    pub fn to_new(&self, old: LessonIndex) -> Option<LessonIndex> {
        self.to_new.get(old.get()).copied().flatten()
    }

    /// The lesson of the old scope that corresponds to one of the new.
    #[must_use]
    pub fn to_old(&self, new: LessonIndex) -> Option<LessonIndex> {
        self.to_old.get(new.get()).copied().flatten()
    }

    /// The same map, with old and new exchanged.
    #[must_use]
    pub fn reversed(&self) -> LessonMap {
        let in_order = self.in_order;
        LessonMap { to_new: self.to_old.clone(), to_old: self.to_new.clone(), in_order }
    }

    /// The lessons of the old scope, and of the new one, to which none of the other corresponds.
    #[must_use]
    pub fn without_counterpart(&self) -> [Vec<LessonIndex>; 2] {
        let alone = |lessons: &[Option<LessonIndex>]| {
            let alone = lessons.iter().enumerate().filter(|(_, lesson)| lesson.is_none());
            alone.filter_map(|(at, _)| LessonIndex::new(at)).collect()
        };
        [alone(&self.to_new), alone(&self.to_old)]
    }

    /// Whether lessons that correspond come in the same order in both scopes. If not, sooner and later go by the place in the list.
    #[must_use]
    pub fn is_in_order(&self) -> bool {
        self.in_order
    }

    /// How a lesson of the new scope comes after or before one of the old.
    fn compare(&self, new: LessonIndex, old: LessonIndex) -> Ordering {
        if !self.in_order {
            return new.cmp(&old);
        }
        match self.to_new(old) {
            Some(now) => new.cmp(&now),
            // A lesson that is gone was after the last before it that is not.
            None => match self.to_new[..old.get()].iter().rev().flatten().next() {
                Some(before) if new <= *before => Ordering::Less,
                Some(before) if new.get() == before.get() + 1 && self.to_old(new).is_none() => Ordering::Equal,
                None if new == LessonIndex::FIRST && self.to_old(new).is_none() => Ordering::Equal,
                _ => Ordering::Greater,
            },
        }
    }

    fn change(&self, old: Option<LessonIndex>, new: Option<LessonIndex>) -> Option<Change> {
        match (old, new) {
            (None, None) => None,
            (None, Some(_)) => Some(Change::Added),
            (Some(_), None) => Some(Change::Gone),
            (Some(old), Some(new)) => match self.compare(new, old) {
                Ordering::Less => Some(Change::Sooner),
                Ordering::Equal => None,
                Ordering::Greater => Some(Change::Later),
            },
        }
    }
}

/// What becomes of something from one scope to another.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Change {
    /// Its lesson comes sooner.
    Sooner,
    /// Its lesson comes later.
    Later,
    /// Only the new scope has it.
    Added,
    /// Only the old scope has it.
    Gone,
}

/// Something that moves from one lesson to another.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Move {
    /// A pattern, a skill or a word, for people.
    pub name: String,
    /// Its lesson in the old scope, if it has one.
    pub old: Option<LessonIndex>,
    /// Its lesson in the new scope, if it has one.
    pub new: Option<LessonIndex>,
    /// What that means.
    pub change: Change,
}

/// How two scopes differ.
#[derive(Clone, Debug)]
pub struct ScopeComparison {
    /// The patterns and skills that move, in the order of the new scope; then those that are gone.
    pub patterns: Vec<Move>,
    /// The sight words that move, likewise.
    pub sight: Vec<Move>,
    /// The commonest words that can be read sooner or later, at all or not any more, in alphabetical order.
    pub words: Vec<Move>,
    /// How many words were compared.
    pub compared: usize,
}

/// Compares two scopes. Cost: two judgements of each of the 4,000 commonest words; a few hundredths of a second.
#[must_use]
pub fn compare(old: &Scope, new: &Scope, map: &LessonMap, reader: &Reader) -> ScopeComparison {
    let (before, after) = (Judge::new(reader, old), Judge::new(reader, new));
    let mut compared = 0;
    let mut words = Vec::new();
    for (word, _) in after.reader().common(COMMONEST) {
        compared += 1;
        let (old, new) = (before.judge(word).first_readable(), after.judge(word).first_readable());
        words.extend(map.change(old, new).map(|change| Move { name: word.to_owned(), old, new, change }));
    }
    ScopeComparison { patterns: patterns(old, new, map), sight: sight(old, new, map), words, compared }
}

/// A pattern or skill of a scope.
struct Taught {
    label: String,
    lesson: LessonIndex,
    /// What it means, if that does not depend on the scope's own name for it.
    sounds: Vec<untaught_phonics::CorrespondenceId>,
}

fn taught(scope: &Scope) -> Vec<Taught> {
    let all =
        scope.indexed_lessons().flat_map(|(index, lesson)| lesson.taught().into_iter().map(move |one| (index, one)));
    let one = |(lesson, pattern): (LessonIndex, Pattern)| Taught {
        label: pattern.label(),
        lesson,
        sounds: match pattern {
            Pattern::Bare(_) | Pattern::One(..) => Focus::of(scope, &[pattern]).singles().to_vec(),
            Pattern::Chunk(_) | Pattern::Skill(_) => Vec::new(),
        },
    };
    all.map(one).collect()
}

fn patterns(old: &Scope, new: &Scope, map: &LessonMap) -> Vec<Move> {
    let (mut before, after) = (taught(old), taught(new));
    let mut found = Vec::new();
    for one in &after {
        // By its name; else by what it stands for, because the scopes may give it different key words.
        let same = before.iter().position(|known| known.label == one.label).or_else(|| {
            before.iter().position(|known| {
                !one.sounds.is_empty()
                    && known.sounds == one.sounds
                    && !after.iter().any(|other| other.label == known.label)
            })
        });
        let known = same.map(|at| before.remove(at).lesson);
        let change = map.change(known, Some(one.lesson));
        found.extend(change.map(|change| Move { name: one.label.clone(), old: known, new: Some(one.lesson), change }));
    }
    let gone = |one: Taught| Move { name: one.label, old: Some(one.lesson), new: None, change: Change::Gone };
    found.extend(before.into_iter().map(gone));
    found
}

fn sight(old: &Scope, new: &Scope, map: &LessonMap) -> Vec<Move> {
    let words = |scope: &Scope| -> BTreeMap<String, LessonIndex> {
        let all =
            scope.indexed_lessons().flat_map(|(index, lesson)| lesson.sight.iter().map(move |word| (word, index)));
        all.map(|(word, index)| (fold_word(word), index)).collect()
    };
    let (before, after) = (words(old), words(new));
    let mut found = Vec::new();
    for (index, lesson) in new.indexed_lessons() {
        for word in &lesson.sight {
            let known = before.get(&fold_word(word)).copied();
            let change = map.change(known, Some(index));
            found.extend(change.map(|change| Move { name: word.clone(), old: known, new: Some(index), change }));
        }
    }
    for (index, lesson) in old.indexed_lessons() {
        let gone = lesson.sight.iter().filter(|word| !after.contains_key(&fold_word(word)));
        let gone = gone.map(|word| Move { name: word.clone(), old: Some(index), new: None, change: Change::Gone });
        found.extend(gone);
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn scope(lessons: &str) -> Scope {
        Scope::parse(&format!("format: 1\nlessons:\n{lessons}"), &Reader::default()).unwrap()
    }

    fn shown(moves: &[Move]) -> Vec<(&str, Option<usize>, Option<usize>, Change)> {
        let at = |lesson: Option<LessonIndex>| lesson.map(LessonIndex::get);
        moves.iter().map(|one| (one.name.as_str(), at(one.old), at(one.new), one.change)).collect()
    }

    #[test]
    fn what_moves_is_found_and_what_stays_is_not() {
        let old = scope(
            "- {teach: [s, a, t, m, i, n, p, d, b, l]}\n- {teach: [sh, ck], sight: [said]}\n- {teach: [igh as in night], skills: [final-blends]}\n",
        );
        let new = scope(
            "- {teach: [s, a, t, m, i, n, p, d, b, l]}\n- {teach: [igh as in light], sight: [was]}\n- {teach: [sh], sight: [said]}\n",
        );
        let found = compare(&old, &new, &LessonMap::by_id(&old, &new), &Reader::default());
        assert_eq!(
            shown(&found.patterns),
            [
                ("igh as in light", Some(2), Some(1), Change::Sooner),
                ("sh", Some(1), Some(2), Change::Later),
                ("ck", Some(1), None, Change::Gone),
                ("consonants together at the end", Some(2), None, Change::Gone)
            ]
        );
        assert_eq!(
            shown(&found.sight),
            [("was", None, Some(1), Change::Added), ("said", Some(1), Some(2), Change::Later)]
        );
        let word = |name: &str| found.words.iter().find(|word| word.name == name).map(|word| word.change);
        assert_eq!(
            ["night", "ship", "was", "back", "sat", "and"].map(word),
            [
                Some(Change::Sooner),
                Some(Change::Later),
                Some(Change::Added),
                Some(Change::Gone),
                None,
                Some(Change::Sooner)
            ]
        );
        let same = compare(&old, &old, &LessonMap::by_id(&old, &old), &Reader::default());
        assert!(same.patterns.is_empty() && same.sight.is_empty() && same.words.is_empty() && same.compared > 3_000);
    }

    #[test]
    fn lessons_correspond_by_id_by_order_or_as_named() {
        let old = scope("- {id: a, teach: [s]}\n- {id: b, teach: [t]}\n- {id: c, teach: [m]}\n");
        let new =
            scope("- {id: a, teach: [s]}\n- {id: a2, teach: [t]}\n- {id: c, teach: [m]}\n- {id: d, teach: [n]}\n");
        let at = |lesson: usize| LessonIndex::new(lesson).unwrap();
        let by_id = LessonMap::by_id(&old, &new);
        assert_eq!(by_id.without_counterpart(), [vec![at(1)], vec![at(1), at(3)]]);
        // Lesson a2 is where b was.
        assert_eq!(compare(&old, &new, &by_id, &Reader::default()).patterns.len(), 1);
        let named = LessonMap::named(&old, &new, &[("b".to_owned(), "d".to_owned())]).unwrap();
        assert_eq!((named.to_new(at(1)), named.to_old(at(3)), named.is_in_order()), (Some(at(3)), Some(at(1)), false));
        assert_eq!(LessonMap::by_order(&old, &new).without_counterpart(), [vec![], vec![at(3)]]);
        assert_eq!(LessonMap::by_order(&new, &old).to_new(at(3)), None);
        assert_eq!(by_id.reversed().to_new(at(2)), Some(at(2)));
        let pairs = [("b".to_owned(), "x".to_owned())];
        assert!(LessonMap::named(&old, &new, &pairs).unwrap_err().contains("has no lesson x"));
        let twice = [("b", "d"), ("c", "d")].map(|(one, other)| (one.to_owned(), other.to_owned()));
        assert_eq!(LessonMap::named(&old, &new, &twice), Err("a lesson is named twice: c=d".to_owned()));
    }
}
