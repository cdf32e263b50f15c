//! Reuses the cut of base words in the words made of them: *hoping* is h·o·p·i·ng, and its o is still the `o_e` of *hope*,
//! so a child who was taught `o_e` can read it. Such parts have the base's correspondence and a mark.

use std::collections::HashMap;

use untaught_lexicon::format::E_DROPPED;
use untaught_phonics::formation::affixes::{ES, S};
use untaught_phonics::formation::{Change, Side};
use untaught_phonics::{CORRESPONDENCES, Correspondence, CorrespondenceId, Formation};

use crate::cut_lexicon::{CutReading, CutWord};

/// Gives every word the cut of its base, starting with the bases.
pub(crate) fn inherit(entries: &mut [CutWord]) {
    let numbers: HashMap<String, usize> =
        entries.iter().enumerate().map(|(n, entry)| (entry.word.clone(), n)).collect();
    let mut done = vec![false; entries.len()];
    for number in 0..entries.len() {
        visit(entries, &numbers, &mut done, number);
    }
}

fn visit(entries: &mut [CutWord], numbers: &HashMap<String, usize>, done: &mut [bool], number: usize) {
    if std::mem::replace(&mut done[number], true) {
        return;
    }
    for reading in 0..entries[number].readings.len() {
        let Some(made) = entries[number].readings[reading].made else { continue };
        let word = entries[number].word.clone();
        let mut parts_of = |base: &str, reading: u8| -> Option<Vec<u16>> {
            let base = *numbers.get(base)?;
            visit(entries, numbers, done, base);
            entries[base].readings.get(usize::from(reading)).map(|reading| reading.parts.clone())
        };
        match made {
            Formation::Affixed { affix, change, base } => {
                let Some(base_word) = change.base_of(&word, affix) else { continue };
                let Some(base_parts) = parts_of(&base_word, base) else {
                    if change == Change::DropE {
                        split_last_vowel(&mut entries[number].readings[reading]);
                    }
                    continue;
                };
                let own = &mut entries[number].readings[reading];
                if affix.get().side() == Side::Before {
                    take_over_tail(own, &base_parts);
                    continue;
                }
                // In *cases*, the e of *case* is heard.
                let heard_e = matches!(affix, S | ES) && base_word.ends_with('e');
                let kept = if change == Change::DropE || heard_e { keep(&base_parts, &own.parts) } else { None };
                match kept {
                    Some(parts) => own.parts = parts,
                    None if change == Change::None => take_over_head(own, &base_parts, base_word.len()),
                    None => keep_marks(own, &base_parts),
                }
            }
            Formation::Compound { seam, readings: [first, second] } => {
                let (head, tail) = word.split_at(usize::from(seam));
                let (head_parts, tail_parts) = (parts_of(head, first), parts_of(tail, second));
                let own = &mut entries[number].readings[reading];
                if let Some(parts) = tail_parts {
                    take_over_tail(own, &parts);
                }
                if let Some(parts) = head_parts {
                    take_over_head(own, &parts, head.len());
                }
            }
        }
    }
}

/// *ashamed* has the `a_e` of *shame*, although it has no base word.
fn split_last_vowel(reading: &mut CutReading) {
    let [.., vowel, _, _] = reading.parts.as_mut_slice() else { return };
    let split = known(*vowel).and_then(|part| CorrespondenceId::find(&format!("{}_e", part.spelling), part.sound));
    if let Some(split) = split {
        *vowel = split.0 | E_DROPPED;
    }
}

/// *crazier* comes from *crazy*, which comes from *craze*: keeps the marks of the base as far as the two begin alike.
fn keep_marks(reading: &mut CutReading, base: &[u16]) {
    let kept = begin_alike(base, &mut reading.parts);
    debug_assert!(kept <= base.len());
}

/// Counts the parts of the base that the word also begins with. A part shortened by a suffix is replaced with the base's
/// marked part.
fn begin_alike(base: &[u16], parts: &mut Vec<u16>) -> usize {
    for (at, base) in base.iter().enumerate() {
        match parts.get(at) {
            Some(part) if same(*base, *part) => {}
            Some(part) if bare_of(*base, *part) => parts[at] = *base,
            Some(_) if base & E_DROPPED != 0 && opens_with_r(base & !E_DROPPED, &parts[at..]) => {
                parts.splice(at..=at + 1, [*base]);
            }
            _ => return at,
        }
    }
    base.len()
}

