//! The reviewed readings of British accents: applies the list `data/british.tsv` to the cuts of its words and of all words
//! made of them, and packs those that the rules alone would not give. The layout is described in `untaught_lexicon::accents`.

use std::collections::{BTreeMap, HashMap};

use untaught_lexicon::accents::bit;
use untaught_lexicon::format::E_DROPPED;
use untaught_phonics::accent::{british, second_stress};
use untaught_phonics::formation::Side;
use untaught_phonics::{Accent, CORRESPONDENCES, CorrespondenceId, Formation, Part, Reading, SoundId};

use crate::cut_lexicon::{CutLexicon, CutReading};

/// The accents that a line may name, with the accents that have its change.
const GROUPS: [(&str, &[Accent]); 3] = [
    ("british", &[Accent::SouthernBritish, Accent::NorthernEnglish]),
    ("southern", &[Accent::SouthernBritish]),
    ("northern", &[Accent::NorthernEnglish]),
];

/// One part as the list writes it: spelling and sound.
type Token = (String, SoundId);

/// A change of a reading as the list writes it.
#[derive(Debug)]
enum Written {
    /// Some parts become others.
    Replace(Vec<Token>, Vec<Token>),
    /// The whole word is cut so.
    Whole(Vec<Token>),
}

/// A line of the list.
#[derive(Debug)]
struct Entry {
    accents: &'static [Accent],
    /// By number of the reading; a single one is for all readings that it fits.
    readings: Vec<Vec<Written>>,
}

/// What changes in a reading: parts from a number onwards, and what they become.
#[derive(Clone, PartialEq, Eq, Debug)]
struct Edit {
    at: usize,
    old: Vec<u16>,
    new: Vec<u16>,
}

/// A reading of an accent, ready to be packed.
struct Change {
    /// The accents that have it, as bits.
    accents: u8,
    /// The number of the reading.
    number: usize,
    stressed: Option<usize>,
    /// The codes of its parts.
    codes: Vec<u16>,
}

/// Readings that one American reading may have in Britain: *ate*.
const ALTERNATIVES: usize = 2;

/// Applies the list and packs the readings.
///
/// # Errors
/// A sentence with the line of the first mistake.
pub(crate) fn pack(lexicon: &CutLexicon, list: &str) -> Result<Vec<u8>, String> {
    let entries = read(list)?;
    let words: HashMap<&str, usize> = lexicon.entries.iter().enumerate().map(|(n, e)| (e.word.as_str(), n)).collect();
    let mut edits = Edits { lexicon, words, entries, known: HashMap::new() };
    edits.check()?;
    let mut packed: BTreeMap<&str, Vec<Change>> = BTreeMap::new();
    for entry in &lexicon.entries {
        for accent in [Accent::SouthernBritish, Accent::NorthernEnglish] {
            for number in 0..entry.readings.len() {
                let mut first = None;
                for alternative in 0..ALTERNATIVES {
                    let found = edits.of(&entry.word, number, accent, alternative);
                    if found.is_empty() {
                        continue;
                    }
                    let Some(reading) = accented(lexicon, &entry.word, &entry.readings[number], &found, accent) else {
                        continue;
                    };
                    let plain = || accented(lexicon, &entry.word, &entry.readings[number], &[], accent);
                    // Another reading beside the first, or one that the rules do not give.
                    let known = if alternative == 0 { plain() } else { first.clone() };
                    if known.as_ref() == Some(&reading) {
                        continue;
                    }
                    let codes = codes(&reading.parts).ok_or_else(|| format!("{}: odd letters", entry.word))?;
                    let stressed = reading.stressed;
                    first.get_or_insert(reading);
                    let change = Change { accents: bit(accent), number, stressed, codes };
                    packed.entry(&entry.word).or_default().push(change);
                }
            }
        }
    }
    Ok(layout(&packed))
}

