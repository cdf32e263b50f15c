//! Reading by letters: the most probable cutting of a word whose sounds are unknown.
//!
//! The model is a joint trigram over correspondences (Bisani & Ney 2008 describe the family; from memory), smoothed by absolute
//! discounting, learnt from the cut dictionary. The search keeps the best few cuttings at every letter.

use std::borrow::Cow;
use std::collections::BTreeMap;

use crate::lattice::{Index, Lattice, Word, correspondences};
use crate::{CorrespondenceId, SoundKind};

/// Taken off every count, for what was never seen.
const DISCOUNT: f64 = 0.7;

/// Cuttings kept at every letter.
const BEAM: usize = 4;

/// Costs are whole numbers of 1/256 bit, none larger than this.
const WORST: f64 = 60_000.0;

/// The learnt model, as packed bytes that are read in place: numbers of two-part and three-part sequences (u32 each), then the cost of
/// every part alone and the cost of backing off from it (u16 each, with one place more for the end and the start of a word), then
/// sequences in order: two parts, cost and backing off; three parts and cost (four u16 each, the first part highest).
#[derive(Clone, Debug)]
pub struct LetterModel {
    bytes: Cow<'static, [u8]>,
    pairs: usize,
    triples: usize,
}

/// Start and end of a word, among parts.
fn edge() -> u16 {
    u16::try_from(correspondences()).unwrap_or(u16::MAX)
}

impl LetterModel {
    /// Learns from cut words. Deterministic.
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

    /// Opens packed bytes; none if their length is not what they say.
    #[must_use]
    pub fn open(bytes: &'static [u8]) -> Option<LetterModel> {
        LetterModel::of(Cow::Borrowed(bytes))
    }

    fn of(bytes: Cow<'static, [u8]>) -> Option<LetterModel> {
        let number = |at: usize| bytes.get(at..at + 4)?.try_into().ok().map(|b| u32::from_le_bytes(b) as usize);
        let (pairs, triples) = (number(0)?, number(4)?);
        let whole = 8 + 4 * (correspondences() + 1) + 8 * (pairs + triples);
        (bytes.len() == whole).then_some(LetterModel { bytes, pairs, triples })
    }

    fn single(&self, table: usize, at: u16) -> u32 {
        let at = 8 + 2 * (table * (correspondences() + 1) + usize::from(at));
        u32::from(u16::from_le_bytes([self.bytes[at], self.bytes[at + 1]]))
    }

    fn sequence(&self, from: usize, count: usize, key: u64, shift: u32) -> Option<u64> {
        let start = 8 + 4 * (correspondences() + 1) + 8 * from;
        let at = |n: usize| {
            let at = start + 8 * n;
            self.bytes[at..].first_chunk().map_or(0, |bytes| u64::from_le_bytes(*bytes))
        };
        let (mut low, mut high) = (0, count);
        while low < high {
            let middle = usize::midpoint(low, high);
            if at(middle) >> shift < key { low = middle + 1 } else { high = middle }
        }
        (low < count && at(low) >> shift == key).then(|| at(low))
    }

    /// The cost of a part after two others.
    fn cost(&self, first: u16, second: u16, third: u16) -> u32 {
        let pair = u64::from(first) << 16 | u64::from(second);
        if let Some(found) = self.sequence(self.pairs, self.triples, pair << 16 | u64::from(third), 16) {
            return (found & 0xffff) as u32;
        }
        let back = self.sequence(0, self.pairs, pair, 32).map_or(0, |found| (found & 0xffff) as u32);
        let pair = u64::from(second) << 16 | u64::from(third);
        match self.sequence(0, self.pairs, pair, 32) {
            Some(found) => back + (found >> 16 & 0xffff) as u32,
            None => back + self.single(1, second) + self.single(0, third),
        }
    }

    /// The most probable cutting of some letters (a–z), over the whole catalogue but for what one word family alone has.
    /// Seams as in [`Word`]. Cost: some hundred microseconds.
    #[must_use]
    pub fn read(&self, letters: &[u8], seams: u64, index: &Index) -> Option<Vec<CorrespondenceId>> {
        let word = Word { letters, phones: None, seams };
        let lattice = Lattice::build(word, index);
        let one_syllable = vowel_groups(letters) < 2;
        // Paths by node: cost, the last two parts, and the path they go on.
        let mut paths: Vec<Path> = vec![Path { cost: 0, last: [edge(), edge()], before: usize::MAX }];
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
                for (id, _) in edge_of.parts() {
                    let Path { cost, last, .. } = paths[end];
                    let cost = cost + self.cost(last[0], last[1], id.0);
                    paths.push(Path { cost, last: [last[1], id.0], before: end });
                    end = paths.len() - 1;
                }
                at[edge_of.to as usize].push(end);
            }
        }
        let finished = lattice.ends.iter().flat_map(|end| &at[*end as usize]);
        let total = |path: &usize| paths[*path].cost + self.cost(paths[*path].last[0], paths[*path].last[1], edge());
        let mut path = finished.copied().min_by_key(|path| (total(path), *path))?;
        let mut parts = Vec::new();
        while paths[path].before != usize::MAX {
            parts.push(CorrespondenceId(paths[path].last[1]));
            path = paths[path].before;
        }
        parts.reverse();
        Some(parts)
    }
}

#[derive(Clone, Copy)]
struct Path {
    cost: u32,
    last: [u16; 2],
    before: usize,
}

/// How many groups of vowel letters a word has, a final mute e apart: about its syllables.
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
    // How often each context was seen, and with how many different parts after it.
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
    let packed = |parts: [u16; 4]| parts.iter().fold(0u64, |word, part| word << 16 | u64::from(*part)).to_le_bytes();
    for [first, second] in twos.keys() {
        let back = bits(left(after_2.get(&[*first, *second]).copied().unwrap_or_default()));
        bytes.extend(packed([*first, *second, bits(chance_2(*first, *second)), back]));
    }
    for ([first, second, third], count) in threes {
        let seen = after_2[&[*first, *second]];
        let own = (f64::from(*count) - DISCOUNT).max(0.0) / f64::from(seen.0);
        bytes.extend(packed([*first, *second, *third, bits(own + left(seen) * chance_2(*second, *third))]));
    }
    LetterModel { pairs: twos.len(), triples: threes.len(), bytes: Cow::Owned(bytes) }
}
