//! Fixes pronunciations that a teacher would not use: whole classes of them by rule, the others with the reviewed list
//! `data/readings.tsv`.

use untaught_phonics::Phone;
use untaught_phonics::formation::affixes::{ED, ER, EST, ING, S, Y};
use untaught_phonics::formation::forms::endings;
use untaught_phonics::formation::{Change, Vocabulary as _, compounds};

use crate::commonness::Commonness;
use crate::dictionary::{Pronunciation, Words};

/// Fixes every word's readings by rule and drops those that a better reading of the same word makes superfluous.
pub(crate) fn by_rule(words: &mut Words, commonness: &Commonness) {
    for (word, readings) in words.iter_mut() {
        readings.iter_mut().for_each(|reading| fix_one(word, reading));
        let all = readings.clone();
        readings.retain(|reading| !all.iter().any(|other| is_better(word, other, reading)));
        readings.dedup_by(|a, b| a.phones == b.phones);
    }
    voice_endings(words, commonness);
    close_syllabic_l(words, commonness);
    keep_both_of_a_seam(words, commonness);
    // Possessives are formed from their bases when they are read, so that the two cannot differ.
    let bases: std::collections::BTreeSet<String> = words.keys().cloned().collect();
    words.retain(|word, _| {
        !word.strip_suffix("'s").or(word.strip_suffix("s'")).is_some_and(|base| bases.contains(base))
    });
}

/// *replaces* is read like *replace*: if a word with an s differs from its base only in which vowels are weak, the base's
/// reading is used. Runs after the reviewed list, so that fixing a base also fixes its forms.
pub(crate) fn follow_bases(words: &mut Words, commonness: &Commonness) {
    let mut fixed: Vec<(String, Vec<Pronunciation>)> = Vec::new();
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
        let alike = |reading: &Pronunciation| {
            let n = base.phones.len();
            let tail = reading.phones.get(n..).map_or(0, <[Phone]>::len);
            let head = base.phones.iter().zip(&reading.phones).all(|(a, b)| reduced(*a, *b));
            (1..=2).contains(&tail) && head && reading.stressed == base.stressed
        };
        if readings.iter().all(alike) && !readings.iter().any(|reading| reading.phones.starts_with(&base.phones)) {
            let tail = &readings[0].phones[base.phones.len()..];
            let phones = base.phones.iter().chain(tail).copied().collect();
            fixed.push((word.clone(), vec![Pronunciation { phones, stressed: base.stressed }]));
        }
    }
    words.extend(fixed);
}

/// *Giggling* is pronounced like *chuckling*: the l of *giggle* begins the syllable of the suffix, and the weak vowel before
/// it is lost. The dictionary keeps that vowel in some of these words.
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

/// *Earring* is *ear* and *ring*: if two words meet in the same sound, the dictionary writes it once, and the seam would be lost.
fn keep_both_of_a_seam(words: &mut Words, commonness: &Commonness) {
    let mut fixed: Vec<(String, usize, usize)> = Vec::new();
    for (word, readings) in words.iter().filter(|(word, _)| word.is_ascii() && commonness.is_ordinary(word)) {
        for at in compounds::seams(word, commonness).filter(|at| compounds::may_share_a_sound(word, *at)) {
            let (first, second) = word.split_at(at);
            let (Some(firsts), Some(seconds)) = (words.get(first), words.get(second)) else { continue };
            for (number, reading) in readings.iter().enumerate() {
                let once = |one: &Pronunciation, two: &Pronunciation| {
                    let n = one.phones.len();
                    one.phones.last() == two.phones.first()
                        && reading.phones.get(..n) == Some(&one.phones)
                        && reading.phones.get(n..) == two.phones.get(1..)
                };
                if let Some(one) = firsts.iter().find(|one| seconds.iter().any(|two| once(one, two))) {
                    fixed.push((word.clone(), number, one.phones.len()));
                }
            }
        }
    }
    for (word, number, at) in fixed {
        if let Some(reading) = words.get_mut(&word).map(|readings| &mut readings[number]) {
            reading.phones.insert(at, reading.phones[at - 1]);
            reading.stressed = reading.stressed.map(|stressed| if stressed >= at { stressed + 1 } else { stressed });
        }
    }
}

