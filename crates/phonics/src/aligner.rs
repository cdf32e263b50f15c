//! Finds the cheapest way to cut a word into parts.

use crate::CorrespondenceId;
use crate::lattice::{Lattice, SpellingIndex, WordToCut};

/// The cost of each correspondence, in 1/256 bit, in catalogue order. Integers, so that results are the same on every machine.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Weights(pub Vec<u32>);

/// One part of a [`Cut`].
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct CutPart {
    /// The correspondence.
    pub id: CorrespondenceId,
    /// Number of phones it covers.
    pub phones: usize,
}

/// A complete way to cut a word into parts.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Cut {
    /// The parts in the order of their first letter.
    pub parts: Vec<CutPart>,
    /// The sum of their costs, in 1/256 bit.
    pub cost: u32,
}

/// Cuts words into parts.
#[derive(Debug)]
pub struct Aligner {
    index: SpellingIndex,
    weights: Weights,
}

impl Aligner {
    /// Creates an aligner from learnt weights, one for each correspondence.
    #[must_use]
    pub fn new(weights: Weights) -> Aligner {
        Aligner { index: SpellingIndex::default(), weights }
    }

    /// Returns the cheapest cut of a word, or `None` if the catalogue cannot cover it. Among equally cheap cuts, it is the one
    /// whose parts come first in the catalogue.
    #[must_use]
    pub fn cut(&self, word: WordToCut<'_>) -> Option<Cut> {
        let lattice = Lattice::build(word, &self.index);
        let mut best: Vec<(u32, u32)> = vec![(u32::MAX, u32::MAX); lattice.nodes];
        best[0].0 = 0;
        for (number, edge) in (0u32..).zip(&lattice.edges) {
            let reached = best[edge.from as usize].0;
            if reached == u32::MAX {
                continue;
            }
            let cost: u32 = edge.parts().map(|(id, _)| self.weights.0[id.index()]).sum();
            let target = &mut best[edge.to as usize];
            if reached + cost < target.0 {
                *target = (reached + cost, number);
            }
        }
        let mut node = *lattice.ends.iter().min_by_key(|end| best[**end as usize].0)?;
        let cost = best[node as usize].0;
        if cost == u32::MAX {
            return None;
        }
        let mut edges = Vec::new();
        while node != 0 {
            let edge = lattice.edges[best[node as usize].1 as usize];
            edges.push(edge);
            node = edge.from;
        }
        let parts = edges.iter().rev().flat_map(|edge| edge.parts().map(|(id, phones)| CutPart { id, phones }));
        Some(Cut { parts: parts.collect(), cost })
    }
}
