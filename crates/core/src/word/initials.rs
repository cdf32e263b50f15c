//! Initials: *ABC*, *OK*, *TV*, which are read by the names of their letters.

use untaught_phonics::Reading;

/// The names of the letters, as the dictionary writes them; none for w, whose name is longer than any word of initials.
const NAMES: [&str; 26] = [
    "EY", "B IY", "S IY", "D IY", "IY", "EH F", "JH IY", "EY CH", "AY", "JH EY", "K EY", "EH L", "EH M", "EH N", "OW",
    "P IY", "K Y UW", "AA R", "EH S", "T IY", "Y UW", "V IY", "", "EH K S", "W AY", "Z IY",
];

/// Whether a word in this reading is read by the names of its letters.
pub(super) fn are(word: &str, reading: &Reading) -> bool {
    if word.len() < 2 || !word.bytes().all(|b| b.is_ascii_lowercase()) {
        return false;
    }
    let names = word.bytes().flat_map(|b| NAMES[usize::from(b - b'a')].split(' '));
    let said = reading.parts.iter().flat_map(|part| part.arpabet().split(' ')).filter(|phone| !phone.is_empty());
    names.eq(said)
}
