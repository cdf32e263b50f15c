//! Pronunciations that a teacher would not use: dropped by rule where a whole class of them is wrong, and by the reviewed list
//! `data/readings.tsv` elsewhere.

use untaught_spelling::Phone;

use crate::dictionary::{Reading, Words};

/// Drops, for every word, the variants that another variant of the same word makes superfluous.
pub(crate) fn by_rule(words: &mut Words) {
    for (word, readings) in words.iter_mut() {
        readings.iter_mut().for_each(|reading| mend_one(word, reading));
        let all = readings.clone();
        readings.retain(|reading| !all.iter().any(|other| is_better(word, other, reading)));
        readings.dedup_by(|a, b| a.phones == b.phones);
    }
}

fn names(reading: &Reading) -> Vec<&'static str> {
    reading.phones.iter().map(|phone| phone.name()).collect()
}

fn phone(name: &str) -> Phone {
    Phone::parse(name).unwrap_or_else(|| panic!("{name} is a phone"))
}

/// Mends what is wrong with a pronunciation on its own: *which* is /w/ in the accent of this dictionary, as in most; ER already
/// holds the R that a few words write again; *Monday* ends like *day*.
fn mend_one(word: &str, reading: &mut Reading) {
    let written_twice = !word.contains("rr") && !word.contains("rwr");
    while let Some(at) = reading.phones.windows(2).position(|pair| written_twice && pair == [phone("ER"), phone("R")]) {
        reading.phones.remove(at + 1);
        reading.stressed = reading.stressed.map(|stressed| stressed - usize::from(stressed > at));
    }
    // *Monday* with the vowel of *day*.
    let plain = word.trim_end_matches("'s").trim_end_matches('s');
    if plain.ends_with("day") {
        let (day, weak) = ([phone("D"), phone("EY")], [phone("D"), phone("IY")]);
        if let Some(at) = reading.phones.windows(2).rposition(|pair| pair == weak) {
            reading.phones[at..at + 2].copy_from_slice(&day);
        }
    }
    if !word.contains("wh") {
        return;
    }
    while let Some(at) = reading.phones.windows(2).position(|pair| pair == [phone("HH"), phone("W")]) {
        reading.phones.remove(at);
        reading.stressed = reading.stressed.map(|stressed| stressed - usize::from(stressed > at));
    }
}

/// Whether a word's one variant makes the other superfluous.
fn is_better(word: &str, good: &Reading, bad: &Reading) -> bool {
    good.phones != bad.phones && (is_full_form(good, bad) || is_dialect(word, &names(good), &names(bad)))
}

/// The full form of *camera*, *different*, *can*: the other lacks a weak vowel or has all of its vowels weak.
fn is_full_form(good: &Reading, bad: &Reading) -> bool {
    let vowels = |reading: &Reading| reading.phones.iter().filter(|phone| phone.is_vowel()).count();
    if vowels(good) == 1 && vowels(bad) == 1 {
        return good.stressed.is_some() && bad.stressed.is_none();
    }
    let weak = |phone: Phone| matches!(phone.name(), "AX" | "IX" | "ER");
    let (good, bad) = (&good.phones, &bad.phones);
    if good.len() == bad.len() + 1 {
        // A weak vowel left out.
        return (0..good.len()).any(|at| weak(good[at]) && good[..at] == bad[..at] && good[at + 1..] == bad[at..]);
    }
    // ER shrunk to R.
    let shrunk = |at: usize| good[at].name() == "ER" && bad[at].name() == "R";
    good.len() == bad.len()
        && (0..good.len()).any(|at| shrunk(at) && good[..at] == bad[..at] && good[at + 1..] == bad[at + 1..])
}

/// Differences of accent in which this dictionary lists both.
fn is_dialect(word: &str, good: &[&str], bad: &[&str]) -> bool {
    // *carry* with the vowel of *cat*, where the other merges it with *merry*.
    if good.len() == bad.len() && word.contains("ar") {
        let merged = |at: usize| good[at] == "AE" && bad[at] == "EH" && good.get(at + 1) == Some(&"R");
        return (0..good.len()).any(merged) && (0..good.len()).all(|at| good[at] == bad[at] || merged(at));
    }
    // *olive* with the vowel of *sit* in its weak syllable, where the other has a schwa.
    let lax = |at: usize| good[at] == "IX" && bad[at] == "AX";
    if good.len() == bad.len() && (0..good.len()).all(|at| good[at] == bad[at] || lax(at)) {
        return true;
    }
    // *calm* without /l/.
    if word.contains("alm") && bad.len() == good.len() + 1 {
        return (0..bad.len()).any(|at| bad[at] == "L" && bad[..at] == good[..at] && bad[at + 1..] == good[at..]);
    }
    // *issue* with /sh/.
    if bad.len() == good.len() + 1 {
        let spread = |at: usize| bad[at..].starts_with(&["S", "Y"]) && good[at] == "SH";
        if (0..good.len()).any(|at| spread(at) && bad[..at] == good[..at] && bad[at + 2..] == good[at + 1..]) {
            return true;
        }
    }
    // *new* without /y/: the other keeps it after t, d, n, s, z, l, th.
    if bad.len() == good.len() + 1 {
        let before = ["T", "D", "N", "S", "Z", "L", "TH"];
        return (1..bad.len()).any(|at| {
            bad[at] == "Y" && before.contains(&bad[at - 1]) && bad[..at] == good[..at] && bad[at + 1..] == good[at..]
        });
    }
    false
}

/// Applies the reviewed list: `word`, `only` (these readings replace the dictionary's), `drop` or `add`, pronunciations
/// separated by commas, and the reason.
pub(crate) fn by_review(words: &mut Words, review: &str) -> Result<(), String> {
    for (number, line) in (1..).zip(review.lines()) {
        if line.starts_with('#') || line.is_empty() {
            continue;
        }
        let columns: Vec<&str> = line.split('\t').collect();
        let [word, action, listed, reason] = columns[..] else {
            return Err(format!("{number}: four columns expected: word, action, pronunciations, reason"));
        };
        if reason.is_empty() {
            return Err(format!("{number}: the reason is missing"));
        }
        let listed: Result<Vec<Reading>, String> = listed.split(',').map(|text| Reading::parse(text.trim())).collect();
        let listed = listed.map_err(|symbol| format!("{number}: {symbol} is no phone"))?;
        let readings = words.entry(word.to_owned()).or_default();
        match action {
            "only" => *readings = listed,
            "add" => readings.extend(listed),
            "drop" => {
                for one in listed {
                    let before = readings.len();
                    readings.retain(|reading| reading.phones != one.phones);
                    if readings.len() == before {
                        return Err(format!("{number}: {word} has no such reading to drop"));
                    }
                }
                if readings.is_empty() {
                    return Err(format!("{number}: {word} would have no reading left"));
                }
            }
            _ => return Err(format!("{number}: no action is called {action}")),
        }
    }
    Ok(())
}
