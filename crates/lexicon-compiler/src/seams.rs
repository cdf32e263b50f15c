//! Seams: where the pieces of a word meet. A part never crosses a seam (*pot·hole*), and an e before a seam counts as final
//! (*home·owner*, *manage·ment*).

use untaught_phonics::Formation;
use untaught_phonics::formation::affixes::{ABLE, ED, LY};
use untaught_phonics::formation::{Change, Side, Vocabulary as _};

use crate::commonness::Commonness;
use crate::formation::Formations;

/// The longest word, in letters, whose seams fit into the bit mask.
const LONGEST: usize = 60;

/// Returns a bit mask of a reading's seams: bit n is set if there is a seam before letter n.
pub(crate) fn seams(formations: &Formations, commonness: &Commonness, word: &str, reading: usize) -> u64 {
    if word.len() > LONGEST {
        return 0;
    }
    if let Some(at) = word.find('\'') {
        // *haven't*: the base ends before the n.
        let base = if word.ends_with("n't") { 1 << (at - 1) } else { 0 };
        return 1 << at | base;
    }
    let Some(made) = formations.get(word).and_then(|made| *made.get(reading)?) else { return 0 };
    let of = |base: &str, reading: u8| seams(formations, commonness, base, usize::from(reading));
    match made {
        Formation::Compound { seam, readings: [first, second] } => {
            let (head, tail) = word.split_at(usize::from(seam));
            of(head, first) | 1 << seam | of(tail, second) << seam
        }
        Formation::Affixed { affix, change, base } => {
            let Some(base_word) = change.base_of(word, affix) else { return 0 };
            let inner = of(&base_word, base);
            let table = affix.get();
            if table.side() == Side::Before {
                let length = table.letters().len();
                return 1 << length | inner << length;
            }
            let vowel_first = table.letters().starts_with(['a', 'e', 'i', 'o', 'u', 'y']);
            let stays = match affix {
                // *traveled*, *echoed*: the base does not end in e.
                ED => !commonness.is_ordinary(&format!("{base_word}e")),
                // *really*: the two letters l are one part.
                LY if base_word.ends_with('l') => false,
                // *notice·able*.
                ABLE => base_word.ends_with('e'),
                _ => !vowel_first && table.letters().len() > 1,
            };
            // Only the letters that the suffix left unchanged.
            let kept = inner & ((1 << base_word.len()) - 1);
            kept | if change == Change::None && stays { 1 << base_word.len() } else { 0 }
        }
    }
}
