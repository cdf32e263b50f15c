//! Word chains: each step adds, drops or swaps exactly one sound.
//!
//! The words of a bank are the nodes of a graph, two words one sound apart its edges. A chain is a walk without repeats; of the many
//! there are, the search prefers common words, changes at changing places, and steps that leave the spelling of the other sounds alone.

use std::collections::{HashMap, HashSet, VecDeque};

use fastrand::Rng;
use untaught::Focus;
use untaught_spelling::SoundId;

use crate::lot::shuffle;
use crate::{Bank, BankWord, Lacking};

/// What one step changes. Places count sounds from 0, in the longer of the two words.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Change {
    /// One sound is swapped for another.
    Swap {
        /// Which.
        at: usize,
    },
    /// A sound is added.
    Add {
        /// Where in the new word.
        at: usize,
    },
    /// A sound is dropped.
    Drop {
        /// Where in the old word.
        at: usize,
    },
}

impl Change {
    /// The change between two words one sound apart; none for any other two.
    #[must_use]
    pub fn between(from: &[SoundId], to: &[SoundId]) -> Option<Change> {
        let same = from.iter().zip(to).take_while(|(a, b)| a == b).count();
        match to.len().cmp(&from.len()) {
            std::cmp::Ordering::Equal => {
                (same < from.len() && from[same + 1..] == to[same + 1..]).then_some(Change::Swap { at: same })
            }
            std::cmp::Ordering::Greater => {
                (to.len() == from.len() + 1 && from[same..] == to[same + 1..]).then_some(Change::Add { at: same })
            }
            std::cmp::Ordering::Less => {
                (from.len() == to.len() + 1 && from[same + 1..] == to[same..]).then_some(Change::Drop { at: same })
            }
        }
    }

    /// Where it changes something.
    #[must_use]
    pub fn at(self) -> usize {
        match self {
            Change::Swap { at } | Change::Add { at } | Change::Drop { at } => at,
        }
    }

    /// `swap`, `add` or `drop`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Change::Swap { .. } => "swap",
            Change::Add { .. } => "add",
            Change::Drop { .. } => "drop",
        }
    }
}

/// A step of a chain.
#[derive(Clone, Debug)]
pub struct Step {
    /// What it changes.
    pub change: Change,
    /// `first`, `last`, or the place between: `second`, `third` …
    pub place: &'static str,
    /// The spelling before and after; none where there was or is none.
    pub from: Option<String>,
    /// The same in the new word.
    pub to: Option<String>,
}

impl Step {
    fn of(from: &BankWord, to: &BankWord) -> Option<Step> {
        let change = Change::between(&ids(from), &ids(to))?;
        let spelling = |word: &BankWord| word.reading.parts[word.sounds[change.at()].part].spelling().to_owned();
        let longer = from.sounds.len().max(to.sounds.len());
        let place = match change.at() {
            0 => "first",
            at if at + 1 == longer => "last",
            1 => "second",
            2 => "third",
            3 => "fourth",
            4 => "fifth",
            _ => "next",
        };
        let (from, to) = match change {
            Change::Swap { .. } => (Some(spelling(from)), Some(spelling(to))),
            Change::Add { .. } => (None, Some(spelling(to))),
            Change::Drop { .. } => (Some(spelling(from)), None),
        };
        Some(Step { change, place, from, to })
    }
}

impl std::fmt::Display for Step {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let (name, place) = (self.change.name(), self.place);
        match (&self.from, &self.to) {
            (Some(from), Some(to)) => write!(f, "{name} the {place} sound: {from} → {to}"),
            (None, Some(to)) => write!(f, "{name} a {place} sound: {to}"),
            (Some(from), None) => write!(f, "{name} the {place} sound: {from}"),
            (None, None) => f.write_str(name),
        }
    }
}

/// A chain.
#[derive(Clone, Debug)]
pub struct Chain {
    /// Its words.
    pub words: Vec<BankWord>,
    /// The steps between them: one fewer than words.
    pub steps: Vec<Step>,
}

