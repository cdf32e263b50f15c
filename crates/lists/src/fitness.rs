//! What is fit for children aged four to eight: the one gate that every word of every list goes through.
//!
//! A word is turned down if a reviewed list has it, or if it sounds just like one of the worst. A word that is offered for its meaning
//! is turned down too if another meaning of it is unfit. The reviewed lists and how they were made are in `data/fitness`.

use crate::sounds::SpokenSound;
use crate::word_list::{ODD, UNFIT, UNFIT_BY_MEANING, UNFIT_SOUNDS, WordList, may_be_listed};

/// What a word is wanted for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Purpose {
    /// To be read, heard or spelled: a word of a list, a chain, a sentence.
    Listed,
    /// To be a person's name in a sentence: an odd word may be one.
    Name,
    /// To take the place of another word in a story.
    OfferedForMeaning,
}

/// Whether a word in lower case may be shown to children, by its letters.
#[must_use]
pub fn is_fit(word: &str, purpose: Purpose) -> bool {
    let lists: &[&WordList] = match purpose {
        Purpose::Name => &[&UNFIT],
        Purpose::Listed => &[&UNFIT, &ODD],
        Purpose::OfferedForMeaning => &[&UNFIT, &ODD, &UNFIT_BY_MEANING],
    };
    !lists.iter().any(|list| list.has(word))
}

/// Whether a word in lower case may be shown to children, by its letters and by its sounds.
#[must_use]
pub fn is_fit_as_heard(word: &str, sounds: &[SpokenSound], purpose: Purpose) -> bool {
    is_fit(word, purpose) && !is_refused_sound(sounds)
}

/// Letters from which on a part of a made-up word may be taken for a word.
const SEEN: usize = 3;

/// Whether an unfit word is to be seen in a made-up one, or differs from it in its first letter alone.
pub(crate) fn has_unfit_part(word: &str) -> bool {
    let pieces = (0..word.len()).flat_map(|from| (from + SEEN..=word.len()).map(move |to| (from, to)));
    let mut pieces = pieces.filter_map(|(from, to)| word.get(from..to));
    pieces.any(|piece| UNFIT.has(piece))
}

/// Whether some sounds are just those of one of the worst words. The list has American sounds, those of *cot* and *caught*
/// alike, and British ones may stand for several of them.
fn is_refused_sound(sounds: &[SpokenSound]) -> bool {
    [|name| name, short_o, with_r].into_iter().any(|american: fn(&'static str) -> &'static str| {
        let spaced =
            |(at, heard): (usize, &SpokenSound)| [if at == 0 { "" } else { " " }, american(heard.sound.get().arpabet)];
        let names = || sounds.iter().enumerate().flat_map(spaced);
        // Most words have no line: their sounds need not be put together.
        may_be_listed(names().flat_map(str::bytes)) && UNFIT_SOUNDS.has(&names().collect::<String>())
    })
}

fn short_o(name: &'static str) -> &'static str {
    if matches!(name, "OH" | "AO") { "AA" } else { name }
}

fn with_r(name: &'static str) -> &'static str {
    match name {
        "OH" => "AA",
        "AA" => "AA R",
        "AO" => "AO R",
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::Purpose::{Listed, Name, OfferedForMeaning};
    use super::*;
    use untaught_phonics::SoundId;

    #[test]
    fn the_reviewed_lists_hold() {
        let fit = |word: &str| [Name, Listed, OfferedForMeaning].map(|purpose| is_fit(word, purpose));
        assert!(UNFIT.lines().all(|word| fit(word) == [false, false, false]));
        assert!(ODD.lines().all(|word| fit(word) == [true, false, false]));
        assert!(UNFIT_BY_MEANING.lines().all(|word| fit(word) == [true, true, false]));
        assert!(["cat", "class", "peacock"].into_iter().all(|word| is_fit(word, OfferedForMeaning)));
    }

    #[test]
    fn sounds_are_refused_however_they_are_spelled() {
        let heard = |names: &str| -> Vec<SpokenSound> {
            let sounds = names.split(' ').map(|name| SoundId::named(name).unwrap());
            sounds.enumerate().map(|(part, sound)| SpokenSound { sound, part }).collect()
        };
        for line in UNFIT_SOUNDS.lines() {
            assert!(!is_fit_as_heard("zib", &heard(line), Listed), "{line}");
        }
        assert!(is_fit_as_heard("zib", &heard("K AE T"), Listed));
    }
}
