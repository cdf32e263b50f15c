//! Gathers the groups of like meaning from the database files of WordNet 3.0:
//!
//! `cargo run -p untaught-lists --example gather -- FOLDER COMMONNESS` writes `data/thesaurus/groups.tsv` anew. FOLDER holds WordNet's
//! `data.noun`, `index.noun` and so on, and `cntlist.rev`; COMMONNESS is the table of size classes that the lexicon is compiled with, a
//! word, a tab and its class a line. Only words of the commoner classes are kept, none that is unfit or has an unfit
//! meaning (`data/fitness`), and no meaning whose definition speaks of something unfit.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::fmt::Write as _;
use std::{env, fs};

/// The rarest size class of the words that are kept.
const RAREST: u8 = 35;
/// Senses of a word that are kept: WordNet lists the commonest first.
const SENSES: usize = 3;
/// Levels that a broader noun stands below the broadest: above that it says too little.
const DEPTH: usize = 5;

#[derive(Default)]
struct Meaning {
    words: Vec<String>,
    broader: Vec<usize>,
    near: Vec<usize>,
    unfit: bool,
}

/// Beginnings of words that the definition of something unfit has.
const TELLS: &str = "obscene vulgar offensive disparag derogat slur slang sex intercourse genital prostitut erotic copulat penis \
    vagina breast buttock excre feces urin defecat vomit narcotic drug cocaine heroin marijuana cannabis tobacco \
    cigar smok alcohol liquor intoxicat drunk wine beer kill murder weapon firearm gun explosive slaughter tortur \
    corpse cadaver";

fn main() {
    let mut arguments = env::args().skip(1);
    let folder = arguments.next().expect("the folder of the database files");
    let commonness = fs::read_to_string(arguments.next().expect("the table of size classes")).unwrap();
    let classes = commonness.lines().filter(|line| !line.starts_with('#')).filter_map(|line| line.split_once('\t'));
    let classes: HashMap<&str, u8> = classes.filter_map(|(word, class)| Some((word, class.parse().ok()?))).collect();
    let left_out = left_out();
    let kept = |word: &str| classes.get(word).is_some_and(|class| *class <= RAREST) && !left_out.contains(word);
    let mut out = String::new();
    let tagged = tagged(&folder);
    let counts = counts(&folder);
    for (pos, letter) in [("noun", 'n'), ("verb", 'v'), ("adj", 'a'), ("adv", 'r')] {
        let data = fs::read_to_string(format!("{folder}/data.{pos}")).unwrap();
        let meanings = meanings(&data, pos);
        let index = fs::read_to_string(format!("{folder}/index.{pos}")).unwrap();
        // By meaning: the words that have it, each with the number of that sense.
        let mut members: BTreeMap<usize, Vec<(usize, String)>> = BTreeMap::new();
        for line in index.lines().filter(|line| !line.starts_with(' ')) {
            let fields: Vec<&str> = line.split(' ').filter(|field| !field.is_empty()).collect();
            let word = fields[0];
            if !kept(word) {
                continue;
            }
            let count: usize = fields[2].parse().unwrap();
            let known: usize = fields[fields.len() - count - 1].parse().unwrap();
            // As a verb, *ghost* is so rare that it is only listed: the noun is meant.
            if known == 0 && tagged.contains(word) {
                continue;
            }
            let shares = shares(counts.get(word).and_then(|kinds| kinds.get(&letter)), count);
            let senses = fields[fields.len() - count..].iter().take(known.clamp(1, SENSES)).enumerate();
            for (sense, offset) in senses {
                let offset: usize = offset.parse().unwrap();
                if meanings.get(&offset).is_some_and(|meaning| !meaning.unfit) {
                    members.entry(offset).or_default().push((shares[sense], word.to_owned()));
                }
            }
        }
        for (offset, words) in &mut members {
            words.sort_by_key(|(share, word)| {
                (Reverse(*share), meanings[offset].words.iter().position(|known| known == word))
            });
        }
        let deep = |offset: &usize| pos != "noun" || depth(&meanings, *offset) >= DEPTH;
        let near = |offset: usize| -> Vec<usize> {
            let meaning = &meanings[&offset];
            let all = meaning.near.iter().chain(meaning.broader.iter().filter(|broader| deep(broader)));
            all.copied().filter(|near| members.contains_key(near)).collect()
        };
        // Meanings of one word that lead nowhere are left out.
        let pointed: BTreeSet<usize> = members.keys().flat_map(|offset| near(*offset)).collect();
        let useful: Vec<usize> = members
            .keys()
            .copied()
            .filter(|offset| members[offset].len() > 1 || !near(*offset).is_empty() || pointed.contains(offset))
            .collect();
        let number: BTreeMap<usize, usize> =
            useful.iter().enumerate().map(|(number, offset)| (*offset, number)).collect();
        for offset in &useful {
            let words: Vec<String> = members[offset].iter().map(|(share, word)| format!("{word}:{share}")).collect();
            let near: Vec<String> =
                near(*offset).iter().filter_map(|near| number.get(near)).map(|n| format!("{letter}{n}")).collect();
            let _ = writeln!(out, "{letter}{}\t{}\t{}", number[offset], words.join(" "), near.join(" "));
        }
        let words: BTreeSet<&String> = useful.iter().flat_map(|o| &members[o]).map(|(_, word)| word).collect();
        for word in words {
            // One more than was met, as for a meaning: what was never met may be.
            let met = counts.get(word.as_str()).and_then(|kinds| kinds.get(&letter)).map_or(0, |met| met.iter().sum());
            let _ = writeln!(out, "{letter}\t{word}\t{} {}", classes[word.as_str()], met + 1);
        }
    }
    let head = "# Words of like meaning, from WordNet 3.0 (licence: LICENSE-WORDNET): made by the example `gather`.\n\
        # A group: its name, its words each with the share in percent that this meaning has of the word's uses as that kind of word,\n\
        # the groups that are broader or similar.\n\
        # A word: its kind (n noun, v verb, a adjective, r adverb), the word, its size class in SCOWL and how often it was met as that\n\
        # kind in the texts that the makers of WordNet marked, and one more.\n";
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/data/thesaurus/groups.tsv");
    fs::write(path, format!("{head}{out}")).unwrap();
}

