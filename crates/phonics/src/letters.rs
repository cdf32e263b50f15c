//! Reading by letters: finds the most probable cut of a word whose sounds are unknown.
//!
//! The model is a joint trigram model over correspondences (Bisani & Ney 2008 describe the family; from memory), smoothed by
//! absolute discounting and learnt from the cut dictionary. The search keeps the best few cuts at every letter.

use std::borrow::Cow;
use std::cmp::Ordering;
use std::collections::BTreeMap;
use std::iter::Peekable;
use std::ops::Range;

use crate::lattice::{Lattice, SpellingIndex, WordToCut, correspondences};
use crate::{CorrespondenceId, SoundKind};

/// Subtracted from every count, to leave some probability for unseen sequences.
const DISCOUNT: f64 = 0.7;

/// Number of cuts kept at every letter.
const BEAM: usize = 4;

/// The largest cost, in 1/256 bit. Costs are integers.
const WORST: f64 = 60_000.0;

/// The learnt model, as packed bytes that are read in place. All numbers are little-endian:
///
/// - the number of pairs and of triples of parts (u32 each);
/// - for every part, and for the edge of a word: its cost on its own (u16 each), then the cost of backing off from it (u16 each);
/// - for every first part, the index of its first pair (u32), then the end of the last;
/// - the sorted pairs: the second part, the cost, the cost of backing off, a zero (u16 each);
/// - for every pair, the index of the first triple that begins with it (u32), then the end of the last;
/// - the sorted triples: the third part and the cost (u16 each).
#[derive(Clone, Debug)]
pub struct LetterModel {
    bytes: Cow<'static, [u8]>,
    pairs: usize,
}

/// The number that marks the start and the end of a word in a sequence of parts.
fn edge() -> u16 {
    u16::try_from(correspondences()).unwrap_or(u16::MAX)
}