fn layout(packed: &BTreeMap<&str, Vec<Change>>) -> Vec<u8> {
    let number = |n: usize| u32::try_from(n).expect("far smaller than 4 GiB").to_le_bytes();
    let byte = |n: usize| u8::try_from(n).expect("words have fewer than 255 parts and readings");
    let mut offsets = Vec::new();
    let mut body = Vec::new();
    for (word, changes) in packed {
        offsets.push(4 + 4 * packed.len() + body.len());
        body.push(byte(word.len()));
        body.extend(word.as_bytes());
        body.push(byte(changes.len()));
        for Change { accents, number, stressed, codes } in changes {
            body.extend([*accents, byte(*number), stressed.map_or(u8::MAX, byte), byte(codes.len())]);
            codes.iter().for_each(|code| body.extend(code.to_le_bytes()));
        }
    }
    let mut out = number(packed.len()).to_vec();
    offsets.into_iter().for_each(|offset| out.extend(number(offset)));
    out.extend(body);
    out
}

fn codes(parts: &[Part]) -> Option<Vec<u16>> {
    let code = |part: &Part| match part {
        Part::Known { id, e_dropped } => Some(id.0 | if *e_dropped { E_DROPPED } else { 0 }),
        Part::Odd { .. } => None,
    };
    parts.iter().map(code).collect()
}

fn part(code: u16) -> Part {
    let id = code & !E_DROPPED;
    if usize::from(id) < CORRESPONDENCES.len() {
        Part::Known { id: CorrespondenceId(id), e_dropped: id != code }
    } else {
        Part::Odd { letters: "".into(), phones: "".into() }
    }
}

/// A reading in an accent: the edits of the list, then the rules for all other parts.
fn accented(lexicon: &CutLexicon, word: &str, cut: &CutReading, edits: &[Edit], accent: Accent) -> Option<Reading> {
    let mut parts = cut.parts.clone();
    let mut fixed = vec![false; parts.len()];
    let mut stressed = cut.stressed.map(usize::from);
    // From the last to the first, so that numbers stay right.
    for Edit { at, old, new } in edits.iter().rev() {
        parts.splice(*at..at + old.len(), new.iter().copied());
        fixed.splice(*at..at + old.len(), new.iter().map(|_| true));
        stressed = stressed.map(|s| if s >= at + old.len() { s + new.len() - old.len() } else { s });
    }
    let mut reading =
        Reading { parts: parts.into_iter().map(part).collect(), stressed, made: cut.made, accent: Accent::default() };
    let second = second_stress(word, cut.made, |word, number| lexicon.outline(word, number));
    british::apply(accent, word, &mut reading, second, &fixed);
    reading.parts.iter().all(|part| part.id().is_some()).then_some(reading)
}

struct Edits<'l> {
    lexicon: &'l CutLexicon,
    words: HashMap<&'l str, usize>,
    entries: BTreeMap<String, (usize, Entry)>,
    known: HashMap<(usize, usize, Accent, usize), Vec<Edit>>,
}

