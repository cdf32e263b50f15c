//! The weak r-vowels of General American kept apart from the full ones: *sister* from *her*, *doctor* from *word*. The accent has one sound
//! for both; some scopes teach them as two. British accents always keep them apart.

use super::british::is_full_r;
use crate::{CorrespondenceId, Part, Reading, SoundId};

const ER: SoundId = SoundId::known("ER");
const AXR: SoundId = SoundId::known("AX R");

/// Gives the r-vowels without stress their own correspondence, `er as in sister`, where the catalogue has one.
/// `second_stress`: the [stress of the second word](super::second_stress) of a compound.
pub fn apply(reading: &mut Reading, second_stress: Option<usize>) {
    for at in 0..reading.parts.len() {
        let Some(id) = reading.parts[at].id().filter(|id| id.get().sound == ER) else { continue };
        let Some(weak) = CorrespondenceId::find(id.get().spelling, AXR) else { continue };
        if !is_full_r(&reading.parts, reading.stressed, second_stress, at)
            && let Part::Known { id, .. } = &mut reading.parts[at]
        {
            *id = weak;
        }
    }
}
