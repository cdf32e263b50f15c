//! British readings from American cuts, by rule. Single words whose British reading differs otherwise are in a reviewed list.
//!
//! Source: common practice in British pronouncing dictionaries; no published table. `untaught`'s checks compare the results with
//! independent dictionaries and with the tables of England's national curriculum.

use super::Accent;
use crate::formation::Change;
use crate::{CorrespondenceId, Formation, Part, Reading, SoundId};

const AA: SoundId = SoundId::known("AA");
const AE: SoundId = SoundId::known("AE");
const AH: SoundId = SoundId::known("AH");
const AO: SoundId = SoundId::known("AO");
const AX: SoundId = SoundId::known("AX");
const AY: SoundId = SoundId::known("AY");
const EA: SoundId = SoundId::known("EA");
const EH: SoundId = SoundId::known("EH");
const ER: SoundId = SoundId::known("ER");
const IH: SoundId = SoundId::known("IH");
const OH: SoundId = SoundId::known("OH");
const OW: SoundId = SoundId::known("OW");
const R: SoundId = SoundId::known("R");
const UH: SoundId = SoundId::known("UH");
const UW: SoundId = SoundId::known("UW");
const YUW: SoundId = SoundId::known("Y UW");
const AOR: SoundId = SoundId::known("AO R");
const AXR: SoundId = SoundId::known("AX R");
const UHR: SoundId = SoundId::known("UH R");
const YUHR: SoundId = SoundId::known("Y UH R");
const YER: SoundId = SoundId::known("Y ER");

/// A word whose parts are being changed.
struct Rewriting<'w> {
    word: &'w str,
    parts: Vec<Part>,
    /// By part: whether the reviewed list gave it, so that no rule applies.
    fixed: Vec<bool>,
    stressed: Option<usize>,
    made: Option<Formation>,
    second_stress: Option<usize>,
}

/// Gives an American reading the sounds of a British accent. `fixed` says of each part whether it is British already; no rule
/// applies to such a part. `second_stress`: the [stress of the second word](super::second_stress) of a compound.
pub fn apply(accent: Accent, word: &str, reading: &mut Reading, second_stress: Option<usize>, fixed: &[bool]) {
    if !accent.is_british() {
        return;
    }
    let mut fixed = fixed.to_vec();
    fixed.resize(reading.parts.len(), false);
    let mut word = Rewriting {
        word,
        parts: std::mem::take(&mut reading.parts),
        fixed,
        stressed: reading.stressed,
        made: reading.made,
        second_stress,
    };
    let mut at = 0;
    while at < word.parts.len() {
        at += word.rewrite(at);
    }
    if accent == Accent::NorthernEnglish {
        for part in &mut word.parts {
            if sound(part) == Some(AH) {
                resound(part, UH);
            }
        }
    }
    reading.parts = word.parts;
    reading.stressed = word.stressed;
    reading.accent = accent;
}

fn sound(part: &Part) -> Option<SoundId> {
    part.id().map(|id| id.get().sound)
}

/// Gives a part another sound, if the catalogue has its spelling with that sound.
fn resound(part: &mut Part, sound: SoundId) {
    if let Part::Known { id, .. } = part
        && let Some(other) = CorrespondenceId::find(id.get().spelling, sound)
    {
        *id = other;
    }
}

/// Whether a vowel has the stress; of a word without a stress mark, the first one.
fn is_stressed(parts: &[Part], stressed: Option<usize>, at: usize) -> bool {
    match stressed {
        Some(stressed) => stressed == at,
        None => !parts[..at].iter().any(Part::is_vowel),
    }
}

/// Whether an r-vowel keeps its full sound: it is stressed, in a compound also as the second word, or follows a w.
pub(super) fn is_full_r(parts: &[Part], stressed: Option<usize>, second_stress: Option<usize>, at: usize) -> bool {
    let after_w = at > 0 && sound(&parts[at - 1]).is_some_and(|id| id.get().name == "W") && parts[at].letters() == "or";
    let only = || parts.iter().filter(|part| part.is_vowel()).count() == 1;
    is_stressed(parts, stressed, at) || second_stress == Some(at) || after_w || only()
}