impl Edits<'_> {
    /// Whether each line fits its word and does what no rule does.
    fn check(&mut self) -> Result<(), String> {
        let mut faults = Vec::new();
        for (word, (line, entry)) in &self.entries {
            let Some(cut) = self.words.get(word.as_str()).map(|n| &self.lexicon.entries[*n]) else {
                faults.push(format!("{line}: the dictionary has no word {word}"));
                continue;
            };
            let fits = |(number, reading): (usize, &CutReading)| {
                own(entry, number, reading).is_some_and(|edits| {
                    entry.accents.iter().any(|accent| {
                        accented(self.lexicon, word, reading, &edits, *accent)
                            != accented(self.lexicon, word, reading, &[], *accent)
                    })
                })
            };
            if !cut.readings.iter().enumerate().any(fits) {
                faults.push(format!("{line}: {word} has no such part, or the rules give the same"));
            }
        }
        if faults.is_empty() { Ok(()) } else { Err(faults.join("\n")) }
    }

    /// The edits of a reading: those of its line, or those of what it is made of. The second alternative of a line is for the one reading of
    /// a word that has two in Britain.
    fn of(&mut self, word: &str, number: usize, accent: Accent, alternative: usize) -> Vec<Edit> {
        let Some(at) = self.words.get(word).copied() else { return Vec::new() };
        if let Some(known) = self.known.get(&(at, number, accent, alternative)) {
            return known.clone();
        }
        // A word that is made of itself has no edits.
        self.known.insert((at, number, accent, alternative), Vec::new());
        let found = self.find(at, number, accent, alternative);
        self.known.insert((at, number, accent, alternative), found.clone());
        found
    }

    fn find(&mut self, at: usize, number: usize, accent: Accent, alternative: usize) -> Vec<Edit> {
        let entry = &self.lexicon.entries[at];
        let Some(reading) = entry.readings.get(number) else { return Vec::new() };
        if let Some((_, line)) = self.entries.get(&entry.word) {
            let which = if alternative == 0 { number } else { entry.readings.len() - 1 + alternative };
            let own = if alternative > 0 && line.readings.len() <= which { None } else { own(line, which, reading) };
            let own = own.filter(|_| line.accents.contains(&accent));
            return own.unwrap_or_default();
        }
        let total = reading.parts.len();
        let bases: Vec<(String, usize, bool)> = match reading.made {
            Some(Formation::Affixed { affix, change, base }) => {
                let after = affix.get().side() == Side::After;
                change.base_of(&entry.word, affix).map(|word| (word, usize::from(base), after)).into_iter().collect()
            }
            Some(Formation::Compound { seam, readings: [first, second] }) => {
                let (head, tail) = entry.word.split_at(usize::from(seam));
                vec![(head.to_owned(), usize::from(first), true), (tail.to_owned(), usize::from(second), false)]
            }
            None => Vec::new(),
        };
        let mut found = Vec::new();
        for (base, base_number, from_start) in bases {
            let Some(length) = self.length(&base, base_number) else { continue };
            let offset = if from_start { Some(0) } else { total.checked_sub(length) };
            let edits = self.of(&base, base_number, accent, alternative);
            let moved = edits.iter().filter_map(|edit| moved(edit, offset?, &reading.parts));
            found.extend(moved);
        }
        found
    }

    fn length(&self, word: &str, number: usize) -> Option<usize> {
        Some(self.lexicon.entries[*self.words.get(word)?].readings.get(number)?.parts.len())
    }
}

/// An edit of a base, in a word made of it, if the word has the same parts there.
fn moved(edit: &Edit, offset: usize, parts: &[u16]) -> Option<Edit> {
    let at = edit.at + offset;
    let there = parts.get(at..at + edit.old.len())?;
    let plain = |code: &u16| code & !E_DROPPED;
    if !there.iter().zip(&edit.old).all(|(a, b)| plain(a) == plain(b)) {
        return None;
    }
    let mut new = edit.new.clone();
    if new.len() == there.len() {
        new.iter_mut().zip(there).for_each(|(new, there)| *new |= there & E_DROPPED);
    }
    Some(Edit { at, old: there.to_vec(), new })
}

