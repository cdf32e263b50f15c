//! Sounds and cries as stories spell them: *nooo*, *shhhh*, *brrr*.

use super::Dictionary;
use crate::reading::{Part, Reading};
use crate::{Grade, spelled};

/// Reads a sound made only of consonants: *shh*, *brrr*, *psst*. Each spelling has its everyday sound, however often its letters
/// are repeated. Other consonants without a vowel cannot be sounded out: *lt*, *km*.
#[must_use]
pub fn sound_word(word: &str) -> Option<Reading> {
    if word.len() < 2 || !is_vowelless(word) {
        return None;
    }
    let mut letters: Vec<u8> = word.bytes().collect();
    letters.dedup();
    // *Chrrr* is drawn out, so it is a sound.
    let drawn_out = word.as_bytes().chunk_by(|a, b| a == b).any(|run| run.len() > 2);
    if letters.len() > 1 && !drawn_out && !SOUNDS.contains(&&*letters) {
        let odd = Part::Odd { letters: word.into(), phones: "".into() };
        return Some(Reading { parts: vec![odd], ..Reading::default() });
    }
    let mut parts = Vec::new();
    let mut rest = letters.as_slice();
    while let [first, tail @ ..] = rest {
        let two = rest.get(..2).and_then(|two| std::str::from_utf8(two).ok());
        let two = two.and_then(|two| everyday_part(two).map(|part| (part, &rest[2..])));
        let (part, after) = match two {
            Some(found) => found,
            None => (everyday_part(char::from(*first).to_string().as_str())?, tail),
        };
        parts.push(part);
        rest = after;
    }
    Some(Reading { parts, ..Reading::default() })
}

/// Shortens each run of letters in a lengthened word to two or one, whichever gives an ordinary word; `None` for any other word.
#[must_use]
pub fn shortened(word: &str, words: &impl Dictionary) -> Option<String> {
    let runs: Vec<&[u8]> = word.as_bytes().chunk_by(|a, b| a == b).collect();
    // *eww*, *yayy*: words never double these letters, so two are enough to count as lengthened.
    let is_long = |run: &[u8]| run.len() > 2 || run.len() == 2 && b"ahijkquvwxy".contains(&run[0]);
    if !word.is_ascii() || !runs.iter().any(|run| is_long(run)) || words.has(word) {
        return None;
    }
    let keep = |keep: usize| -> String {
        let kept = runs.iter().flat_map(|run| if is_long(run) { &run[..keep] } else { run });
        kept.map(|letter| char::from(*letter)).collect()
    };
    // *goood* is *good* and *oooh* is *ooh*; *meee* is *me*, because *mee* is a name.
    let class = |word: &String| !CALLS.contains(&word.as_str()) && !words.is_ordinary(word);
    let whole = |word: &String| words.readings(word).iter().any(|r| r.parts.iter().all(|part| part.id().is_some()));
    [keep(2), keep(1)].into_iter().filter(whole).min_by_key(class)
}

/// Whether a word has only consonant letters.
#[must_use]
pub fn is_vowelless(word: &str) -> bool {
    word.bytes().all(|b| b.is_ascii_lowercase() && !b"aeiouy".contains(&b))
}

/// Sounds that stories spell with consonants alone, each letter written once.
const SOUNDS: [&[u8]; 25] = [
    b"br", b"bz", b"bzt", b"gr", b"hm", b"hmf", b"hmph", b"hr", b"kr", b"krsh", b"ksh", b"mh", b"mhm", b"pf", b"pft",
    b"ph", b"pr", b"psh", b"pst", b"sh", b"tch", b"th", b"tsk", b"vr", b"zt",
];

/// Calls and noises that are neither ordinary words nor names.
const CALLS: [&str; 9] = ["eek", "eep", "ew", "hoo", "oo", "ooh", "whee", "whoo", "woo"];

fn everyday_part(spelling: &str) -> Option<Part> {
    let id = spelled(spelling).find(|id| id.get().grade == Grade::Everyday)?;
    Some(Part::Known { id, e_dropped: false })
}
