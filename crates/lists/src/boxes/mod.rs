//! Sound boxes: one box a sound, with the letters that spell it.

mod draw;

use serde::Serialize;
use untaught::Reading;
use untaught_phonics::{SoundId, SoundKind};

use crate::sounds::is_countable;

/// One box.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct SoundBox {
    /// The letters in it; of a split spelling those before its e.
    pub letters: String,
    /// Its sounds in IPA: two for `x` and `qu`, one for any other.
    pub sounds: Vec<String>,
    /// Whether the e of a split spelling follows this box, without a box of its own.
    pub silent_e: bool,
    /// The number of the box whose letters make one spelling with that e, counted from 0.
    pub joined_to: Option<usize>,
}

/// The boxes of a word.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct Boxes {
    /// The word.
    pub word: String,
    /// How many sounds it has.
    pub sounds: usize,
    /// Its boxes in order.
    pub boxes: Vec<SoundBox>,
    /// A remark: `x` spells two sounds.
    pub note: Option<String>,
}

/// The boxes of a word for one of its readings; none if a part of it is irregular or its letters are not those of its parts.
#[must_use]
pub fn boxes(word: &str, reading: &Reading) -> Option<Boxes> {
    let mut boxes: Vec<SoundBox> = Vec::new();
    let mut rest = word;
    // The split spelling whose e has not come yet.
    let mut waiting: Option<usize> = None;
    let mut notes = Vec::new();
    for (at, (part, ipa)) in reading.parts_with_ipa().enumerate() {
        let id = part.id()?.get().sound;
        if !is_countable(id) {
            return None;
        }
        let sound = id.get();
        let spelling = part.spelling();
        let letters = spelling.split('_').next().unwrap_or(spelling);
        rest = rest.strip_prefix(letters)?;
        let sounds: Vec<String> = match sound.kind {
            SoundKind::Cluster => {
                let names = sound.name.split(' ').filter_map(SoundId::named);
                names.map(|sound| sound.get().ipa(reading.accent).to_owned()).collect()
            }
            _ => vec![ipa],
        };
        if let [one, two] = sounds.as_slice() {
            notes.push(format!("{letters} spells two sounds, /{one}/ and /{two}/"));
        }
        boxes.push(SoundBox { letters: letters.to_owned(), sounds, silent_e: false, joined_to: None });
        if spelling.contains('_') {
            waiting = Some(at);
        } else if let Some(split) = waiting {
            let next = reading.parts.get(at + 1).map(|part| part.spelling().split('_').next().unwrap_or_default());
            let follows = next.is_some_and(|letters| rest.starts_with(letters));
            if let Some(after) = rest.strip_prefix('e').filter(|_| !follows) {
                rest = after;
                waiting = None;
                if let Some(last) = boxes.last_mut() {
                    (last.silent_e, last.joined_to) = (true, Some(split));
                }
            }
        }
    }
    let note = (!notes.is_empty()).then(|| notes.join("; "));
    (rest.is_empty() && waiting.is_none()).then(|| Boxes {
        word: word.to_owned(),
        sounds: reading.sounds(),
        boxes,
        note,
    })
}

impl Boxes {
    /// Empty boxes for the board.
    #[must_use]
    pub fn blank(count: usize) -> Boxes {
        let empty = SoundBox { letters: String::new(), sounds: vec![String::new()], silent_e: false, joined_to: None };
        Boxes { word: String::new(), sounds: count, boxes: vec![empty; count], note: None }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use untaught::Reader;

    fn of(word: &str) -> Boxes {
        let reader = Reader::default();
        boxes(word, &reader.read(word).readings[0]).unwrap_or_else(|| panic!("{word}"))
    }

    /// Common practice, no source.
    #[test]
    fn sounds_are_counted_as_children_count_them() {
        let words = ["chop", "box", "thick", "spring", "chill", "badge", "make", "rain", "car", "jumped"];
        let counted: Vec<usize> = words.iter().map(|word| of(word).sounds).collect();
        assert_eq!(counted, [3, 4, 3, 5, 3, 3, 3, 3, 2, 5]);
        let reader = Reader::default();
        // One letter of it spells two sounds, which are not counted apart.
        assert!(boxes("one", &reader.read("one").readings[0]).is_none());
    }

    #[test]
    fn boxes_hold_letters_and_join_split_spellings() {
        assert_eq!(of("ship").text(), "┌─────┬─────┬─────┐\n│ sh  │  i  │  p  │\n└─────┴─────┴─────┘\n");
        assert_eq!(
            of("cake").text(),
            "┌─────┬─────┬─────┐\n│  c  │  a  │  k  │e\n└─────┴─────┴─────┘\n         ╰─────────╯\n"
        );
        assert_eq!(of("box").note.as_deref(), Some("x spells two sounds, /k/ and /s/"));
        let letters = |word: &str| of(word).boxes.iter().map(|b| b.letters.clone()).collect::<Vec<_>>().join(" ");
        assert_eq!(letters("likes"), "l i k s");
        assert_eq!(letters("house"), "h ou se");
        assert!(of("likes").boxes[2].silent_e);
        assert_eq!(Boxes::blank(3).text().lines().next(), Some("┌─────┬─────┬─────┐"));
    }

    #[test]
    fn drawings_are_well_formed() {
        let svg = of("box").svg();
        assert_eq!(svg.matches("<rect").count(), 3);
        assert_eq!(svg.matches("<svg").count(), svg.matches("</svg>").count());
        assert!(of("cake").svg().contains(">e</text>"));
    }
}
