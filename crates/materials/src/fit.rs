//! What is fit for children aged four to eight: the gate that every generated list goes through.
//!
//! A word is turned down if a reviewed list has it, or if it sounds just like one of the worst. The lists and where they come from
//! are in `data/`.

use crate::sounds::Heard;

include!(concat!(env!("OUT_DIR"), "/fit.rs"));

/// Whether a word (lower case) may stand in a list for children, or appear in one by its letters.
#[must_use]
pub fn is_fit(word: &str) -> bool {
    UNFIT.binary_search(&word).is_err() && ODD.binary_search(&word).is_err()
}

/// Whether some sounds are not just those of one of the worst words.
#[must_use]
pub fn sounds_fit(sounds: &[Heard]) -> bool {
    let names = sounds.iter().map(|heard| heard.sound.get().arpabet).collect::<Vec<_>>().join(" ");
    UNFIT_SOUNDS.binary_search(&names.as_str()).is_err()
}
