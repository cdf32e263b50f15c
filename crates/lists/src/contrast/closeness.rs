//! How close two sounds are to each other, by how the mouth makes them, and which ones young children mix up first.
//!
//! Features of the consonants (place, manner, voice) and the vowels (height, place, rounding, gliding) are those of the charts of the
//! International Phonetic Association, from memory. The classic confusions are common practice, no source.

use untaught_phonics::SoundId;

/// Place from the lips backwards, manner from closed to open, voice.
const CONSONANTS: [(&str, u8, u8, u8); 24] = [
    ("P", 0, 0, 0),
    ("B", 0, 0, 1),
    ("T", 3, 0, 0),
    ("D", 3, 0, 1),
    ("K", 6, 0, 0),
    ("G", 6, 0, 1),
    ("CH", 4, 1, 0),
    ("JH", 4, 1, 1),
    ("F", 1, 2, 0),
    ("V", 1, 2, 1),
    ("TH", 2, 2, 0),
    ("DH", 2, 2, 1),
    ("S", 3, 2, 0),
    ("Z", 3, 2, 1),
    ("SH", 4, 2, 0),
    ("ZH", 4, 2, 1),
    ("HH", 7, 2, 0),
    ("M", 0, 3, 1),
    ("N", 3, 3, 1),
    ("NG", 6, 3, 1),
    ("L", 3, 4, 1),
    ("R", 4, 4, 1),
    ("W", 0, 5, 1),
    ("Y", 5, 5, 1),
];

/// Height (0 close to 6 open), place (0 front to 4 back), rounding, gliding (0 none, 1 up front, 2 up back, 3 to r).
const VOWELS: [(&str, u8, u8, u8, u8); 23] = [
    ("IY", 0, 0, 0, 0),
    ("IH", 1, 1, 0, 0),
    ("EY", 2, 0, 0, 1),
    ("EH", 4, 0, 0, 0),
    ("AE", 5, 0, 0, 0),
    ("AA", 6, 4, 0, 0),
    ("OH", 6, 4, 1, 0),
    ("AO", 5, 4, 1, 0),
    ("AH", 4, 3, 0, 0),
    ("UH", 1, 3, 1, 0),
    ("UW", 0, 4, 1, 0),
    ("Y UW", 0, 3, 1, 0),
    ("OW", 2, 4, 1, 2),
    ("AY", 6, 2, 0, 1),
    ("AW", 6, 2, 0, 2),
    ("OY", 5, 4, 1, 1),
    ("ER", 3, 2, 0, 3),
    ("AA R", 6, 4, 0, 3),
    ("AO R", 4, 4, 1, 3),
    ("EH R", 4, 0, 0, 3),
    ("IH R", 1, 0, 0, 3),
    ("UH R", 1, 3, 1, 3),
    ("AY R", 6, 2, 0, 3),
];

/// Sounds that young children mix up, the commonest first.
const CLASSIC: [(&str, &[&str]); 42] = [
    ("TH", &["F", "S", "T", "DH"]),
    ("DH", &["V", "D", "Z", "TH"]),
    ("F", &["TH", "V", "S", "P"]),
    ("V", &["F", "B", "W", "DH"]),
    ("SH", &["S", "CH"]),
    ("CH", &["SH", "JH", "T"]),
    ("JH", &["CH", "D", "Y", "Z"]),
    ("S", &["SH", "TH", "Z", "T"]),
    ("Z", &["S", "V", "JH"]),
    ("R", &["W", "L"]),
    ("L", &["R", "W", "Y"]),
    ("W", &["R", "V", "L"]),
    ("Y", &["L", "W", "JH"]),
    ("NG", &["N", "M"]),
    ("N", &["M", "NG", "D"]),
    ("M", &["N", "B", "NG"]),
    ("P", &["B", "T", "K"]),
    ("B", &["P", "D", "V", "G"]),
    ("T", &["D", "P", "K", "CH"]),
    ("D", &["T", "B", "G"]),
    ("K", &["G", "T", "P"]),
    ("G", &["K", "D", "B"]),
    ("HH", &["F", "W", "Y"]),
    ("IH", &["EH", "IY"]),
    ("EH", &["IH", "AE"]),
    ("AE", &["EH", "AH", "AA"]),
    ("AH", &["AA", "AE", "UH"]),
    ("AA", &["AH", "AE", "OW"]),
    ("OH", &["AH", "AE", "OW"]),
    ("AO", &["OW", "AW", "ER"]),
    ("IY", &["IH", "EY"]),
    ("EY", &["EH", "IY", "AY"]),
    ("AY", &["EY", "IH", "AW"]),
    ("OW", &["AA", "UW", "AW"]),
    ("UW", &["UH", "OW", "AH"]),
    ("UH", &["UW", "AH"]),
    ("AW", &["OW", "AA", "AY"]),
    ("OY", &["AY", "OW"]),
    ("ER", &["AO R", "AA R", "AH"]),
    ("AA R", &["AO R", "ER", "AA"]),
    ("AO R", &["AA R", "ER", "OW"]),
    ("EH R", &["IH R", "ER", "AA R"]),
];

