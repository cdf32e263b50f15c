//! Offers for a form of a word in a context: *fetched* before *the* is *went and got*. Deflated when the crate is built.

use std::sync::LazyLock;

use untaught::fold_word;

use super::classes::is_word;
use super::is_past_of_verb;
use super::place::{Element, Place};
use super::sentence::is_content;
use crate::deflated::{inflated, inflated_bytes};
use crate::word_codes::decoded;

/// A line for each entry: its form, or nothing for the form before; its context; what is offered there.
static FORMS: LazyLock<String> =
    LazyLock::new(|| inflated(include_bytes!(concat!(env!("OUT_DIR"), "/in-context.forms.bin"))));
static CONTEXTS: LazyLock<String> =
    LazyLock::new(|| unpacked(include_bytes!(concat!(env!("OUT_DIR"), "/in-context.contexts.bin")), '|'));
static OFFERS: LazyLock<String> =
    LazyLock::new(|| unpacked(include_bytes!(concat!(env!("OUT_DIR"), "/in-context.offers.bin")), ' '));
static ENTRIES: LazyLock<Vec<Entry>> = LazyLock::new(read_entries);

/// What is offered for a form in one context. Those of a form stand together, the narrowest first.
struct Entry {
    form: &'static str,
    context: &'static str,
    offers: &'static str,
}

fn unpacked(bytes: &[u8], joiner: char) -> String {
    decoded(&inflated_bytes(bytes), joiner)
}

fn read_entries() -> Vec<Entry> {
    let (forms, contexts, offers) = (FORMS.lines(), CONTEXTS.lines(), OFFERS.lines());
    let mut form = "";
    let entry = |((stated, context), offers): ((&'static str, _), _)| {
        form = if stated.is_empty() { form } else { stated };
        Entry { form, context, offers }
    };
    forms.zip(contexts).zip(offers).map(entry).collect()
}

/// Stands among the offers where the word may simply go.
pub(crate) const LEAVE_OUT: &str = "-";

/// Stands first in a context that is asked last.
const ELSE: &str = "ELSE ";

/// Stands before another thing of the kind: *~fox* for a bear that may as well be one.
const OF_THE_KIND: char = '~';

/// What is offered for a form in a context.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Offer {
    /// The words to write, or [`LEAVE_OUT`].
    pub(crate) text: String,
    /// How many words before and after the form go with it.
    pub(crate) with: [usize; 2],
    /// Whether it is another thing of the kind.
    pub(crate) of_the_kind: bool,
}

/// Which contexts are asked.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Asked {
    First,
    /// Those that are asked only where neither the others nor the table gave anything.
    Last,
}

/// What is offered for a form in its contexts that fit a place, the surest first.
pub(crate) fn offers(form: &str, place: &Place<'_>, asked: Asked) -> Vec<Offer> {
    let mut found: Vec<Offer> = Vec::new();
    let words = Words::of(place);
    let entries = entries(form).filter_map(|(context, offers)| match (context.strip_prefix(ELSE), asked) {
        (None, Asked::First) => Some((context, offers)),
        (last, Asked::Last) => last.map(|context| (context, offers)),
        (Some(_), Asked::First) => None,
    });
    for (context, offers) in entries.filter(|(context, _)| fits(context, place, &words)) {
        let with = replaced(context);
        let context = context.replace(['[', ']'], "");
        if !is_participle(form, &context, place) {
            let offers =
                offers.split(", ").map(|text| (text.trim_start_matches(OF_THE_KIND), text.starts_with(OF_THE_KIND)));
            for (text, of_the_kind) in offers.filter(|(text, _)| with != [0, 0] || joins(text, &context, place)) {
                let offer = Offer { text: text.to_owned(), with, of_the_kind };
                if !found.contains(&offer) {
                    found.push(offer);
                }
            }
        }
    }
    found
}

