//! The skills that a reading demands beyond its spellings.

use crate::word::{Ending, strip};
use crate::{Part, Reader, Reading, Skill, Word};

/// The skills that a reading of a word demands, in the order of [`Skill::ALL`]; *schwa* is judged part by part instead, but is
/// listed where an unstressed vowel letter is not heard as its short sound.
#[must_use]
pub fn demands(reader: &Reader, word: &Word, reading: &Reading) -> Vec<Skill> {
    Skill::ALL.into_iter().filter(|skill| demands_one(reader, word, reading, *skill)).collect()
}

/// Whether a reading of a word demands one skill.
pub(super) fn demands_one(reader: &Reader, word: &Word, reading: &Reading, skill: Skill) -> bool {
    // *Shh*, *brr*: a sound, not a word with a blend.
    let has_vowel = || reading.parts.iter().any(Part::is_vowel);
    match skill {
        Skill::InitialBlends => has_vowel() && reading.parts.iter().take_while(|part| !part.is_vowel()).count() > 1,
        Skill::FinalBlends => has_vowel() && !is_contraction(&word.text) && final_blend(reader, word, reading),
        Skill::TwoSyllableWords => reading.syllables() == 2,
        Skill::LongerWords => reading.syllables() > 2,
        Skill::CompoundWords => is_compound(reader, word, reading),
        Skill::Contractions => is_contraction(&word.text),
        Skill::Possessives => (word.text.ends_with("'s") || word.text.ends_with("s'")) && !is_contraction(&word.text),
        Skill::Schwa => reading.syllables() > 1 && reading.parts.iter().any(is_schwa),
    }
}

fn is_schwa(part: &Part) -> bool {
    part.id().is_some_and(|id| id.get().is_vowel_letter() && id.get().sound.get().name == "AX")
}

/// Whether two consonants end the word or, where it is inflected, its base: *lamps*, but not *cats*.
fn final_blend(reader: &Reader, word: &Word, reading: &Reading) -> bool {
    let tail = reading.parts.iter().rev().take_while(|part| !part.is_vowel());
    let (mut count, mut last) = (0, None);
    for part in tail {
        last = last.or(part.id());
        count += 1;
    }
    let Some(last) = last else { return false };
    let spelling = last.get().spelling;
    if spelling == "ed" {
        count -= 1;
    } else if spelling == "s" || spelling == "t" {
        let ending = |ending: &Ending| matches!(ending, Ending::S | Ending::Possessive | Ending::Est);
        let base = strip(&word.text).find(|(base, e, _)| match e {
            Ending::Possessive => true,
            // *its* only looks like *it* with an s.
            Ending::S => reader.has(base) && !reader.only_looks_made(&word.text),
            _ => ending(e) && reader.is_ordinary(base),
        });
        match base {
            Some((_, Ending::Est, _)) if !reader.only_looks_made(&word.text) => return false,
            Some(_) if spelling == "s" => count -= 1,
            _ => {}
        }
    }
    count > 1
}

/// Compounds of a word of two letters, or whose seam joins two letters alike: too short to be recognised by form.
const SHORT_COMPOUNDS: [&str; 16] = [
    "cannot",
    "himself",
    "inside",
    "into",
    "itself",
    "maybe",
    "myself",
    "oneself",
    "online",
    "onto",
    "sometimes",
    "unto",
    "upon",
    "upset",
    "within",
    "without",
];

// Words that two others seem to make up, in letters and sounds, but that are none of theirs: *carnation*. Sorted; of plurals the
// singular.
include!(concat!(env!("OUT_DIR"), "/not_compounds.rs"));

/// Whether the word is two words of the dictionary, in letters and sounds, or a form of such a word.
fn is_compound(reader: &Reader, word: &Word, reading: &Reading) -> bool {
    let text = word.text.as_str();
    // *backfired* is one if *backfire* is; *mending* is not *men* and another word.
    let forms = [Ending::S, Ending::Es, Ending::Possessive, Ending::Ed, Ending::Ing, Ending::Er, Ending::Est];
    let base = strip(text).find(|(base, ending, change)| {
        forms.contains(ending) && reader.is_ordinary(base) && reader.is_form(text, base, *ending, *change)
    });
    match base {
        Some((base, ..)) => reader.known(&base).iter().any(|reading| joins_two(reader, &base, reading)),
        None => joins_two(reader, text, reading),
    }
}

fn joins_two(reader: &Reader, text: &str, reading: &Reading) -> bool {
    // *camper*, *disband* only look like two words.
    const AFFIXES: [&str; 17] = [
        "inter", "con", "com", "dis", "for", "imp", "mis", "non", "per", "pre", "pro", "sub", "hood", "ship", "ism",
        "less", "able",
    ];
    if SHORT_COMPOUNDS.contains(&text) {
        return true;
    }
    if !text.is_ascii() || text.len() < 6 || NOT_COMPOUNDS.binary_search(&text).is_ok() {
        return false;
    }
    (3..=text.len() - 3).any(|at| {
        let (first, second) = text.split_at(at);
        if AFFIXES.contains(&first) || AFFIXES.contains(&second) {
            return false;
        }
        if !reader.is_ordinary(first) || !reader.is_ordinary(second) {
            return false;
        }
        // The second word of *fireman* is weak.
        let weak = matches!(second, "man" | "men" | "land");
        let fits = |own: &[Part], parts: &[Part], weak: bool| {
            own.len() == parts.len() && own.iter().zip(parts).all(|(a, b)| heard_as(a, b) || weak && is_schwa(b))
        };
        reader.known(first).iter().any(|one| {
            let Some((head, rest)) = reading.parts.split_at_checked(one.parts.len()) else { return false };
            fits(&one.parts, head, false) && reader.known(second).iter().any(|two| fits(&two.parts, rest, weak))
        })
    })
}

/// Whether two parts are the same, but for the vowel in which *frog* and *leapfrog* differ in this dictionary.
fn heard_as(one: &Part, other: &Part) -> bool {
    let open = |part: &Part| part.id().is_some_and(|id| matches!(id.get().sound.get().name, "AA" | "AO"));
    one == other || one.spelling() == other.spelling() && open(one) && open(other)
}

/// *it's*, *let's*, *don't*, *we're*: shortened words rather than possessives.
pub(super) fn is_contraction(word: &str) -> bool {
    const WITH_S: [&str; 14] = [
        "it's", "he's", "she's", "that's", "what's", "there's", "here's", "who's", "let's", "where's", "how's",
        "when's", "why's", "one's",
    ];
    let endings = ["n't", "'m", "'re", "'ve", "'ll", "'d"];
    endings.iter().any(|ending| word.ends_with(ending)) || WITH_S.contains(&word)
}
