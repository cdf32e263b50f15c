//! Word chains: each step adds, drops or swaps exactly one sound.
//!
//! The words of a bank are the nodes of a graph, two words one sound apart its edges. A chain is a walk without repeats; of the many
//! there are, the search prefers common words, changes at changing places, and steps that leave the spelling of the other sounds alone.

mod graph;
mod search;
mod step;

use std::collections::HashSet;

use fastrand::Rng;
use serde::Serialize;
use untaught::Focus;

use crate::{Bank, BankWord, CannotMake};
use graph::Graph;
use search::Search;

pub use step::{ChainStep, SoundChange};

/// A chain.
#[derive(Clone, Debug, Serialize)]
pub struct Chain {
    /// Its words.
    pub words: Vec<String>,
    /// The steps between them: one fewer than words.
    pub steps: Vec<ChainStep>,
}

/// Which chain to make.
#[derive(Clone, Default, Debug)]
pub struct ChainRequest {
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
    /// Decides the random choices.
    pub seed: u64,
}

/// Steps of a chain unless the request says otherwise.
const STEPS: usize = 8;

/// How many searches are begun, and how many words each may look at.
const TRIES: usize = 24;
const PATIENCE: usize = 4_000;

/// Makes a chain of one-syllable words of a bank.
///
/// # Errors
/// A sentence that says why there is no such chain.
pub fn chain(bank: &Bank<'_>, request: &ChainRequest) -> Result<Chain, CannotMake> {
    let words: Vec<&BankWord> =
        bank.words.iter().filter(|word| word.reading.syllables() == 1 && word.sounds.len() > 1).collect();
    let graph = Graph::new(bank, words, request);
    let find = |word: &Option<String>| word.as_ref().map(|word| graph.find(bank, word)).transpose();
    let (from, to) = (find(&request.from)?, find(&request.to)?);
    let distances = to.map(|to| graph.distances(to));
    let steps = match (request.steps, from, &distances) {
        (Some(steps), ..) => steps,
        (None, Some(from), Some(distances)) if distances[from] != usize::MAX => distances[from],
        (None, Some(from), Some(_)) => {
            let (from, to) = (&graph.words[from].word, request.to.as_deref().unwrap_or_default());
            return Err(CannotMake(format!("no chain leads from {from} to {to} with the words of this lesson")));
        }
        _ => STEPS,
    };
    let mut rng = Rng::with_seed(request.seed);
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
        let ends = match (&request.from, &request.to) {
            (Some(from), Some(to)) => format!(" from {from} to {to}"),
            (Some(from), None) => format!(" from {from}"),
            (None, Some(to)) => format!(" to {to}"),
            (None, None) => String::new(),
        };
        let n = graph.words.len();
        return Err(CannotMake(format!(
            "no chain of {steps} steps{ends} can be made: {n} words of one syllable can be sounded out at this lesson; ask for \
             fewer steps or a later lesson"
        )));
    };
    let words: Vec<&BankWord> = path.into_iter().map(|number| graph.words[number]).collect();
    let steps = words.windows(2).filter_map(|pair| ChainStep::of(pair[0], pair[1])).collect();
    Ok(Chain { words: words.into_iter().map(|word| word.word.clone()).collect(), steps })
}
