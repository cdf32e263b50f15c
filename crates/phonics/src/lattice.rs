//! All the ways to cut a word that the catalogue and the cutting convention allow.
//!
//! A node is a pair of positions, in the letters and in the phones, plus the kind of part before it: the convention treats
//! a final e differently after a single vowel letter. An edge is one part, or a split spelling with the consonant inside it.
//! Edges always lead to later letters, so the order in which they are created is a topological order.
//!
//! The convention (common practice; there is no published source). Comments below refer to these numbers:
//! 1. A single vowel letter, one consonant spelling (or `st`) and a final e make a split spelling; but `ve` spells /v/ after a
//!    short vowel (*have*), and doubled consonants, `x`, `gue` and `que` take the e themselves (*giraffe*, *axe*, *vague*).
//! 2. After a vowel team, an r-vowel or a consonant a final e belongs to the consonant (*mouse*, *nurse*, *fence*).
//! 3. `-ed` for /t/ or /d/ is one part, but an e that belongs to the preceding vowel stays with it (*tied*, *scared*).
//! 4. A vowel before an r that closes the syllable makes one part with it (*park*, *poor*, *care*).

use crate::{Accent, CORRESPONDENCES, Correspondence, CorrespondenceId, Grade, Phone};

/// Marks an empty slot for a part.
const NONE: u16 = u16::MAX;

/// One part, or a split spelling with the one or two consonant parts inside it.
#[derive(Clone, Copy, Debug)]
pub struct Edge {
    /// Node it leaves.
    pub from: u32,
    /// Node it reaches.
    pub to: u32,
    parts: [u16; 3],
    /// Number of phones that each part covers.
    takes: [u8; 3],
}

impl Edge {
    /// The parts of the edge, each with the number of phones it covers.
    pub fn parts(&self) -> impl Iterator<Item = (CorrespondenceId, usize)> + '_ {
        let pairs = self.parts.iter().zip(self.takes);
        pairs.take_while(|(id, _)| **id != NONE).map(|(id, n)| (CorrespondenceId(*id), usize::from(n)))
    }
}

/// The kind of part before a node.
#[derive(Clone, Copy, PartialEq, Eq)]
enum PartBefore {
    Other = 0,
    ShortLetter = 1,
    LongLetter = 2,
}
const BEFORE: [PartBefore; 3] = [PartBefore::Other, PartBefore::ShortLetter, PartBefore::LongLetter];

/// The letters of a word (lower-case a–z only), its phones, and where its seams are.
#[derive(Clone, Copy, Debug)]
pub struct WordToCut<'a> {
    /// Letters.
    pub letters: &'a [u8],
    /// Phones; `None` if a word is read by its letters alone and any sound fits.
    pub phones: Option<&'a [Phone]>,
    /// Bit n is set if there is a seam before letter n: a part may not cross it, and an e before it is final.
    pub seams: u64,
}

/// The lattice of one word.
#[derive(Debug)]
pub struct Lattice {
    /// The edges that are part of a complete cut, in topological order.
    pub edges: Vec<Edge>,
    /// Number of nodes.
    pub nodes: usize,
    /// Final nodes (those reached).
    pub ends: Vec<u32>,
}

/// The catalogue, indexed for search: plain spellings by first letter, split ones by vowel.
#[derive(Debug)]
pub struct SpellingIndex {
    plain: [Vec<CorrespondenceId>; 26],
    split: [Vec<CorrespondenceId>; 26],
}

impl Default for SpellingIndex {
    fn default() -> Self {
        let mut index = SpellingIndex { plain: Default::default(), split: Default::default() };
        // The dictionary is American: British readings come from its cuts.
        for id in CorrespondenceId::all().filter(|id| id.get().is_in(Accent::GeneralAmerican)) {
            let spelling = id.get().spelling.as_bytes();
            let table = if id.get().is_split() { &mut index.split } else { &mut index.plain };
            table[usize::from(spelling[0] - b'a')].push(id);
        }
        index
    }
}

fn is_vowel_letter(letter: u8) -> bool {
    matches!(letter, b'a' | b'e' | b'i' | b'o' | b'u' | b'y')
}

/// Whether a spelling ends in a silent e: `ve`, `are`, `tte`; not a vowel team such as `ie`.
fn ends_in_mute_e(spelling: &[u8]) -> bool {
    matches!(spelling, [.., before, b'e'] if !b"aeiouy".contains(before))
        || matches!(spelling, b"gue" | b"que" | b"ngue")
}

/// The sounds after which `ve` spells /v/.
fn is_short(part: &Correspondence) -> bool {
    matches!(part.sound.get().name, "AE" | "EH" | "IH" | "AA" | "AH" | "AX")
}

impl<'a> WordToCut<'a> {
    fn is_edge(&self, at: usize) -> bool {
        at == 0 || at == self.letters.len() || self.has_seam(at)
    }

    fn has_seam(&self, at: usize) -> bool {
        at < 64 && self.seams >> at & 1 == 1
    }

    /// Whether nothing but an inflection's `s` follows.
    fn is_final(&self, at: usize) -> bool {
        self.is_edge(at) || &self.letters[at..] == b"s"
    }