/// Whether an offer joins on to its neighbours, not *very in a rush*, *make out you*, *a bit bit*, and leaves alone what another is
/// like.
fn joins(offer: &str, context: &str, place: &Place<'_>) -> bool {
    const GRADING: &str = "very so too quite rather really more most less as how";
    const PARTICLES: &str = "out up down away back";
    const OBJECTS: &str = "me you him it us them";
    let among = |list: &str, word: &str| list.split(' ').any(|known| known == word);
    let (first, last) = (offer.split(' ').next().unwrap_or_default(), offer.rsplit(' ').next().unwrap_or_default());
    let (before, after) = (place.word_before(), fold_word(place.word_after()));
    let is_phrase = first != last;
    let graded = is_phrase && among(GRADING, &before) && !names(context, &before);
    let parted = is_phrase && among(PARTICLES, last) && among(OBJECTS, &after) && !offer.contains(" of ");
    let likened =
        place.is_likened() && !is_content(&after) && !context.split(' ').any(|one| matches!(one, "as" | "like"));
    !graded && !parted && !likened && first != before && last != after
}

/// Whether a context has a word directly before the form.
fn names(context: &str, word: &str) -> bool {
    let element = context.split_once('_').unwrap_or_default().0.split_whitespace().next_back().unwrap_or_default();
    element.split('|').any(|one| one == word)
}

/// How many words before and after the form are replaced with it: what stands in brackets.
fn replaced(context: &str) -> [usize; 2] {
    let (Some(start), Some(end)) = (context.find('['), context.find(']')) else { return [0, 0] };
    let (before, after) = context[start..end].split_once('_').unwrap_or_default();
    [before, after].map(|side| side.split_whitespace().filter(|one| *one != "[").count())
}

/// The contexts of a form, each with its offers.
fn entries(form: &str) -> impl Iterator<Item = (&'static str, &'static str)> {
    let first = ENTRIES.partition_point(|entry| entry.form < form);
    let entries = ENTRIES[first..].iter().take_while(move |entry| entry.form == form);
    entries.map(|entry| (entry.context, entry.offers))
}

/// Whether a form is not the past but a participle here: *had hurried* is not *had went*. A context that names the helper knows it.
fn is_participle(form: &str, context: &str, place: &Place<'_>) -> bool {
    const HELPERS: &str = "has have had having is was are were be been being i've you've we've they've hadn't haven't hasn't wasn't weren't \
        isn't get got gets";
    let before = place.word_before();
    let helps = |word: &str| HELPERS.split(' ').any(|helper| helper == word);
    helps(&before) && !names(context, "BE") && !names(context, &before) && is_past_of_verb(form)
}

/// The words of a place, folded once for all contexts; empty where there is none.
struct Words {
    before: [String; 3],
    after: [String; 3],
}

impl Words {
    fn of(place: &Place<'_>) -> Words {
        let folded = |element| match element {
            Element::Word { text, .. } => fold_word(text),
            _ => String::new(),
        };
        Words { before: place.before.map(folded), after: place.after.map(folded) }
    }
}

/// Whether a context, with or without brackets, fits a place.
fn fits(context: &str, place: &Place<'_>, words: &Words) -> bool {
    let (before, after) = context.split_once('_').unwrap_or_default();
    // *because of*, *half of*: the word before goes with it.
    if after.starts_with(" ANY") && words.after[0] == "of" {
        return false;
    }
    all_fit(elements(before).rev(), &place.before, &words.before)
        && all_fit(elements(after), &place.after, &words.after)
}

/// The elements of one side of a context, in its order.
fn elements(side: &str) -> impl DoubleEndedIterator<Item = &str> {
    side.split_whitespace().map(|one| one.trim_matches(['[', ']'])).filter(|one| !one.is_empty())
}

/// Whether each element of a side, the nearest first, is what stands there.
fn all_fit<'c>(mut elements: impl Iterator<Item = &'c str>, found: &[Element<'_>; 3], words: &[String; 3]) -> bool {
    let mut there = found.iter().zip(words);
    elements.all(|one| there.next().is_some_and(|(found, word)| is_one(one, *found, word)))
}

/// Whether what stands at a place is what an element of a context asks for.
fn is_one(element: &str, found: Element<'_>, word: &str) -> bool {
    element.split('|').any(|element| match (element, found) {
        ("START", Element::Start) | ("END", Element::Edge | Element::Quote) | ("QUOTE", Element::Quote) => true,
        (class, Element::Word { text, begins }) => is_word(class, text, word, begins),
        _ => false,
    })
}

