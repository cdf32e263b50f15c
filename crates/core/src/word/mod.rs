//! Words: how each can be read, and what it is made of.

mod base;
mod initials;

pub(crate) use base::Base;

use std::collections::{HashMap, HashSet};
use std::hash::{DefaultHasher, Hash as _, Hasher as _};
use std::sync::{Mutex, OnceLock};

use untaught_lexicon::{Entry, Lexicon, accents};
use untaught_phonics::accent::{british, weak_r};
use untaught_phonics::formation::{Dictionary, Vocabulary, derive, is_vowelless, sound_word};
use untaught_phonics::lattice::SpellingIndex;
use untaught_phonics::{Accent, LetterModel, Part, Reading, SoundId};

use crate::Scope;

/// Everything needed to read a word: the dictionary, and a model for words that are not in it.
#[derive(Debug)]
pub struct Reader {
    pub(crate) lexicon: Lexicon,
    letters: OnceLock<(SpellingIndex, Option<LetterModel>)>,
    /// A cache of words read by their letters, because the search is slow and the same bases are read repeatedly.
    by_letters: Mutex<HashMap<Box<str>, Reading>>,
    accent: Accent,
    /// Whether the r-vowels of *sister* and *doctor* are kept apart from those of *her* and *word*, as British accents do anyway.
    weak_r: bool,
    /// The sounds of all words of one syllable, as numbers.
    spoken: OnceLock<HashSet<u64>>,
    /// The readers of the other accents, and one that keeps weak r-vowels apart, made when they are first needed.
    others: [OnceLock<Box<Reader>>; Accent::ALL.len() + 1],
}

/// Where the readings of a word come from.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
#[non_exhaustive]
pub enum WordOrigin {
    /// The word is in the dictionary.
    Dictionary,
    /// Derived from words in the dictionary: an inflection, a compound, a lengthened word.
    Derived,
    /// The word was read by its letters alone.
    Letters,
    /// An abbreviation in consonants, which cannot be sounded out: *Dr*, *km*.
    Abbreviation,
}

impl WordOrigin {
    /// The name of the origin in machine formats.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            WordOrigin::Dictionary => "dictionary",
            WordOrigin::Derived => "derived",
            WordOrigin::Letters | WordOrigin::Abbreviation => "letters",
        }
    }

    /// A description of the origin for people; `None` for a word in the dictionary.
    #[must_use]
    pub fn describe(self) -> Option<&'static str> {
        match self {
            WordOrigin::Dictionary => None,
            WordOrigin::Derived => Some("made of words in the dictionary"),
            WordOrigin::Letters => Some("not in the dictionary: read by its letters"),
            WordOrigin::Abbreviation => Some("an abbreviation"),
        }
    }
}

/// A word with its readings.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Word {
    /// The word in lower case, accents and ligatures folded.
    pub text: String,
    /// Where the readings come from.
    pub origin: WordOrigin,
    /// At least one; the dictionary's usual one first.
    pub readings: Vec<Reading>,
}

impl Default for Reader {
    fn default() -> Self {
        Reader::new(Accent::default())
    }
}

impl Vocabulary for Reader {
    fn is_ordinary(&self, word: &str) -> bool {
        self.lexicon.get(word).is_some_and(|entry| entry.commonness().is_some())
    }
}

impl Dictionary for Reader {
    fn readings(&self, word: &str) -> Vec<Reading> {
        let entry = self.lexicon.get(word);
        entry.map(|entry| self.readings_of(&entry)).unwrap_or_default()
    }

    fn has(&self, word: &str) -> bool {
        self.lexicon.get(word).is_some()
    }
}

impl Reader {
    /// A reader for an accent.
    #[must_use]
    pub fn new(accent: Accent) -> Reader {
        Reader {
            lexicon: Lexicon::embedded(),
            letters: OnceLock::new(),
            by_letters: Mutex::default(),
            accent,
            weak_r: false,
            spoken: OnceLock::new(),
            others: Default::default(),
        }
    }

    /// Its accent.
    #[must_use]
    pub fn accent(&self) -> Accent {
        self.accent
    }

    /// The reader for an accent: this one, or another that lives as long. Cost: small.
    #[must_use]
    pub fn in_accent(&self, accent: Accent) -> &Reader {
        if accent == self.accent && !self.weak_r {
            return self;
        }
        self.others[accent as usize].get_or_init(|| Box::new(Reader::new(accent)))
    }

    /// The reader for a scope: in its accent, with the distinctions that it makes. Cost: small.
    #[must_use]
    pub fn for_scope(&self, scope: &Scope) -> &Reader {
        if scope.keeps_weak_r() { self.with_weak_r() } else { self.in_accent(scope.accent()) }
    }

    /// The American reader that keeps the r-vowel of *sister* apart from that of *her*: this one, or another that lives as long.
    pub(crate) fn with_weak_r(&self) -> &Reader {
        if self.weak_r {
            return self;
        }
        let make = || Box::new(Reader { weak_r: true, ..Reader::new(Accent::GeneralAmerican) });
        self.others[Accent::ALL.len()].get_or_init(make)
    }

