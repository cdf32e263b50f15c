//! Reads the packed lexicon in place.

use untaught_phonics::formation::{AffixId, Change};
use untaught_phonics::{Accent, CORRESPONDENCES, CorrespondenceId, Formation, LetterModel};

use crate::format::{
    AMERICAN, BRITISH, CLASS, COMMON, COMPOUND, E_DROPPED, FORM, HEADER, MAGIC, SLOT, VERSION, hash, slot,
};

static BYTES: &[u8] = include_bytes!("../data/lexicon.bin");

/// The checksum that the embedded dictionary says it has.
pub(crate) fn checksum() -> u64 {
    BYTES[12..].first_chunk::<8>().map_or(0, |bytes| u64::from_le_bytes(*bytes))
}

/// Why this build cannot read some bytes as a lexicon.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Flaw {
    /// They do not begin with the header of a lexicon.
    NotALexicon,
    /// They were packed by another version or with another catalogue.
    OtherVersion,
    /// They end too early, or their checksum differs.
    Damaged,
}

impl std::fmt::Display for Flaw {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Flaw::NotALexicon => "these bytes are not a packed lexicon",
            Flaw::OtherVersion => "this lexicon was packed by another version of the program",
            Flaw::Damaged => "this lexicon is damaged",
        })
    }
}

impl std::error::Error for Flaw {}

/// The dictionary.
#[derive(Clone, Copy, Debug)]
pub struct Lexicon {
    common: &'static [u8],
    slots: &'static [u8],
    entries: &'static [u8],
    oddities: &'static [u8],
    forms: &'static [u8],
    letters: &'static [u8],
    words: usize,
}

impl Lexicon {
    /// Opens the dictionary embedded in the program. Cost: a check of the header.
    ///
    /// # Panics
    /// Never for a program that passed this crate's tests: they open the same bytes with [`Lexicon::verified`].
    #[must_use]
    pub fn embedded() -> Lexicon {
        Lexicon::open(BYTES).expect("the embedded lexicon belongs to this build")
    }

    /// Opens the embedded dictionary and verifies its checksum. Cost: one pass over a few megabytes.
    ///
    /// # Errors
    /// As [`Lexicon::open`], or if the checksum differs.
    pub fn verified() -> Result<Lexicon, Flaw> {
        let lexicon = Lexicon::open(BYTES)?;
        let sum = u64::from_le_bytes(BYTES[12..20].try_into().map_err(|_| Flaw::Damaged)?);
        if hash(&BYTES[HEADER..]) == sum { Ok(lexicon) } else { Err(Flaw::Damaged) }
    }

    /// Opens packed bytes.
    ///
    /// # Errors
    /// If the header or the lengths in it are wrong.
    pub fn open(bytes: &'static [u8]) -> Result<Lexicon, Flaw> {
        if bytes.len() < HEADER || bytes[..8] != MAGIC {
            return Err(Flaw::NotALexicon);
        }
        let number = |at: usize| bytes[at..].first_chunk::<4>().map_or(0, |b| u32::from_le_bytes(*b)) as usize;
        if number(8) != VERSION as usize || number(20) != CORRESPONDENCES.len() {
            return Err(Flaw::OtherVersion);
        }
        let (slots, words, entries) = (number(24), number(28), number(32));
        let (oddities, letters, forms) = (number(40), number(44), number(48));
        let mut rest = &bytes[HEADER..];
        let mut take = |n: usize| {
            let (head, tail) = rest.split_at_checked(n).ok_or(Flaw::Damaged)?;
            rest = tail;
            Ok(head)
        };
        Ok(Lexicon {
            common: take(2 * COMMON)?,
            slots: take(slots * SLOT)?,
            entries: take(entries)?,
            oddities: take(oddities)?,
            forms: take(forms * FORM)?,
            letters: take(letters)?,
            words,
        })
    }

    /// Number of words.
    #[must_use]
    pub fn len(&self) -> usize {
        self.words
    }

