//! Compounds: two words written as one. Recognises them both in the dictionary and outside it.

use super::forms::is_affix;
use super::{Side, Vocabulary, doubles};

/// Minimum number of letters of a word inside a compound, except [`SHORT_FIRSTS`] and [`SHORT_SECONDS`].
const SHORTEST: usize = 3;

/// Two-letter words that begin compounds: *uphill*, *onto*, *bypass*, *nobody*.
const SHORT_FIRSTS: [&str; 4] = ["by", "no", "on", "up"];

/// Two-letter words that end compounds: *makeup*, *nearby*, *thereof*, *hairdo*.
const SHORT_SECONDS: [&str; 4] = ["by", "do", "of", "up"];

/// Words that are usually the end of another word: *snuffled* is not *snuff* and *led*. Outside the dictionary, a word that
/// ends in one of them is not taken for a compound.
const ENDS_OF_WORDS: [&str; 15] = [
    "ages", "bier", "dies", "has", "hers", "ions", "king", "led", "pier", "pity", "ration", "ted", "tier", "ties",
    "tors",
];

/// The byte offsets at which a word's letters can be split into two ordinary words.
pub fn seams<'w>(word: &'w str, words: &'w impl Vocabulary) -> impl Iterator<Item = usize> + 'w {
    let places = if word.is_ascii() && !word.contains('\'') { 2..word.len().saturating_sub(1) } else { 0..0 };
    places.filter(move |at| {
        let (first, second) = word.split_at(*at);
        (first.len() >= SHORTEST || SHORT_FIRSTS.contains(&first))
            && (second.len() >= SHORTEST || SHORT_SECONDS.contains(&second))
            && !is_affix(first, Side::Before)
            && !is_affix(second, Side::After)
            && words.is_ordinary(first)
            && words.is_ordinary(second)
    })
}

/// The most likely seam of a word that is not in the dictionary: the one whose shorter word is longest, then the one with the
/// longer first word.
pub(super) fn likeliest_seam(word: &str, words: &impl Vocabulary) -> Option<usize> {
    let plausible = |at: &usize| {
        let second = &word[*at..];
        (SHORTEST..=word.len() - SHORTEST).contains(at)
            && !ENDS_OF_WORDS.contains(&second)
            && !has_false_plural(word, *at, words)
            && !is_doubling(word, *at)
    };
    seams(word, words).filter(plausible).max_by_key(|at| (*at.min(&(word.len() - at)), *at))
}

/// *toadstool* is *toad* and *stool*, not *toads* and *tool*.
fn has_false_plural(word: &str, seam: usize, words: &impl Vocabulary) -> bool {
    let before = seam - 1;
    word[..seam].ends_with('s')
        && before >= SHORTEST
        && words.is_ordinary(&word[..before])
        && words.is_ordinary(&word[before..])
}

/// *clippity* is not *clip* and another word: after a short vowel, a letter that words commonly double is one sound.
fn is_doubling(word: &str, seam: usize) -> bool {
    let vowel = |b: u8| b"aeiouy".contains(&b);
    let b = word.as_bytes();
    b[seam] == b[seam - 1]
        && !b"hjkqvwxy".contains(&b[seam])
        && vowel(b[seam - 2])
        && (seam < 3 || !vowel(b[seam - 3]))
        && b.get(seam + 1).is_some_and(|b| vowel(*b))
}

/// Whether the two letters at a seam may merge into one sound in running speech although both are taught: *earring*, *teammate*.
/// In *hobbit* and *committee*, by contrast, the doubled letter is one sound.
#[must_use]
pub fn may_share_a_sound(word: &str, seam: usize) -> bool {
    let letters = word.as_bytes();
    let vowel = |b: &u8| b"aeiouy".contains(b);
    let first = &word[..seam];
    let runs = first.as_bytes().chunk_by(|a, b| vowel(a) == vowel(b)).filter(|run| vowel(&run[0])).count();
    letters[seam - 1] == letters[seam] && !doubles(first) && runs < 2
}