    /// Reads a word: from the dictionary, otherwise derived from words in it, otherwise by its letters alone. Capitals,
    /// accents and apostrophes are [folded](crate::fold_word) first.
    ///
    /// Cost: a look-up for a word in the dictionary; otherwise a few microseconds, or more to read it by its letters.
    #[must_use]
    pub fn read(&self, word: &str) -> Word {
        if let Some(entry) = self.lexicon.get(word) {
            return self.word_of(&entry);
        }
        let folded = crate::fold_word(word);
        let word = folded.as_str();
        if let Some(entry) = self.lexicon.get(word) {
            return self.word_of(&entry);
        }
        let made = |origin, readings| Word { text: word.to_owned(), origin, readings };
        if word.len() > LONGEST {
            return made(WordOrigin::Letters, vec![irregular(word)]);
        }
        let mut readings = derive(word, self);
        if !readings.is_empty() {
            readings.iter_mut().for_each(|reading| self.accent_affixes(word, reading));
            return made(WordOrigin::Derived, readings);
        }
        let sounds = sound_word(word);
        let is_short = sounds.as_ref().is_some_and(|sounds| sounds.parts.iter().any(|part| part.id().is_none()));
        let mut reading = sounds.unwrap_or_else(|| self.by_letters(word));
        self.accented(word, &mut reading);
        made(if is_short { WordOrigin::Abbreviation } else { WordOrigin::Letters }, vec![reading])
    }

    /// Whether the dictionary has an ordinary word, no name, as the accent's country spells it.
    #[must_use]
    pub fn spells(&self, word: &str) -> bool {
        let entry = self.lexicon.get(word);
        entry.is_some_and(|entry| entry.commonness().is_some() && entry.is_spelled_in(self.accent))
    }

    /// Whether a word of one syllable in the dictionary, names included, has the sounds of a reading. Cost: the first time a pass over the
    /// dictionary.
    #[must_use]
    pub fn sounds_like_a_word(&self, reading: &Reading) -> bool {
        let spoken = self.spoken.get_or_init(|| {
            let short = self.lexicon.entries().filter(|entry| entry.word().len() < 10);
            let readings = short.flat_map(|entry| self.readings_of(&entry));
            readings.filter(|reading| reading.syllables() == 1).map(|reading| phones(&reading)).collect()
        });
        spoken.contains(&phones(reading))
    }

    /// Looks up a word in the dictionary.
    pub(crate) fn word_of(&self, entry: &Entry) -> Word {
        let mut readings = self.readings_of(entry);
        if self.accent.is_british() {
            // *want* has two readings in America and one in Britain.
            let all = readings.clone();
            let mut number = 0;
            readings.retain(|reading| {
                number += 1;
                !all[..number - 1].iter().any(|earlier| earlier.parts == reading.parts)
            });
        }
        let odd = |reading: &Reading| reading.parts.iter().any(|part| part.id().is_none());
        let all_odd = readings.iter().all(odd);
        // *ABC*, *OK*: one thing to learn, not an a and an irregular bc.
        if let Some(initials) = readings.first_mut().filter(|reading| all_odd && initials::are(entry.word(), reading)) {
            let phones: Vec<&str> = initials.parts.iter().map(Part::arpabet).collect();
            initials.parts = vec![Part::Odd { letters: entry.word().into(), phones: phones.join(" ").into() }];
            initials.stressed = None;
            let readings = vec![std::mem::take(initials)];
            return Word { text: entry.word().to_owned(), origin: WordOrigin::Abbreviation, readings };
        }
        let is_short = is_vowelless(entry.word()) && all_odd;
        let origin = if is_short { WordOrigin::Abbreviation } else { WordOrigin::Dictionary };
        Word { text: entry.word().to_owned(), origin, readings }
    }

    /// Returns the ordinary words in the dictionary up to a size class (from 10, commonest, to 50, rarest), in alphabetical
    /// order, with their classes, as the accent's country spells them. Cost: a pass over the dictionary.
    pub fn common(&self, class: u8) -> impl Iterator<Item = (&'static str, u8)> {
        let entries = self.lexicon.entries().filter(|entry| entry.is_spelled_in(self.accent));
        let classes = entries.filter_map(|entry| Some((entry.word(), entry.commonness()?)));
        classes.filter(move |(_, found)| *found <= class)
    }

