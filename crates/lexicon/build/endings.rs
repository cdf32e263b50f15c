//! Words whose base lost its e to an ending keep the cutting of their base: *hoping* is h·o·p·i·ng, and its o is still the one of
//! *hope*, so that whoever was taught `o_e` can read it. Such parts carry the base's correspondence and a mark.

use std::collections::{HashMap, HashSet};

use untaught_spelling::{CORRESPONDENCES, Correspondence, CorrespondenceId};

use crate::cut::Entry;

/// Endings that begin with a vowel letter, before which the base drops its e.
const ENDINGS: [&str; 16] = [
    "ing", "ings", "ingly", "ed", "er", "ers", "est", "y", "ier", "iest", "ily", "able", "ish", "en", "or", "ors",
];

/// Set on a part whose spelling lacks the e of its base.
pub(crate) const E_DROPPED: u16 = 0x8000;

/// `not_bases` lists words that only look made of a base and an ending, a pair a line.
pub(crate) fn keep_bases(entries: &mut [Entry], not_bases: &str) {
    let not_bases: HashSet<(&str, &str)> = not_bases.lines().filter_map(|line| line.split_once('\t')).collect();
    let places: HashMap<String, usize> = entries.iter().enumerate().map(|(n, entry)| (entry.word.clone(), n)).collect();
    for number in 0..entries.len() {
        let word = entries[number].word.clone();
        for ending in ENDINGS {
            let Some(stem) = word.strip_suffix(ending).filter(|stem| stem.len() >= 2) else { continue };
            let Some(base) = places.get(&format!("{stem}e")).copied().filter(|base| *base != number) else { continue };
            if entries[base].commonness == 0 || not_bases.contains(&(word.as_str(), entries[base].word.as_str())) {
                continue;
            }
            let kept: Vec<Option<Vec<u16>>> = entries[number]
                .readings
                .iter()
                .map(|reading| entries[base].readings.iter().find_map(|base| keep(&base.parts, &reading.parts)))
                .collect();
            for (reading, kept) in entries[number].readings.iter_mut().zip(kept) {
                reading.parts = kept.unwrap_or_else(|| std::mem::take(&mut reading.parts));
            }
        }
    }
}

fn known(part: u16) -> Option<&'static Correspondence> {
    (usize::from(part) < CORRESPONDENCES.len()).then(|| CorrespondenceId(part).get())
}

/// The parts of a word that begins like its base, once the base's e is remembered.
fn keep(base: &[u16], word: &[u16]) -> Option<Vec<u16>> {
    let same = base.iter().zip(word).take_while(|(a, b)| a == b).count();
    let base_part = known(*base.get(same)?)?;
    let word_part = known(*word.get(same)?)?;
    let mut parts = word.to_vec();
    let rest = &base[same + 1..];
    let bare: String = base_part.spelling.chars().filter(|c| *c != '_').collect();
    let bare = bare.strip_suffix('e')?;
    // *being* is not *bee*.
    if base_part.spelling == "ee" {
        return None;
    }
    let is_split = base_part.is_split();
    if is_split && word[same + 1..].starts_with(rest) && !rest.is_empty() {
        // hope, hoping: o for o_e.
        if word_part.spelling == bare && word_part.sound == base_part.sound {
            parts[same] = base[same] | E_DROPPED;
            return Some(parts);
        }
        return None;
    }
    if is_split || !rest.is_empty() {
        return None;
    }
    if word_part.spelling == bare && word_part.sound == base_part.sound {
        // dance, dancing: c for ce.
        parts[same] = base[same] | E_DROPPED;
        return Some(parts);
    }
    // share, sharing: ar for are, where the search had a·r.
    let next = known(*word.get(same + 1)?)?;
    let starts = bare.strip_suffix('r').is_some_and(|vowel| vowel == word_part.spelling);
    let vowel = match base_part.sound.get().name {
        "EH R" => "EH",
        "AY R" => "AY",
        "IH R" => "IY",
        "UH R" => "UW",
        "Y UH R" => "Y UW",
        _ => return None,
    };
    if starts && next.spelling == "r" && word_part.sound.get().name == vowel {
        parts.splice(same..=same + 1, [base[same] | E_DROPPED]);
        return Some(parts);
    }
    None
}