impl Rewriting<'_> {
    /// Rewrites one part, perhaps as two; returns the number of parts that it is now.
    fn rewrite(&mut self, at: usize) -> usize {
        let Some(id) = self.parts[at].id().filter(|_| !self.fixed[at]) else { return 1 };
        let part = id.get();
        let spelling = part.spelling;
        if part.sound == ER
            && let Some(two) = self.open(at, spelling)
        {
            return two;
        }
        if part.sound == AOR
            && let Some(two) = self.short_o(at, spelling)
        {
            return two;
        }
        if let Some(two) = self.silent_l(at, spelling, part.sound) {
            return two;
        }
        let new = match (spelling, part.sound) {
            ("o" | "ho" | "o_e" | "ow" | "oh", AA | AO) | ("ou", AO) | ("e", AA) => OH,
            ("a", AA | AH) if self.follows_w(at) => OH,
            ("a", AO) if self.follows_w(at) && self.sound(at + 1).is_none_or(|next| next != "L") => OH,
            ("a", AH) => OH,
            // *library*, *cemetery*; *vary*, *variation*.
            ("a" | "e", EH) if self.is_before_r(at) && !self.is_stressed(at) && self.ends_weakly(at) => AX,
            ("a", EH) if self.is_before_r(at) => EA,
            ("o", OW) if self.letters_from(at) == "ony" && self.word.ends_with("mony") => AX,
            ("or", AOR) if !self.is_stressed(at) && self.ends_in_ory(at) => AXR,
            // *ceremony*, *fertile*, *organisation*.
            ("i_e", AX | IH) if !self.is_stressed(at) && self.spelled(at + 1) == "l" => AY,
            ("i", AX | IH) if self.is_isation(at) => AY,
            ("oor" | "our", UHR) => AOR,
            ("ure", UHR) if !self.after_alveolar(at) => AOR,
            ("ure" | "ur", UHR) if self.after_alveolar(at) => YUHR,
            // *figure*, but *failure*.
            ("ure" | "ur", YER) if self.word.contains("figur") => AXR,
            ("ar", ER) => AXR,
            ("ro", ER) => AX,
            // *accept*, *admit*: weak before the stress.
            ("a", AE) if at == 0 && self.is_weak_prefix() && self.stressed == self.next_vowel(at) => AX,
            ("er" | "or" | "our" | "re" | "ur" | "ure" | "yr" | "oar" | "eur" | "aur", ER) if !self.is_full(at) => AXR,
            ("u" | "u_e" | "ue" | "ew" | "eu" | "ui", UW) if self.after_alveolar(at) => YUW,
            _ => return 1,
        };
        resound(&mut self.parts[at], new);
        1
    }

    /// *hurry*, *worry*, *courage*, *squirrel*: a short vowel and an r, where the dictionary has one sound.
    fn open(&mut self, at: usize, spelling: &str) -> Option<usize> {
        let (vowel, short, r) = match spelling {
            "urr" => ("u", AH, "rr"),
            "orr" => ("o", AH, "rr"),
            "irr" => ("i", IH, "rr"),
            "err" => ("e", EH, "rr"),
            "our" if self.is_vowel(at + 1) => ("ou", AH, "r"),
            _ => return None,
        };
        // *furry* is still *fur*.
        let doubled = matches!(self.made, Some(Formation::Affixed { change: Change::Double, .. }));
        if doubled || !self.is_vowel(at + 1) {
            return None;
        }
        self.split(at, (vowel, short), r)
    }

    /// *horrible*, *warrant*, *priority*: /ɒ/ and an r, where the dictionary has one sound.
    fn short_o(&mut self, at: usize, spelling: &str) -> Option<usize> {
        let doubled = matches!(self.made, Some(Formation::Affixed { change: Change::Double, .. }));
        let from = self.letters_from(at);
        let short = ["ority", "orities", "oric", "orrow"].iter().any(|end| from.starts_with(end));
        match spelling {
            "orr" if !doubled && self.is_vowel(at + 1) => self.split(at, ("o", OH), "rr"),
            "arr" if !doubled && self.is_vowel(at + 1) => self.split(at, ("a", OH), "rr"),
            "or" if short && self.is_vowel(at + 1) => self.split(at, ("o", OH), "r"),
            _ => None,
        }
    }

    /// *walk*, *could*: the silent l belongs to the vowel, as teachers in Britain spell it out.
    fn silent_l(&mut self, at: usize, spelling: &str, sound: SoundId) -> Option<usize> {
        let next = self.parts.get(at + 1)?.id()?.get();
        let (vowel, consonant) = match (spelling, sound, next.spelling) {
            ("a", AO | AA, "lk") => ("al", "k"),
            ("ou", UH, "ld") => ("oul", "d"),
            _ => return None,
        };
        let vowel = CorrespondenceId::find(vowel, if sound == AA { AO } else { sound })?;
        let consonant = CorrespondenceId::find(consonant, next.sound)?;
        self.parts[at] = Part::Known { id: vowel, e_dropped: false };
        self.parts[at + 1] = Part::Known { id: consonant, e_dropped: false };
        Some(1)
    }

    fn split(&mut self, at: usize, (vowel, sound): (&str, SoundId), r: &str) -> Option<usize> {
        let vowel = CorrespondenceId::find(vowel, sound)?;
        let r = CorrespondenceId::find(r, R)?;
        let part = |id| Part::Known { id, e_dropped: false };
        self.parts.splice(at..=at, [part(vowel), part(r)]);
        self.fixed.splice(at..=at, [true, true]);
        self.stressed = self.stressed.map(|stressed| if stressed > at { stressed + 1 } else { stressed });
        Some(2)
    }

    fn spelled(&self, at: usize) -> &str {
        self.parts.get(at).map_or("", Part::letters)
    }

    fn sound(&self, at: usize) -> Option<&'static str> {
        Some(self.parts.get(at)?.id()?.get().sound.get().name)
    }

    fn is_vowel(&self, at: usize) -> bool {
        self.parts.get(at).is_some_and(Part::is_vowel)
    }

    fn is_weak_prefix(&self) -> bool {
        self.stressed.is_some() && ["acc", "adm", "adv"].iter().any(|prefix| self.word.starts_with(prefix))
    }

    fn next_vowel(&self, at: usize) -> Option<usize> {
        (at + 1..self.parts.len()).find(|at| self.is_vowel(*at))
    }

    fn is_before_r(&self, at: usize) -> bool {
        self.sound(at + 1) == Some("R")
    }

    /// Whether the sound before is /w/: *want*, *quality*, *squash*.
    fn follows_w(&self, at: usize) -> bool {
        at > 0 && matches!(self.sound(at - 1), Some("W" | "K W"))
    }

    /// Whether the sound before is one after which British accents have /juː/: *tune*, *due*, *new*.
    fn after_alveolar(&self, at: usize) -> bool {
        at > 0 && matches!(self.sound(at - 1), Some("T" | "D" | "N"))
    }

    fn is_stressed(&self, at: usize) -> bool {
        is_stressed(&self.parts, self.stressed, at)
    }

    fn is_full(&self, at: usize) -> bool {
        is_full_r(&self.parts, self.stressed, self.second_stress, at)
    }

    /// The letters from a part to the end of the word.
    fn letters_from(&self, at: usize) -> String {
        self.parts[at..].iter().map(Part::letters).collect()
    }

    /// *library*, *centuries*, *cemetery*.
    fn ends_weakly(&self, at: usize) -> bool {
        let rest = self.letters_from(at);
        ["ary", "aries", "ery", "eries"].contains(&rest.as_str())
    }

    /// *territory*, *stories* not.
    fn ends_in_ory(&self, at: usize) -> bool {
        let rest = self.letters_from(at);
        ["ory", "ories", "orily"].contains(&rest.as_str())
    }

    /// *organisation*, *civilization*.
    fn is_isation(&self, at: usize) -> bool {
        let rest = self.letters_from(at);
        rest.starts_with("isation") || rest.starts_with("ization")
    }
}