#[cfg(test)]
mod tests {
    use super::super::sentence::Around;
    use super::*;

    fn fits_in(context: &str, sentence: &str) -> bool {
        let (start, end) = (sentence.find('<').unwrap(), sentence.find('>').unwrap());
        let around = Around { before: &sentence[..start], after: &sentence[end + 1..] };
        let place = Place::of(&sentence[start + 1..end], around);
        fits(context, &place, &Words::of(&place))
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
            ("DET _ NOUN", "the <old> hats", true),
            ("DET _ NOUN", "the <old> ran", false),
            ("_ ING", "she's <x> running", true),
            ("_ ING", "she's <x> thing", false),
            ("_ PREP", "she <ran> towards it", true),
            ("_ PREP", "half <full> of it", false),
            ("_ END|JOIN", "she <ran> because", true),
            ("_ END|JOIN", "she <ran> fast", false),
            ("CAP _", "Rabbit <looked>", true),
            ("ANY OBJ _ END", "She put them <gently>, as", true),
        ] {
            assert_eq!(fits_in(context, sentence), fits, "{context}: {sentence}");
        }
    }

    fn forms() -> Vec<&'static str> {
        let mut forms: Vec<&str> = ENTRIES.iter().map(|entry| entry.form).collect();
        forms.dedup();
        forms
    }

    /// A sentence made of a context, with the same one of the words for each of its elements.
    fn example(form: &str, context: &str, which: usize) -> (String, std::ops::Range<usize>) {
        let mut text = String::from("We hid, ");
        let mut at = 0..0;
        for element in context.trim_start_matches(ELSE).replace(['[', ']'], "").split(' ') {
            let words: Vec<&str> = element.split('|').collect();
            let one = words[which.min(words.len() - 1)];
            let word = match one {
                "_" => form,
                "DET" => "the",
                "PRON" => "she",
                "OBJ" => "him",
                "NUM" => "two",
                "BE" => "was",
                "PREP" => "into",
                "JOIN" => "when",
                "CAP" => "Fenn",
                "ANY" | "NOUN" => "pots",
                "ING" => "humming",
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
    fn a_participle_is_no_past() {
        let place = |before, word| Place::of(word, Around { before, after: " home" });
        assert!(is_participle("hurried", "ANY _ home", &place("She had ", "hurried")));
        assert!(!is_participle("hurried", "had _ home", &place("She had ", "hurried")));
        assert!(!is_participle("hurried", "ANY _ home", &place("Then she ", "hurried")));
    }

    #[test]
    fn every_entry_is_found_by_an_example_of_its_context() {
        let mut entries = 0;
        for form in forms() {
            for (context, offered) in super::entries(form) {
                let asked = if context.starts_with(ELSE) { Asked::Last } else { Asked::First };
                let examples = (0..4).map(|which| example(form, context, which));
                let found: Vec<Offer> = examples
                    .flat_map(|(text, at)| offers(form, &Place::of(form, Around::of(&text, &at)), asked))
                    .collect();
                for offer in offered.split(", ").map(|offer| offer.trim_start_matches(OF_THE_KIND)) {
                    assert!(found.iter().any(|one| one.text == offer), "{form} in {context}: {found:?}");
                }
                entries += 1;
            }
        }
        assert!(entries > 0 && entries == ENTRIES.len());
    }

    #[test]
    fn every_offer_is_of_ordinary_fit_words() {
        let reader = untaught::Reader::default();
        let mut wrong = Vec::new();
        for form in forms() {
            let offers = super::entries(form).flat_map(|(_, all)| all.split(", ")).filter(|offer| *offer != LEAVE_OUT);
            for word in offers.flat_map(|offer| offer.trim_start_matches(OF_THE_KIND).split(' ')) {
                let fit = crate::fitness::is_fit(&fold_word(word), crate::fitness::Purpose::OfferedForMeaning);
                let owner = word.strip_suffix("'s").unwrap_or(word);
                if !fit || !reader.spells(&fold_word(owner)) {
                    wrong.push(format!("{form}: {word}"));
                }
            }
        }
        assert!(wrong.is_empty(), "{wrong:?}");
    }
}
