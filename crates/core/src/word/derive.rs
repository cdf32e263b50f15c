//! Words that the dictionary lacks but that are made of words it has.

use untaught_spelling::{CorrespondenceId, Grade, SoundId, spelled};

use super::ending::strip;
use super::join::join;
use super::{Ending, Part, Reader, Reading};

/// Beginnings, with their parts.
const PREFIXES: [(&str, &[(&str, &str)]); 10] = [
    ("over", &[("o", "OW"), ("v", "V"), ("er", "ER")]),
    ("under", &[("u", "AH"), ("n", "N"), ("d", "D"), ("er", "ER")]),
    ("un", &[("u", "AH"), ("n", "N")]),
    ("re", &[("r", "R"), ("e", "IY")]),
    ("dis", &[("d", "D"), ("i", "IH"), ("s", "S")]),
    ("mis", &[("m", "M"), ("i", "IH"), ("s", "S")]),
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

impl Reader {
    /// Readings of a word made of others: inflected, joined, lengthened. Empty if it is none of these.
    pub(super) fn derive(&self, word: &str) -> Vec<Reading> {
        let inflected = self.inflected(word);
        if !inflected.is_empty() {
            return inflected;
        }
        if let Some(joined) = self.compound(word) {
            return vec![joined];
        }
        let prefixed = self.prefixed(word);
        if !prefixed.is_empty() {
            return prefixed;
        }
        self.lengthened(word)
    }

    /// *retold*, *unlit*, *McBray*: a beginning and a word.
    fn prefixed(&self, word: &str) -> Vec<Reading> {
        let found = PREFIXES.iter().find_map(|(prefix, parts)| {
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

    fn inflected(&self, word: &str) -> Vec<Reading> {
        for (base, ending, change) in strip(word) {
            let mut readings = self.known(&base);
            if readings.is_empty() && matches!(ending, Ending::S | Ending::Possessive) {
                readings = self.compound(&base).into_iter().collect();
            }
            let made: Vec<Reading> = readings
                .iter()
                .filter_map(|reading| join(reading, ending, change))
                .map(|joined| joined.reading())
                .collect();
            if !made.is_empty() {
                return made;
            }
        }
        Vec::new()
    }

    /// *nooo*, *shhhh*, *sooo*: three letters alike are read as one, or as two where that is the word.
    fn lengthened(&self, word: &str) -> Vec<Reading> {
        self.shortened(word).map(|word| self.known(&word)).unwrap_or_default()
    }

    /// A sound made of consonants alone: *shh*, *brrr*, *psst*. However often a letter is written, each spelling has its everyday
    /// sound.
    pub(super) fn sound_word(word: &str) -> Option<Reading> {
        let consonants = |b: u8| b.is_ascii_lowercase() && !b"aeiouy".contains(&b);
        if word.len() < 2 || !word.bytes().all(consonants) {
            return None;
        }
        let mut letters: Vec<u8> = word.bytes().collect();
        letters.dedup();
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
        if !word.is_ascii() || runs.iter().all(|run| run.len() < 3) {
            return None;
        }
        let keep = |keep: usize| -> String {
            let kept = runs.iter().flat_map(|run| if run.len() < 3 { run } else { &run[..keep] });
            kept.map(|letter| char::from(*letter)).collect()
        };
        // *goood* is *good* and *oooh* is *ooh*; *meee* is *me*, for *mee* is a name.
        let class = |word: &String| self.lexicon.get(word).is_none_or(|entry| entry.commonness().is_none());
        let whole = |word: &String| self.known(word).iter().any(|r| r.parts.iter().all(|part| part.id().is_some()));
        [keep(2), keep(1)].into_iter().filter(whole).min_by_key(class)
    }
}

fn everyday_part(spelling: &str) -> Option<Part> {
    let id = spelled(spelling).find(|id| id.get().grade == Grade::Everyday)?;
    Some(Part::Known { id, e_dropped: false })
}
