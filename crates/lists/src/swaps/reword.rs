//! Some words around a word, said in another way together with it: *in the garden* as *on the grass*.

use super::place::{Element, Place};
use super::question::Question;
use super::sentence::Around;
use super::{LEAVE_OUT, like};
use untaught::fold_word;

/// A word with some of its neighbours, and what may be written for them all.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Rewording {
    /// The words to replace, as the text has them; bytes of them stand before and after the word as the next two fields say.
    pub old: String,
    /// Bytes of `old` before the word.
    pub before: usize,
    /// Bytes of `old` after the word.
    pub after: usize,
    /// What to write for them, with the capital of a sentence; empty if they may simply go.
    pub new: String,
}

/// A rewording of a word and so many words before and after it, if it can be read; none where the article before them would not fit any
/// more, or nothing would be left between two edges.
pub(super) fn rewording(question: &Question<'_>, with: [usize; 2], offer: &str) -> Option<Rewording> {
    let Question { word, around, ref place, .. } = *question;
    let new = if offer == LEAVE_OUT { "" } else { offer };
    if !question.may_be_offered(new) {
        return None;
    }
    let [before, after] = extent(place, around, with)?;
    let old = [&around.before[around.before.len() - before..], word, &around.after[..after]].concat();
    let left =
        with[0].checked_sub(1).map_or(Element::Word { text: word, begins: place.begins() }, |at| place.before[at]);
    let Element::Word { text: first, begins } = left else { return None };
    let previous = place.before.get(with[0]).copied().unwrap_or(Element::Beyond);
    let next = place.after.get(with[1]).copied().unwrap_or(Element::Beyond);
    let is_word = |element: Element<'_>| matches!(element, Element::Word { .. } | Element::Beyond);
    if new.is_empty() && (begins || !is_word(previous) && !is_word(next)) {
        return None;
    }
    let follows = match next {
        Element::Word { text, .. } => text,
        _ => "",
    };
    let next_word = if new.is_empty() { follows } else { new };
    if let Element::Word { text, .. } = previous {
        let article = fold_word(text);
        if matches!(article.as_str(), "a" | "an") && (article == "an") != question.takes_an(&fold_word(next_word)) {
            return None;
        }
    }
    let new = if begins { like(first, new) } else { new.to_owned() };
    Some(Rewording { old, before, after, new }).filter(|made| made.old != made.new)
}

/// How many bytes before and after a word so many words take; none where an edge comes first.
fn extent(place: &Place<'_>, around: Around<'_>, with: [usize; 2]) -> Option<[usize; 2]> {
    let mut before = around.before;
    for element in place.before.get(..with[0])? {
        let Element::Word { text, .. } = element else { return None };
        before = &before[..before.rfind(text)?];
    }
    let mut after = around.after;
    for element in place.after.get(..with[1])? {
        let Element::Word { text, .. } = element else { return None };
        after = &after[after.find(text)? + text.len()..];
    }
    Some([around.before.len() - before.len(), around.after.len() - after.len()])
}

#[cfg(test)]
mod tests {
    use super::*;
    use untaught::{Judge, Reader, Scope};

    /// The words between brackets of a sentence, the word between stars among them, said as an offer.
    fn made(sentence: &str, offer: &str) -> Option<(String, String)> {
        let (start, end) = (sentence.find('*')?, sentence.rfind('*')?);
        let bare = |text: &str| text.replace(['[', ']'], "");
        let (before, after) = (bare(&sentence[..start]), bare(&sentence[end + 1..]));
        let with = [&sentence[sentence.find('[')?..start], &sentence[end + 1..sentence.find(']')?]];
        let with = with.map(|text| bare(text).split_whitespace().count());
        let around = Around { before: &before, after: &after };
        let word = &sentence[start + 1..end];
        let reader = Reader::default();
        let scope = Scope::embedded("starter", &reader)?;
        let judge = Judge::new(&reader, &scope);
        let made = rewording(&Question::new(word, around, &judge, scope.last()), with, offer)?;
        assert!(
            before.ends_with(&made.old[..made.before]) && after.starts_with(&made.old[made.old.len() - made.after..])
        );
        Some((made.old, made.new))
    }

    #[test]
    fn the_words_are_replaced_together_with_their_capital() {
        for (sentence, offer, old, new) in [
            ("She sat [in the *garden*].", "on the grass", "in the garden", "on the grass"),
            ("[In the *garden*] she sat.", "on the grass", "In the garden", "On the grass"),
            ("She sat [in the\n*garden* then], no?", "there", "in the\ngarden then", "there"),
            ("She sat [in the *garden*] with Fenn.", LEAVE_OUT, "in the garden", ""),
            ("It was an [old *red*] tent", "odd", "old red", "odd"),
        ] {
            assert_eq!(made(sentence, offer), Some((old.to_owned(), new.to_owned())), "{sentence}");
        }
    }

    #[test]
    fn what_would_not_fit_is_not_offered() {
        for (sentence, offer) in [
            ("It was an [old *red*] tent", "big"),
            ("It was an [old *red*] tent", LEAVE_OUT),
            ("[Every *day*] she sat.", LEAVE_OUT),
            ("\u{201c}Yes, [every *day*],\u{201d} she said.", LEAVE_OUT),
            ("She sat, [in the *garden*]", "splunk"),
            ("She sat [in the *garden*]", "in the garden"),
        ] {
            assert_eq!(made(sentence, offer), None, "{sentence}");
        }
        // Beyond an edge nothing is replaced.
        assert_eq!(made("She [sat, the *garden*]", "hid"), None);
    }
}
