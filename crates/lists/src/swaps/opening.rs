//! A word before a comma that opens a sentence and may go with it: *Suddenly, the cat ran* is *The cat ran*.

use super::place::Place;
use super::reword::Rewording;
use super::sentence::Around;
use super::table::{self, PartOfSpeech};
use untaught::fold_word;

/// What opens a sentence beside the adverbs in *-ly*.
const OPENINGS: &str = "afterward afterwards meanwhile instead now today tonight yesterday tomorrow sometimes soon later next first then \
    well oh ah hey hmm anyway besides however perhaps once still too again";

/// A sentence without the word that opens it, and with a capital on the next.
pub(super) fn without_opening(word: &str, place: &Place<'_>, around: Around<'_>) -> Option<Rewording> {
    let folded = fold_word(word);
    let is_adverb = || table::find(&folded).any(|one| one.part_of_speech == PartOfSpeech::Adverb);
    let opens = OPENINGS.split(' ').any(|one| one == folded) || folded.ends_with("ly") && is_adverb();
    if !opens || !place.begins() || word.chars().nth(1).is_some_and(char::is_uppercase) {
        return None;
    }
    let next = around.after.strip_prefix(',')?.trim_start_matches([' ', '\n']);
    let gap = &around.after[..around.after.len() - next.len()];
    let end = next.find(|c: char| !c.is_alphanumeric() && !matches!(c, '\'' | '\u{2019}' | '-')).unwrap_or(next.len());
    let follows = &next[..end];
    // Only one line is joined, and what follows is a word: no closing quotation mark, no *oh, oh*.
    if gap.len() < 2 || gap.matches('\n').count() > 1 || !follows.starts_with(char::is_alphabetic) {
        return None;
    }
    if fold_word(follows) == folded {
        return None;
    }
    let mut rest = follows.chars();
    let new: String = rest.next()?.to_uppercase().chain(rest).collect();
    Some(Rewording { old: [word, gap, follows].concat(), before: 0, after: gap.len() + follows.len(), new })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn made(before: &str, word: &str, after: &str) -> Option<(String, String)> {
        let around = Around { before, after };
        without_opening(word, &Place::of(word, around), around).map(|made| (made.old, made.new))
    }

    #[test]
    fn the_next_word_begins_the_sentence() {
        for (before, word, after, old, new) in [
            ("She sat. ", "Suddenly", ", the cat ran.", "Suddenly, the", "The"),
            ("She sat. \u{201c}", "Oh", ", I am sad.\u{201d}", "Oh, I", "I"),
            ("", "Afterwards", ",\nFenn hid.", "Afterwards,\nFenn", "Fenn"),
        ] {
            assert_eq!(made(before, word, after), Some((old.to_owned(), new.to_owned())));
        }
    }

    #[test]
    fn only_what_opens_a_sentence_may_go_so() {
        for (before, word, after) in [
            ("She sat, ", "suddenly", ", and hid."),
            ("She sat. ", "Suddenly", " the cat ran."),
            ("She sat. ", "Reply", ", the cat said."),
            ("\u{201c}", "Oh", ",\u{201d} said Fenn."),
            ("\u{201c}", "Oh", ", oh!\u{201d} said Fenn."),
            ("", "Suddenly", ",\n\nthe end"),
        ] {
            assert_eq!(made(before, word, after), None, "{before}{word}{after}");
        }
    }
}
