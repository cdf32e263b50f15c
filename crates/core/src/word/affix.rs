//! Words made of a base and an ending or a beginning, recognised by form and sound: *jumped*, *hopping*, *happier*, *unlock*.

use std::cell::RefCell;

use untaught_phonics::CorrespondenceId;

use super::derive::part;
use super::ending::{Base, Change, Ending, strip};
use super::join::{join, plain};
use super::part::alike;
use super::{Origin, Part, Reader, Reading, Word};

// Words that look and sound like a base with an affix but are not made of them: *corner* is not *corn* with *-er*. Sorted.
include!(concat!(env!("OUT_DIR"), "/lookalikes.rs"));

/// An affix: its letters without the hyphen, and on which side of the base it stands.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Affix<'a> {
    pub(crate) letters: &'a str,
    pub(crate) before: bool,
}

impl Reader {
    /// The base of a word read so, if the word is made of an ordinary word and this affix.
    pub(crate) fn base_of(&self, word: &str, reading: &Reading, affix: Affix<'_>) -> Option<String> {
        self.looks_made(word, reading, affix).filter(|_| !is_lookalike(word))
    }

    fn looks_made(&self, word: &str, reading: &Reading, affix: Affix<'_>) -> Option<String> {
        if affix.before {
            let base = word.strip_prefix(affix.letters).filter(|base| base.len() > 2 && self.is_ordinary(base))?;
            let ends = |base: &Reading| {
                let head = reading.parts.len().checked_sub(base.parts.len()).filter(|head| *head > 0);
                head.is_some_and(|head| alike(&reading.parts[head..], &base.parts))
            };
            // *reported* is of *report*, which only looks made of *port*.
            let found = self.known(base).iter().any(ends) && !strip(word).any(|(stem, ..)| is_lookalike(&stem));
            return found.then(|| base.to_owned());
        }
        // Of *babies* and *goes* only the s is heard.
        let silent_e = |base: &str, change: Change| change == Change::YToI || base.ends_with('o');
        let inflected = strip(word).filter(|(base, ending, change)| {
            let letters = match ending {
                Ending::Es if affix.letters == "s" && silent_e(base, *change) => "s",
                ending => ending.spelling(),
            };
            letters == affix.letters
        });
        // Names take an s but make no other words; what the dictionary lacks may be made of what it lacks.
        let unknown = !self.has(word);
        // *Scrabbling* is of *scrabble*, though *scrabbl* could be read too.
        let mut doubtful = None;
        for (base, ending, change) in inflected {
            let entry = self.lexicon.get(&base);
            let s = matches!(ending, Ending::S | Ending::Possessive);
            let verb = unknown && matches!(ending, Ending::S | Ending::Ed | Ending::Ing);
            let ordinary = entry.is_some_and(|entry| entry.commonness().is_some());
            // *Branches* is not of *Branche*, a name.
            let named = s && !self.is_ordinary(word);
            if !ordinary && !((named || verb) && base.len() > 2) {
                continue;
            }
            let bases = match entry {
                Some(entry) => self.word_of(&entry).readings,
                None if unknown => self.read(&base).readings,
                None => continue,
            };
            let joined = |base: &Reading| is_made(base, ending, change, &reading.parts);
            if (ordinary || doubtful.is_none()) && bases.iter().any(joined) {
                if ordinary {
                    return Some(base.into_owned());
                }
                doubtful = Some(base.into_owned());
            }
        }
        if doubtful.is_some() {
            return doubtful;
        }
        if affix.letters == "ly"
            && let Some(base) = self.base_of_ly(word, reading)
        {
            return Some(base);
        }
        // *cases*: the e of *case* is heard, and the ending is -es.
        if affix.letters == "es"
            && let Some(base) = word.strip_suffix('s').filter(|base| base.ends_with('e') && self.is_ordinary(base))
            && self.known(base).iter().any(|one| {
                join(one, Ending::S, Change::None)
                    .is_some_and(|made| made.len() > one.parts.len() + 1 && made.is(&reading.parts))
            })
        {
            return Some(base.to_owned());
        }
        // Any other ending: the base unchanged.
        let base = word.strip_suffix(affix.letters).filter(|base| base.len() > 2 && self.is_ordinary(base))?;
        let begins = |base: &Reading| {
            reading.parts.len() > base.parts.len() && alike(&reading.parts[..base.parts.len()], &base.parts)
        };
        self.known(base).iter().any(begins).then(|| base.to_owned())
    }
}

