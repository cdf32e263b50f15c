//! Inflected and derived words keep the cutting of their base: *hoping* is h·o·p·i·ng, and its o is still the one of *hope*, so that
//! whoever was taught `o_e` can read it. Such parts carry the base's correspondence and a mark.

use std::collections::{HashMap, HashSet};

use untaught_phonics::{CORRESPONDENCES, Correspondence, CorrespondenceId, doubles};

use crate::cut::{CutReading, Entry};
use untaught_lexicon::format::E_DROPPED;

/// Endings before which the base drops its e, or (`es`) in which it is heard.
const ENDINGS: [&str; 17] = [
    "ing", "ings", "ingly", "ed", "es", "er", "ers", "est", "y", "ier", "iest", "ily", "able", "ish", "en", "or", "ors",
];

/// Endings that change nothing in a base that is made of a base itself: *widening*, *drivers*.
const FURTHER: [&str; 8] = ["s", "ing", "ed", "er", "ers", "ly", "ness", "ment"];

/// Prefixes before a word that has a base: *unused*.
const PREFIXES: [&str; 8] = ["un", "re", "dis", "mis", "over", "under", "pre", "out"];

/// Remembers the bases. `not_bases` lists words that only look made of a base and an ending, a pair a line.
pub(crate) fn keep_bases(entries: &mut [Entry], not_bases: &str) {
    let not_bases: HashSet<(&str, &str)> = not_bases.lines().filter_map(|line| line.split_once('\t')).collect();
    let places: HashMap<String, usize> = entries.iter().enumerate().map(|(n, entry)| (entry.word.clone(), n)).collect();
    let ordinary =
        |entries: &[Entry], word: &str| places.get(word).copied().filter(|place| entries[*place].commonness != 0);
    for number in 0..entries.len() {
        let word = entries[number].word.clone();
        for ending in ENDINGS {
            let Some(stem) = word.strip_suffix(ending).filter(|stem| stem.len() >= 2) else { continue };
            let base_word = format!("{stem}e");
            let listed = not_bases.contains(&(word.as_str(), base_word.as_str()))
                || word.strip_suffix('s').is_some_and(|one| not_bases.contains(&(one, base_word.as_str())));
            let Some(base) = ordinary(entries, &base_word).filter(|base| *base != number && !listed) else { continue };
            // *stepping* is of *step*, *casting* of *cast*: a plain base that is no rarer wins.
            let doubled = matches!(stem.as_bytes(), [.., a, b] if a == b);
            let plain = if doubled { &stem[..stem.len() - 1] } else { stem };
            let begins = |plain: &Entry| {
                let heads = plain.readings.iter().map(|reading| &reading.parts[..reading.parts.len() - 1]);
                let starts = |head: &[u16]| {
                    let parts = entries[number].readings.iter().map(|reading| &reading.parts);
                    parts
                        .into_iter()
                        .any(|parts| parts.len() > head.len() && head.iter().zip(parts).all(|(a, b)| both_weak(*a, *b)))
                };
                heads.into_iter().any(starts)
            };
            // *caring* is not of *car*, which would double its r. *Parish* is of neither *par* nor *pare*.
            let would_double = !doubled && !matches!(ending, "es" | "ish" | "or" | "ors" | "en") && doubles(plain);
            if !would_double
                && ordinary(entries, plain).is_some_and(|plain| {
                    entries[plain].commonness <= entries[base].commonness && begins(&entries[plain])
                })
            {
                continue;
            }
            apply(entries, number, base, 0);
        }
    }
    keep_further(entries, &ordinary);
}

/// Plurals and second endings take over what their bases remember; so do words with a prefix.
fn keep_further(entries: &mut [Entry], ordinary: &impl Fn(&[Entry], &str) -> Option<usize>) {
    for number in 0..entries.len() {
        let word = entries[number].word.clone();
        for ending in FURTHER {
            let Some(base) = word.strip_suffix(ending).and_then(|stem| ordinary(entries, stem)) else { continue };
            let marked = |reading: &CutReading| reading.parts.iter().any(|part| part & E_DROPPED != 0);
            if ending == "s" || entries[base].readings.iter().any(marked) {
                take_over(entries, number, base);
            }
        }
        for prefix in PREFIXES {
            let Some(base) = word.strip_prefix(prefix).and_then(|rest| ordinary(entries, rest)) else { continue };
            let readings = entries[base].readings.iter().map(|reading| reading.parts.clone()).collect::<Vec<_>>();
            for reading in &mut entries[number].readings {
                for base in &readings {
                    let Some(from) = reading.parts.len().checked_sub(base.len()).filter(|from| *from > 0) else {
                        continue;
                    };
                    if base
                        .iter()
                        .zip(&reading.parts[from..])
                        .all(|(a, b)| both_weak(*a & !E_DROPPED, *b) || bare_of(*a, *b))
                    {
                        reading.parts[from..].copy_from_slice(base);
                        break;
                    }
                }
            }
        }
    }
}