impl LetterModel {
    /// Learns a model from cut words. Deterministic.
    pub fn learn<'a>(words: impl Iterator<Item = &'a [CorrespondenceId]>) -> LetterModel {
        let (mut ones, mut twos, mut threes) =
            (vec![0u32; correspondences() + 1], BTreeMap::<[u16; 2], u32>::new(), BTreeMap::<[u16; 3], u32>::new());
        for word in words {
            let mut before = [edge(), edge()];
            for id in word.iter().map(|id| id.0).chain([edge()]) {
                ones[usize::from(id)] += 1;
                *twos.entry([before[1], id]).or_default() += 1;
                *threes.entry([before[0], before[1], id]).or_default() += 1;
                before = [before[1], id];
            }
        }
        pack(&ones, &twos, &threes)
    }

    /// The model as bytes.
    #[must_use]
    pub fn bytes(&self) -> &[u8] {
        &self.bytes
    }

    /// Opens packed bytes; returns `None` if their length does not match their header.
    #[must_use]
    pub fn open(bytes: &'static [u8]) -> Option<LetterModel> {
        LetterModel::of(Cow::Borrowed(bytes))
    }

    fn of(bytes: Cow<'static, [u8]>) -> Option<LetterModel> {
        let number = |at: usize| bytes.get(at..at + 4)?.try_into().ok().map(|b| u32::from_le_bytes(b) as usize);
        let (pairs, triples) = (number(0)?, number(4)?);
        let model = LetterModel { bytes, pairs };
        (model.bytes.len() == model.triples_at() + 4 * triples).then_some(model)
    }

    const fn firsts_at() -> usize {
        8 + 4 * (correspondences() + 1)
    }

    const fn pairs_at() -> usize {
        LetterModel::firsts_at() + 4 * (correspondences() + 2)
    }

    fn starts_at(&self) -> usize {
        LetterModel::pairs_at() + 8 * self.pairs
    }

    fn triples_at(&self) -> usize {
        self.starts_at() + 4 * (self.pairs + 1)
    }

    fn short(&self, at: usize) -> u16 {
        self.bytes.get(at..).and_then(|rest| rest.first_chunk()).map_or(0, |b| u16::from_le_bytes(*b))
    }

    /// A range of a list, from the table of range starts at `table`.
    fn stretch(&self, table: usize, number: usize) -> Range<usize> {
        let at = |number: usize| {
            let place = self.bytes.get(table + 4 * number..).and_then(|rest| rest.first_chunk());
            place.map_or(0, |b| u32::from_le_bytes(*b) as usize)
        };
        at(number)..at(number + 1)
    }

    /// Finds a part in a range of a sorted list and returns the entry's number. Each entry has `size` bytes and begins with
    /// its part.
    fn find(&self, list: usize, size: usize, stretch: Range<usize>, part: u16) -> Option<usize> {
        let Range { start: mut low, end: mut high } = stretch;
        while low < high {
            let middle = usize::midpoint(low, high);
            match self.short(list + size * middle).cmp(&part) {
                Ordering::Equal => return Some(middle),
                Ordering::Less => low = middle + 1,
                Ordering::Greater => high = middle,
            }
        }
        None
    }

    /// The number of a pair, if it was seen in training.
    fn pair(&self, first: u16, second: u16) -> Option<usize> {
        let stretch = self.stretch(LetterModel::firsts_at(), usize::from(first));
        self.find(LetterModel::pairs_at(), 8, stretch, second)
    }

    /// The cost of the part `third` after two others, and the number of the pair `second`, `third`. `pair` is the number of the
    /// pair that the two others form, if it was seen in training.
    fn cost(&self, pair: Option<usize>, second: u16, third: u16) -> (u32, Option<usize>) {
        let next = self.pair(second, third);
        let seen = pair.and_then(|pair| {
            let stretch = self.stretch(self.starts_at(), pair);
            self.find(self.triples_at(), 4, stretch, third)
        });
        if let Some(triple) = seen {
            return (u32::from(self.short(self.triples_at() + 4 * triple + 2)), next);
        }
        let of_pair = |pair: usize, field: usize| u32::from(self.short(LetterModel::pairs_at() + 8 * pair + 2 * field));
        let back = pair.map_or(0, |pair| of_pair(pair, 2));
        let single = |table: usize, part: u16| {
            u32::from(self.short(8 + 2 * (table * (correspondences() + 1) + usize::from(part))))
        };
        let cost = next.map_or_else(|| single(1, second) + single(0, third), |next| of_pair(next, 1));
        (back + cost, next)
    }

    /// Returns the most probable cut of some letters (a–z), using the whole catalogue except spellings found in one word family
    /// only. Seams are as in [`WordToCut`]. Cost: a hundred microseconds or more.
    #[must_use]
    pub fn read(&self, letters: &[u8], seams: u64, index: &SpellingIndex) -> Option<Vec<CorrespondenceId>> {
        let word = WordToCut { letters, phones: None, seams };
        let lattice = Lattice::build(word, index);
        let one_syllable = vowel_groups(letters) < 2;
        // Paths by node: the cost, the last two parts, and the path they continue.
        let mut paths: Vec<Path> =
            vec![Path { cost: 0, last: edge(), pair: self.pair(edge(), edge()), before: usize::MAX }];
        let mut at: Vec<Vec<usize>> = vec![Vec::new(); lattice.nodes];
        at[0].push(0);
        let mut node = u32::MAX;
        for edge_of in &lattice.edges {
            if edge_of.from != node {
                node = edge_of.from;
                let beam = &mut at[node as usize];
                beam.sort_by_key(|path| (paths[*path].cost, *path));
                beam.truncate(BEAM);
            }
            let weak =
                |id: CorrespondenceId| id.get().sound.get().kind == SoundKind::Weak && id.get().is_vowel_letter();
            if one_syllable && edge_of.parts().any(|(id, _)| weak(id)) {
                continue;
            }
            for path in at[node as usize].clone() {
                let mut end = path;
                let mut torn = false;
                for (id, _) in edge_of.parts() {
                    let Path { cost, last, pair, .. } = paths[end];
                    torn |= last != edge() && tears(CorrespondenceId(last), id);
                    let (more, pair) = self.cost(pair, last, id.0);
                    paths.push(Path { cost: cost + more, last: id.0, pair, before: end });
                    end = paths.len() - 1;
                }
                if !torn {
                    at[edge_of.to as usize].push(end);
                }
            }
        }
        let finished = lattice.ends.iter().flat_map(|end| &at[*end as usize]);
        let total = |path: &usize| {
            let Path { cost, last, pair, .. } = paths[*path];
            cost + self.cost(pair, last, edge()).0
        };
        let mut path = finished.copied().min_by_key(|path| (total(path), *path))?;
        let mut parts = Vec::new();
        while paths[path].before != usize::MAX {
            parts.push(CorrespondenceId(paths[path].last));
            path = paths[path].before;
        }
        parts.reverse();
        Some(parts)
    }
}

