//! Nonsense words: spelled and sounded like English, readable with what has been taught, and no words. They show whether a child reads the
//! letters or knows the word by sight.
//!
//! Each is the beginning of one word of the lesson and the end of another, such as several words have; a reader who knows only the letters
//! must read it in the one way that is meant.

use std::collections::{BTreeMap, HashSet};

use fastrand::Rng;
use untaught::{Focus, Part, WordOrigin};

use crate::fitness::{Purpose, has_unfit_part, is_fit, is_fit_as_heard};
use crate::oral::OralWord;
use crate::random::choice;
use crate::sounds::heard;
use crate::{Bank, BankWord, CannotMake};

/// Pairs that are tried for each word that is asked for.
const TRIES: usize = 120;

/// Words that must have a beginning or an end for it to be English.
const SHARED: usize = 2;

/// The beginning or the end of a word, up to or from its vowel.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug)]
struct Piece {
    letters: String,
    /// The numbers of its correspondences.
    parts: Vec<usize>,
}

/// Makes nonsense words of one syllable, those that practise the lesson first.
///
/// # Errors
/// A sentence, if the lesson has too few words to make any of.
pub fn nonsense(bank: &Bank<'_>, focus: &Focus, count: usize, seed: u64) -> Result<Vec<OralWord>, CannotMake> {
    let (onsets, rimes) = pieces(bank, focus);
    let practises = |piece: &(Piece, bool)| piece.1;
    let (focused, plain): (Vec<_>, Vec<_>) = rimes.iter().partition(|rime| practises(rime));
    let (focused_onsets, plain_onsets): (Vec<_>, Vec<_>) = onsets.iter().partition(|onset| practises(onset));
    let mut rng = Rng::with_seed(seed);
    let mut found: Vec<OralWord> = Vec::new();
    let mut used: HashSet<String> = HashSet::new();
    // First such as practise the lesson by their end, then by their beginning, then any.
    let all_onsets: Vec<&(Piece, bool)> = onsets.iter().collect();
    for (onsets, rimes) in [(&all_onsets, &focused), (&focused_onsets, &plain), (&plain_onsets, &plain)] {
        for _ in 0..count * TRIES {
            if found.len() == count {
                break;
            }
            let (Some(onset), Some(rime)) = (choice(onsets, &mut rng), choice(rimes, &mut rng)) else { break };
            if let Some(word) = joined(bank, &onset.0, &rime.0)
                && used.insert(word.word.clone())
            {
                found.push(word);
            }
        }
        if !found.is_empty() && !focus.is_empty() {
            break;
        }
    }
    if found.is_empty() {
        return Err(CannotMake("too few words can be sounded out at this lesson to make nonsense words of".to_owned()));
    }
    found.sort_by(|one, other| (one.sounds.len(), &one.word).cmp(&(other.sounds.len(), &other.word)));
    Ok(found)
}

/// Beginnings or ends of words, each with whether it practises the focus.
type Pieces = Vec<(Piece, bool)>;

/// The beginnings and ends of the bank's words.
fn pieces(bank: &Bank<'_>, focus: &Focus) -> (Pieces, Pieces) {
    let mut onsets: BTreeMap<Piece, (usize, bool)> = BTreeMap::new();
    let mut rimes: BTreeMap<Piece, (usize, bool)> = BTreeMap::new();
    for word in bank.words.iter().filter(|word| is_plain(word)) {
        let Some(vowel) = word.reading.parts.iter().position(Part::is_vowel) else { continue };
        let at: usize = word.reading.parts[..vowel].iter().map(|part| part.letters().len()).sum();
        let Some((before, after)) = word.word.split_at_checked(at) else { continue };
        let stretches = focus.stretches(bank.judge.reader(), &word.word, &word.reading);
        let in_onset = stretches.iter().any(|stretch| *stretch.end() < vowel);
        let in_rime = stretches.iter().any(|stretch| *stretch.end() >= vowel);
        let (first, last) = word.reading.parts.split_at(vowel);
        for (pieces, letters, parts, practises) in
            [(&mut onsets, before, first, in_onset), (&mut rimes, after, last, in_rime)]
        {
            let piece = Piece { letters: letters.to_owned(), parts: numbers(parts) };
            let (count, any) = pieces.entry(piece).or_default();
            *count += 1;
            *any |= practises;
        }
    }
    let shared = |pieces: BTreeMap<Piece, (usize, bool)>| {
        let shared = pieces.into_iter().filter(|(_, (count, practises))| *count >= SHARED || *practises);
        shared.map(|(piece, (_, practises))| (piece, practises)).collect()
    };
    (shared(onsets), shared(rimes))
}

/// The numbers of the correspondences of parts; that of an odd part is none's.
fn numbers(parts: &[Part]) -> Vec<usize> {
    parts.iter().map(|part| part.id().map_or(usize::MAX, |id| id.index())).collect()
}

/// A word of one syllable as it stands in the dictionary.
fn is_plain(word: &BankWord) -> bool {
    word.reading.syllables() == 1 && !word.inflected && word.sounds.len() > 1
}

/// A beginning and an end as a word, if it is none.
fn joined(bank: &Bank<'_>, onset: &Piece, rime: &Piece) -> Option<OralWord> {
    let text = format!("{}{}", onset.letters, rime.letters);
    if onset.letters.is_empty() || !(3..=7).contains(&text.len()) || has_unfit_part(&text) {
        return None;
    }
    let reader = bank.judge.reader();
    let word = reader.read(&text);
    let [reading] = word.readings.as_slice() else { return None };
    let meant = [&onset.parts[..], &rime.parts[..]].concat();
    // There is no word of that spelling, and its letters are read as they are meant.
    if word.origin != WordOrigin::Letters || numbers(&reading.parts) != meant {
        return None;
    }
    let sounds = heard(reading)?;
    let is_fit = is_fit(&text, Purpose::OfferedForMeaning) && is_fit_as_heard(&text, &sounds, Purpose::Listed);
    if !is_fit || reader.sounds_like_a_word(reading) {
        return None;
    }
    let first = bank.judge.first_decodable(&word, reading)?;
    (first <= bank.lesson)
        .then(|| OralWord { sounds: reading.parts.iter().map(|part| part.spelling().to_owned()).collect(), word: text })
}
