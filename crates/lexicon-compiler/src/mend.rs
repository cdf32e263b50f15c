//! Pronunciations that a teacher would not use: dropped by rule where a whole class of them is wrong, and by the reviewed list
//! `data/readings.tsv` elsewhere.

use untaught_phonics::Phone;
use untaught_phonics::formation::affixes::{ED, ER, EST, ING, S, Y};
use untaught_phonics::formation::forms::endings;
use untaught_phonics::formation::{Change, Vocabulary as _, compounds};

use crate::commonness::Commonness;
use crate::dictionary::{Reading, Words};

/// Drops, for every word, the variants that another variant of the same word makes superfluous.
pub(crate) fn by_rule(words: &mut Words, commonness: &Commonness) {
    for (word, readings) in words.iter_mut() {
        readings.iter_mut().for_each(|reading| mend_one(word, reading));
        let all = readings.clone();
        readings.retain(|reading| !all.iter().any(|other| is_better(word, other, reading)));
        readings.dedup_by(|a, b| a.phones == b.phones);
    }
    voice_endings(words, commonness);
    close_syllabic_l(words, commonness);
    keep_both_of_a_seam(words, commonness);
    // Possessives are made of their bases where they are read, so that they cannot be read otherwise.
    let bases: std::collections::BTreeSet<String> = words.keys().cloned().collect();
    words.retain(|word, _| {
        !word.strip_suffix("'s").or(word.strip_suffix("s'")).is_some_and(|base| bases.contains(base))
    });
}

/// *replaces* is read like *replace*: where a word with an s differs from its base only in how it reduces a vowel, the base decides.
/// Runs after the reviewed list, so that a mended base mends its forms.
pub(crate) fn follow_bases(words: &mut Words, commonness: &Commonness) {
    let mut mended: Vec<(String, Vec<Reading>)> = Vec::new();
    for (word, readings) in words.iter().filter(|(word, _)| commonness.is_ordinary(word)) {
        let Some(base) = word.strip_suffix('s').filter(|base| base.len() > 2 && commonness.is_ordinary(base)) else {
            continue;
        };
        let Some([base]) = words.get(base).map(Vec::as_slice) else { continue };
        let reduced = |a: Phone, b: Phone| {
            let weak = |phone: &Phone| matches!(phone.name(), "AX" | "IX");
            // *averages* with three syllables like *average*.
            let shrunk = a.name() == "ER" && b.name() == "R";
            a == b || shrunk || a.is_vowel() && b.is_vowel() && [a, b].iter().any(weak)
        };
        let alike = |reading: &Reading| {
            let n = base.phones.len();
            let tail = reading.phones.get(n..).map_or(0, <[Phone]>::len);
            let head = base.phones.iter().zip(&reading.phones).all(|(a, b)| reduced(*a, *b));
            (1..=2).contains(&tail) && head && reading.stressed == base.stressed
        };
        if readings.iter().all(alike) && !readings.iter().any(|reading| reading.phones.starts_with(&base.phones)) {
            let tail = &readings[0].phones[base.phones.len()..];
            let phones = base.phones.iter().chain(tail).copied().collect();
            mended.push((word.clone(), vec![Reading { phones, stressed: base.stressed }]));
        }
    }
    words.extend(mended);
}

/// *Giggling* is said like *chuckling*: the l of *giggle* opens the syllable of an ending, and its weak vowel goes. The dictionary
/// keeps that vowel in every other word.
fn close_syllabic_l(words: &mut Words, commonness: &Commonness) {
    for (word, readings) in words.iter_mut() {
        // *chucklers*, *giggling*.
        let one = word.strip_suffix('s').unwrap_or(word);
        let of_le = endings(one).any(|form| {
            let opens = matches!(form.affix, ING | ER | EST | Y) && form.change == Change::DropE;
            opens && form.base.ends_with("le") && commonness.is_ordinary(&form.base)
        });
        if !of_le {
            continue;
        }
        for reading in readings.iter_mut() {
            let from = reading.stressed.map_or(0, |at| at + 1);
            let at = (from..reading.phones.len().saturating_sub(2)).rev().find(|at| {
                let [weak, l, next] = [0, 1, 2].map(|n| reading.phones[at + n]);
                weak.name() == "AX" && l.name() == "L" && next.is_vowel()
            });
            if let Some(at) = at {
                reading.phones.remove(at);
            }
        }
    }
}

