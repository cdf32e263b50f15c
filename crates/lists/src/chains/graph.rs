//! The words of a bank as a graph: those one sound apart are neighbours.

use std::cell::OnceCell;
use std::collections::{HashMap, VecDeque};

use fastrand::Rng;
use untaught_phonics::SoundId;

use super::step::{Difference, ids};
use super::{ChainRequest, SoundChange};
use crate::random::shuffle;
use crate::{Bank, BankWord, CannotMake};

pub(super) struct Graph<'b> {
    pub(super) words: Vec<&'b BankWord>,
    sounds: Vec<Vec<SoundId>>,
    practises: Vec<bool>,
    /// By the sounds of a whole word.
    whole: HashMap<Vec<SoundId>, Vec<usize>>,
    /// By the sounds of a word without one, and the place of the gap.
    gaps: HashMap<(Vec<SoundId>, usize), Vec<usize>>,
    /// By word: the words that an allowed step leads to, once they were asked for. A search asks for those of one word many times.
    near: Vec<OnceCell<Vec<(usize, SoundChange)>>>,
    changes: Vec<String>,
    /// Whether steps may spell the other sounds in another way.
    respell: bool,
    /// Whether inflected words are liked less: not where endings are practised.
    plain: bool,
}

impl<'b> Graph<'b> {
    pub(super) fn new(bank: &Bank<'_>, words: Vec<&'b BankWord>, request: &ChainRequest) -> Graph<'b> {
        let sounds: Vec<Vec<SoundId>> = words.iter().map(|word| ids(word)).collect();
        let practises =
            |word: &&BankWord| request.focus.as_ref().is_some_and(|focus| bank.practises(word, focus, None));
        let practises = words.iter().map(practises).collect();
        let (mut whole, mut gaps): (HashMap<_, Vec<usize>>, HashMap<_, Vec<usize>>) = Default::default();
        for (number, sounds) in sounds.iter().enumerate() {
            whole.entry(sounds.clone()).or_default().push(number);
            for at in 0..sounds.len() {
                gaps.entry((without(sounds, at), at)).or_default().push(number);
            }
        }
        let practised: Vec<bool> = practises;
        // Where most words of the focus have endings, endings are what is practised.
        let inflected = |wanted: bool| {
            words.iter().zip(&practised).filter(|(word, practises)| **practises && word.inflected == wanted).count()
        };
        let plain = inflected(true) <= inflected(false);
        let (changes, respell) = (request.changes.clone(), request.respell);
        let near = vec![OnceCell::new(); words.len()];
        Graph { words, sounds, practises: practised, whole, gaps, near, changes, respell, plain }
    }

    /// The number of the word that a chain begins or ends with.
    pub(super) fn find(&self, bank: &Bank<'_>, word: &str) -> Result<usize, CannotMake> {
        let folded = untaught::fold_word(word);
        if let Some(number) = self.words.iter().position(|known| known.word == folded) {
            return Ok(number);
        }
        let verdict = bank.judge.judge(&folded);
        let word = untaught::messages::excerpt(word);
        Err(CannotMake(match verdict.first_decodable() {
            Some(first) if first <= bank.lesson => format!(
                "{word} cannot be in a chain: it has more than one syllable, is too rare, or is not for children's lists"
            ),
            _ => format!("{word} cannot be sounded out at this lesson"),
        }))
    }

    /// The words one sound away, with the change that leads there, whether it is allowed or not.
    fn apart(&self, number: usize) -> Vec<(usize, SoundChange)> {
        let sounds = &self.sounds[number];
        let mut found = Vec::new();
        for at in 0..sounds.len() {
            let gap = without(sounds, at);
            let swapped = self.gaps.get(&(gap.clone(), at)).into_iter().flatten();
            found.extend(
                swapped.filter(|other| self.sounds[**other] != *sounds).map(|other| (*other, SoundChange::Swap { at })),
            );
            found.extend(self.whole.get(&gap).into_iter().flatten().map(|other| (*other, SoundChange::Drop { at })));
        }
        for at in 0..=sounds.len() {
            let longer = self.gaps.get(&(sounds.clone(), at)).into_iter().flatten();
            found.extend(longer.map(|other| (*other, SoundChange::Add { at })));
        }
        found.sort_unstable();
        found.dedup_by_key(|(other, _)| *other);
        found
    }

    /// The words that an allowed step leads to.
    pub(super) fn neighbours(&self, number: usize) -> &[(usize, SoundChange)] {
        self.near[number].get_or_init(|| {
            let mut found = self.apart(number);
            found.retain(|(other, change)| {
                self.allows(*change, self.longer(number, *other)) && (self.respell || self.keeps(number, *other))
            });
            found
        })
    }

    fn longer(&self, one: usize, other: usize) -> usize {
        self.sounds[one].len().max(self.sounds[other].len())
    }

    fn allows(&self, change: SoundChange, longer: usize) -> bool {
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
    pub(super) fn distances(&self, to: usize) -> Vec<usize> {
        let mut distances = vec![usize::MAX; self.words.len()];
        distances[to] = 0;
        let mut queue = VecDeque::from([to]);
        while let Some(number) = queue.pop_front() {
            for (other, change) in self.apart(number) {
                // The search goes backwards: what adds on the way there drops on the way back.
                let there = match change {
                    SoundChange::Swap { at } => SoundChange::Swap { at },
                    SoundChange::Add { at } => SoundChange::Drop { at },
                    SoundChange::Drop { at } => SoundChange::Add { at },
                };
                let allowed =
                    self.allows(there, self.longer(number, other)) && (self.respell || self.keeps(other, number));
                if distances[other] == usize::MAX && allowed {
                    distances[other] = distances[number] + 1;
                    queue.push_back(other);
                }
            }
        }
        distances
    }

    /// A word to begin with: common, of three sounds, with neighbours, and if possible with the focus pattern.
    pub(super) fn start(&self, rng: &mut Rng) -> Option<usize> {
        let focused = self.practises.contains(&true);
        let usable = |number: &usize| {
            let near = self.neighbours(*number);
            self.words[*number].sounds.len() <= 6 && near.iter().any(|(other, _)| !focused || self.practises[*other])
        };
        // A word of two sounds gives a child little to hold on to, and hardly any steps away.
        let brief = |number: usize| self.words[number].sounds.len() < 3;
        let mut numbers: Vec<usize> = (0..self.words.len()).collect();
        shuffle(&mut numbers, rng);
        let inflected = |n: usize| self.plain && self.words[n].inflected;
        numbers
            .sort_by_key(|n| (!self.practises[*n], brief(*n), inflected(*n), self.words[*n].age, self.words[*n].class));
        let mut first = numbers.into_iter().filter(usable).take(12).collect::<Vec<_>>();
        shuffle(&mut first, rng);
        first.into_iter().next()
    }

    /// How little a step is liked.
    pub(super) fn cost(&self, path: &[usize], to: usize, change: SoundChange) -> i64 {
        let from = path[path.len() - 1];
        let new = self.words[to];
        let rare = match new.age {
            ..=5 => 0,
            6 => 2,
            7 => 5,
            _ => 8,
        };
        let respelled = if self.keeps(from, to) { 0 } else { 14 };
        let places: Vec<usize> = path
            .windows(2)
            .rev()
            .take(2)
            .filter_map(|pair| SoundChange::between(&self.sounds[pair[0]], &self.sounds[pair[1]]).map(SoundChange::at))
            .collect();
        let again = places.iter().filter(|place| **place == change.at()).count() as i64 * 4;
        let inflected = if self.plain && new.inflected { 14 } else { 0 };
        // The sound in focus comes in and goes out again.
        let focus = match (self.practises[from], self.practises[to]) {
            (false, true) => -8,
            (true, true) => -4,
            _ => 0,
        };
        rare + respelled + again + inflected + focus
    }

    /// Whether a word practises the focus.
    pub(super) fn practises(&self, number: usize) -> bool {
        self.practises[number]
    }

    /// Whether any does.
    pub(super) fn has_focus(&self) -> bool {
        self.practises.contains(&true)
    }

    /// Whether the sounds that a step leaves alone keep their spelling: *cat*, *rat*; not *cat*, *kit*, nor *pail*, *pay*.
    fn keeps(&self, from: usize, to: usize) -> bool {
        Difference::between(self.words[from], self.words[to]).is_one_part()
    }
}

fn without(sounds: &[SoundId], at: usize) -> Vec<SoundId> {
    [&sounds[..at], &sounds[at + 1..]].concat()
}
