//! Pronunciations that a scope gives for names and local words: `Priya: "p·r·i=/iː/·y·a=/ə/"`.

use crate::wording::excerpt;
use crate::yaml::too_long;
use untaught_phonics::{Accent, CorrespondenceId, Grade, Part, Reading, SoundId, spelled_in};

/// Reads a word and its cutting; the word comes back in lower case.
///
/// # Errors
/// A sentence that says what is wrong.
pub(super) fn entry(written: &str, cutting: &str, accent: Accent) -> Result<(String, Reading), String> {
    let word = crate::fold_word(written);
    if word.is_empty() || !word.bytes().all(|b| b.is_ascii_lowercase()) {
        return Err(format!("`{}` is not a word", excerpt(written)));
    }
    let reading = too_long(cutting).map_or_else(|| read(&word, cutting, accent), Err)?;
    Ok((word, reading))
}

/// Reads a cutting: spellings with points between them. A spelling alone has its everyday sound; another one stands after it in IPA, or by
/// its key word: `i as in ski`.
///
/// # Errors
/// A sentence that says what is wrong.
fn read(word: &str, cutting: &str, accent: Accent) -> Result<Reading, String> {
    let mut parts = Vec::new();
    let mut spelled = String::new();
    // The e of a split spelling comes after the next one.
    let mut owed = false;
    for piece in cutting.split(['·', '.']) {
        let id = correspondence(piece.trim(), accent)?;
        let spelling = id.get().spelling;
        let split = spelling.contains('_');
        spelled += spelling.split('_').next().unwrap_or_default();
        if std::mem::replace(&mut owed, split) {
            spelled.push('e');
        }
        parts.push(Part::Known { id, e_dropped: false });
    }
    if spelled != word {
        return Err(format!("`{cutting}` spells {spelled}, not {word}"));
    }
    Ok(Reading { parts, stressed: None, made: None, accent })
}

fn correspondence(piece: &str, accent: Accent) -> Result<CorrespondenceId, String> {
    let (spelling, wanted) = match piece.split_once('=') {
        Some((spelling, ipa)) => (spelling.trim(), Wanted::Ipa(ipa.trim())),
        None => match piece.split_once(" as in ") {
            Some((spelling, key)) => (spelling.trim(), Wanted::Key(key.trim())),
            None => (piece, Wanted::Everyday),
        },
    };
    let spelling = spelling.to_lowercase();
    let all: Vec<CorrespondenceId> = spelled_in(&spelling, accent).collect();
    if all.is_empty() {
        return Err(format!("the catalogue has no spelling `{spelling}`"));
    }
    let found = match wanted {
        Wanted::Everyday => all.iter().min_by_key(|id| id.get().grade).filter(|id| id.get().grade <= Grade::Common),
        Wanted::Key(key) => all.iter().find(|id| id.get().key == key),
        // The likeliest sound of the sign first.
        Wanted::Ipa(ipa) => {
            SoundId::from_ipa(ipa, accent).find_map(|sound| all.iter().find(|id| id.get().sound == sound))
        }
    };
    found.copied().ok_or_else(|| {
        let choice =
            |id: &CorrespondenceId| format!("{spelling}=/{}/ ({})", id.get().sound.get().ipa(accent), id.get().key);
        format!("`{piece}` is not clear; write one of {}", all.iter().map(choice).collect::<Vec<_>>().join(", "))
    })
}

enum Wanted<'p> {
    Everyday,
    Key(&'p str),
    Ipa(&'p str),
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cutting_is_read_or_refused_with_a_sentence() {
        let read =
            |word: &str, cutting: &str| read(word, cutting, Accent::GeneralAmerican).map(|reading| reading.ipa());
        assert_eq!(read("priya", "p·r·i=/iː/·y·a=/ə/"), Ok("priːjə".to_owned()));
        assert_eq!(read("kane", "k.a_e.n"), Ok("keɪn".to_owned()));
        assert_eq!(read("rosa", "r·o as in go·s·a as in about"), Ok("roʊsə".to_owned()));
        assert_eq!(read("rosa", "r·o as in toad·s·a").map_err(|why| why.contains("o=/oʊ/ (go)")), Err(true));
        assert_eq!(read("tam", "t·a·p"), Err("`t·a·p` spells tap, not tam".to_owned()));
        assert_eq!(read("tam", "t·aq·m"), Err("the catalogue has no spelling `aq`".to_owned()));
        assert!(read("tam", "").is_err());
    }
}