/// Which chain is wanted.
#[derive(Clone, Debug)]
pub struct ChainWanted {
    /// How many steps; with both ends given and none here, as few as possible.
    pub steps: Option<usize>,
    /// The first word.
    pub from: Option<String>,
    /// The last word.
    pub to: Option<String>,
    /// The changes allowed (`swap`, `add`, `drop`) and the places (`first`, `middle`, `last`); all where none is named.
    pub changes: Vec<String>,
    /// Patterns whose words are preferred.
    pub focus: Option<Focus>,
    /// For what is drawn by lot.
    pub seed: u64,
}

/// Steps of a chain of which nothing else is said.
const STEPS: usize = 8;

/// Searches begun, and words looked at in each.
const TRIES: usize = 24;
const PATIENCE: usize = 4_000;

fn ids(word: &BankWord) -> Vec<SoundId> {
    word.sounds.iter().map(|heard| heard.sound).collect()
}

/// Makes a chain of one-syllable words of a bank.
///
/// # Errors
/// Why there is none, in a sentence.
pub fn chain(bank: &Bank<'_>, wanted: &ChainWanted) -> Result<Chain, Lacking> {
    let words: Vec<&BankWord> =
        bank.words.iter().filter(|word| word.reading.syllables() == 1 && word.sounds.len() > 1).collect();
    let graph = Graph::new(bank, words, wanted);
    let find = |word: &Option<String>| word.as_ref().map(|word| graph.find(bank, word)).transpose();
    let (from, to) = (find(&wanted.from)?, find(&wanted.to)?);
    let distances = to.map(|to| graph.distances(to));
    let steps = match (wanted.steps, from, &distances) {
        (Some(steps), ..) => steps,
        (None, Some(from), Some(distances)) if distances[from] != usize::MAX => distances[from],
        (None, Some(from), Some(_)) => {
            let (from, to) = (&graph.words[from].word, wanted.to.as_deref().unwrap_or_default());
            return Err(Lacking(format!("no chain leads from {from} to {to} with the words of this lesson")));
        }
        _ => STEPS,
    };
    let mut rng = Rng::with_seed(wanted.seed);
    let mut best: Option<(i64, Vec<usize>)> = None;
    for _ in 0..TRIES {
        let Some(start) = from.or_else(|| graph.start(&mut rng)) else { break };
        let mut search =
            Search { graph: &graph, rng: &mut rng, distances: distances.as_deref(), steps, left: PATIENCE };
        let mut path = vec![start];
        let mut seen: HashSet<&str> = HashSet::from([graph.words[start].word.as_str()]);
        if let Some(cost) = search.walk(&mut path, &mut seen, 0)
            && best.as_ref().is_none_or(|(known, _)| cost < *known)
        {
            best = Some((cost, path));
        }
    }
    let Some((_, path)) = best else {
        let ends = match (&wanted.from, &wanted.to) {
            (Some(from), Some(to)) => format!(" from {from} to {to}"),
            (Some(from), None) => format!(" from {from}"),
            (None, Some(to)) => format!(" to {to}"),
            (None, None) => String::new(),
        };
        let n = graph.words.len();
        return Err(Lacking(format!(
            "no chain of {steps} steps{ends} can be made: {n} words of one syllable can be sounded out at this lesson; ask for \
             fewer steps or a later lesson"
        )));
    };
    let words: Vec<BankWord> = path.into_iter().map(|number| graph.words[number].clone()).collect();
    let steps = words.windows(2).filter_map(|pair| Step::of(&pair[0], &pair[1])).collect();
    Ok(Chain { words, steps })
}

struct Graph<'b> {
    words: Vec<&'b BankWord>,
    sounds: Vec<Vec<SoundId>>,
    practises: Vec<bool>,
    /// By the sounds of a whole word.
    whole: HashMap<Vec<SoundId>, Vec<usize>>,
    /// By the sounds of a word without one, and the place of the gap.
    gaps: HashMap<(Vec<SoundId>, usize), Vec<usize>>,
    changes: Vec<String>,
}