/// *Earring* is *ear* and *ring*: where two words meet in one sound, the dictionary writes it once, and the seam would be lost.
fn keep_both_of_a_seam(words: &mut Words, commonness: &Commonness) {
    let mut mended: Vec<(String, usize, usize)> = Vec::new();
    for (word, readings) in words.iter().filter(|(word, _)| word.is_ascii() && commonness.is_ordinary(word)) {
        for at in compounds::seams(word, commonness).filter(|at| compounds::may_share_a_sound(word, *at)) {
            let (first, second) = word.split_at(at);
            let (Some(firsts), Some(seconds)) = (words.get(first), words.get(second)) else { continue };
            for (number, reading) in readings.iter().enumerate() {
                let once = |one: &Reading, two: &Reading| {
                    let n = one.phones.len();
                    one.phones.last() == two.phones.first()
                        && reading.phones.get(..n) == Some(&one.phones)
                        && reading.phones.get(n..) == two.phones.get(1..)
                };
                if let Some(one) = firsts.iter().find(|one| seconds.iter().any(|two| once(one, two))) {
                    mended.push((word.clone(), number, one.phones.len()));
                }
            }
        }
    }
    for (word, number, at) in mended {
        if let Some(reading) = words.get_mut(&word).map(|readings| &mut readings[number]) {
            reading.phones.insert(at, reading.phones[at - 1]);
            reading.stressed = reading.stressed.map(|stressed| if stressed >= at { stressed + 1 } else { stressed });
        }
    }
}

/// An s or ed after a base is voiced as the base's last sound is: the dictionary slips in some hundred words.
fn voice_endings(words: &mut Words, commonness: &Commonness) {
    let unvoiced = |phone: Phone| matches!(phone.name(), "P" | "T" | "K" | "F" | "TH" | "S" | "SH" | "CH");
    let mut mended: Vec<(String, usize, Phone)> = Vec::new();
    for (word, readings) in words.iter() {
        for (affix, voiced, voiceless) in [(S, "Z", "S"), (ED, "D", "T")] {
            let bases = endings(word).filter(|form| form.affix == affix).map(|form| form.base);
            let bases = bases.filter(|base| base.len() > 2 && commonness.is_ordinary(base));
            let bases: Vec<&Reading> = bases.filter_map(|base| words.get(base.as_ref())).flatten().collect();
            for (number, reading) in readings.iter().enumerate() {
                let Some((last, head)) = reading.phones.split_last() else { continue };
                let Some(before) = head.last() else { continue };
                let is_ending = last.name() == voiced || last.name() == voiceless;
                let right = phone(if unvoiced(*before) { voiceless } else { voiced });
                if is_ending && *last != right && bases.iter().any(|base| base.phones == head) {
                    mended.push((word.clone(), number, right));
                }
            }
        }
    }
    for (word, number, right) in mended {
        if let Some(last) = words.get_mut(&word).and_then(|readings| readings[number].phones.last_mut()) {
            *last = right;
        }
    }
}

fn names(reading: &Reading) -> Vec<&'static str> {
    reading.phones.iter().map(|phone| phone.name()).collect()
}

fn phone(name: &str) -> Phone {
    Phone::parse(name).unwrap_or_else(|| panic!("{name} is a phone"))
}