/// Replaces the head of each reading by a reading of the base that has the same sounds.
fn take_over(entries: &mut [Entry], number: usize, base: usize) {
    let bases: Vec<Vec<u16>> = entries[base].readings.iter().map(|reading| reading.parts.clone()).collect();
    let length = entries[base].word.len();
    for reading in &mut entries[number].readings {
        let Some(head) = head(&reading.parts, length) else { continue };
        let Some(base) = bases.iter().find(|base| sounds(base) == sounds(&reading.parts[..head])) else { continue };
        reading.parts.splice(..head, base.iter().copied());
        let moved = base.len() as isize - head as isize;
        reading.stressed =
            reading.stressed.map(|at| (at as isize + if usize::from(at) >= head { moved } else { 0 }) as u8);
    }
}

/// The sounds of some parts, the weak vowels written alike.
fn sounds(parts: &[u16]) -> Vec<&'static str> {
    let names = parts.iter().map(|part| known(part & !E_DROPPED).map_or("", |part| part.sound.get().name));
    names.map(|name| if name == "IH" { "AX" } else { name }).collect()
}

/// How many parts spell the first letters of a word, if some do exactly.
fn head(parts: &[u16], length: usize) -> Option<usize> {
    let mut letters = 0;
    for (number, part) in parts.iter().enumerate() {
        if letters == length {
            return Some(number);
        }
        let part_of = known(part & !E_DROPPED)?;
        let dropped = part & E_DROPPED != 0;
        letters += part_of.spelling.chars().filter(|c| *c != '_').count() - usize::from(dropped);
    }
    None
}

/// Whether two parts are the same, a weak vowel counting as itself however it is heard.
fn same(a: u16, b: u16) -> bool {
    let weak = |part: &Correspondence| matches!(part.sound.get().name, "AX" | "IH");
    a == b
        || match (known(a), known(b)) {
            (Some(a), Some(b)) => a.spelling == b.spelling && (weak(a) || weak(b)),
            _ => false,
        }
}

/// Whether two parts are the same, or both weak.
fn both_weak(a: u16, b: u16) -> bool {
    let weak = |part| known(part).is_some_and(|part| matches!(part.sound.get().name, "AX" | "IH"));
    a == b || same(a, b) && weak(a) && weak(b)
}

/// Whether the second part is what an ending leaves of the first.
fn bare_of(marked: u16, part: u16) -> bool {
    marked & E_DROPPED != 0
        && match (known(marked & !E_DROPPED), known(part)) {
            (Some(marked), Some(part)) => {
                marked.sound == part.sound
                    && marked.spelling.trim_end_matches('e').trim_end_matches('_') == part.spelling
            }
            _ => false,
        }
}

fn known(part: u16) -> Option<&'static Correspondence> {
    (usize::from(part) < CORRESPONDENCES.len()).then(|| CorrespondenceId(part).get())
}

fn apply(entries: &mut [Entry], number: usize, base: usize, from: usize) {
    let kept: Vec<Option<Vec<u16>>> = entries[number]
        .readings
        .iter()
        .map(|reading| entries[base].readings.iter().find_map(|base| keep(&base.parts, &reading.parts[from..])))
        .collect();
    for (reading, kept) in entries[number].readings.iter_mut().zip(kept) {
        if let Some(kept) = kept {
            reading.parts.splice(from.., kept);
        }
    }
}

/// The parts of a word that begins like its base, once the base's e is remembered.
fn keep(base: &[u16], word: &[u16]) -> Option<Vec<u16>> {
    let alike = base.iter().zip(word).take_while(|(a, b)| same(**a, **b)).count();
    let base_part = known(*base.get(alike)?)?;
    let word_part = known(*word.get(alike)?)?;
    let mut parts = word.to_vec();
    let rest = &base[alike + 1..];
    let bare: String = base_part.spelling.chars().filter(|c| *c != '_').collect();
    let bare = bare.strip_suffix('e')?;
    // *being* is not *bee*.
    if base_part.spelling == "ee" {
        return None;
    }
    let weak = |part: &Correspondence| matches!(part.sound.get().name, "AX" | "IH");
    let sounds_alike = word_part.sound == base_part.sound || weak(word_part) && weak(base_part);
    if base_part.is_split() {
        // hope, hoping: o for o_e.
        let follows = !rest.is_empty() && word[alike + 1..].starts_with(rest);
        return (follows && word_part.spelling == bare && sounds_alike).then(|| {
            parts[alike] = base[alike] | E_DROPPED;
            parts
        });
    }
    if !rest.is_empty() {
        return None;
    }
    if word_part.spelling == bare && sounds_alike {
        // dance, dancing: c for ce.
        parts[alike] = base[alike] | E_DROPPED;
        return Some(parts);
    }
    // share, sharing: ar for are, where the search had a·r.
    let next = known(*word.get(alike + 1)?)?;
    let starts = bare.strip_suffix('r').is_some_and(|vowel| vowel == word_part.spelling);
    let vowel: &[&str] = match base_part.sound.get().name {
        "EH R" => &["EH", "AE"],
        "AY R" => &["AY"],
        "IH R" => &["IY"],
        "UH R" => &["UW"],
        "Y UH R" => &["Y UW"],
        _ => return None,
    };
    if starts && next.spelling == "r" && vowel.contains(&word_part.sound.get().name) {
        parts.splice(alike..=alike + 1, [base[alike] | E_DROPPED]);
        return Some(parts);
    }
    None
}