impl<'b> Graph<'b> {
    fn new(bank: &Bank<'_>, words: Vec<&'b BankWord>, wanted: &ChainWanted) -> Graph<'b> {
        let sounds: Vec<Vec<SoundId>> = words.iter().map(|word| ids(word)).collect();
        let practises = |word: &&BankWord| wanted.focus.as_ref().is_some_and(|focus| bank.practises(word, focus, None));
        let practises = words.iter().map(practises).collect();
        let (mut whole, mut gaps): (HashMap<_, Vec<usize>>, HashMap<_, Vec<usize>>) = Default::default();
        for (number, sounds) in sounds.iter().enumerate() {
            whole.entry(sounds.clone()).or_default().push(number);
            for at in 0..sounds.len() {
                gaps.entry((without(sounds, at), at)).or_default().push(number);
            }
        }
        Graph { words, sounds, practises, whole, gaps, changes: wanted.changes.clone() }
    }

    /// The number of a word that a chain is to begin or end with.
    fn find(&self, bank: &Bank<'_>, word: &str) -> Result<usize, Lacking> {
        let folded = untaught::fold_word(word);
        if let Some(number) = self.words.iter().position(|known| known.word == folded) {
            return Ok(number);
        }
        let verdict = bank.judge.judge(&folded);
        Err(Lacking(match verdict.first_decodable() {
            Some(first) if first <= bank.lesson => format!(
                "{word} is in no chain: it has more than one syllable, is too rare, or is not for children's lists"
            ),
            _ => format!("{word} cannot be sounded out at this lesson"),
        }))
    }

    /// The words one sound away, with the change that leads there, whether it is allowed or not.
    fn apart(&self, number: usize) -> Vec<(usize, Change)> {
        let sounds = &self.sounds[number];
        let mut found = Vec::new();
        for at in 0..sounds.len() {
            let gap = without(sounds, at);
            let swapped = self.gaps.get(&(gap.clone(), at)).into_iter().flatten();
            found.extend(
                swapped.filter(|other| self.sounds[**other] != *sounds).map(|other| (*other, Change::Swap { at })),
            );
            found.extend(self.whole.get(&gap).into_iter().flatten().map(|other| (*other, Change::Drop { at })));
        }
        for at in 0..=sounds.len() {
            let longer = self.gaps.get(&(sounds.clone(), at)).into_iter().flatten();
            found.extend(longer.map(|other| (*other, Change::Add { at })));
        }
        found.sort_unstable();
        found.dedup_by_key(|(other, _)| *other);
        found
    }

    /// The words that an allowed step leads to.
    fn neighbours(&self, number: usize) -> Vec<(usize, Change)> {
        let mut found = self.apart(number);
        found.retain(|(other, change)| self.allows(*change, self.longer(number, *other)));
        found
    }

    fn longer(&self, one: usize, other: usize) -> usize {
        self.sounds[one].len().max(self.sounds[other].len())
    }

    fn allows(&self, change: Change, longer: usize) -> bool {
        let named = |name: &str| self.changes.iter().any(|known| known == name);
        let place = match change.at() {
            0 => "first",
            at if at + 1 == longer => "last",
            _ => "middle",
        };
        let any = |names: [&str; 3]| names.iter().any(|name| named(name));
        (!any(["swap", "add", "drop"]) || named(change.name())) && (!any(["first", "middle", "last"]) || named(place))
    }

    /// Steps from every word to one.
    fn distances(&self, to: usize) -> Vec<usize> {
        let mut distances = vec![usize::MAX; self.words.len()];
        distances[to] = 0;
        let mut queue = VecDeque::from([to]);
        while let Some(number) = queue.pop_front() {
            for (other, change) in self.apart(number) {
                // The search goes backwards: what adds on the way there drops on the way back.
                let there = match change {
                    Change::Swap { at } => Change::Swap { at },
                    Change::Add { at } => Change::Drop { at },
                    Change::Drop { at } => Change::Add { at },
                };
                if distances[other] == usize::MAX && self.allows(there, self.longer(number, other)) {
                    distances[other] = distances[number] + 1;
                    queue.push_back(other);
                }
            }
        }
        distances
    }

    /// A word to begin with: common, of three sounds, with neighbours, and if possible with the focus pattern.
    fn start(&self, rng: &mut Rng) -> Option<usize> {
        let usable = |number: &usize| self.words[*number].sounds.len() <= 4 && !self.neighbours(*number).is_empty();
        // A word of two sounds gives a child little to hold on to, and hardly any steps away.
        let brief = |number: usize| self.words[number].sounds.len() < 3;
        let mut numbers: Vec<usize> = (0..self.words.len()).collect();
        shuffle(&mut numbers, rng);
        numbers.sort_by_key(|n| (brief(*n), !self.practises[*n], self.words[*n].inflected, self.words[*n].class));
        let mut first = numbers.into_iter().filter(usable).take(12).collect::<Vec<_>>();
        shuffle(&mut first, rng);
        first.into_iter().next()
    }

    /// How little a step is liked.
    fn cost(&self, path: &[usize], to: usize, change: Change) -> i64 {
        let from = path[path.len() - 1];
        let (old, new) = (self.words[from], self.words[to]);
        let rare = match new.class {
            ..=10 => 0,
            11..=20 => 3,
            _ => 8,
        };
        // The other sounds keep their spelling: cat, rat; not cat, kit.
        let spellings = |word: &BankWord, skip: bool| -> Vec<String> {
            let parts = word.sounds.iter().enumerate().filter(|(at, _)| !skip || *at != change.at());
            parts.map(|(_, heard)| word.reading.parts[heard.part].spelling().to_owned()).collect()
        };
        let (old_too, new_too) = (!matches!(change, Change::Add { .. }), !matches!(change, Change::Drop { .. }));
        let respelled = if spellings(old, old_too) == spellings(new, new_too) { 0 } else { 14 };
        let places: Vec<usize> = path
            .windows(2)
            .rev()
            .take(2)
            .filter_map(|pair| Change::between(&self.sounds[pair[0]], &self.sounds[pair[1]]).map(Change::at))
            .collect();
        let again = places.iter().filter(|place| **place == change.at()).count() as i64 * 4;
        let inflected = if new.inflected { 14 } else { 0 };
        let focus = if self.practises[to] { -4 } else { 0 };
        rare + respelled + again + inflected + focus
    }
}