/// Mends what is wrong with a pronunciation on its own.
fn mend_one(word: &str, reading: &mut Reading) {
    let plain = word.trim_end_matches("'s").trim_end_matches('s');
    // ER already holds the R that a few words write again.
    if !word.contains("rr") && !word.contains("rwr") {
        replace(reading, &["ER", "R"], &["ER"]);
    }
    // *backfire* ends like *fire*: the dictionary writes it both ways.
    for at in 1..reading.phones.len() {
        let closes = reading.phones.get(at + 1).is_none_or(|next| !next.is_vowel());
        if closes && reading.phones[at].name() == "R" && matches!(reading.phones[at - 1].name(), "AY" | "AW") {
            reading.phones[at] = phone("ER0");
        }
    }
    // *Monday* ends like *day*.
    if plain.ends_with("day") {
        replace_last(reading, &["D", "IY"], &["D", "EY"]);
    }
    // *doghouses* ends like *houses*.
    if word.ends_with("houses") {
        replace_last(reading, &["AW", "S", "AX", "Z"], &["AW", "Z", "AX", "Z"]);
        replace_last(reading, &["AW", "S", "IX", "Z"], &["AW", "Z", "IX", "Z"]);
    }
    // *which* is /w/ in the accent of this dictionary, as in most.
    if word.contains("wh") {
        replace(reading, &["HH", "W"], &["W"]);
    }
    // *impacts*, *scientists*, *hands*: the stop that running speech loses before an s.
    for (letters, lost, full) in [
        ("cts", ["K", "S"], ["K", "T", "S"]),
        ("sts", ["S", "S"], ["S", "T", "S"]),
        ("nds", ["N", "Z"], ["N", "D", "Z"]),
    ] {
        if word.ends_with(letters) && names(reading).ends_with(&lost) {
            replace_at(reading, reading.phones.len() - 2, 2, &full);
        }
    }
    // *tuition*, *duplicate*: no /y/ after t and d, as in most of this accent.
    replace(reading, &["T", "Y", "UW"], &["T", "UW"]);
    replace(reading, &["D", "Y", "UW"], &["D", "UW"]);
    // *paperboys*: one vowel written as two sounds.
    if word.contains("oy") {
        replace(reading, &["AO", "Y"], &["OY"]);
    }
    // *every*, *different*, *several*: two syllables, as they are said.
    if word.starts_with("every") {
        replace(reading, &["V", "ER", "IY"], &["V", "R", "IY"]);
        replace(reading, &["V", "AX", "R", "IY"], &["V", "R", "IY"]);
    }
    if word.starts_with("differen") && !word.starts_with("differenti") {
        replace(reading, &["F", "ER", "AX", "N"], &["F", "R", "AX", "N"]);
    }
    if word == "several" {
        replace(reading, &["V", "ER", "AX", "L"], &["V", "R", "AX", "L"]);
    }
    // *octopus*: the weak vowel of other words in -us.
    if word.ends_with("us") && names(reading).ends_with(&["UH", "S"]) {
        replace_last(reading, &["UH", "S"], &["AX", "S"]);
    }
    // *courtship*, *nightshirt*, *adjust*: both sounds, where running speech has one.
    if word.contains("tsh") {
        replace(reading, &["CH"], &["T", "SH"]);
        replace(reading, &["AA", "SH"], &["AA", "T", "SH"]);
    }
    if word.contains("adj") {
        replace(reading, &["AX", "JH"], &["AX", "D", "JH"]);
        replace(reading, &["AE", "JH"], &["AE", "D", "JH"]);
    }
    // *interpolate*: a lost n.
    if word.starts_with("inter") && matches!(names(reading)[..], ["IH" | "IX", "T", "ER", ..]) {
        replace_at(reading, 1, 1, &["N", "T"]);
    }
    // *ancient*, *tension*: /sh/, whatever a stop before it adds.
    if ["nci", "nsi", "nti"].iter().any(|letters| word.contains(letters)) {
        replace(reading, &["N", "CH"], &["N", "SH"]);
    }
    // *until*, *upstairs*: the prefix keeps the vowel of *cup* when it is read slowly.
    for (prefix, weak, full) in [("un", ["AX", "N"], ["AH", "N"]), ("up", ["AX", "P"], ["AH", "P"])] {
        if word.starts_with(prefix) && names(reading).starts_with(&weak) {
            replace_at(reading, 0, 2, &full);
        }
    }
}

/// Replaces a run of phones wherever it stands. The new run must not hold the old one.
fn replace(reading: &mut Reading, old: &[&str], new: &[&str]) {
    while let Some(at) = names(reading).windows(old.len()).position(|run| run == old) {
        replace_at(reading, at, old.len(), new);
    }
}

fn replace_last(reading: &mut Reading, old: &[&str], new: &[&str]) {
    if let Some(at) = names(reading).windows(old.len()).rposition(|run| run == old) {
        replace_at(reading, at, old.len(), new);
    }
}

fn replace_at(reading: &mut Reading, at: usize, length: usize, new: &[&str]) {
    reading.phones.splice(at..at + length, new.iter().map(|name| phone(name)));
    if let Some(stressed) = reading.stressed.as_mut().filter(|stressed| **stressed > at) {
        *stressed = (*stressed + new.len()).saturating_sub(length);
    }
}

/// Whether a word's one variant makes the other superfluous.
fn is_better(word: &str, good: &Reading, bad: &Reading) -> bool {
    good.phones != bad.phones
        && (is_full_form(word, good, bad) || is_slower(word, good, bad) || is_dialect(word, &names(good), &names(bad)))
}

/// Phones with both weak vowels written alike.
fn alike(reading: &Reading) -> Vec<&'static str> {
    names(reading).into_iter().map(|name| if name == "IX" { "AX" } else { name }).collect()
}

/// Whether `long` is `short` with one more phone, at a place that the test allows.
fn inserted(long: &[&str], short: &[&str], allowed: impl Fn(usize) -> bool) -> bool {
    long.len() == short.len() + 1
        && (0..long.len()).any(|at| allowed(at) && long[..at] == short[..at] && long[at + 1..] == short[at..])
}

/// Whether two lists differ, and only at places that the test allows.
fn swapped(good: &[&str], bad: &[&str], allowed: impl Fn(usize) -> bool) -> bool {
    good.len() == bad.len() && good != bad && (0..good.len()).all(|at| good[at] == bad[at] || allowed(at))
}

