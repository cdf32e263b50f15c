//! Learns the cost of each correspondence from words with their phones: expectation–maximisation over all cuts that the
//! catalogue and the convention allow (a joint unigram model of letters and phones; Deligne and Bimbot's multigram, from memory).

use crate::aligner::Weights;
use crate::lattice::{Lattice, SpellingIndex, WordToCut, correspondences};

/// Rounds of expectation–maximisation. The cuts of the dictionary stop changing after about eight rounds.
pub const ROUNDS: usize = 10;

/// Added to every count, so that every correspondence in the catalogue stays possible.
const FLOOR: f64 = 0.05;

/// Learns the weights. Deterministic: one thread, a fixed order of additions, costs rounded to 1/256 bit.
pub fn learn<'a>(words: impl Iterator<Item = WordToCut<'a>>, rounds: usize) -> Weights {
    let index = SpellingIndex::default();
    let lattices: Vec<Lattice> =
        words.map(|word| Lattice::build(word, &index)).filter(|lattice| !lattice.ends.is_empty()).collect();
    let mut chance = vec![1.0 / correspondences() as f64; correspondences()];
    let (mut ahead, mut behind) = (Vec::new(), Vec::new());
    for _ in 0..rounds {
        let mut counts = vec![FLOOR; correspondences()];
        for lattice in &lattices {
            expect(lattice, &chance, &mut counts, &mut ahead, &mut behind);
        }
        let total: f64 = counts.iter().sum();
        for (chance, count) in chance.iter_mut().zip(&counts) {
            *chance = count / total;
        }
    }
    Weights(chance.iter().map(|chance| (-chance.log2() * 256.0).round() as u32).collect())
}

/// Adds each correspondence's expected count in the cuts of one word (forward–backward algorithm).
fn expect(lattice: &Lattice, chance: &[f64], counts: &mut [f64], ahead: &mut Vec<f64>, behind: &mut Vec<f64>) {
    ahead.clear();
    ahead.resize(lattice.nodes, 0.0);
    behind.clear();
    behind.resize(lattice.nodes, 0.0);
    ahead[0] = 1.0;
    let weigh = |edge: &crate::lattice::Edge| edge.parts().map(|(id, _)| chance[id.index()]).product::<f64>();
    for edge in &lattice.edges {
        ahead[edge.to as usize] += ahead[edge.from as usize] * weigh(edge);
    }
    for end in &lattice.ends {
        behind[*end as usize] = 1.0;
    }
    for edge in lattice.edges.iter().rev() {
        behind[edge.from as usize] += behind[edge.to as usize] * weigh(edge);
    }
    let whole = behind[0];
    if whole <= 0.0 {
        return;
    }
    for edge in &lattice.edges {
        let share = ahead[edge.from as usize] * weigh(edge) * behind[edge.to as usize] / whole;
        for (id, _) in edge.parts() {
            counts[id.index()] += share;
        }
    }
}
