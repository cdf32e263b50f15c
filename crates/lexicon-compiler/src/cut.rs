//! Cuts every reading of every word, with a fallback for those that the catalogue cannot cover.

use std::collections::HashMap;

use untaught_phonics::lattice::WordToCut;
use untaught_phonics::learn::{ROUNDS, learn};
use untaught_phonics::{Aligner, CORRESPONDENCES, CorrespondenceId, Cut, Formation, Phone, SoundId};

use crate::commonness::Commonness;
use crate::cut_lexicon::{CutLexicon, CutReading, CutWord, Oddity};
use crate::dictionary::{Pronunciation, Words};
use crate::formation::Formations;
use crate::inherit::inherit;
use crate::seams::seams;

struct Task<'a> {
    reading: &'a Pronunciation,
    letters: Vec<u8>,
    seams: u64,
}

impl Task<'_> {
    fn word(&self) -> WordToCut<'_> {
        WordToCut { letters: &self.letters, phones: Some(&self.reading.phones), seams: self.seams }
    }
}

pub(crate) fn cut_all(words: &Words, commonness: &Commonness, formations: &Formations) -> CutLexicon {
    let tasks: Vec<(&String, Vec<Task<'_>>)> = words
        .iter()
        .map(|(word, readings)| {
            let letters: Vec<u8> = word.bytes().filter(u8::is_ascii_lowercase).collect();
            let task = |(number, reading)| Task {
                reading,
                letters: letters.clone(),
                seams: seams(formations, commonness, word, number),
            };
            (word, readings.iter().enumerate().map(task).collect())
        })
        .collect();
    let weights = learn(tasks.iter().flat_map(|(_, tasks)| tasks.iter().map(Task::word)), ROUNDS);
    let aligner = Aligner::new(weights);
    let mut oddities = Vec::new();
    let mut entries = Vec::with_capacity(tasks.len());
    // By word: the new index of each of its readings.
    let mut places: HashMap<&str, Vec<u8>> = HashMap::new();
    for (word, tasks) in &tasks {
        let mut readings: Vec<CutReading> = Vec::new();
        let mut moved: Vec<u8> = Vec::new();
        let made = formations.get(*word).map(Vec::as_slice).unwrap_or_default();
        let mut whole: Vec<Option<CutReading>> = tasks.iter().map(|task| cut_one(&aligner, task)).collect();
        if whole.iter().all(Option::is_none) {
            whole = tasks.iter().map(|task| restore(&aligner, task).map(|cut| finish(task, &cut))).collect();
        }
        let some_whole = whole.iter().any(Option::is_some);
        for ((task, cut), made) in tasks.iter().zip(whole).zip(made) {
            // If one reading can be cut and a variant cannot, the variant is a mistake in the dictionary.
            let mut cut = match cut {
                Some(cut) => cut,
                None if some_whole => {
                    moved.push(0);
                    continue;
                }
                None => patch(&aligner, task, &mut oddities),
            };
            cut.made = *made;
            let index = readings.iter().position(|reading| reading.parts == cut.parts).unwrap_or_else(|| {
                readings.push(cut);
                readings.len() - 1
            });
            moved.push(u8::try_from(index).expect("words have fewer than 256 readings"));
        }
        places.insert(word, moved);
        entries.push(CutWord { word: (*word).clone(), commonness: commonness.packed(word), readings });
    }
    follow(&mut entries, &places);
    inherit(&mut entries);
    CutLexicon { entries, oddities }
}

/// Renumbers references to base readings after some readings were removed.
fn follow(entries: &mut [CutWord], places: &HashMap<&str, Vec<u8>>) {
    let moved = |word: &str, reading: &mut u8| {
        *reading = places.get(word).and_then(|moved| moved.get(usize::from(*reading))).copied().unwrap_or(0);
    };
    for entry in entries {
        for reading in &mut entry.readings {
            match &mut reading.made {
                Some(Formation::Affixed { affix, change, base }) => {
                    if let Some(word) = change.base_of(&entry.word, *affix) {
                        moved(&word, base);
                    }
                }
                Some(Formation::Compound { seam, readings: [first, second] }) => {
                    let (head, tail) = entry.word.split_at(usize::from(*seam));
                    moved(head, first);
                    moved(tail, second);
                }
                None => {}
            }
        }
    }
}

fn cut_one(aligner: &Aligner, task: &Task<'_>) -> Option<CutReading> {
    let cut = aligner.cut(task.word()).or_else(|| aligner.cut(WordToCut { seams: 0, ..task.word() }))?;
    Some(finish(task, &cut))
}

/// Adds the stress, and applies the conventions that the search cannot express.
fn finish(task: &Task<'_>, cut: &Cut) -> CutReading {
    let mut phone = 0;
    let mut stressed = None;
    for (index, part) in (0u8..).zip(&cut.parts) {
        phone += part.phones;
        if stressed.is_none() && task.reading.stressed.is_some_and(|at| at < phone) {
            stressed = Some(index);
        }
    }
    let mut reading = CutReading { parts: cut.parts.iter().map(|part| part.id.0).collect(), stressed, made: None };
    open_stressed_syllables(&mut reading);
    keep_short_a(&mut reading);
    reading
}

/// Restores the short a of *parrot* and *charity*, which the dictionary merges with *merry*. The a is long, as in *vary*,
/// before r and a final y, before r and two vowels (*various*, *area*), and in *parent*.
fn keep_short_a(reading: &mut CutReading) {
    let find = |spelling, sound| SoundId::named(sound).and_then(|sound| CorrespondenceId::find(spelling, sound));
    let (Some(merged), Some(short)) = (find("a", "EH"), find("a", "AE")) else { return };
    let known = |part: u16| usize::from(part) < CORRESPONDENCES.len();
    for at in 0..reading.parts.len() {
        let rest = &reading.parts[at + 1..];
        if reading.parts[at] != merged.0 || !rest.iter().all(|part| known(*part)) {
            continue;
        }
        let rest: Vec<&str> = rest.iter().map(|part| CorrespondenceId(*part).get().spelling).collect();
        let long = match rest[..] {
            ["rr", ..] => false,
            ["r", "y" | "ie", ..] | ["r", "e", "n", "t", ..] => true,
            ["r", "i" | "e", after, ..] => after.starts_with(['a', 'e', 'i', 'o', 'u']) || after == "l",
            ["r", ..] => false,
            _ => true,
        };
        if !long {
            reading.parts[at] = short.0;
        }
    }
}

/// Splits an ER before a stressed vowel (*around*, *parade*, *correct*, *giraffe*): there the r begins the stressed syllable, and
/// the letter before it spells a schwa: a·r·ou·n·d.
fn open_stressed_syllables(reading: &mut CutReading) {
    let Some(stressed) = reading.stressed.map(usize::from) else { return };
    if stressed == 0 || usize::from(reading.parts[stressed - 1]) >= CORRESPONDENCES.len() {
        return;
    }
    let before = CorrespondenceId(reading.parts[stressed - 1]).get();
    let known = |part: &u16| usize::from(*part) < CORRESPONDENCES.len();
    let vowel = |part: &u16| !known(part) || CorrespondenceId(*part).get().sound.get().kind.is_vowel();
    let first = !reading.parts[..stressed - 1].iter().any(vowel);
    let (vowel, r) = match before.spelling {
        "ar" => ("a", "r"),
        "or" => ("o", "r"),
        "ir" => ("i", "r"),
        // *derive*, but *operation*.
        "er" if first => ("e", "r"),
        "ur" if first => ("u", "r"),
        "arr" => ("a", "rr"),
        "orr" => ("o", "rr"),
        "irr" => ("i", "rr"),
        "urr" => ("u", "rr"),
        "err" => ("e", "rr"),
        "oor" => ("oo", "r"),
        _ => return,
    };
    let find = |spelling, sound| SoundId::named(sound).and_then(|sound| CorrespondenceId::find(spelling, sound));
    if reading.stressed_is_consonant(stressed) {
        return;
    }
    // *hooray*: the r after a long vowel also begins the stressed syllable.
    if (before.spelling, before.sound.get().name) == ("oor", "UH R")
        && let (Some(vowel), Some(r)) = (find("oo", "UW"), find("r", "R"))
    {
        reading.parts.splice(stressed - 1..stressed, [vowel.0, r.0]);
        reading.stressed = u8::try_from(stressed + 1).ok();
        return;
    }
    if before.sound.get().name != "ER" {
        return;
    }
    if let (Some(vowel), Some(r)) = (find(vowel, "AX"), find(r, "R")) {
        reading.parts.splice(stressed - 1..stressed, [vowel.0, r.0]);
        reading.stressed = u8::try_from(stressed + 1).ok();
    }
}

/// Finds a cut by restoring one sound that is lost in running speech: the second vowel of *chocolate*, the a of *basically*, the
/// second l of *solely*. Returns the cheapest cut.
fn restore(aligner: &Aligner, task: &Task<'_>) -> Option<Cut> {
    let phones = &task.reading.phones;
    let weak = Phone::parse("AH0")?;
    let mut tries: Vec<(usize, Phone)> = (1..phones.len()).map(|at| (at, weak)).collect();
    tries.extend((0..phones.len()).filter(|at| !phones[*at].is_vowel()).map(|at| (at, phones[at])));
    let cuts = tries.into_iter().filter_map(|(at, phone)| {
        let mut restored = phones.clone();
        restored.insert(at, phone);
        aligner.cut(WordToCut { phones: Some(&restored), ..task.word() })
    });
    cuts.min_by_key(|cut| cut.cost)
}

/// Finds the cut with the fewest letters that do not match any correspondence.
fn patch(aligner: &Aligner, task: &Task<'_>, oddities: &mut Vec<Oddity>) -> CutReading {
    let (letters, phones) = (task.letters.as_slice(), task.reading.phones.as_slice());
    let piece = |from: usize, to: usize, p: usize, q: usize| {
        let word = WordToCut { letters: &letters[from..to], phones: Some(&phones[p..q]), seams: 0 };
        if from == to && p == q { Some(Vec::new()) } else { aligner.cut(word).map(|cut| cut.parts) }
    };
    for odd in 1..=letters.len().min(4) {
        for from in 0..=letters.len() - odd {
            for p in 0..phones.len() {
                let Some(head) = piece(0, from, 0, p) else { continue };
                for q in p + 1..=phones.len().min(p + 4) {
                    let Some(tail) = piece(from + odd, letters.len(), q, phones.len()) else { continue };
                    let id = intern(oddities, &letters[from..from + odd], &phones[p..q]);
                    let parts = head.iter().map(|part| part.id.0).chain([id]).chain(tail.iter().map(|part| part.id.0));
                    return CutReading { parts: parts.collect(), stressed: None, made: None };
                }
            }
        }
    }
    CutReading { parts: vec![intern(oddities, letters, phones)], stressed: None, made: None }
}

fn intern(oddities: &mut Vec<Oddity>, letters: &[u8], phones: &[Phone]) -> u16 {
    let oddity = Oddity { letters: letters.to_vec(), phones: phones.to_vec() };
    let index = oddities.iter().position(|known| *known == oddity).unwrap_or_else(|| {
        oddities.push(oddity);
        oddities.len() - 1
    });
    u16::try_from(CORRESPONDENCES.len() + index).expect("far fewer than 65,000 oddities")
}