    /// Whether the dictionary is empty.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.words == 0
    }

    /// Finds a word, given in lower case with a straight apostrophe. Cost: a hash and one or two comparisons.
    #[must_use]
    pub fn get(&self, word: &str) -> Option<Entry> {
        let count = self.slots.len() / SLOT;
        if count == 0 || word.len() > usize::from(u8::MAX) {
            return None;
        }
        let mut at = slot(hash(word.as_bytes()), count);
        loop {
            let [a, b, c] = *self.slots[at * SLOT..].first_chunk()?;
            let start = u32::from_le_bytes([a, b, c, 0]) as usize;
            let entry =
                Entry { bytes: self.entries.get(start.checked_sub(1)?..)?, common: self.common, forms: self.forms };
            if entry.letters() == word.as_bytes() {
                return Some(entry);
            }
            at = if at + 1 == count { 0 } else { at + 1 };
        }
    }

    /// Every word in alphabetical order (by bytes).
    #[must_use]
    pub fn entries(&self) -> Entries {
        Entries { bytes: self.entries, common: self.common, forms: self.forms }
    }

    /// The model for reading words that are not in the dictionary. Cost: none; it is read in place.
    #[must_use]
    pub fn letter_model(&self) -> Option<LetterModel> {
        LetterModel::open(self.letters)
    }

    /// The letters and the phones (`K AX`) of an oddity: letters that do not match any correspondence. Cost: a walk over the
    /// oddities.
    #[must_use]
    pub fn oddity(&self, number: usize) -> Option<(&'static str, &'static str)> {
        let mut rest = self.oddities;
        for _ in 0..number {
            let letters = usize::from(*rest.first()?);
            let names = usize::from(*rest.get(letters + 2)?);
            rest = rest.get(letters + 3 + names..)?;
        }
        let letters = usize::from(*rest.first()?);
        let names = usize::from(*rest.get(letters + 2)?);
        let text = |from: usize, n: usize| rest.get(from..from + n).and_then(|b| std::str::from_utf8(b).ok());
        Some((text(1, letters)?, text(letters + 3, names)?))
    }
}

/// A word with its readings.
#[derive(Clone, Copy, Debug)]
pub struct Entry {
    bytes: &'static [u8],
    common: &'static [u8],
    forms: &'static [u8],
}

impl Entry {
    /// The word.
    #[must_use]
    pub fn word(&self) -> &'static str {
        let length = usize::from(self.bytes[0]);
        std::str::from_utf8(&self.bytes[1..=length]).unwrap_or_default()
    }

    fn letters(&self) -> &'static [u8] {
        &self.bytes[1..=usize::from(self.bytes[0])]
    }

    /// How common it is: its size class in an open word list, from 10 (commonest) to 50 (rarest). `None` for an even rarer
    /// word, a name or an abbreviation.
    #[must_use]
    pub fn commonness(&self) -> Option<u8> {
        Some(self.packed_commonness() & CLASS).filter(|class| *class != 0)
    }

    /// Whether a writer of an accent's country spells the word so: not *colour* in America, not *color* in Britain.
    #[must_use]
    pub fn is_spelled_in(&self, accent: Accent) -> bool {
        self.packed_commonness() & if accent.is_british() { AMERICAN } else { BRITISH } == 0
    }

    fn packed_commonness(&self) -> u8 {
        self.bytes[usize::from(self.bytes[0]) + 1]
    }

    /// Its readings, the dictionary's usual one first.
    pub fn readings(&self) -> impl Iterator<Item = PackedReading> + use<> {
        let mut rest = &self.bytes[usize::from(self.bytes[0]) + 2..];
        let (count, common, forms) = (rest[0], self.common, self.forms);
        rest = &rest[1..];
        (0..count).map(move |_| {
            let head = if rest[2] == u8::MAX { 5 } else { 3 };
            let (reading, tail) = rest.split_at(head + usize::from(rest[0]));
            rest = tail;
            PackedReading { bytes: reading, common, forms }
        })
    }

    fn length(&self) -> usize {
        let head = usize::from(self.bytes[0]) + 3;
        head + self.readings().map(|reading| reading.bytes.len()).sum::<usize>()
    }
}

