//! The lists as programs read them: the same in every command and on every page.

use serde::Serialize;
use untaught::Part;

use crate::{BankWord, Boxes, Change, Contrast, Position, Shape, SoundBox, Step};

/// A word of a bank.
#[derive(Serialize)]
pub struct BankWordOut<'a> {
    word: &'a str,
    ipa: String,
    parts: Vec<&'a str>,
    sounds: usize,
    syllables: usize,
    shape: String,
    lesson: &'a str,
}

impl<'a> BankWordOut<'a> {
    /// A word of a bank, with the id of the lesson from which it can be sounded out.
    #[must_use]
    pub fn of(word: &'a BankWord, lesson: &'a str) -> BankWordOut<'a> {
        BankWordOut {
            word: &word.word,
            ipa: word.reading.ipa(),
            parts: word.reading.parts.iter().map(Part::spelling).collect(),
            sounds: word.sounds.len(),
            syllables: word.reading.syllables(),
            shape: Shape::of(&word.sounds).to_string(),
            lesson,
        }
    }
}

/// The sound boxes of a word.
#[derive(Serialize)]
pub struct BoxesOut {
    word: String,
    sounds: usize,
    boxes: Vec<BoxOut>,
    note: Option<String>,
}

#[derive(Serialize)]
struct BoxOut {
    letters: String,
    sounds: Vec<String>,
    /// The e of a split spelling that stands after this box, and the box it belongs to, counted from 0.
    silent_e: bool,
    joined_to: Option<usize>,
}

impl BoxesOut {
    /// The boxes of a word.
    #[must_use]
    pub fn of(boxes: &Boxes) -> BoxesOut {
        let one = |one: &SoundBox| BoxOut {
            letters: one.letters.clone(),
            sounds: one.sounds.clone(),
            silent_e: one.silent_e,
            joined_to: one.joined_to,
        };
        BoxesOut {
            word: boxes.word.clone(),
            sounds: boxes.sounds,
            boxes: boxes.boxes.iter().map(one).collect(),
            note: boxes.note.clone(),
        }
    }
}

/// A chain.
#[derive(Serialize)]
pub struct ChainOut {
    words: Vec<String>,
    steps: Vec<StepOut>,
}

#[derive(Serialize)]
struct StepOut {
    change: &'static str,
    place: &'static str,
    from: Option<String>,
    to: Option<String>,
    say: String,
}

impl ChainOut {
    /// A chain and what each step says.
    #[must_use]
    pub fn of(chain: &crate::Chain) -> ChainOut {
        let step = |step: &Step| StepOut {
            change: Change::name(step.change),
            place: step.place,
            from: step.from.clone(),
            to: step.to.clone(),
            say: step.to_string(),
        };
        ChainOut {
            words: chain.words.iter().map(|word| word.word.clone()).collect(),
            steps: chain.steps.iter().map(step).collect(),
        }
    }
}

/// A listening list.
#[derive(Serialize)]
pub struct ContrastOut {
    sound: &'static str,
    key: &'static str,
    position: &'static str,
    items: Vec<ItemOut>,
    pairs: Vec<[String; 2]>,
}

#[derive(Serialize)]
struct ItemOut {
    word: String,
    has: bool,
    foil: Option<&'static str>,
}

impl ContrastOut {
    /// A listening list with its key.
    #[must_use]
    pub fn of(made: &Contrast) -> ContrastOut {
        let item = |item: &crate::Item| ItemOut {
            word: item.word.clone(),
            has: item.has,
            foil: item.foil.map(|sound| sound.get().ipa[0]),
        };
        ContrastOut {
            sound: made.sound.get().ipa[0],
            key: made.sound.get().key,
            position: match made.position {
                Position::Start => "start",
                Position::Middle => "middle",
                Position::End => "end",
            },
            items: made.items.iter().map(item).collect(),
            pairs: made.pairs.iter().map(|(one, other)| [one.clone(), other.clone()]).collect(),
        }
    }
}

/// Words and sentences to spell.
#[derive(Serialize)]
pub struct DictationOut {
    new: Vec<String>,
    review: Vec<String>,
    sight: Vec<String>,
    sentences: Vec<String>,
}

impl DictationOut {
    /// A dictation.
    #[must_use]
    pub fn of(made: &crate::Dictation) -> DictationOut {
        let crate::Dictation { new, review, sight, sentences } = made.clone();
        DictationOut { new, review, sight, sentences }
    }
}
