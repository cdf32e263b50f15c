//! A verb said in one word: *began to sing* and *was singing* as *sang*.

use super::forms::{FormKind, bases, is_irregular_verb, spellings};
use super::place::{Element, Place};
use super::table::{self, PartOfSpeech};
use untaught::fold_word;

/// What begins, before *to sing* or *singing*; the other words only before *to*.
const BEGINNING: [&str; 2] = ["began", "started"];
const LEADING: [&str; 3] = ["used", "managed", "decided"];
/// Their past depends on who does it, or they only help another verb.
const HELPERS: &str = "be have do go get can will";

/// The past of the verb that a word belongs to, and how many words before and after are said by it too.
pub(super) fn plain_past(word: &str, place: &Place<'_>) -> Option<(Vec<String>, [usize; 2])> {
    let word = fold_word(word);
    let [before, after] = [place.before, place.after].map(|side| side.map(text));
    let (verb, form, with) = if is_lead(&word) && after[0] == "to" {
        (after[1].clone(), FormKind::Base, [0, 2])
    } else if BEGINNING.contains(&word.as_str()) && after[0].ends_with("ing") {
        (after[0].clone(), FormKind::Ing, [0, 1])
    } else if before[0] == "to" && is_lead(&before[1]) {
        (word, FormKind::Base, [2, 0])
    } else if word.ends_with("ing") && (BEGINNING.contains(&before[0].as_str()) || is_doing(&before)) {
        (word, FormKind::Ing, [1, 0])
    } else {
        return None;
    };
    let base = bases(&verb, is_verb).into_iter().find(|(_, found)| *found == form)?.0;
    let helps = HELPERS.split(' ').any(|helper| helper == base);
    (!helps).then(|| (spellings(&base, FormKind::Past), with))
}

fn is_lead(word: &str) -> bool {
    BEGINNING.contains(&word) || LEADING.contains(&word)
}

/// Whether somebody *was* or *were* doing something: not *there was singing*.
fn is_doing(before: &[String; 3]) -> bool {
    const NO_DOERS: &str = "there what that which this who where how why nothing something";
    matches!(before[0].as_str(), "was" | "were")
        && !before[1].is_empty()
        && !NO_DOERS.split(' ').any(|one| one == before[1])
}

/// Whether a word is a verb and its form in *-ing* no word of its own: *interesting*, *morning*.
fn is_verb(base: &str) -> bool {
    let describes = |ing: &String| table::find(ing).next().is_some();
    let is_verb = is_irregular_verb(base) || table::find(base).any(|one| one.part_of_speech == PartOfSpeech::Verb);
    is_verb && !spellings(base, FormKind::Ing).iter().any(describes)
}

fn text(element: Element<'_>) -> String {
    match element {
        Element::Word { text, .. } => fold_word(text),
        _ => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::swaps::Around;

    #[test]
    fn the_past_says_it_in_one_word() {
        for (sentence, past, with) in [
            ("Then she *began* to sing a song.", "sang", [0, 2]),
            ("Then she began to *sing* a song.", "sang", [2, 0]),
            ("Then she *started* running.", "ran", [0, 1]),
            ("The cat was *sitting* on it.", "sat", [1, 0]),
            ("They *used* to hop.", "hopped", [0, 2]),
        ] {
            let (start, end) = (sentence.find('*').unwrap(), sentence.rfind('*').unwrap());
            let word = &sentence[start + 1..end];
            let place = Place::of(word, Around { before: &sentence[..start], after: &sentence[end + 1..] });
            let (found, words) = plain_past(word, &place).unwrap();
            assert!(found.iter().any(|one| one == past) && words == with, "{sentence}: {found:?} {words:?}");
        }
    }

    #[test]
    fn what_is_no_doing_stays() {
        for (before, word, after) in [
            ("There was ", "singing", " all day."),
            ("She was ", "going", " to run."),
            ("What was ", "missing", "?"),
            ("She ", "began", " to be sad."),
            ("She ", "wanted", " to sing."),
            ("The film was ", "exciting", "."),
        ] {
            let place = Place::of(word, Around { before, after });
            assert_eq!(plain_past(word, &place), None, "{before}{word}{after}");
        }
    }
}