/// One pronunciation, cut into parts.
#[derive(Clone, Copy, Debug)]
pub struct PackedReading {
    bytes: &'static [u8],
    common: &'static [u8],
    forms: &'static [u8],
}

impl PackedReading {
    /// The parts in the order of their first letter.
    #[must_use]
    pub fn parts(&self) -> PackedParts {
        let head = if self.bytes[2] == u8::MAX { 5 } else { 3 };
        PackedParts { bytes: &self.bytes[head..], common: self.common }
    }

    /// What the word is made of in this reading. Cost: a look-up.
    #[must_use]
    pub fn made(&self) -> Option<Formation> {
        let number = match self.bytes[2] {
            0 => return None,
            u8::MAX => usize::from(u16::from_le_bytes([self.bytes[3], self.bytes[4]])),
            number => usize::from(number),
        };
        let [first, second, third, fourth] = *self.forms.get((number - 1) * FORM..)?.first_chunk()?;
        if first == COMPOUND {
            return Some(Formation::Compound { seam: second, readings: [third, fourth] });
        }
        let change = match second {
            0 => Change::None,
            1 => Change::DropE,
            2 => Change::DropLe,
            3 => Change::Double,
            4 => Change::YToI,
            _ => Change::IeToY,
        };
        Some(Formation::Affixed { affix: AffixId::at(first)?, change, base: third })
    }

    /// The index of the part with the main stress.
    #[must_use]
    pub fn stressed(&self) -> Option<usize> {
        Some(self.bytes[1]).filter(|place| *place != u8::MAX).map(usize::from)
    }
}

/// One part of a reading.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum PackedPart {
    /// A correspondence of the catalogue.
    Known {
        /// The correspondence.
        id: CorrespondenceId,
        /// Whether a suffix removed the e of its spelling: the o of *hoping* is `o_e as in hope`.
        e_dropped: bool,
    },
    /// Letters that do not match any correspondence: the number of an [oddity](Lexicon::oddity).
    Odd(usize),
}

/// The parts of a reading.
#[derive(Clone, Debug)]
pub struct PackedParts {
    bytes: &'static [u8],
    common: &'static [u8],
}

impl Iterator for PackedParts {
    type Item = PackedPart;

    fn next(&mut self) -> Option<PackedPart> {
        let (first, rest) = self.bytes.split_first()?;
        let code = if usize::from(*first) < COMMON {
            self.bytes = rest;
            let place = 2 * usize::from(*first);
            u16::from_le_bytes([*self.common.get(place)?, *self.common.get(place + 1)?])
        } else {
            let (second, rest) = rest.split_first()?;
            self.bytes = rest;
            unescaped(*first, *second)
        };
        let id = code & !E_DROPPED;
        Some(match usize::from(id).checked_sub(CORRESPONDENCES.len()) {
            Some(number) => PackedPart::Odd(number),
            None => PackedPart::Known { id: CorrespondenceId(id), e_dropped: code != id },
        })
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        // A part is one or two bytes.
        (self.bytes.len().div_ceil(2), Some(self.bytes.len()))
    }
}

/// Decodes a two-byte code.
fn unescaped(first: u8, second: u8) -> u16 {
    let first = first - COMMON as u8;
    let dropped = if first >= 16 { E_DROPPED } else { 0 };
    u16::from(first % 16) << 8 | u16::from(second) | dropped
}

/// The words of a lexicon.
#[derive(Clone, Debug)]
pub struct Entries {
    bytes: &'static [u8],
    common: &'static [u8],
    forms: &'static [u8],
}

impl Iterator for Entries {
    type Item = Entry;

    fn next(&mut self) -> Option<Entry> {
        if self.bytes.is_empty() {
            return None;
        }
        let entry = Entry { bytes: self.bytes, common: self.common, forms: self.forms };
        self.bytes = &self.bytes[entry.length()..];
        Some(entry)
    }
}
