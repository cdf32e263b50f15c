//! Compounds that the dictionary lacks: *foghorn*, *goatherd*, *hothead*.

use super::{Reader, Reading};

/// The fewest letters of a word inside a compound.
const SHORTEST: usize = 3;

/// Words that end other words as endings do: *snuffled* is not *snuff* and *led*, *dockage* not *dock* and *age*.
const NO_SECONDS: [&str; 30] = [
    "able", "ably", "age", "ages", "ally", "ant", "ants", "ate", "bier", "dies", "has", "hers", "ion", "ions", "king",
    "led", "less", "ling", "nation", "pier", "pity", "ration", "rations", "ship", "ted", "tic", "tier", "ties", "tor",
    "tors",
];

impl Reader {
    /// The reading of two words of the dictionary written together. Of several ways to divide, the one with the longest shorter
    /// word counts, then the one with the longer first word.
    pub(super) fn compound(&self, word: &str) -> Option<Reading> {
        if !word.is_ascii() || word.len() < 2 * SHORTEST || word.contains('\'') {
            return None;
        }
        let seam = (SHORTEST..=word.len() - SHORTEST)
            .filter(|at| self.is_ordinary(&word[..*at]) && self.is_ordinary(&word[*at..]))
            .filter(|at| !NO_SECONDS.contains(&&word[*at..]))
            .filter(|at| !self.has_false_plural(word, *at) && !is_doubling(word, *at))
            .max_by_key(|at| (*at.min(&(word.len() - at)), *at))?;
        let (first, second) = (self.known(&word[..seam]), self.known(&word[seam..]));
        let (first, second) = (first.first()?, second.first()?);
        let parts = first.parts.iter().chain(&second.parts).cloned().collect();
        Some(Reading { parts, stressed: first.stressed })
    }

    /// Whether a word of the dictionary is two others, in letters and sounds, however it is cut.
    pub(crate) fn is_joined(&self, word: &str, first: &str, second: &str) -> bool {
        let sounds = |reading: &Reading| -> String {
            let parts: Vec<&str> = reading.parts.iter().map(super::Part::arpabet).collect();
            parts.join(" ")
        };
        let all = |word: &str| -> Vec<String> { self.known(word).iter().map(sounds).collect() };
        let whole = all(word);
        let (firsts, seconds) = (all(first), all(second));
        self.is_ordinary(first)
            && self.is_ordinary(second)
            && firsts.iter().any(|one| seconds.iter().any(|two| whole.contains(&format!("{one} {two}"))))
    }

    /// *toadstool* is *toad* and *stool*, not *toads* and *tool*.
    fn has_false_plural(&self, word: &str, seam: usize) -> bool {
        let before = seam - 1;
        word[..seam].ends_with('s')
            && before >= SHORTEST
            && self.is_ordinary(&word[..before])
            && self.is_ordinary(&word[before..])
    }
}

/// *clippity* is not *clip* and another word: after a short vowel a doubled letter is one sound, if it is one that words double.
fn is_doubling(word: &str, seam: usize) -> bool {
    let vowel = |b: u8| b"aeiouy".contains(&b);
    let b = word.as_bytes();
    b[seam] == b[seam - 1]
        && !b"hjkqvwxy".contains(&b[seam])
        && vowel(b[seam - 2])
        && (seam < 3 || !vowel(b[seam - 3]))
        && b.get(seam + 1).is_some_and(|b| vowel(*b))
}
