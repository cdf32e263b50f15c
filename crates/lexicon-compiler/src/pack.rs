//! Packs the lexicon. The layout is described in `untaught_lexicon::format`.

use std::collections::BTreeMap;

use untaught_phonics::{CORRESPONDENCES, CorrespondenceId, Formation, LetterModel};

use crate::cut_lexicon::{CutLexicon, CutWord};

use untaught_lexicon::format::{COMMON, COMPOUND, E_DROPPED, FORM, HEADER, MAGIC, SLOT, VERSION, hash, slot};

pub(crate) fn pack(lexicon: &CutLexicon) -> Vec<u8> {
    let number = |n: usize| u32::try_from(n).expect("the lexicon is far smaller than 4 GiB").to_le_bytes();
    let common = common(lexicon);
    let code = |part: u16, out: &mut Vec<u8>| match common.iter().position(|known| *known == part) {
        Some(index) => out.push(index as u8),
        None => out.extend(escaped(part).expect("there are fewer than 4,096 codes")),
    };
    let forms = forms(lexicon);
    let mut entries: Vec<u8> = Vec::new();
    let mut starts = Vec::new();
    for CutWord { word, commonness, readings } in &lexicon.entries {
        starts.push((hash(word.as_bytes()), entries.len()));
        entries.push(u8::try_from(word.len()).expect("words have fewer than 256 letters"));
        entries.extend(word.as_bytes());
        entries.push(*commonness);
        entries.push(u8::try_from(readings.len()).expect("words have fewer than 256 readings"));
        for reading in readings {
            let mut parts = Vec::new();
            reading.parts.iter().for_each(|part| code(*part, &mut parts));
            entries.push(u8::try_from(parts.len()).expect("words have fewer than 128 parts"));
            entries.push(reading.stressed.unwrap_or(u8::MAX));
            let form =
                reading.made.map_or(0, |made| 1 + forms.iter().position(|form| *form == made).unwrap_or_default());
            let form = u16::try_from(form).expect("far fewer than 65,000 forms");
            if form < 0xff {
                entries.push(form as u8);
            } else {
                entries.push(0xff);
                entries.extend(form.to_le_bytes());
            }
            entries.extend(parts);
        }
    }
    let mut oddities: Vec<u8> = Vec::new();
    for oddity in &lexicon.oddities {
        oddities.push(u8::try_from(oddity.letters.len()).expect("short"));
        oddities.extend(&oddity.letters);
        oddities.push(u8::try_from(oddity.phones.len()).expect("short"));
        let names: Vec<&str> = oddity.phones.iter().map(|phone| phone.name()).collect();
        let names = names.join(" ");
        oddities.push(u8::try_from(names.len()).expect("short"));
        oddities.extend(names.as_bytes());
    }
    let slots = slots(&starts);
    let mut body = Vec::new();
    common.iter().for_each(|part| body.extend(part.to_le_bytes()));
    slots.iter().for_each(|slot| body.extend(&slot.to_le_bytes()[..SLOT]));
    body.extend(&entries);
    body.extend(&oddities);
    forms.iter().for_each(|made| body.extend(packed_form(*made)));
    let letters = letter_model(lexicon);
    body.extend(letters.bytes());
    let mut out = Vec::with_capacity(HEADER + body.len());
    out.extend(MAGIC);
    out.extend(VERSION.to_le_bytes());
    out.extend(hash(&body).to_le_bytes());
    for n in [
        CORRESPONDENCES.len(),
        slots.len(),
        lexicon.entries.len(),
        entries.len(),
        lexicon.oddities.len(),
        oddities.len(),
        letters.bytes().len(),
        forms.len(),
    ] {
        out.extend(number(n));
    }
    assert_eq!(out.len(), HEADER);
    out.extend(body);
    out
}

/// Every distinct form of a word, commonest first.
fn forms(lexicon: &CutLexicon) -> Vec<Formation> {
    let mut counts: BTreeMap<Formation, usize> = BTreeMap::new();
    for made in lexicon.entries.iter().flat_map(|entry| &entry.readings).filter_map(|reading| reading.made) {
        *counts.entry(made).or_default() += 1;
    }
    let mut forms: Vec<Formation> = counts.keys().copied().collect();
    forms.sort_by_key(|made| (std::cmp::Reverse(counts[made]), *made));
    forms
}

fn packed_form(made: Formation) -> [u8; FORM] {
    match made {
        Formation::Affixed { affix, change, base } => [affix.index(), change as u8, base, 0],
        Formation::Compound { seam, readings: [first, second] } => [COMPOUND, seam, first, second],
    }
}

/// Learns the model for reading words that are not in the dictionary: from ordinary words, not from names.
fn letter_model(lexicon: &CutLexicon) -> LetterModel {
    let known = |parts: &[u16]| -> Option<Vec<CorrespondenceId>> {
        let plain = |part: &u16| {
            let id = part & !E_DROPPED;
            (usize::from(id) < CORRESPONDENCES.len()).then_some((CorrespondenceId(id), id != *part))
        };
        parts
            .iter()
            .map(|part| plain(part).map(|(id, e_dropped)| if e_dropped { id.without_e() } else { id }))
            .collect()
    };
    let ordinary = lexicon.entries.iter().filter(|entry| entry.commonness != 0);
    let words: Vec<Vec<CorrespondenceId>> =
        ordinary.filter_map(|entry| entry.readings.first()).filter_map(|reading| known(&reading.parts)).collect();
    LetterModel::learn(words.iter().map(Vec::as_slice))
}

/// Writes a less common code as two bytes.
fn escaped(code: u16) -> Option<[u8; 2]> {
    // There are fewer than 4,096 correspondences and oddities; one more bit marks a dropped e.
    let dropped = code & E_DROPPED != 0;
    let plain = code & !E_DROPPED;
    let high = u8::try_from(plain >> 8).ok().filter(|high| *high < 16)?;
    Some([COMMON as u8 + high + if dropped { 16 } else { 0 }, (plain & 0xff) as u8])
}

/// The commonest part codes, commonest first.
fn common(lexicon: &CutLexicon) -> Vec<u16> {
    let mut counts: BTreeMap<u16, usize> = BTreeMap::new();
    for reading in lexicon.entries.iter().flat_map(|entry| &entry.readings) {
        reading.parts.iter().for_each(|part| *counts.entry(*part).or_default() += 1);
    }
    let mut codes: Vec<u16> = counts.keys().copied().collect();
    codes.sort_by_key(|code| (std::cmp::Reverse(counts[code]), *code));
    codes.resize(COMMON, 0);
    codes
}

/// Builds an open-addressing table of entry offsets plus one; 0 is an empty slot. At most 70 % full.
fn slots(starts: &[(u64, usize)]) -> Vec<u32> {
    assert!(starts.last().is_none_or(|(_, last)| last + 1 < 1 << (8 * SLOT)));
    let mut slots = vec![0u32; starts.len() * 10 / 7 + 1];
    for &(hash, start) in starts {
        let mut at = slot(hash, slots.len());
        while slots[at] != 0 {
            at = (at + 1) % slots.len();
        }
        slots[at] = u32::try_from(start + 1).expect("the lexicon is far smaller than 4 GiB");
    }
    slots
}
