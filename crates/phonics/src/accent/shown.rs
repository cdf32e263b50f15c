//! How British accents are shown in IPA where a sound depends on its neighbours.

use crate::SoundId;

const IY: SoundId = SoundId::known("IY");
const UW: SoundId = SoundId::known("UW");
const YUW: SoundId = SoundId::known("Y UW");
const UHR: SoundId = SoundId::known("UH R");
const YUHR: SoundId = SoundId::known("Y UH R");

/// Whether a vowel without stress is the weak one of *happy*, *anybody* and *area*: shown as a short i. `before`: whether the
/// next vowel follows at once, and whether it is stressed.
pub(crate) fn is_happy(spelling: &str, sound: SoundId, before: Option<bool>) -> bool {
    let usual = matches!(spelling, "y" | "ie" | "ey" | "i");
    sound == IY && (usual || spelling == "e" && before == Some(false))
}

/// The r-vowel that a long vowel becomes before an r of its own: *hero*, *jury*, *during*.
pub(crate) fn before_r(sound: SoundId, weak: bool) -> Option<SoundId> {
    const IHR: SoundId = SoundId::known("IH R");
    const EHR: SoundId = SoundId::known("EH R");
    const EY: SoundId = SoundId::known("EY");
    match sound {
        // *hero*, but *reroute*.
        IY => (!weak).then_some(IHR),
        EY => Some(EHR),
        UW => Some(UHR),
        YUW => Some(YUHR),
        _ => None,
    }
}