fn without(sounds: &[SoundId], at: usize) -> Vec<SoundId> {
    [&sounds[..at], &sounds[at + 1..]].concat()
}

struct Search<'g, 'b> {
    graph: &'g Graph<'b>,
    rng: &'g mut Rng,
    distances: Option<&'g [usize]>,
    steps: usize,
    /// Words that may still be looked at.
    left: usize,
}

impl<'b> Search<'_, 'b> {
    /// Goes on from the end of a path, the liked steps first; the cost of the whole, if it gets there.
    fn walk(&mut self, path: &mut Vec<usize>, seen: &mut HashSet<&'b str>, cost: i64) -> Option<i64> {
        let done = path.len() - 1;
        if done == self.steps {
            return Some(cost);
        }
        let end = *path.last()?;
        let mut next: Vec<(i64, usize)> = Vec::new();
        for (other, change) in self.graph.neighbours(end) {
            let reaches = self.distances.is_none_or(|distances| {
                let left = self.steps - done - 1;
                distances[other] <= left
            });
            if reaches && !seen.contains(self.graph.words[other].word.as_str()) {
                next.push((self.graph.cost(path, other, change) + self.rng.i64(0..3), other));
            }
        }
        next.sort_unstable();
        for (more, other) in next {
            if self.left == 0 {
                return None;
            }
            self.left -= 1;
            let graph = self.graph;
            path.push(other);
            seen.insert(graph.words[other].word.as_str());
            if let Some(cost) = self.walk(path, seen, cost + more) {
                return Some(cost);
            }
            seen.remove(graph.words[other].word.as_str());
            path.pop();
        }
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sounds(names: &str) -> Vec<SoundId> {
        names.split(' ').map(|name| SoundId::named(name).unwrap()).collect()
    }

    #[test]
    fn one_sound_apart_is_one_change() {
        let between = |a: &str, b: &str| Change::between(&sounds(a), &sounds(b));
        assert_eq!(between("K AE T", "HH AE T"), Some(Change::Swap { at: 0 }));
        assert_eq!(between("K AE T", "K AE P"), Some(Change::Swap { at: 2 }));
        assert_eq!(between("AE T", "K AE T"), Some(Change::Add { at: 0 }));
        assert_eq!(between("S T AA P", "T AA P"), Some(Change::Drop { at: 0 }));
        assert_eq!(between("T AA P", "T AA P S"), Some(Change::Add { at: 3 }));
        assert_eq!(between("K AE T", "K AE T"), None);
        assert_eq!(between("K AE T", "D AA G"), None);
        assert_eq!(between("K AE T", "T AE K"), None);
    }
}
