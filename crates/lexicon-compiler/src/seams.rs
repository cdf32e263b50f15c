//! Seams: where a compound or a word with a suffix is joined. A part never reaches over a seam (*pot·hole*), and a final e
//! before one is final (*home·owner*, *manage·ment*).

use untaught_phonics::Phone;

use crate::commonness::Commonness;
use crate::dictionary::{Reading, Words};

/// Suffixes that begin with a consonant, before which the base keeps its e.
const SUFFIXES: [&str; 14] =
    ["ment", "ments", "ful", "fully", "less", "lessly", "ness", "ly", "ty", "some", "hood", "ship", "ward", "wards"];

/// Suffixes before which some bases keep their e: *notice·able*.
const AFTER_E: [&str; 3] = ["able", "ably", "ability"];

/// Prefixes, after which a word keeps its own cutting (*dis·honest*, *mis·hap*).
const PREFIXES: [&str; 12] = ["ac", "dis", "mis", "un", "over", "under", "out", "non", "sub", "inter", "fore", "up"];

/// Two-letter words that may end a compound: *makeup*.
const SHORT_SECONDS: [&str; 8] = ["up", "in", "on", "by", "to", "as", "at", "of"];

/// The shortest word that may stand in a compound, in letters.
const SHORTEST: usize = 3;

/// A bit for every seam: bit n stands before letter n.
pub(crate) fn seams(words: &Words, commonness: &Commonness, word: &str, phones: &[Phone]) -> u64 {
    if word.len() > 60 {
        return 0;
    }
    if let Some(at) = word.find('\'') {
        // *haven't*: the base ends before the n.
        let base = if word.ends_with("n't") { 1 << (at - 1) } else { 0 };
        return 1 << at | base;
    }
    if !word.bytes().all(|b| b.is_ascii_lowercase()) {
        return 0;
    }
    let readings = |part: &str| words.get(part).map(Vec::as_slice).unwrap_or_default();
    let mut seams = 0;
    for at in SHORTEST..word.len() {
        let (first, last) = word.split_at(at);
        let after_e = first.ends_with('e') && AFTER_E.contains(&last);
        let suffix = SUFFIXES.contains(&last) || after_e;
        if !suffix && last.len() < SHORTEST && !SHORT_SECONDS.contains(&last)
            || !commonness.is_ordinary(first)
            || !suffix && !commonness.is_ordinary(last)
        {
            continue;
        }
        let joined = readings(first).iter().any(|one| {
            let Some(rest) = phones.get(one.phones.len()..).filter(|_| alike(&one.phones, phones)) else {
                return false;
            };
            suffix || readings(last).iter().any(|two| two.phones.len() == rest.len() && alike(&two.phones, rest))
        });
        if joined {
            seams |= 1 << at;
        }
    }
    // *traveled*, *echoed*: the base has no e of its own.
    if let Some(base) = word.strip_suffix("ed").filter(|base| base.len() >= SHORTEST)
        && commonness.is_ordinary(base)
        && !commonness.is_ordinary(&format!("{base}e"))
    {
        seams |= 1 << base.len();
    }
    // *supposedly*: of *supposed*, though the e is heard only here.
    for suffix in ["ly", "ness"] {
        if let Some(base) = word.strip_suffix(suffix).filter(|base| base.ends_with("ed"))
            && commonness.is_ordinary(base)
        {
            seams |= 1 << base.len();
        }
    }
    for prefix in PREFIXES {
        let Some(base) = word.strip_prefix(prefix).filter(|base| base.len() >= SHORTEST) else { continue };
        let same = |one: &Reading| phones.len() > one.phones.len() && phones.ends_with(&one.phones);
        if commonness.is_ordinary(base) && readings(base).iter().any(same) {
            seams |= 1 << prefix.len();
        }
    }
    seams
}

/// Whether the second list begins like the first, both weak vowels counting as one.
fn alike(first: &[Phone], second: &[Phone]) -> bool {
    let plain = |phone: &Phone| if phone.name() == "IX" { "AX" } else { phone.name() };
    second.len() >= first.len() && first.iter().zip(second).all(|(a, b)| plain(a) == plain(b))
}