    fn vowel_at(&self, at: usize) -> bool {
        at < self.letters.len() && !self.has_seam(at) && is_vowel_letter(self.letters[at])
    }

    fn crosses_seam(&self, from: usize, to: usize) -> bool {
        (from + 1..to).any(|at| self.has_seam(at))
    }

    /// The numbers of phones that a part may cover, starting at `phone`.
    fn hears(&self, part: &Correspondence, phone: usize) -> impl Iterator<Item = usize> + 'a {
        let rest = self.phones.map(|phones| &phones[phone..]);
        // Reading by letters alone never uses a spelling that belongs to a single word.
        let by_letters = rest.is_none() && part.grade != Grade::Odd;
        let heard = part.heard.iter().filter_map(move |heard| {
            let n = heard.phones.len();
            let fits = rest?.starts_with(heard.phones)
                && heard.next.is_none_or(|next| rest.and_then(|rest| rest.get(n)) == Some(&next));
            fits.then_some(n)
        });
        heard.chain(by_letters.then_some(0))
    }

    /// Whether a part may cover the letters `from..to`, including the convention's rules for a final e.
    fn may_stand(&self, part: &Correspondence, from: usize, to: usize, before: PartBefore) -> bool {
        let context = &part.context;
        let spelled = |mask: u32, letter: u8| mask >> (letter - b'a') & 1 == 1;
        if context.start && !self.is_edge(from)
            || context.end && !self.is_final(to)
            || context.open && !self.vowel_at(to)
            || context.closed && self.vowel_at(to)
            || context.before != 0 && !(to < self.letters.len() && spelled(context.before, self.letters[to]))
            || context.after != 0 && !(from > 0 && spelled(context.after, self.letters[from - 1]))
        {
            return false;
        }
        let spelling = part.spelling.as_bytes();
        if ends_in_mute_e(spelling) && self.vowel_at(to) && !context.open {
            // Before a, o, u an e keeps the c or g before it soft: *noticeable*, *pigeon*. Elsewhere it is a vowel.
            return matches!(spelling, b"ce" | b"ge") && matches!(self.letters[to], b'a' | b'o' | b'u');
        }
        let keeps_e = spelling == b"le" || spelling.ends_with(b"re");
        if ends_in_mute_e(spelling) && !keeps_e && self.letters.get(to) == Some(&b'r') && !self.has_seam(to) {
            return false; // *different*: the e goes with the r.
        }
        if ends_in_mute_e(spelling) && !keeps_e && self.letters[to..] == *b"d" {
            return false; // Rule 3.
        }
        if context.mute && !self.is_final(to) && (self.phones.is_none() || self.letters[to] == b'r') {
            return false; // *average*: the e goes with the r. By letters alone, only a final e is silent.
        }
        if context.mute {
            // Rules 1 and 2.
            return match before {
                PartBefore::Other => true,
                PartBefore::ShortLetter if part.spelling == "ve" => true,
                // *evening*: after a long vowel the e makes a split spelling wherever it is.
                PartBefore::LongLetter if part.spelling == "ve" => false,
                _ => !self.is_final(to),
            };
        }
        if part.spelling == "e" && self.has_seam(to) && part.sound.get().name == "AX" {
            return false; // The e of *have* in *haven't* is silent.
        }
        if part.spelling == "ed" {
            let syllable = part.heard[0].phones.len() == 2;
            return self.may_be_ending(from, syllable)
                || !syllable && self.has_seam(from)
                || syllable && self.has_seam(to);
        }
        // Rule 4.
        !(self.r_closes(to)
            && matches!(
                part.spelling,
                "a" | "e" | "i" | "o" | "u" | "ai" | "ea" | "ee" | "ei" | "ie" | "oa" | "oo" | "ou"
            ))
    }

    /// Whether `ed` may be the ending: rule 3. As a syllable it follows t or d: *landed*, but *naked*.
    fn may_be_ending(&self, from: usize, syllable: bool) -> bool {
        match &self.letters[..from] {
            [.., _, b't' | b'd'] => syllable,
            _ if syllable => false,
            [.., b'o', b'o' | b'u'] | [.., b'g' | b'q', b'u'] => true,
            [.., b'a' | b'e' | b'i' | b'o' | b'u'] => false,
            // The e of *bottled* belongs to `le`.
            [.., b'b' | b'c' | b'd' | b'f' | b'g' | b'k' | b'p' | b's' | b't' | b'z', b'l'] => false,
            before => before.len() > 1,
        }
    }

    /// Whether the next letter is an r that ends its syllable.
    fn r_closes(&self, at: usize) -> bool {
        at < self.letters.len()
            && self.letters[at] == b'r'
            && !self.vowel_at(at + 1)
            && self.letters.get(at + 1) != Some(&b'r')
    }
}