fn is_vowel(name: &str) -> bool {
    name.starts_with(['A', 'E', 'I', 'O', 'U'])
}

/// The full form of *camera*, *different*, *can*: the other lacks a weak vowel or has all of its vowels weak.
fn is_full_form(word: &str, good: &Reading, bad: &Reading) -> bool {
    let vowels = |reading: &Reading| reading.phones.iter().filter(|phone| phone.is_vowel()).count();
    if vowels(good) == 1 && vowels(bad) == 1 {
        return good.stressed.is_some() && bad.stressed.is_none();
    }
    let (good, bad) = (alike(good), alike(bad));
    let weak = |at: usize| matches!(good[at], "AX" | "ER") && !(word.ends_with("ed") && at + 2 == good.len());
    // ER shrunk to R, or R and its vowel to ER.
    let shrunk = |at: usize| good[at] == "ER" && bad[at] == "R";
    let one_longer = good.len() == bad.len() + 1;
    let merged = (0..bad.len()).any(|at| {
        let whole = |tail: &[&str]| matches!(tail, ["R", vowel, ..] if is_vowel(vowel));
        one_longer
            && bad[at] == "ER"
            && good[..at] == bad[..at]
            && whole(&good[at..])
            && good[at + 2..] == bad[at + 1..]
    });
    inserted(&good, &bad, weak) || swapped(&good, &bad, shrunk) || merged
}

/// The form that is said slowly.
fn is_slower(word: &str, good: &Reading, bad: &Reading) -> bool {
    let same_stress = good.stressed == bad.stressed;
    let (good, bad) = (alike(good), alike(bad));
    let consonant = |phones: &[&str], at: usize| phones.get(at).is_none_or(|name| !is_vowel(name));
    // *most*, *friends*, *empty* with their stops, where the other loses one between consonants or at the end.
    let stop = |at: usize| {
        matches!(good[at], "T" | "D" | "P") && at > 0 && consonant(&good, at - 1) && consonant(&good, at + 1)
    };
    if !word.contains("stle") && !word.contains("stling") && !word.ends_with("tz") && inserted(&good, &bad, stop) {
        return true;
    }
    // *engage*, *accept*: the full first vowel, where the other has a weak one.
    let first = |at: usize| at == 0 && matches!((good[0], bad[0]), ("EH" | "AE", "AX"));
    // *diverse*.
    let di = |at: usize| at == 1 && word.starts_with("di") && good[1] == "AY" && matches!(bad[1], "AX" | "IH" | "IY");
    // *radiant*: a vowel of its own, where the other has /y/.
    let glide = |at: usize| good[at] == "IY" && bad[at] == "Y";
    same_stress && (swapped(&good, &bad, first) || swapped(&good, &bad, di)) || swapped(&good, &bad, glide)
}

/// Differences of accent in which this dictionary lists both.
fn is_dialect(word: &str, good: &[&str], bad: &[&str]) -> bool {
    // *carry* with the vowel of *cat*, where the other merges it with *merry*.
    let merged = |at: usize| good[at] == "AE" && bad[at] == "EH" && good.get(at + 1) == Some(&"R");
    // *olive* with the vowel of *sit* in its weak syllable, where the other has a schwa.
    let lax = |at: usize| good[at] == "IX" && bad[at] == "AX";
    if word.contains("ar") && swapped(good, bad, merged) || swapped(good, bad, lax) {
        return true;
    }
    // *calm* without /l/; *singing* without /g/.
    let l = |at: usize| word.contains("alm") && bad[at] == "L";
    let sung = word.trim_end_matches('s').ends_with("ng");
    let g = |at: usize| sung && bad[at] == "G" && at > 0 && bad[at - 1] == "NG";
    // *new* without /y/: the other keeps it after t, d, n, s, z, l, th.
    let y = |at: usize| {
        bad[at] == "Y" && at > 0 && matches!(bad[at - 1], "T" | "D" | "N" | "S" | "Z" | "L" | "TH" | "JH" | "CH")
    };
    if inserted(bad, good, l) || inserted(bad, good, g) || inserted(bad, good, y) {
        return true;
    }
    // *issue* with /sh/.
    let spread = |at: usize| bad[at..].starts_with(&["S", "Y"]) && good[at] == "SH";
    bad.len() == good.len() + 1
        && (0..good.len()).any(|at| spread(at) && bad[..at] == good[..at] && bad[at + 2..] == good[at + 1..])
}

/// Applies the reviewed list: `word`, `only` (these readings replace the dictionary's), `drop`, `add` or `omit` (the
/// whole word), pronunciations
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
        if action == "omit" {
            words.remove(word).ok_or_else(|| format!("{number}: the dictionary has no {word} to omit"))?;
            continue;
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