    /// The readings of a word of the dictionary in the reader's accent.
    fn readings_of(&self, entry: &Entry) -> Vec<Reading> {
        let mut readings: Vec<Reading> = entry.readings().map(|reading| self.unpack(&reading)).collect();
        if !self.accent.is_british() {
            if self.weak_r {
                readings
                    .iter_mut()
                    .for_each(|reading| weak_r::apply(reading, self.second_stress(entry.word(), reading)));
            }
            return readings;
        }
        let reviewed = accents::readings(entry.word(), self.accent);
        let mut british = Vec::with_capacity(readings.len());
        for (number, mut reading) in readings.into_iter().enumerate() {
            let before = british.len();
            // One American reading may have two in Britain: *ate*.
            let own = reviewed.iter().filter(|reviewed| reviewed.number == number);
            british.extend(own.map(|own| Reading {
                parts: own.parts.clone(),
                stressed: own.stressed,
                made: reading.made,
                accent: self.accent,
            }));
            if british.len() == before {
                self.accented(entry.word(), &mut reading);
                british.push(reading);
            }
        }
        british
    }

    /// Gives an American reading the sounds of the reader's accent.
    fn accented(&self, word: &str, reading: &mut Reading) {
        self.accent_parts(word, reading, &[]);
    }

    /// Gives the affixes of a derived reading the sounds of the reader's accent. Its bases have them already, and their reviewed
    /// sounds stay: the a of *unwatering*.
    fn accent_affixes(&self, word: &str, reading: &mut Reading) {
        const ER: SoundId = SoundId::known("ER");
        let done = |part: &Part| part.id().is_some_and(|id| id.get().is_in(self.accent) && id.get().sound != ER);
        let fixed: Vec<bool> = reading.parts.iter().map(done).collect();
        self.accent_parts(word, reading, &fixed);
    }

    fn accent_parts(&self, word: &str, reading: &mut Reading, fixed: &[bool]) {
        if self.accent.is_british() {
            british::apply(self.accent, word, reading, self.second_stress(word, reading), fixed);
        } else if self.weak_r {
            weak_r::apply(reading, self.second_stress(word, reading));
        }
    }

    fn unpack(&self, packed: &untaught_lexicon::PackedReading) -> Reading {
        let packed_parts = packed.parts();
        let mut parts = Vec::with_capacity(packed_parts.size_hint().1.unwrap_or_default());
        parts.extend(packed_parts.map(|part| match part {
            untaught_lexicon::PackedPart::Known { id, e_dropped } => Part::Known { id, e_dropped },
            untaught_lexicon::PackedPart::Odd(number) => {
                let (letters, phones) = self.lexicon.oddity(number).unwrap_or_default();
                Part::Odd { letters: letters.into(), phones: phones.into() }
            }
        }));
        Reading { parts, stressed: packed.stressed(), made: packed.made(), accent: Accent::GeneralAmerican }
    }

    /// Returns the most probable cut with the whole catalogue, from the cache if possible.
    fn by_letters(&self, word: &str) -> Reading {
        let known = self.by_letters.lock().ok().and_then(|known| known.get(word).cloned());
        if let Some(reading) = known {
            return reading;
        }
        let reading = self.search_by_letters(word);
        if let Ok(mut known) = self.by_letters.lock() {
            if known.len() >= REMEMBERED {
                known.clear();
            }
            known.insert(word.into(), reading.clone());
        }
        reading
    }

    fn search_by_letters(&self, word: &str) -> Reading {
        // Letters in another script are not part of English spelling.
        let foreign = word.chars().any(|c| c.is_alphabetic() && !c.is_ascii_lowercase());
        let letters: Vec<u8> = word.bytes().filter(|b| b.is_ascii_lowercase() && !foreign).collect();
        let seams = word.find('\'').filter(|at| *at < 64).map_or(0, |at| 1 << at);
        let (index, model) = self.letters.get_or_init(|| (SpellingIndex::default(), self.lexicon.letter_model()));
        let parts =
            model.as_ref().and_then(|model| model.read(&letters, seams, index)).filter(|parts| !parts.is_empty());
        match parts {
            Some(parts) => {
                let parts = parts.into_iter().map(|id| Part::Known { id, e_dropped: false });
                Reading { parts: parts.collect(), ..Reading::default() }
            }
            None => irregular(word),
        }
    }
}

/// The sounds of a reading as one number. Most Americans have one vowel in *cot* and *caught*.
fn phones(reading: &Reading) -> u64 {
    let mut hasher = DefaultHasher::new();
    for phone in reading.parts.iter().flat_map(|part| part.arpabet().split(' ')).filter(|phone| !phone.is_empty()) {
        let phone = if phone == "AO" { "AA" } else { phone.trim_end_matches(|c: char| c.is_ascii_digit()) };
        phone.hash(&mut hasher);
    }
    hasher.finish()
}

/// Makes a reading with a single irregular part.
fn irregular(word: &str) -> Reading {
    Reading { parts: vec![Part::Odd { letters: word.into(), phones: "".into() }], ..Reading::default() }
}

/// The maximum length, in bytes, of a word to search for a cut. Anything longer becomes one irregular part.
const LONGEST: usize = 60;

/// Maximum number of words in the cache of words read by their letters.
const REMEMBERED: usize = 4096;