impl Lattice {
    /// Builds the lattice. Cost: letters × phones × matching spellings; a few microseconds per word.
    #[must_use]
    pub fn build(word: WordToCut<'_>, index: &SpellingIndex) -> Lattice {
        let mut lattice = Lattice { edges: Vec::new(), nodes: 0, ends: Vec::new() };
        let (letters, phones) = (word.letters.len(), word.phones.map_or(0, <[Phone]>::len));
        let width = (phones + 1) * BEFORE.len();
        lattice.nodes = (letters + 1) * width;
        let mut reached = vec![false; lattice.nodes];
        reached[0] = true;
        for at in 0..letters {
            let plain: Vec<CorrespondenceId> = index.plain[usize::from(word.letters[at] - b'a')]
                .iter()
                .copied()
                .filter(|id| word.letters[at..].starts_with(id.get().spelling.as_bytes()))
                .filter(|id| !word.crosses_seam(at, at + id.get().spelling.len()))
                .collect();
            for phone in 0..=phones {
                for before in BEFORE {
                    let from = at * width + phone * BEFORE.len() + before as usize;
                    if !reached[from] {
                        continue;
                    }
                    let mut add = |at: usize, phone: usize, before: PartBefore, parts: [u16; 3], takes: [u8; 3]| {
                        let to = at * width + phone * BEFORE.len() + before as usize;
                        reached[to] = true;
                        let (from, to) = (from as u32, to as u32);
                        lattice.edges.push(Edge { from, to, parts, takes });
                    };
                    let before = if word.has_seam(at) { PartBefore::Other } else { before };
                    for &id in &plain {
                        let part = id.get();
                        let to = at + part.spelling.len();
                        if !word.may_stand(part, at, to, before) {
                            continue;
                        }
                        let after = match part.is_vowel_letter() {
                            true if is_short(part) => PartBefore::ShortLetter,
                            true => PartBefore::LongLetter,
                            false => PartBefore::Other,
                        };
                        for n in word.hears(part, phone) {
                            add(to, phone + n, after, [id.0, NONE, NONE], [n as u8, 0, 0]);
                        }
                    }
                    add_splits(word, index, at, phone, &mut add);
                }
            }
        }
        lattice.ends = (0..BEFORE.len())
            .map(|before| letters * width + phones * BEFORE.len() + before)
            .filter(|node| reached[*node])
            .map(|node| node as u32)
            .collect();
        lattice.prune();
        lattice
    }

    /// Drops the edges from which no end can be reached.
    fn prune(&mut self) {
        let mut useful = vec![false; self.nodes];
        self.ends.iter().for_each(|end| useful[*end as usize] = true);
        for edge in self.edges.iter().rev() {
            if useful[edge.to as usize] {
                useful[edge.from as usize] = true;
            }
        }
        self.edges.retain(|edge| useful[edge.to as usize]);
        self.edges.shrink_to_fit();
    }
}

/// Adds the split spellings that start at a letter: rule 1.
fn add_splits(
    word: WordToCut<'_>,
    index: &SpellingIndex,
    at: usize,
    phone: usize,
    add: &mut impl FnMut(usize, usize, PartBefore, [u16; 3], [u8; 3]),
) {
    let letters = word.letters;
    let splits = &index.split[usize::from(letters[at] - b'a')];
    if splits.is_empty() {
        return;
    }
    for inner in 1..=2 {
        let e = at + 1 + inner;
        if e >= letters.len() || letters[e] != b'e' || word.vowel_at(e + 1) || word.crosses_seam(at, e + 1) {
            continue;
        }
        if letters.get(e + 1) == Some(&b'r') && !word.has_seam(e + 1) {
            continue; // *opera*: the e goes with the r.
        }
        let inside = &letters[at + 1..e];
        let whole = matches!(
            inside,
            [b'b' | b'c' | b'd' | b'f' | b'g' | b'k' | b'l' | b'm' | b'n' | b'p' | b's' | b't' | b'v' | b'z']
                | [b't' | b'c' | b'p' | b's', b'h']
                | [b'g', b'n']
        );
        for &split in splits {
            if inside == b"v" && is_short(split.get()) {
                continue;
            }
            for taken in word.hears(split.get(), phone) {
                let phone = phone + taken;
                if &letters[e + 1..] == b"d" && word.phones.is_none_or(|phones| phones.len() == phone + 2) {
                    continue; // Rule 3: the e of *hoped* belongs to the ending.
                }
                let consonants = |letter: u8| index.plain[usize::from(letter - b'a')].iter();
                if whole {
                    for &one in consonants(inside[0]).filter(|c| c.get().spelling.as_bytes() == inside) {
                        for n in word.hears(one.get(), phone) {
                            let takes = [taken as u8, n as u8, 0];
                            add(e + 1, phone + n, PartBefore::Other, [split.0, one.0, NONE], takes);
                        }
                    }
                } else if inside == b"st" {
                    for &one in consonants(b's').filter(|c| c.get().spelling == "s") {
                        for &two in consonants(b't').filter(|c| c.get().spelling == "t") {
                            for n in word.hears(one.get(), phone) {
                                for k in word.hears(two.get(), phone + n) {
                                    let takes = [taken as u8, n as u8, k as u8];
                                    add(e + 1, phone + n + k, PartBefore::Other, [split.0, one.0, two.0], takes);
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// Number of correspondences, which is the length of a table of weights.
#[must_use]
pub const fn correspondences() -> usize {
    CORRESPONDENCES.len()
}