impl Reader {
    /// Whether a word can be a base with an ending: it sounds so, or the dictionary does not have it. *toes* is not of *to*.
    pub(crate) fn is_form(&self, word: &str, base: &str, ending: Ending, change: Change) -> bool {
        let (own, bases) = (self.known(word), self.known(base));
        let mut made = bases.iter().filter_map(|base| join(base, ending, change));
        own.is_empty() || made.any(|made| own.iter().any(|own| made.is(&own.parts)))
    }

    /// The word of which a plural, a possessive or a verb's s is made, with the reading that is in it.
    pub(crate) fn without_s(&self, word: &str, reading: &Reading) -> Option<Word> {
        if !word.ends_with(['s', '\'']) {
            return None;
        }
        let s = |ending: Ending| matches!(ending, Ending::S | Ending::Es | Ending::Possessive);
        let bases = strip(word).filter(|(base, ending, _)| s(*ending) && base.len() > 2);
        let mut bases: Vec<(Base<'_>, Ending, Change)> = bases.collect();
        // *browses* is of *browse*, not of *brows*; *branches* of *branch*, not of *Branche*, a name.
        // *teddies* of *teddy*, not of *Teddie*.
        bases.sort_by_key(|(base, _, change)| {
            (!self.is_ordinary(base), *change != Change::YToI, std::cmp::Reverse(base.len()))
        });
        bases.into_iter().find_map(|(base, ending, change)| {
            let fits = |one: &Reading| join(one, ending, change).is_some_and(|made| made.is(&reading.parts));
            let found = self.known(&base).into_iter().find(fits)?;
            // *news* only looks like *new* with an s.
            let made = !is_lookalike(word);
            made.then(|| Word { text: base.into_owned(), origin: Origin::Dictionary, readings: vec![found] })
        })
    }

    /// Whether a word read so is an inflected one: a plural, a form of a verb, a compared adjective.
    #[must_use]
    pub fn is_inflected(&self, word: &str, reading: &Reading) -> bool {
        self.inflected_of(word, reading).is_some()
    }

    /// The word of which an inflected one is a form.
    #[must_use]
    pub fn inflected_of(&self, word: &str, reading: &Reading) -> Option<String> {
        Bases::new(self, word, reading).inflected_of()
    }

    /// Every ordinary word that is made with an affix (`-er`, `un-`), with its base, in alphabetical order. Cost: a pass over the
    /// dictionary.
    pub fn made_with(&self, affix: &str) -> impl Iterator<Item = (&'static str, String)> {
        let affix = Affix { letters: affix.trim_matches('-'), before: affix.ends_with('-') };
        self.lexicon.entries().filter(|entry| entry.commonness().is_some()).filter_map(move |entry| {
            let readings = self.known(entry.word());
            let base = readings.iter().find_map(|reading| self.base_of(entry.word(), reading, affix))?;
            Some((entry.word(), base))
        })
    }
}

/// The bases of a word read in one way, by affix: each is looked for once, however often it is asked for.
pub(crate) struct Bases<'a> {
    reader: &'a Reader,
    word: &'a str,
    pub(crate) reading: &'a Reading,
    known: RefCell<Vec<(Affix<'a>, Option<String>)>>,
}

impl<'a> Bases<'a> {
    pub(crate) fn new(reader: &'a Reader, word: &'a str, reading: &'a Reading) -> Bases<'a> {
        Bases { reader, word, reading, known: RefCell::default() }
    }

    /// Whether the word is made with an affix.
    pub(crate) fn have(&self, affix: Affix<'a>) -> bool {
        self.look(affix, Option::is_some)
    }

    /// The word of which it is an inflected form.
    pub(crate) fn inflected_of(&self) -> Option<String> {
        if !self.word.ends_with(['s', 'd', 'g', 'r', 't']) {
            return None;
        }
        let endings = ["s", "es", "ed", "ing", "er", "est"].into_iter().filter(|letters| self.word.ends_with(letters));
        endings.into_iter().find_map(|letters| self.look(Affix { letters, before: false }, Option::clone))
    }

    fn look<T>(&self, affix: Affix<'a>, take: impl Fn(&Option<String>) -> T) -> T {
        if let Some((_, base)) = self.known.borrow().iter().find(|(known, _)| *known == affix) {
            return take(base);
        }
        let base = self.reader.base_of(self.word, self.reading, affix);
        let taken = take(&base);
        self.known.borrow_mut().push((affix, base));
        taken
    }
}

impl Reader {
    /// *really*, *simply*, *daily*: the base loses an l or an le, or its y is an i.
    fn base_of_ly(&self, word: &str, reading: &Reading) -> Option<String> {
        let stem = word.strip_suffix("ly")?;
        let with_y = stem.strip_suffix('i').map(|stem| format!("{stem}y"));
        let bases = [Some(stem.to_owned()), Some(format!("{stem}le")), with_y];
        let fits = |base: &Reading| {
            // All but what the change touched.
            let kept = base.parts.len().saturating_sub(1);
            kept > 0 && reading.parts.len() > kept && alike(&reading.parts[..kept], &base.parts[..kept])
        };
        let mut found = bases.into_iter().flatten().filter(|base| base.len() > 2 && self.is_ordinary(base));
        found.find(|base| self.known(base).iter().any(fits))
    }