/// Whether a vowel and an r replace an r-vowel with a silent e: *share*, *sha·ring*.
fn opens_with_r(base: u16, parts: &[u16]) -> bool {
    let (Some(base), [vowel, r, ..]) = (known(base), parts) else { return false };
    let (Some(vowel), Some(r)) = (known(*vowel), known(*r)) else { return false };
    let sounds: &[&str] = match base.sound.get().name {
        "EH R" => &["EH", "AE"],
        "AY R" => &["AY"],
        "IH R" => &["IY"],
        "UH R" => &["UW"],
        "Y UH R" => &["Y UW"],
        _ => return false,
    };
    let letters = base.spelling.strip_suffix("re");
    letters == Some(vowel.spelling) && r.spelling == "r" && sounds.contains(&vowel.sound.get().name)
}

/// Replaces the parts that spell the first `length` letters with those of the base, if they sound the same.
fn take_over_head(reading: &mut CutReading, base: &[u16], length: usize) {
    let Some(head) = head(&reading.parts, length) else { return };
    if sounds(base) != sounds(&reading.parts[..head]) {
        return;
    }
    reading.parts.splice(..head, base.iter().copied());
    let moved = base.len() as isize - head as isize;
    let shift = |at: u8| (at as isize + if usize::from(at) >= head { moved } else { 0 }) as u8;
    reading.stressed = reading.stressed.map(shift);
}

/// Replaces the last parts with those of the base, if they are the same or are what a suffix leaves of them.
fn take_over_tail(reading: &mut CutReading, base: &[u16]) {
    let Some(from) = reading.parts.len().checked_sub(base.len()).filter(|from| *from > 0) else { return };
    let fits = |(a, b): (&u16, &u16)| both_weak(*a & !E_DROPPED, *b) || bare_of(*a, *b);
    if base.iter().zip(&reading.parts[from..]).all(fits) {
        reading.parts[from..].copy_from_slice(base);
    }
}

/// The sounds of some parts one by one. Weak vowels are written alike, and so are similar vowels before an r.
fn sounds(parts: &[u16]) -> Vec<&'static str> {
    let names = parts.iter().map(|part| known(part & !E_DROPPED).map_or("", |part| part.sound.get().name));
    let mut names: Vec<&str> = names.flat_map(|name| name.split(' ')).collect();
    for at in 0..names.len() {
        names[at] = match (names[at], names.get(at + 1)) {
            ("IY" | "IH", Some(&"R")) => "IH",
            ("UW" | "UH", Some(&"R")) => "UH",
            ("EH" | "AE", Some(&"R")) => "EH",
            ("IH", _) => "AX",
            (name, _) => name,
        };
    }
    names
}

/// Number of parts that spell exactly the first `length` letters; `None` if no part ends there.
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

/// Whether two parts are the same, ignoring the sound if one of them is a weak vowel.
fn same(a: u16, b: u16) -> bool {
    let weak = |part: &Correspondence| matches!(part.sound.get().name, "AX" | "IH");
    a == b
        || match (known(a), known(b)) {
            (Some(a), Some(b)) => a.spelling == b.spelling && (weak(a) || weak(b)),
            _ => false,
        }
}

/// Whether two parts are equal, or are weak vowels with the same spelling.
fn both_weak(a: u16, b: u16) -> bool {
    let weak = |part| known(part).is_some_and(|part| matches!(part.sound.get().name, "AX" | "IH"));
    a == b || same(a, b) && weak(a) && weak(b)
}

/// Whether the second part is what a suffix leaves of the first.
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

/// Returns the parts of a word that begins like its base, with the base's dropped e restored as a mark.
fn keep(base: &[u16], word: &[u16]) -> Option<Vec<u16>> {
    let mut parts = word.to_vec();
    let alike = begin_alike(base, &mut parts);
    let base_part = known(*base.get(alike)?)?;
    let word_part = known(*parts.get(alike)?)?;
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
        // *hope*, *hoping*: o for o_e.
        let follows = !rest.is_empty() && parts[alike + 1..].starts_with(rest);
        return (follows && word_part.spelling == bare && sounds_alike).then(|| {
            parts[alike] = base[alike] | E_DROPPED;
            parts
        });
    }
    if !rest.is_empty() {
        return None;
    }
    if word_part.spelling == bare && sounds_alike {
        // *dance*, *dancing*: c for ce.
        parts[alike] = base[alike] | E_DROPPED;
        return Some(parts);
    }
    // *share*, *sharing*: ar for are, although the search found a·r.
    if opens_with_r(base[alike], &parts[alike..]) {
        parts.splice(alike..=alike + 1, [base[alike] | E_DROPPED]);
        return Some(parts);
    }
    None
}