/// Whether two adjacent parts split letters that almost always form one spelling in a word that is not in the dictionary:
/// *yoohoo*, *splotch*. The model has learnt such splits from *cooperate* and *pothole*.
fn tears(one: CorrespondenceId, next: CorrespondenceId) -> bool {
    matches!((one.get().spelling, next.get().spelling), ("e", "e") | ("o", "o") | ("c", "k") | ("t", "ch"))
}

#[derive(Clone, Copy)]
struct Path {
    cost: u32,
    last: u16,
    /// The number of the pair at its end, if it was seen in training.
    pair: Option<usize>,
    before: usize,
}

/// Number of groups of vowel letters, not counting a final silent e: roughly the number of syllables.
fn vowel_groups(letters: &[u8]) -> usize {
    let vowel = |b: &u8| matches!(b, b'a' | b'e' | b'i' | b'o' | b'u' | b'y');
    let body = match letters {
        [body @ .., last, b'e'] if !vowel(last) && body.iter().any(vowel) => &letters[..=body.len()],
        _ => letters,
    };
    body.chunk_by(|a, b| vowel(a) == vowel(b)).filter(|run| vowel(&run[0])).count()
}

fn pack(ones: &[u32], twos: &BTreeMap<[u16; 2], u32>, threes: &BTreeMap<[u16; 3], u32>) -> LetterModel {
    let bits = |chance: f64| (-chance.log2() * 256.0).round().clamp(0.0, WORST) as u16;
    let total: f64 = ones.iter().map(|n| f64::from(*n) + 0.5).sum();
    let chance_1 = |id: u16| (f64::from(ones[usize::from(id)]) + 0.5) / total;
    // For each context, how often it was seen and how many different parts followed it.
    let mut after_1 = vec![(0u32, 0u32); correspondences() + 1];
    for ([first, _], count) in twos {
        let seen = &mut after_1[usize::from(*first)];
        *seen = (seen.0 + count, seen.1 + 1);
    }
    let mut after_2: BTreeMap<[u16; 2], (u32, u32)> = BTreeMap::new();
    for ([first, second, _], count) in threes {
        let seen = after_2.entry([*first, *second]).or_default();
        *seen = (seen.0 + count, seen.1 + 1);
    }
    let left = |(count, kinds): (u32, u32)| {
        if count == 0 { 1.0 } else { DISCOUNT * f64::from(kinds) / f64::from(count) }
    };
    let chance_2 = |first: u16, second: u16| {
        let seen = after_1[usize::from(first)];
        let count = twos.get(&[first, second]).copied().unwrap_or(0);
        let own = if seen.0 == 0 { 0.0 } else { (f64::from(count) - DISCOUNT).max(0.0) / f64::from(seen.0) };
        own + left(seen) * chance_1(second)
    };
    let mut bytes: Vec<u8> = Vec::new();
    bytes.extend((twos.len() as u32).to_le_bytes());
    bytes.extend((threes.len() as u32).to_le_bytes());
    (0..=edge()).for_each(|id| bytes.extend(bits(chance_1(id)).to_le_bytes()));
    (0..=edge()).for_each(|id| bytes.extend(bits(left(after_1[usize::from(id)])).to_le_bytes()));
    let mut firsts = twos.keys().map(|pair| pair[0]).peekable();
    starts(&mut bytes, 0..=edge(), &mut firsts);
    for [first, second] in twos.keys() {
        let back = bits(left(after_2.get(&[*first, *second]).copied().unwrap_or_default()));
        [*second, bits(chance_2(*first, *second)), back, 0].iter().for_each(|n| bytes.extend(n.to_le_bytes()));
    }
    let mut begun = threes.keys().map(|[first, second, _]| [*first, *second]).peekable();
    starts(&mut bytes, twos.keys().copied(), &mut begun);
    for ([first, second, third], count) in threes {
        let seen = after_2[&[*first, *second]];
        let own = (f64::from(*count) - DISCOUNT).max(0.0) / f64::from(seen.0);
        [*third, bits(own + left(seen) * chance_2(*second, *third))].iter().for_each(|n| bytes.extend(n.to_le_bytes()));
    }
    LetterModel { pairs: twos.len(), bytes: Cow::Owned(bytes) }
}

/// Writes, for every key in order, the number of sorted entries before it, and then the total.
fn starts<K: PartialEq>(
    bytes: &mut Vec<u8>,
    keys: impl Iterator<Item = K>,
    entries: &mut Peekable<impl Iterator<Item = K>>,
) {
    let mut count = 0u32;
    for key in keys {
        bytes.extend(count.to_le_bytes());
        while entries.next_if_eq(&key).is_some() {
            count += 1;
        }
    }
    bytes.extend(count.to_le_bytes());
}