    /// Whether a word only looks made of a base and an affix.
    pub(crate) fn only_looks_made(&self, word: &str) -> bool {
        is_lookalike(word)
    }
}

/// Whether a base with an ending is cut so.
fn is_made(base: &Reading, ending: Ending, change: Change, parts: &[Part]) -> bool {
    join(base, ending, change).is_some_and(|made| made.is(parts))
        || others(base, ending, change).iter().any(|made| alike(&made.parts, parts))
}

/// The ways in which a base with an ending is cut besides the usual one.
fn others(base: &Reading, ending: Ending, change: Change) -> Vec<Reading> {
    let mut made = Vec::new();
    let with = |tail: &[Part], head: usize| {
        let parts = base.parts[..head].iter().chain(tail).cloned().collect();
        Reading { parts, stressed: base.stressed }
    };
    // *solved*: the e stays with the base.
    let ends_in_e = base.parts.last().is_some_and(|last| last.spelling().ends_with('e'));
    if ending == Ending::Ed && ends_in_e {
        made.push(with(&[plain(const { CorrespondenceId::known("d", "D") })], base.parts.len()));
    }
    // *happiness*, *penniless*: the i is weak in some mouths.
    if change == Change::YToI
        && let Some(joined) = join(base, ending, change)
        && let [head @ .., _] = base.parts.as_slice()
    {
        for sound in ["IY", "AX"] {
            let i = part("i", sound);
            made.push(with(&i.into_iter().chain(joined.tail()).collect::<Vec<_>>(), head.len()));
        }
    }
    // *longer*: the g is heard once more.
    let ends_in_ng = base.parts.last().is_some_and(|last| last.spelling() == "ng");
    if matches!(ending, Ending::Er | Ending::Est) && ends_in_ng {
        let [n, g] = const { [CorrespondenceId::known("n", "NG"), CorrespondenceId::known("g", "G")] };
        let mut tail = vec![plain(n), plain(g)];
        if let Some(joined) = join(base, ending, change) {
            tail.extend(joined.tail());
            made.push(with(&tail, base.parts.len() - 1));
        }
    }
    made
}

fn is_lookalike(word: &str) -> bool {
    LOOKALIKES.binary_search(&word).is_ok()
}
