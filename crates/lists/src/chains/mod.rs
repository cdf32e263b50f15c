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
    /// The spellings with which every word of the chain can be laid, one after the other, each as often as one word needs it.
    pub tiles: Vec<String>,
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
    /// What the chain practises: at least [`FOCUSED`] percent of its words do.
    pub focus: Option<Focus>,
    /// Whether steps may spell the other sounds in another way: *pail*, *pay*.
    pub respell: bool,
    /// Decides the random choices.
    pub seed: u64,
}

/// Steps of a chain unless the request says otherwise: the most that can be made.
const STEPS: [usize; 4] = [8, 7, 6, 4];

/// Percent of the words of a chain that practise the focus, at least.
pub const FOCUSED: usize = 60;

/// Focus words of one syllable that are enough for a chain; with fewer, longer words are taken too.
const ENOUGH: usize = 12;

/// How many searches are begun, and how many words each may look at.
const TRIES: usize = 24;
const PATIENCE: usize = 4_000;

/// Makes a chain of words of a bank: of one syllable, unless too few such words practise the focus.
///
/// # Errors
/// A sentence that says why there is no such chain.
pub fn chain(bank: &Bank<'_>, request: &ChainRequest) -> Result<Chain, CannotMake> {
    let graph = Graph::new(bank, words(bank, request), request);
    let find = |word: &Option<String>| word.as_ref().map(|word| graph.find(bank, word)).transpose();
    let (from, to) = (find(&request.from)?, find(&request.to)?);
    let distances = to.map(|to| graph.distances(to));
    let steps = match (request.steps, from, &distances) {
        (Some(steps), ..) => vec![steps],
        (None, Some(from), Some(distances)) if distances[from] != usize::MAX => vec![distances[from]],
        (None, Some(from), Some(_)) => {
            let (from, to) = (&graph.words[from].word, request.to.as_deref().unwrap_or_default());
            return Err(CannotMake(format!("no chain leads from {from} to {to} with the words of this lesson")));
        }
        _ => STEPS.to_vec(),
    };
    // Who names the ends wants that chain, whatever it practises.
    let free = request.from.is_some() || request.to.is_some();
    let mut rng = Rng::with_seed(request.seed);
    let found = steps.iter().find_map(|steps| search(&graph, *steps, free, from, distances.as_deref(), &mut rng));
    let Some(path) = found else { return Err(no_chain(&graph, request, &steps, free)) };
    let words: Vec<&BankWord> = path.into_iter().map(|number| graph.words[number]).collect();
    let steps = words.windows(2).filter_map(|pair| ChainStep::of(pair[0], pair[1])).collect();
    let tiles = tiles(&words);
    Ok(Chain { words: words.into_iter().map(|word| word.word.clone()).collect(), steps, tiles })
}

/// The words of a chain.
fn words<'b>(bank: &'b Bank<'_>, request: &ChainRequest) -> Vec<&'b BankWord> {
    let usable = |word: &&BankWord| word.sounds.len() > 1;
    let brief = |word: &&BankWord| word.reading.syllables() == 1;
    let practises = |word: &&BankWord| request.focus.as_ref().is_some_and(|focus| bank.practises(word, focus, None));
    let all = || bank.words.iter().filter(usable);
    let is_focused = request.focus.as_ref().is_some_and(|focus| !focus.is_empty());
    let short = !is_focused || all().filter(brief).filter(practises).take(ENOUGH).count() == ENOUGH;
    all().filter(|word| !short || brief(word)).collect()
}

/// A walk of so many steps; `free` if it need not practise the focus.
fn search(
    graph: &Graph<'_>,
    steps: usize,
    free: bool,
    from: Option<usize>,
    distances: Option<&[usize]>,
    rng: &mut Rng,
) -> Option<Vec<usize>> {
    let others = if free || !graph.has_focus() { usize::MAX } else { (steps + 1) * (100 - FOCUSED) / 100 };
    let mut best: Option<(i64, Vec<usize>)> = None;
    for _ in 0..TRIES {
        let Some(start) = from.or_else(|| graph.start(rng)) else { break };
        let mut search = Search { graph, rng, distances, steps, others, left: PATIENCE };
        let mut path = vec![start];
        let mut seen: HashSet<&str> = HashSet::from([graph.words[start].word.as_str()]);
        if let Some(cost) = search.walk(&mut path, &mut seen, 0)
            && best.as_ref().is_none_or(|(known, _)| cost < *known)
        {
            best = Some((cost, path));
        }
    }
    best.map(|(_, path)| path)
}

/// Why there is no chain.
fn no_chain(graph: &Graph<'_>, request: &ChainRequest, steps: &[usize], free: bool) -> CannotMake {
    let least = steps.iter().min().copied().unwrap_or_default();
    let n = graph.words.len();
    if graph.has_focus() && !free {
        let labels = request.focus.as_ref().map_or_else(String::new, |focus| focus.labels.join(", "));
        let practising = (0..n).filter(|number| graph.practises(*number)).count();
        return CannotMake(format!(
            "no chain of {least} steps can be made in which most words practise {labels}: too few of the {practising} words that do \
             are one sound apart"
        ));
    }
    let ends = match (&request.from, &request.to) {
        (Some(from), Some(to)) => format!(" from {from} to {to}"),
        (Some(from), None) => format!(" from {from}"),
        (None, Some(to)) => format!(" to {to}"),
        (None, None) => String::new(),
    };
    CannotMake(format!(
        "no chain of {least} steps{ends} can be made: {n} words can be sounded out at this lesson; ask for fewer steps or a later lesson"
    ))
}

/// The tiles with which the words can be laid: each spelling as often as one of the words has it, in the order in which they are needed.
fn tiles(words: &[&BankWord]) -> Vec<String> {
    let mut tiles: Vec<&str> = Vec::new();
    for word in words {
        let spellings: Vec<&str> = word.reading.parts.iter().map(untaught::Part::spelling).collect();
        for (at, spelling) in spellings.iter().enumerate() {
            let needed = spellings[..=at].iter().filter(|one| *one == spelling).count();
            if tiles.iter().filter(|tile| *tile == spelling).count() < needed {
                tiles.push(spelling);
            }
        }
    }
    tiles.into_iter().map(ToOwned::to_owned).collect()
}