/// An s or ed after a base is voiced if the base's last sound is. The dictionary gets this wrong in a hundred words or more.
fn voice_endings(words: &mut Words, commonness: &Commonness) {
    let unvoiced = |phone: Phone| matches!(phone.name(), "P" | "T" | "K" | "F" | "TH" | "S" | "SH" | "CH");
    let mut fixed: Vec<(String, usize, Phone)> = Vec::new();
    for (word, readings) in words.iter() {
        for (affix, voiced, voiceless) in [(S, "Z", "S"), (ED, "D", "T")] {
            let bases = endings(word).filter(|form| form.affix == affix).map(|form| form.base);
            let bases = bases.filter(|base| base.len() > 2 && commonness.is_ordinary(base));
            let bases: Vec<&Pronunciation> = bases.filter_map(|base| words.get(base.as_ref())).flatten().collect();
            for (number, reading) in readings.iter().enumerate() {
                let Some((last, head)) = reading.phones.split_last() else { continue };
                let Some(before) = head.last() else { continue };
                let is_ending = last.name() == voiced || last.name() == voiceless;
                let right = phone(if unvoiced(*before) { voiceless } else { voiced });
                if is_ending && *last != right && bases.iter().any(|base| base.phones == head) {
                    fixed.push((word.clone(), number, right));
                }
            }
        }
    }
    for (word, number, right) in fixed {
        if let Some(last) = words.get_mut(&word).and_then(|readings| readings[number].phones.last_mut()) {
            *last = right;
        }
    }
}

fn names(reading: &Pronunciation) -> Vec<&'static str> {
    reading.phones.iter().map(|phone| phone.name()).collect()
}

fn phone(name: &str) -> Phone {
    Phone::parse(name).unwrap_or_else(|| panic!("{name} is a phone"))
}

/// Fixes mistakes that show in a single pronunciation.
fn fix_one(word: &str, reading: &mut Pronunciation) {
    let plain = word.trim_end_matches("'s").trim_end_matches('s');
    // ER already includes the R that a few words write again.
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
    // *impacts*, *scientists*, *hands*: restore the stop that running speech loses before an s.
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
    // *every*, *different*, *several*: two syllables, as they are pronounced.
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
    // *courtship*, *nightshirt*, *adjust*: both sounds, although running speech merges them.
    // *blotch*: the t is part of the sound.
    if word.contains("tch") {
        replace(reading, &["T", "CH"], &["CH"]);
    }
    if word.contains("tsh") {
        replace(reading, &["CH"], &["T", "SH"]);
        replace(reading, &["AA", "SH"], &["AA", "T", "SH"]);
    }
    if word.contains("adj") {
        replace(reading, &["AX", "JH"], &["AX", "D", "JH"]);
        replace(reading, &["AE", "JH"], &["AE", "D", "JH"]);
    }
    // *interpolate*: restore a lost n.
    if word.starts_with("inter") && matches!(names(reading)[..], ["IH" | "IX", "T", "ER", ..]) {
        replace_at(reading, 1, 1, &["N", "T"]);
    }
    // *ancient*, *tension*: /sh/, even where the dictionary hears a stop before it.
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

/// Replaces a run of phones wherever it occurs. The new run must not contain the old one.
fn replace(reading: &mut Pronunciation, old: &[&str], new: &[&str]) {
    while let Some(at) = names(reading).windows(old.len()).position(|run| run == old) {
        replace_at(reading, at, old.len(), new);
    }
}

fn replace_last(reading: &mut Pronunciation, old: &[&str], new: &[&str]) {
    if let Some(at) = names(reading).windows(old.len()).rposition(|run| run == old) {
        replace_at(reading, at, old.len(), new);
    }
}

fn replace_at(reading: &mut Pronunciation, at: usize, length: usize, new: &[&str]) {
    reading.phones.splice(at..at + length, new.iter().map(|name| phone(name)));
    if let Some(stressed) = reading.stressed.as_mut().filter(|stressed| **stressed > at) {
        *stressed = (*stressed + new.len()).saturating_sub(length);
    }
}

/// Whether one reading of a word makes another superfluous.
fn is_better(word: &str, good: &Pronunciation, bad: &Pronunciation) -> bool {
    good.phones != bad.phones
        && (is_full_form(word, good, bad) || is_slower(word, good, bad) || is_dialect(word, &names(good), &names(bad)))
}

/// The names of the phones, with both weak vowels written as `AX`.
fn alike(reading: &Pronunciation) -> Vec<&'static str> {
    names(reading).into_iter().map(|name| if name == "IX" { "AX" } else { name }).collect()
}

/// Whether `long` is `short` with one more phone, at a position that the test allows.
fn inserted(long: &[&str], short: &[&str], allowed: impl Fn(usize) -> bool) -> bool {
    long.len() == short.len() + 1
        && (0..long.len()).any(|at| allowed(at) && long[..at] == short[..at] && long[at + 1..] == short[at..])
}

/// Whether two lists differ, and only at positions that the test allows.
fn swapped(good: &[&str], bad: &[&str], allowed: impl Fn(usize) -> bool) -> bool {
    good.len() == bad.len() && good != bad && (0..good.len()).all(|at| good[at] == bad[at] || allowed(at))
}

