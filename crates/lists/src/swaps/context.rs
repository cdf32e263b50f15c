//! Offers for a form of a word in a context: *fetched* before *the* is *went and got*. Packed when the crate is built, read in place.

use untaught::fold_word;

use super::place::{Element, Place};
use super::sentence::is_determiner;
use super::{bases, has_headword};

/// A line for each form, in alphabetical order: the form, then for each context its number and what is offered there, the surest first.
static ENTRIES: &str = include_str!(concat!(env!("OUT_DIR"), "/in-context.tsv"));
/// The contexts, one a line.
static CONTEXTS: &str = include_str!(concat!(env!("OUT_DIR"), "/contexts.txt"));

/// Stands among the offers where the word may simply go.
pub(crate) const LEAVE_OUT: &str = "-";

/// What is offered for a form in its contexts that fit a place, the surest first.
pub(crate) fn offers(form: &str, place: &Place<'_>) -> Vec<&'static str> {
    let mut found: Vec<&'static str> = Vec::new();
    for (context, offers) in entries(form) {
        if fits(context, place) {
            found.extend(offers.split(", ").filter(|offer| !found.contains(offer)).collect::<Vec<_>>());
        }
    }
    found
}

/// The contexts of a form, each with its offers.
fn entries(form: &str) -> impl Iterator<Item = (&'static str, &'static str)> {
    let line = ENTRIES.lines().find_map(|line| line.strip_prefix(form)?.strip_prefix('\t'));
    line.into_iter().flat_map(|line| line.split('\t')).filter_map(|entry| {
        let (number, offers) = entry.split_once(' ')?;
        Some((CONTEXTS.lines().nth(number.parse().ok()?)?, offers))
    })
}

/// Whether a context fits a place.
fn fits(context: &str, place: &Place<'_>) -> bool {
    let (before, after) = context.split_once('_').unwrap_or_default();
    let all = |mut elements: Vec<&str>, found: &[Element<'_>; 3], reversed: bool| {
        if reversed {
            elements.reverse();
        }
        elements.len() <= found.len() && elements.iter().zip(found).all(|(one, found)| is_one(one, *found))
    };
    all(before.split_whitespace().collect(), &place.before, true)
        && all(after.split_whitespace().collect(), &place.after, false)
}

/// Whether what stands at a place is what an element of a context asks for.
fn is_one(element: &str, found: Element<'_>) -> bool {
    element.split('|').any(|element| match (element, found) {
        ("START", Element::Start) | ("END", Element::Edge | Element::Quote) | ("QUOTE", Element::Quote) => true,
        (class, Element::Word { text, begins }) => is_word(class, text, begins),
        _ => false,
    })
}

const PRON: &str = "i you he she it we they";
const OBJ: &str = "me you him her it us them";
const NUM: &str = "two three four five six seven eight nine ten";
const BE: &str = "is was are were am be been it's he's she's that's there's i'm you're we're they're";
/// Names that are words too.
const NAMES: &str = "mum mummy mom mommy dad daddy gran granny grandma grandad granddad grandpa nan nana auntie uncle miss mrs mr";
/// Words that begin sentences and are no names, beside those that the table knows.
const NO_NAMES: &str = "oh ah ooh hooray yes no well please thanks thank ok okay hello hi hey wow once today tomorrow yesterday one why \
    who whose even only very perhaps maybe everyone everybody someone somebody nobody nothing everything something still yet first last \
    next later soon suddenly instead inside outside if now then ouch yum yuck";

fn is_word(class: &str, text: &str, begins: bool) -> bool {
    let word = fold_word(text);
    let among = |list: &str| list.split(' ').any(|known| known == word);
    match class {
        "ANY" => true,
        "PRON" => among(PRON),
        "OBJ" => among(OBJ),
        "NUM" => among(NUM),
        "BE" => among(BE),
        "DET" => is_determiner(&word),
        "CAP" => text.starts_with(char::is_uppercase) && !is_i(&word) && (!begins || is_likely_name(&word)),
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
            && super::sentence::is_content(word)
            && bases(word, has_headword).is_empty()
}

#[cfg(test)]
mod tests {
    use super::super::sentence::Around;
    use super::*;

    fn fits_in(context: &str, sentence: &str) -> bool {
        let (start, end) = (sentence.find('<').unwrap(), sentence.find('>').unwrap());
        let around = Around { before: &sentence[..start], after: &sentence[end + 1..] };
        fits(context, &Place::of(&sentence[start + 1..end], around))
    }

    #[test]
    fn a_context_fits_its_places_only() {
        for (context, sentence, fits) in [
            ("_", "<x>", true),
            ("PRON|CAP _ DET", "She <fetched> the mop", true),
            ("PRON|CAP _ DET", "Then she <fetched> Gran\u{2019}s mop", true),
            ("PRON|CAP _ DET", "Fenn <fetched> a mop", true),
            ("PRON|CAP _ DET", "Mum <fetched> a mop", true),
            ("PRON|CAP _ DET", "Suddenly <fetched> a mop", false),
            ("PRON|CAP _ DET", "Dogs <fetched> a mop", false),
            ("PRON|CAP _ DET", "Then Dogs <fetched> a mop", true),
            ("PRON|CAP _ DET", "She. <fetched> a mop", false),
            ("PRON|CAP _ DET", "She <fetched>. A mop", false),
            ("PRON|CAP _ DET", "it's <fetched> a mop", false),
            ("DET _", "it's <big>", false),
            ("DET _", "the 3 <big>", true),
            ("NUM _", "the Three <big>", true),
            ("CAP _", "Then I <ran>", false),
            ("CAP _", "Then I\u{2019}m <ran>", false),
            ("START _ ANY", "\u{201c}<Nobody> came", true),
            ("START _ ANY", "Mum, <nobody> came", false),
            ("START _ ANY", "\u{201c}Yes!\u{201d} <cried> Mum", false),
            ("END _ CAP", "\u{201c}Yes!\u{201d} <cried> Mum", true),
            ("_ END", "He <ran>", true),
            ("_ END", "He <ran>\u{2014}fast", true),
            ("_ END", "He <ran> \u{201c}fast", true),
            ("_ END", "He <ran> fast", false),
            ("ANY _", "<ran> fast", false),
            ("in the _ of", "in the <middle> of it", true),
            ("in|on the _ of", "ON THE <MIDDLE> OF IT", true),
            ("in the _ of", "in. The <middle> of it", false),
            ("BE _", "He\u{2019}s <sad>", true),
            ("ANY OBJ _ END", "She put them <gently>, as", true),
        ] {
            assert_eq!(fits_in(context, sentence), fits, "{context}: {sentence}");
        }
    }

    /// A sentence made of a context, with a word for each of its elements.
    fn example(form: &str, context: &str) -> (String, std::ops::Range<usize>) {
        let mut text = String::from("We hid, ");
        let mut at = 0..0;
        for element in context.split(' ') {
            let one = element.split('|').next().unwrap();
            let word = match one {
                "_" => form,
                "DET" => "the",
                "PRON" => "she",
                "OBJ" => "him",
                "NUM" => "two",
                "BE" => "was",
                "CAP" => "Fenn",
                "ANY" => "pots",
                "START" => "",
                "END" if at.is_empty() => "as,",
                "QUOTE" if at.is_empty() => "\u{201c}as,\u{201d}",
                word => word,
            };
            match one {
                "START" => text += "so. ",
                "END" if !at.is_empty() => text = text.trim_end().to_owned() + ".",
                "QUOTE" if !at.is_empty() => text = text.trim_end().to_owned() + ", \u{201c}so",
                _ => {
                    if one == "_" {
                        at = text.len()..text.len() + word.len();
                    }
                    text = text + word + " ";
                }
            }
        }
        (text, at)
    }

    #[test]
    fn every_entry_is_found_by_an_example_of_its_context() {
        let mut entries = 0;
        for line in ENTRIES.lines() {
            let (form, rest) = line.split_once('\t').unwrap();
            for entry in rest.split('\t') {
                let (number, offered) = entry.split_once(' ').unwrap();
                let context = CONTEXTS.lines().nth(number.parse().unwrap()).unwrap();
                let (text, at) = example(form, context);
                let found = offers(form, &Place::of(form, Around::of(&text, &at)));
                for offer in offered.split(", ") {
                    assert!(found.contains(&offer), "{form} in {context}: {text}: {found:?}");
                }
                entries += 1;
            }
        }
        assert!(entries > 0);
    }

    #[test]
    fn every_offer_is_of_ordinary_fit_words() {
        let reader = untaught::Reader::default();
        let mut wrong = Vec::new();
        for line in ENTRIES.lines() {
            let (form, rest) = line.split_once('\t').unwrap();
            let offers = rest.split('\t').filter_map(|entry| entry.split_once(' ')).flat_map(|(_, all)| all.split(", "));
            for word in offers.filter(|offer| *offer != LEAVE_OUT).flat_map(|offer| offer.split(' ')) {
                let fit = crate::fitness::is_fit(&fold_word(word), crate::fitness::Purpose::OfferedForMeaning);
                if !fit || !reader.spells(&fold_word(word)) {
                    wrong.push(format!("{form}: {word}"));
                }
            }
        }
        assert!(wrong.is_empty(), "{wrong:?}");
    }
}
