//! Packs the groups of like meaning: the words in alphabetical order, each with the groups it is in, and the groups with the words
//! they offer and the groups near them. The layout is described in `src/swaps/packed.rs`.

use std::collections::BTreeMap;

use crate::fitness::Fitness;
use crate::{generate, lines};

#[derive(Default)]
struct Word {
    class: u8,
    /// Times that it was met as a noun, verb, adjective and adverb.
    met: [u32; 4],
    /// Kind, share of the sense, group.
    groups: Vec<(u8, u8, u16)>,
}

/// The words that a group offers, each with the share of that sense, and the groups near it.
type Group<'t> = (Vec<(&'t str, u8)>, Vec<&'t str>);

pub(crate) fn write(fitness: &Fitness) {
    let text = lines("thesaurus/groups.tsv");
    let mut words: BTreeMap<&str, Word> = BTreeMap::new();
    let mut numbers: BTreeMap<&str, u16> = BTreeMap::new();
    let mut groups: Vec<Group> = Vec::new();
    for line in &text {
        let fields: Vec<&str> = line.split('\t').collect();
        let [name, members, last] = fields[..] else { panic!("three fields: {line}") };
        if name.len() == 1 {
            let (class, met) = last.split_once(' ').expect("a size class and a count");
            let word = words.entry(members).or_default();
            word.class = class.parse().expect("a size class");
            word.met["nvar".find(name).expect("a kind")] = met.parse().expect("a count");
            continue;
        }
        let number = u16::try_from(groups.len()).expect("at most 65,536 groups");
        assert!(numbers.insert(name, number).is_none(), "{name} stands twice");
        let members = members.split(' ').map(|member| {
            let (word, share) = member.split_once(':').expect("a word and the share of its sense");
            (word, share.parse::<u8>().expect("a share in percent"))
        });
        let mut members: Vec<(&str, u8)> = members.collect();
        for (word, share) in &members {
            words.entry(word).or_default().groups.push((name.as_bytes()[0], *share, number));
        }
        // A word that is unfit may be looked up, for a fit one to take its place; it is never offered itself.
        members.retain(|(word, _)| fitness.may_be_offered(word));
        groups.push((members, last.split(' ').filter(|near| !near.is_empty()).collect()));
    }
    let places: BTreeMap<&str, u16> = words.keys().zip(0u16..).map(|(word, place)| (*word, place)).collect();
    let mut body = Vec::new();
    // Only the place of every sixteenth entry is kept: the others are reached by walking.
    let mut offsets = Vec::new();
    for (number, (text, word)) in words.iter().enumerate() {
        if number % 16 == 0 {
            offsets.push(body.len() as u32);
        }
        body.extend([text.len() as u8]);
        body.extend(text.bytes());
        body.extend([word.class, u8::try_from(word.groups.len()).expect("few groups")]);
        // Words met more often than that as two kinds are few.
        body.extend(word.met.map(|met| u8::try_from(met).unwrap_or(u8::MAX)));
        for (kind, share, group) in &word.groups {
            body.extend([*kind, *share]);
            body.extend(group.to_le_bytes());
        }
    }
    for (number, (members, near)) in groups.iter().enumerate() {
        if number % 16 == 0 {
            offsets.push(body.len() as u32);
        }
        body.extend([u8::try_from(members.len()).expect("few words"), u8::try_from(near.len()).expect("few groups")]);
        for (word, share) in members {
            body.extend(places[word].to_le_bytes());
            body.push(*share);
        }
        for name in near {
            body.extend(numbers[name].to_le_bytes());
        }
    }
    let mut out = Vec::new();
    out.extend((words.len() as u32).to_le_bytes());
    out.extend((groups.len() as u32).to_le_bytes());
    for offset in offsets {
        out.extend(offset.to_le_bytes());
    }
    out.extend(body);
    generate("groups.bin", out);
}