fn is_vowel(name: &str) -> bool {
    name.starts_with(['A', 'E', 'I', 'O', 'U'])
}

/// Whether `good` is the full form of a word such as *camera*, *different* or *can*, and `bad` lacks a weak vowel or has
/// only weak vowels.
fn is_full_form(word: &str, good: &Pronunciation, bad: &Pronunciation) -> bool {
    let vowels = |reading: &Pronunciation| reading.phones.iter().filter(|phone| phone.is_vowel()).count();
    if vowels(good) == 1 && vowels(bad) == 1 {
        return good.stressed.is_some() && bad.stressed.is_none();
    }
    let (good, bad) = (alike(good), alike(bad));
    let weak = |at: usize| matches!(good[at], "AX" | "ER") && !(word.ends_with("ed") && at + 2 == good.len());
    // ER reduced to R, or R and its vowel reduced to ER.
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

/// Whether `good` is how a word is pronounced slowly.
fn is_slower(word: &str, good: &Pronunciation, bad: &Pronunciation) -> bool {
    let same_stress = good.stressed == bad.stressed;
    let (good, bad) = (alike(good), alike(bad));
    let consonant = |phones: &[&str], at: usize| phones.get(at).is_none_or(|name| !is_vowel(name));
    // *most*, *friends*, *empty* with their stops; the other reading loses one between consonants or at the end.
    let stop = |at: usize| {
        matches!(good[at], "T" | "D" | "P") && at > 0 && consonant(&good, at - 1) && consonant(&good, at + 1)
    };
    if !word.contains("stle") && !word.contains("stling") && !word.ends_with("tz") && inserted(&good, &bad, stop) {
        return true;
    }
    // *engage*, *accept*: the full first vowel; the other reading has a weak one.
    let first = |at: usize| at == 0 && matches!((good[0], bad[0]), ("EH" | "AE", "AX"));
    // *diverse*.
    let di = |at: usize| at == 1 && word.starts_with("di") && good[1] == "AY" && matches!(bad[1], "AX" | "IH" | "IY");
    // *radiant*: a separate vowel; the other reading has /y/.
    let glide = |at: usize| good[at] == "IY" && bad[at] == "Y";
    same_stress && (swapped(&good, &bad, first) || swapped(&good, &bad, di)) || swapped(&good, &bad, glide)
}

/// Whether two readings differ only in accent, and `good` is the one to keep.
fn is_dialect(word: &str, good: &[&str], bad: &[&str]) -> bool {
    // *carry* with the vowel of *cat*; the other reading merges it with *merry*.
    let merged = |at: usize| good[at] == "AE" && bad[at] == "EH" && good.get(at + 1) == Some(&"R");
    // *olive* with the vowel of *sit* in its weak syllable; the other reading has a schwa.
    let lax = |at: usize| good[at] == "IX" && bad[at] == "AX";
    if word.contains("ar") && swapped(good, bad, merged) || swapped(good, bad, lax) {
        return true;
    }
    // *calm* without /l/; *singing* without /g/.
    let l = |at: usize| word.contains("alm") && bad[at] == "L";
    let sung = word.trim_end_matches('s').ends_with("ng");
    let g = |at: usize| sung && bad[at] == "G" && at > 0 && bad[at - 1] == "NG";
    // *new* without /y/: the other reading keeps it after t, d, n, s, z, l, th.
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

/// Applies the reviewed list. Columns: word; action, which is `only` (these readings replace the dictionary's), `drop`, `add` or
/// `omit` (the whole word); pronunciations separated by commas; reason.
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
            words.remove(word).ok_or_else(|| format!("{number}: cannot omit {word}: it is not in the dictionary"))?;
            continue;
        }
        let listed: Result<Vec<Pronunciation>, String> =
            listed.split(',').map(|text| Pronunciation::parse(text.trim())).collect();
        let listed = listed.map_err(|symbol| format!("{number}: {symbol} is not a phone"))?;
        let readings = words.entry(word.to_owned()).or_default();
        match action {
            "only" => *readings = listed,
            "add" => readings.extend(listed),
            "drop" => {
                for one in listed {
                    let before = readings.len();
                    readings.retain(|reading| reading.phones != one.phones);
                    if readings.len() == before {
                        return Err(format!("{number}: cannot drop this reading: {word} does not have it"));
                    }
                }
                if readings.is_empty() {
                    return Err(format!("{number}: {word} would have no reading left"));
                }
            }
            _ => return Err(format!("{number}: unknown action: {action}")),
        }
    }
    Ok(())
}
