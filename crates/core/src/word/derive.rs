//! Words that the dictionary lacks but that are made of words it has.

use untaught_phonics::{CorrespondenceId, Grade, SoundId, doubles, spelled};

use super::join::join;
use super::{Base, Change, Ending, Part, Reader, Reading, strip};

/// A beginning, with its parts.
type Prefix = (&'static str, &'static [(&'static str, &'static str)]);

/// Beginnings that hardly any compound seems to begin with.
const FIRM_PREFIXES: [Prefix; 4] = [
    ("un", &[("u", "AH"), ("n", "N")]),
    ("re", &[("r", "R"), ("e", "IY")]),
    ("dis", &[("d", "D"), ("i", "IH"), ("s", "S")]),
    ("mis", &[("m", "M"), ("i", "IH"), ("s", "S")]),
];

/// The others.
const PREFIXES: [Prefix; 7] = [
    ("over", &[("o", "OW"), ("v", "V"), ("er", "ER")]),
    ("under", &[("u", "AH"), ("n", "N"), ("d", "D"), ("er", "ER")]),
    ("de", &[("d", "D"), ("e", "IY")]),
    ("pre", &[("p", "P"), ("r", "R"), ("e", "IY")]),
    ("non", &[("n", "N"), ("o", "AA"), ("n", "N")]),
    ("out", &[("ou", "AW"), ("t", "T")]),
    ("mc", &[("m", "M AX"), ("c", "K")]),
];

/// The correspondence of a spelling and a sound that the catalogue is known to have.
pub(super) fn part(spelling: &str, sound: &str) -> Option<Part> {
    let id = CorrespondenceId::find(spelling, SoundId::named(sound)?)?;
    Some(Part::Known { id, e_dropped: false })
}

/// Endings that a word may have one after the other: *hot·head·ed·ness* is rare enough.
const ENDINGS: u8 = 2;

impl Reader {
    /// Readings of a word made of others: inflected, joined, lengthened. Empty if it is none of these.
    pub(super) fn derive(&self, word: &str) -> Vec<Reading> {
        let ways = [
            |reader: &Reader, word: &str| reader.inflected(word, ENDINGS),
            // *refold* is not *ref* and *old*.
            |reader: &Reader, word: &str| reader.prefixed(word, &FIRM_PREFIXES),
            |reader: &Reader, word: &str| reader.compound(word).into_iter().collect(),
            |reader: &Reader, word: &str| reader.prefixed(word, &PREFIXES),
            Reader::lengthened,
        ];
        ways.into_iter().map(|way| way(self, word)).find(|found| !found.is_empty()).unwrap_or_default()
    }

    /// *retold*, *unlit*, *McBray*: a beginning and a word.
    fn prefixed(&self, word: &str, prefixes: &[Prefix]) -> Vec<Reading> {
        let found = prefixes.iter().find_map(|(prefix, parts)| {
            let rest = word.strip_prefix(prefix).filter(|rest| rest.len() > 2)?;
            // Names are in the dictionary, but they are not ordinary words.
            (self.is_ordinary(rest) || *prefix == "mc").then_some((rest, parts))
        });
        let Some((rest, parts)) = found else { return Vec::new() };
        let head: Option<Vec<Part>> = parts.iter().map(|(spelling, sound)| part(spelling, sound)).collect();
        let Some(head) = head else { return Vec::new() };
        let whole = |reading: Reading| Reading {
            parts: head.iter().cloned().chain(reading.parts).collect(),
            stressed: reading.stressed.map(|at| at + head.len()),
        };
        self.known(rest).into_iter().map(whole).collect()
    }