/// The edits that a line gives a reading of its word; none if it does not fit.
fn own(entry: &Entry, number: usize, reading: &CutReading) -> Option<Vec<Edit>> {
    let changes = if entry.readings.len() == 1 { &entry.readings[0] } else { entry.readings.get(number)? };
    let mut edits: Vec<Edit> = Vec::new();
    for change in changes {
        let (at, old, new) = match change {
            Written::Whole(new) => (0, reading.parts.clone(), new),
            Written::Replace(old, new) => {
                let fits = |at: &usize| {
                    let free = edits.iter().all(|edit| *at >= edit.at + edit.old.len() || at + old.len() <= edit.at);
                    let there = &reading.parts[*at..at + old.len()];
                    free && there.iter().zip(old).all(|(code, token)| is_token(*code, token))
                };
                let last = reading.parts.len().checked_sub(old.len())?;
                let at = (0..=last).find(fits)?;
                (at, reading.parts[at..at + old.len()].to_vec(), new)
            }
        };
        let mut new: Vec<u16> = new
            .iter()
            .map(|(spelling, sound)| Some(CorrespondenceId::find(spelling, *sound)?.0))
            .collect::<Option<_>>()?;
        if new.len() == old.len() {
            new.iter_mut().zip(&old).for_each(|(new, old)| *new |= old & E_DROPPED);
        }
        edits.push(Edit { at, old, new });
    }
    edits.sort_by_key(|edit| edit.at);
    Some(edits)
}

fn is_token(code: u16, (spelling, sound): &Token) -> bool {
    let id = code & !E_DROPPED;
    let weak = |sound: SoundId| matches!(sound.get().name, "AX");
    usize::from(id) < CORRESPONDENCES.len() && {
        let known = CorrespondenceId(id).get();
        known.spelling == spelling && (known.sound == *sound || weak(known.sound) && weak(*sound))
    }
}

/// Reads the list: word, accents, change, reason.
fn read(list: &str) -> Result<BTreeMap<String, (usize, Entry)>, String> {
    let mut entries = BTreeMap::new();
    let lines = list.lines().enumerate().filter(|(_, line)| !line.starts_with('#') && !line.is_empty());
    for (number, line) in lines {
        let number = number + 1;
        let [word, accents, change, reason] = line.split('\t').collect::<Vec<_>>()[..] else {
            return Err(format!("{number}: word, accents, change and reason expected"));
        };
        if reason.trim().is_empty() {
            return Err(format!("{number}: {word} has no reason"));
        }
        let group = GROUPS.iter().find(|(name, _)| *name == accents);
        let (_, accents) = group.ok_or_else(|| format!("{number}: {accents} is not british, southern or northern"))?;
        let readings: Result<Vec<Vec<Written>>, String> = change
            .split(" | ")
            .map(|reading| reading.split("; ").map(|change| parse(change.trim())).collect())
            .collect();
        let readings = readings.map_err(|error| format!("{number}: {word}: {error}"))?;
        if entries.insert(word.to_owned(), (number, Entry { accents, readings })).is_some() {
            return Err(format!("{number}: {word} is listed twice"));
        }
    }
    Ok(entries)
}

fn parse(change: &str) -> Result<Written, String> {
    if let Some(whole) = change.strip_prefix("= ") {
        return tokens(whole).map(Written::Whole);
    }
    let (old, new) = change.split_once(" > ").ok_or_else(|| format!("`{change}` is not a change"))?;
    let (old, new) = (tokens(old)?, tokens(new)?);
    Ok(Written::Replace(old, new))
}

/// `or=AO R r=R`: a sound may have several symbols.
fn tokens(text: &str) -> Result<Vec<Token>, String> {
    let mut found: Vec<(String, String)> = Vec::new();
    for word in text.split_whitespace() {
        match (word.split_once('='), found.last_mut()) {
            (Some((spelling, sound)), _) => found.push((spelling.to_owned(), sound.to_owned())),
            (None, Some((_, sound))) => *sound = format!("{sound} {word}"),
            (None, None) => return Err(format!("`{text}` does not begin with a part")),
        }
    }
    let token = |(spelling, sound): (String, String)| {
        let id = SoundId::named(&sound).ok_or_else(|| format!("there is no sound {sound}"))?;
        CorrespondenceId::find(&spelling, id)
            .map(|_| (spelling.clone(), id))
            .ok_or_else(|| format!("the catalogue has no {spelling} as {sound}"))
    };
    found.into_iter().map(token).collect()
}