/// How far apart two sounds are: 0 for the same sound, 1 for a difference of one step in one feature, more for more; none if they
/// are not both consonants or both vowels.
#[must_use]
pub fn closeness(one: SoundId, other: SoundId) -> Option<u32> {
    let consonant = |sound: SoundId| CONSONANTS.iter().find(|row| row.0 == sound.get().name);
    let vowel = |sound: SoundId| VOWELS.iter().find(|row| row.0 == sound.get().name);
    let step = |a: u8, b: u8| u32::from(a.abs_diff(b));
    if let (Some(a), Some(b)) = (consonant(one), consonant(other)) {
        return Some(step(a.1, b.1) + 2 * step(a.2, b.2) + step(a.3, b.3));
    }
    let (a, b) = (vowel(one)?, vowel(other)?);
    let glide = u32::from(a.4 != b.4);
    Some(step(a.1, b.1) + step(a.2, b.2) + step(a.3, b.3) + 2 * glide)
}

/// The sounds most easily mistaken for a sound: the classic confusions first, then by features.
#[must_use]
pub fn confusions(sound: SoundId) -> Vec<SoundId> {
    let classic = CLASSIC.iter().find(|(name, _)| *name == sound.get().name).map_or(&[][..], |(_, list)| list);
    let mut found: Vec<SoundId> = classic.iter().filter_map(|name| SoundId::named(name)).collect();
    let near = distances(sound).into_iter().filter(|(distance, other)| *distance <= 4 && !found.contains(other));
    let near: Vec<SoundId> = near.map(|(_, other)| other).collect();
    found.extend(near);
    found
}

/// All sounds of the same kind, the closest first.
pub(super) fn by_closeness(sound: SoundId) -> Vec<SoundId> {
    distances(sound).into_iter().map(|(_, other)| other).collect()
}

fn distances(sound: SoundId) -> Vec<(u32, SoundId)> {
    let names = CONSONANTS.iter().map(|row| row.0).chain(VOWELS.iter().map(|row| row.0));
    let mut near: Vec<(u32, SoundId)> = names
        .filter_map(SoundId::named)
        .filter(|other| *other != sound)
        .filter_map(|other| closeness(sound, other).map(|distance| (distance, other)))
        .collect();
    near.sort_unstable();
    near
}

#[cfg(test)]
mod tests {
    use super::*;

    fn named(name: &str) -> SoundId {
        SoundId::named(name).unwrap()
    }

    #[test]
    fn every_name_is_a_sound_and_nearness_is_mutual() {
        let names = CONSONANTS.iter().map(|row| row.0).chain(VOWELS.iter().map(|row| row.0));
        for (one, other) in names.clone().flat_map(|one| names.clone().map(move |other| (one, other))) {
            assert_eq!(closeness(named(one), named(other)), closeness(named(other), named(one)), "{one} {other}");
        }
        assert!(
            CLASSIC.iter().all(|(name, list)| list.iter().chain([name]).all(|name| SoundId::named(name).is_some()))
        );
    }

    #[test]
    fn partners_in_voice_are_nearest() {
        for (one, other) in [("P", "B"), ("T", "D"), ("K", "G"), ("F", "V"), ("S", "Z"), ("SH", "ZH"), ("CH", "JH")] {
            assert_eq!(closeness(named(one), named(other)), Some(1), "{one} {other}");
        }
        assert_eq!(closeness(named("P"), named("IY")), None);
        assert_eq!(confusions(named("TH"))[0], named("F"));
        assert!(!confusions(named("P")).contains(&named("P")));
    }
}