    /// *goatherds*, *paler*, *contrivers*: a base with up to so many endings.
    fn inflected(&self, word: &str, endings: u8) -> Vec<Reading> {
        let mut bases: Vec<(Base<'_>, Ending, Change)> = strip(word).collect();
        bases.sort_by_key(|(base, ending, change)| self.doubt(base, *ending, *change));
        let made = |readings: &[Reading], ending, change| -> Vec<Reading> {
            readings.iter().filter_map(|reading| join(reading, ending, change)).map(|joined| joined.reading()).collect()
        };
        let outer = endings == ENDINGS;
        for (base, ending, change) in &bases {
            // Only an ordinary word takes a second ending.
            let mut readings = if outer || self.is_ordinary(base) { self.known(base) } else { Vec::new() };
            if outer && readings.is_empty() && matches!(ending, Ending::S | Ending::Possessive) {
                readings = self.compound(base).into_iter().collect();
            }
            let made = made(&readings, *ending, *change);
            if !made.is_empty() {
                return made;
            }
        }
        if endings > 1 {
            for (base, ending, change) in bases.iter().filter(|(base, ..)| base.len() > 3 && !self.has(base)) {
                let made = made(&self.inflected(base, endings - 1), *ending, *change);
                if !made.is_empty() {
                    return made;
                }
            }
        }
        Vec::new()
    }

    /// How doubtful it is that a word is made of a base so; of those in equal doubt the first counts.
    fn doubt(&self, base: &str, ending: Ending, change: Change) -> u8 {
        if !self.is_ordinary(base) {
            return 2;
        }
        let vowel_first =
            matches!(ending, Ending::Ed | Ending::Ing | Ending::Er | Ending::Est | Ending::Y | Ending::Able);
        let with = |letters: &str| self.is_ordinary(&format!("{base}{letters}"));
        let doubtful = change == Change::None
            && match ending {
                // *pimply* is of *pimple*.
                Ending::Ly => with("le"),
                // *paler* is of *pale*, for *pal* would double its l; *tensed* is of *tense*, not of *tens*.
                _ => vowel_first && with("e") && (doubles(base) || self.is_plural(base)),
            };
        u8::from(doubtful)
    }

    fn is_plural(&self, word: &str) -> bool {
        word.strip_suffix('s').is_some_and(|one| self.is_ordinary(one))
    }

    /// *nooo*, *shhhh*, *sooo*: three letters alike are read as one, or as two where that is the word.
    fn lengthened(&self, word: &str) -> Vec<Reading> {
        self.shortened(word).map(|word| self.known(&word)).unwrap_or_default()
    }

    /// A sound made of consonants alone: *shh*, *brrr*, *psst*. However often a letter is written, each spelling has its everyday
    /// sound. Other consonants without a vowel are no word that can be sounded out: *lt*, *km*.
    pub(super) fn sound_word(word: &str) -> Option<Reading> {
        if word.len() < 2 || !is_vowelless(word) {
            return None;
        }
        let mut letters: Vec<u8> = word.bytes().collect();
        letters.dedup();
        // *Chrrr* is drawn out, and so a sound.
        let drawn_out = word.as_bytes().chunk_by(|a, b| a == b).any(|run| run.len() > 2);
        if letters.len() > 1 && !drawn_out && !SOUNDS.contains(&&*letters) {
            let odd = Part::Odd { letters: word.into(), phones: "".into() };
            return Some(Reading { parts: vec![odd], stressed: None });
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
        Some(Reading { parts, stressed: None })
    }

    /// A lengthened word with its runs of letters cut to two or one, whichever is an ordinary word; none for any other word.
    pub(crate) fn shortened(&self, word: &str) -> Option<String> {
        let runs: Vec<&[u8]> = word.as_bytes().chunk_by(|a, b| a == b).collect();
        // *eww*, *yayy*: what no word writes twice is lengthened as soon as that.
        let is_long = |run: &[u8]| run.len() > 2 || run.len() == 2 && b"ahijkquvwxy".contains(&run[0]);
        if !word.is_ascii() || !runs.iter().any(|run| is_long(run)) || self.has(word) {
            return None;
        }
        let keep = |keep: usize| -> String {
            let kept = runs.iter().flat_map(|run| if is_long(run) { &run[..keep] } else { run });
            kept.map(|letter| char::from(*letter)).collect()
        };
        // *goood* is *good* and *oooh* is *ooh*; *meee* is *me*, for *mee* is a name.
        let class = |word: &String| !CALLS.contains(&word.as_str()) && !self.is_ordinary(word);
        let whole = |word: &String| self.known(word).iter().any(|r| r.parts.iter().all(|part| part.id().is_some()));
        [keep(2), keep(1)].into_iter().filter(whole).min_by_key(class)
    }
}

/// Whether a word is of consonant letters alone.
pub(crate) fn is_vowelless(word: &str) -> bool {
    word.bytes().all(|b| b.is_ascii_lowercase() && !b"aeiouy".contains(&b))
}

/// Sounds that stories write with consonants alone, each letter once.
const SOUNDS: [&[u8]; 26] = [
    b"br", b"bz", b"bzt", b"gr", b"hm", b"hmf", b"hmph", b"hr", b"kr", b"krsh", b"ksh", b"mh", b"mhm", b"pf", b"pft",
    b"ph", b"pr", b"ps", b"psh", b"pst", b"sh", b"tch", b"th", b"tsk", b"vr", b"zt",
];

/// Calls and noises that are no ordinary words, but neither are they names.
const CALLS: [&str; 9] = ["eek", "eep", "ew", "hoo", "oo", "ooh", "whee", "whoo", "woo"];

fn everyday_part(spelling: &str) -> Option<Part> {
    let id = spelled(spelling).find(|id| id.get().grade == Grade::Everyday)?;
    Some(Part::Known { id, e_dropped: false })
}
