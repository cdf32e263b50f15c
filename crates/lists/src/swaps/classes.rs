//! The classes of words that contexts name: DET, PRON, CAP. Common practice, no source.

use untaught::fold_word;

use super::place::{Element, Place};
use super::sentence::{is_content, is_determiner};
use super::table::{self, PartOfSpeech};
use super::{FormKind, bases, has_headword, may_be_noun};

const PRON: &str = "i you he she it we they";
const OBJ: &str = "me you him her it us them";
const NUM: &str = "two three four five six seven eight nine ten";
const PREP: &str = "in on at into onto over under up down across through along around round past from out off behind beside with to \
    towards toward by for inside outside near against between before after about";
const JOIN: &str = "and but so as when while because until till if or then";
const BE: &str = "is was are were am be been it's he's she's that's there's i'm you're we're they're";
/// Names that are words too.
const NAMES: &str =
    "mum mummy mom mommy dad daddy gran granny grandma grandad granddad grandpa nan nana auntie uncle miss mrs mr";
/// Words that begin sentences and are no names, beside those that the table knows.
const NO_NAMES: &str = "oh ah ooh hooray yes no well please thanks thank ok okay hello hi hey wow once today tomorrow yesterday one why \
    who whose even only very perhaps maybe everyone everybody someone somebody nobody nothing everything something still yet first last \
    next later soon suddenly instead inside outside if now then ouch yum yuck";

/// Whether a word, as written and folded, is what a part of an element asks for.
pub(super) fn is_word(class: &str, text: &str, word: &str, begins: bool) -> bool {
    let among = |list: &str| list.split(' ').any(|known| known == word);
    match class {
        "ANY" => true,
        "ING" => word.len() > 4 && word.ends_with("ing") && word != "thing",
        "NOUN" => is_content(word) && may_be_noun(word),
        "PRON" => among(PRON),
        "OBJ" => among(OBJ),
        "NUM" => among(NUM),
        "BE" => among(BE),
        "PREP" => among(PREP),
        "JOIN" => among(JOIN),
        "DET" => is_determiner(word),
        "CAP" => text.starts_with(char::is_uppercase) && !is_i(word) && (!begins || is_likely_name(word)),
        "START" | "END" | "QUOTE" => false,
        _ => word == class,
    }
}

fn is_i(word: &str) -> bool {
    word == "i" || word.starts_with("i'")
}

/// Whether a word with a capital at the beginning of a sentence is likely a name.
fn is_likely_name(word: &str) -> bool {
    let among = |list: &str| list.split(' ').any(|known| known == word);
    among(NAMES)
        || !among(NO_NAMES)
            && !word.contains('\'')
            && !word.ends_with("ly")
            && is_content(word)
            && bases(word, has_headword).iter().all(is_name_like)
}

/// A noun without *the* at the beginning of a sentence is a name: *Rabbit sat down*.
fn is_name_like((base, form): &(String, FormKind)) -> bool {
    *form == FormKind::Base && table::find(base).all(|meaning| meaning.part_of_speech == PartOfSpeech::Noun)
}

/// Whether a capital inside a sentence makes a word a name that is no word too: *Detective Paws*.
pub(super) fn is_named(word: &str, place: &Place<'_>) -> bool {
    let folded = fold_word(word);
    let inside = matches!(place.before[0], Element::Word { .. } | Element::Edge);
    let all = word.chars().filter(|c| c.is_alphabetic()).all(char::is_uppercase);
    inside
        && !all
        && word.starts_with(char::is_uppercase)
        && !is_i(&folded)
        && !NAMES.split(' ').any(|name| name == folded)
}

#[cfg(test)]
mod tests {
    use super::super::sentence::Around;
    use super::*;

    #[test]
    fn a_name_is_no_word() {
        let place = |before, word| Place::of(word, Around { before, after: " home" });
        assert!(is_named("Paws", &place("Then Detective ", "Paws")) && !is_named("Paws", &place("", "Paws")));
        assert!(!is_named("PAWS", &place("THE ", "PAWS")) && !is_named("Mum", &place("Then ", "Mum")));
    }
}
