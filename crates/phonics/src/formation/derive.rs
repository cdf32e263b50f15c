//! Readings for words that are not in the dictionary but are made of words that are.

use super::affixes::{self, AffixId, Change};
use super::compounds::likeliest_seam;
use super::forms::{Form, beginnings, endings};
use super::join::{join, plain};
use super::{Dictionary, doubles, shortened};
use crate::reading::{Formation, Reading};

/// Maximum number of suffixes in a row: even two, as in *hot·head·ed·ness*, are rare.
const ENDINGS: u8 = 2;

/// Prefixes that few compounds seem to begin with. They are tried before compounds: *refold* is not *ref* and *old*.
const FIRM: [AffixId; 4] =
    [AffixId::known("un-"), AffixId::known("re-"), AffixId::known("dis-"), AffixId::known("mis-")];

/// Returns the readings of a word that is made of other words: affixed, compound or lengthened. Empty if it is none of these.
#[must_use]
pub fn derive(word: &str, words: &impl Dictionary) -> Vec<Reading> {
    let ways: [&dyn Fn() -> Vec<Reading>; 5] = [
        &|| with_ending(word, ENDINGS, words),
        &|| with_beginning(word, words, |affix| FIRM.contains(&affix)),
        &|| compound(word, words).into_iter().collect(),
        &|| with_beginning(word, words, |affix| !FIRM.contains(&affix)),
        &|| shortened(word, words).map(|short| words.readings(&short)).unwrap_or_default(),
    ];
    ways.into_iter().map(|way| way()).find(|found| !found.is_empty()).unwrap_or_default()
}

/// *retold*, *unlit*, *McBray*: a prefix and a word.
fn with_beginning(word: &str, words: &impl Dictionary, wanted: impl Fn(AffixId) -> bool) -> Vec<Reading> {
    let found = beginnings(word).find(|form| {
        // Names are in the dictionary but are not ordinary words.
        let known = words.is_ordinary(&form.base) || form.affix == affixes::MC;
        wanted(form.affix) && form.affix.get().productive && known && form.base.len() > 2
    });
    let Some(Form { base, affix, change }) = found else { return Vec::new() };
    let head = affix.get().cut[0];
    let whole = |(number, reading): (u8, Reading)| Reading {
        parts: head.iter().copied().map(plain).chain(reading.parts).collect(),
        stressed: reading.stressed.map(|at| at + head.len()),
        made: Some(Formation::Affixed { affix, change, base: number }),
        accent: reading.accent,
    };
    (0..).zip(words.readings(&base)).map(whole).collect()
}

/// *goatherds*, *paler*, *contrivers*: a base with up to `most` suffixes.
fn with_ending(word: &str, most: u8, words: &impl Dictionary) -> Vec<Reading> {
    let mut forms: Vec<Form<'_>> = endings(word).filter(|form| form.affix.get().productive).collect();
    forms.sort_by_key(|form| doubt(form, words));
    let made = |readings: &[Reading], form: &Form<'_>| -> Vec<Reading> {
        let one = |(number, reading): (u8, &Reading)| {
            let made = Some(Formation::Affixed { affix: form.affix, change: form.change, base: number });
            Some(Reading { made, ..join(reading, form.affix, form.change)? })
        };
        (0..).zip(readings).filter_map(one).collect()
    };
    let outer = most == ENDINGS;
    for form in &forms {
        // Only an ordinary word takes a second suffix.
        let mut readings = if outer || words.is_ordinary(&form.base) { words.readings(&form.base) } else { Vec::new() };
        if outer && readings.is_empty() && matches!(form.affix, affixes::S | affixes::POSSESSIVE) {
            readings = compound(&form.base, words).into_iter().collect();
        }
        let made = made(&readings, form);
        if !made.is_empty() {
            return made;
        }
    }
    if most > 1 {
        for form in forms.iter().filter(|form| form.base.len() > 3 && !words.has(&form.base)) {
            let made = made(&with_ending(&form.base, most - 1, words), form);
            if !made.is_empty() {
                return made;
            }
        }
    }
    Vec::new()
}

/// How doubtful it is that a word is formed this way. If several forms are equally doubtful, the first is used.
fn doubt(form: &Form<'_>, words: &impl Dictionary) -> u8 {
    let Form { base, affix, change } = form;
    if !words.is_ordinary(base) {
        return 2;
    }
    let with = |letters: &str| words.is_ordinary(&format!("{base}{letters}"));
    let vowel_first = affix.get().changes.contains(&Change::DropE) && *affix != affixes::LY;
    let doubtful = *change == Change::None
        && match *affix {
            // *pimply* comes from *pimple*.
            affixes::LY => with("le"),
            // *browses* comes from *browse*, not from *brows*.
            affixes::ES => is_plural(base, words),
            // *paler* comes from *pale*, because *pal* would double its l; *tensed* comes from *tense*, not from *tens*.
            _ => vowel_first && with("e") && (doubles(base) || is_plural(base, words)),
        };
    u8::from(doubtful)
}

fn is_plural(word: &str, words: &impl Dictionary) -> bool {
    word.strip_suffix('s').is_some_and(|one| words.is_ordinary(one))
}

/// *foghorn*, *goatherd*: two words written as one.
fn compound(word: &str, words: &impl Dictionary) -> Option<Reading> {
    let seam = likeliest_seam(word, words)?;
    let [first, second] = [&word[..seam], &word[seam..]].map(|half| words.readings(half).into_iter().next());
    let (first, second) = (first?, second?);
    let made = Some(Formation::Compound { seam: u8::try_from(seam).ok()?, readings: [0, 0] });
    let parts = first.parts.iter().chain(&second.parts).cloned().collect();
    Some(Reading { parts, stressed: first.stressed, made, accent: first.accent })
}