/// Words for which no other word is offered either: those that are unfit, or have an unfit meaning.
fn left_out() -> BTreeSet<String> {
    let read = |file| fs::read_to_string(format!("{}/data/fitness/{file}", env!("CARGO_MANIFEST_DIR"))).unwrap();
    let text = format!("{}\n{}", read("unfit.tsv"), read("by-meaning.tsv"));
    let rows = text.lines().filter(|line| !line.starts_with('#')).filter_map(|line| line.split_once('\t'));
    rows.map(|(word, _)| word.to_owned()).collect()
}

/// Words that were met in running text as one kind of word at least.
fn tagged(folder: &str) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    for pos in ["noun", "verb", "adj", "adv"] {
        let index = fs::read_to_string(format!("{folder}/index.{pos}")).unwrap();
        for line in index.lines().filter(|line| !line.starts_with(' ')) {
            let fields: Vec<&str> = line.split(' ').filter(|field| !field.is_empty()).collect();
            let count: usize = fields[2].parse().unwrap();
            if fields[fields.len() - count - 1] != "0" {
                found.insert(fields[0].to_owned());
            }
        }
    }
    found
}

/// By word and kind: how often each of its senses was met in the texts that the makers of WordNet marked, the first sense first.
fn counts(folder: &str) -> HashMap<String, HashMap<char, Vec<usize>>> {
    let mut found: HashMap<String, HashMap<char, Vec<usize>>> = HashMap::new();
    for line in fs::read_to_string(format!("{folder}/cntlist.rev")).unwrap().lines() {
        let fields: Vec<&str> = line.split(' ').collect();
        let (word, kind) = fields[0].split_once('%').unwrap();
        let letter = match kind.as_bytes()[0] {
            b'1' => 'n',
            b'2' => 'v',
            b'4' => 'r',
            _ => 'a',
        };
        let senses = found.entry(word.to_owned()).or_default().entry(letter).or_default();
        let (sense, count): (usize, usize) = (fields[1].parse().unwrap(), fields[2].parse().unwrap());
        senses.resize(senses.len().max(sense), 0);
        senses[sense - 1] += count;
    }
    found
}

/// The share in percent of each of a number of senses. What was seldom met is likelier the first sense than the second, and so on: as
/// if each had been met once, the second half a time, the third a third.
fn shares(met: Option<&Vec<usize>>, senses: usize) -> Vec<usize> {
    let times = |sense: usize| met.and_then(|met| met.get(sense)).map_or(0, |n| 60 * n) + 60 / (sense + 1);
    let all: usize = (0..senses).map(times).sum();
    (0..senses).map(|sense| (times(sense) * 100 / all).max(1)).collect()
}

fn meanings(data: &str, pos: &str) -> HashMap<usize, Meaning> {
    let mut meanings = HashMap::new();
    for line in data.lines().filter(|line| !line.starts_with(' ')) {
        let (facts, gloss) = line.split_once(" | ").unwrap_or((line, ""));
        let fields: Vec<&str> = facts.split(' ').filter(|field| !field.is_empty()).collect();
        let count = usize::from_str_radix(fields[3], 16).unwrap();
        let words =
            (0..count).map(|n| fields[4 + 2 * n].split('(').next().unwrap_or_default().to_lowercase()).collect();
        let mut meaning = Meaning { words, ..Meaning::default() };
        let at = 4 + 2 * count;
        let pointers: usize = fields[at].parse().unwrap();
        for pointer in fields[at + 1..].chunks(4).take(pointers) {
            let target: usize = pointer[1].parse().unwrap();
            match pointer[0] {
                "@" => meaning.broader.push(target),
                "&" => meaning.near.push(target),
                // Adjectives to look at too: *happy* and *glad*.
                "^" if pos == "adj" => meaning.near.push(target),
                // Verbs that are much the same.
                "$" if pos == "verb" => meaning.near.push(target),
                _ => {}
            }
        }
        // An example may speak of anything; the definition comes first.
        let definition = gloss.split('"').next().unwrap_or_default().to_lowercase();
        let mut said = definition.split(|c: char| !c.is_alphabetic());
        meaning.unfit = said.any(|word| TELLS.split(' ').any(|tell| word.starts_with(tell)));
        meanings.insert(fields[0].parse().unwrap(), meaning);
    }
    meanings
}

/// Levels below the broadest meaning.
fn depth(meanings: &HashMap<usize, Meaning>, offset: usize) -> usize {
    let broader = meanings.get(&offset).map_or(&[][..], |meaning| &meaning.broader);
    broader.iter().map(|broader| depth(meanings, *broader) + 1).min().unwrap_or(0)
}
