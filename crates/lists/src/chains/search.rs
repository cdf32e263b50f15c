//! The search for a walk through the graph that is liked.

use std::collections::HashSet;

use fastrand::Rng;

use super::graph::Graph;

pub(super) struct Search<'g, 'b> {
    pub(super) graph: &'g Graph<'b>,
    pub(super) rng: &'g mut Rng,
    pub(super) distances: Option<&'g [usize]>,
    pub(super) steps: usize,
    /// Words that need not practise the focus, at most.
    pub(super) others: usize,
    /// Words that may still be looked at.
    pub(super) left: usize,
}

impl<'b> Search<'_, 'b> {
    /// Goes on from the end of a path, the liked steps first; the cost of the whole, if it gets there.
    pub(super) fn walk(&mut self, path: &mut Vec<usize>, seen: &mut HashSet<&'b str>, cost: i64) -> Option<i64> {
        let done = path.len() - 1;
        if done == self.steps {
            return Some(cost);
        }
        let end = *path.last()?;
        let mut next: Vec<(i64, usize)> = Vec::new();
        for &(other, change) in self.graph.neighbours(end) {
            let reaches = self.distances.is_none_or(|distances| {
                let left = self.steps - done - 1;
                distances[other] <= left
            });
            let others = path.iter().filter(|number| !self.graph.practises(**number)).count();
            let practises = self.graph.practises(other) || others < self.others;
            if reaches && practises && !seen.contains(self.graph.words[other].word.as_str()) {
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
