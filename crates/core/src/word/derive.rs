//! Words that the dictionary lacks but that are made of words it has.

use untaught_spelling::{CorrespondenceId, Grade, SoundId, spelled};

use super::ending::{Change, strip};
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
            let made: Vec<Reading> = readings.iter().filter_map(|reading| join(reading, ending, change)).collect();
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

/// A base's reading with an ending joined on.
pub(super) fn join(base: &Reading, ending: Ending, change: Change) -> Option<Reading> {
    let mut parts = base.parts.clone();
    let last_sound = parts.last()?.id()?.get().sound.get().name;
    match change {
        Change::None => {}
        Change::DropE => drop_e(&mut parts)?,
        Change::Double => {
            let last = parts.pop()?.id()?.get();
            let double = last.spelling.repeat(2);
            let id = CorrespondenceId::find(&double, last.sound)?;
            parts.push(Part::Known { id, e_dropped: false });
        }
        Change::YToI => {
            let last = parts.pop()?;
            let sound = last.id()?.get().sound.get().name;
            // cried, cries: one part with the e; happily, happier: the i alone.
            if matches!(ending, Ending::Ed | Ending::Es) {
                parts.push(part("ie", sound)?);
                parts.push(if ending == Ending::Ed { part("d", "D")? } else { part("s", "Z")? });
                return Some(Reading { parts, stressed: base.stressed });
            }
            parts.push(part(
                "i",
                if sound == "IY" && ending != Ending::Er && ending != Ending::Est { "AX" } else { sound },
            )?);
        }
    }
    let hissing = matches!(last_sound, "S" | "Z" | "SH" | "ZH" | "CH" | "JH" | "K S");
    let voiceless = matches!(last_sound, "P" | "T" | "K" | "F" | "TH" | "S" | "SH" | "CH" | "K S");
    let tail: Vec<Option<Part>> = match ending {
        Ending::S | Ending::Possessive if hissing && ending == Ending::Possessive => vec![part("s", "AX Z")],
        // hoses, horses: the e of the base is heard.
        Ending::S if hissing => {
            drop_e(&mut parts)?;
            vec![part("e", "AX"), part("s", "Z")]
        }
        Ending::S | Ending::Possessive if voiceless => vec![part("s", "S")],
        Ending::S | Ending::Possessive => vec![part("s", "Z")],
        Ending::Es if hissing => vec![part("e", "AX"), part("s", "Z")],
        Ending::Es => return None,
        Ending::Ed if matches!(last_sound, "T" | "D") => vec![part("ed", "AX D")],
        Ending::Ed if voiceless => vec![part("ed", "T")],
        Ending::Ed => vec![part("ed", "D")],
        Ending::Ing => vec![part("i", "IH"), part("ng", "NG")],
        Ending::Er => vec![part("er", "ER")],
        Ending::Est => vec![part("e", "AX"), part("s", "S"), part("t", "T")],
        Ending::Ly => vec![part("l", "L"), part("y", "IY")],
        Ending::Y => vec![part("y", "IY")],
        Ending::Ful => vec![part("f", "F"), part("u", "AX"), part("l", "L")],
        Ending::Less => vec![part("l", "L"), part("e", "AX"), part("ss", "S")],
        Ending::Ness => vec![part("n", "N"), part("e", "AX"), part("ss", "S")],
        Ending::Ment => vec![part("m", "M"), part("e", "AX"), part("n", "N"), part("t", "T")],
    };
    for part in tail {
        parts.push(part?);
    }
    Some(Reading { parts, stressed: base.stressed })
}

/// Marks the part whose e the ending took away.
fn drop_e(parts: &mut [Part]) -> Option<()> {
    let split = parts.iter().rposition(Part::is_split);
    let last = parts.len().checked_sub(1)?;
    let at = match split {
        Some(at) if at + 3 > last && parts[at + 1..].iter().all(|part| !part.is_vowel()) => at,
        _ => last,
    };
    let Part::Known { id, e_dropped } = &mut parts[at] else { return None };
    if !id.get().spelling.ends_with('e') {
        return None;
    }
    *e_dropped = true;
    Some(())
}
