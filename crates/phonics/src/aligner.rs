//! The cheapest cutting of a word.

use crate::CorrespondenceId;
use crate::lattice::{Lattice, SpellingIndex, WordToCut};

/// What each correspondence costs, in 1/256 bit, in catalogue order. Whole numbers, so that every machine cuts alike.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Weights(pub Vec<u32>);

/// One part of a cutting.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct CutPart {
    /// The correspondence.
    pub id: CorrespondenceId,
    /// Number of phones it takes.
    pub phones: usize,
}

/// A whole cutting.
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
    /// An aligner with learnt weights, one for every correspondence.
    #[must_use]
    pub fn new(weights: Weights) -> Aligner {
        Aligner { index: SpellingIndex::default(), weights }
    }

    /// The cheapest cutting of a word, or none where the catalogue cannot cover it. Among equals, the one whose parts stand
    /// first in the catalogue.
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
