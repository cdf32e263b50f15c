//! What the neighbours of a word tell of it: *the light* is a thing or a colour, *they light* is what they do.
//!
//! Common practice, no source: a few words before and after, no grammar. Where they tell nothing, every meaning stays possible.

use untaught::fold_word;

use super::forms::FormKind;
use super::table::PartOfSpeech;

/// The text around a word.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Around<'t> {
    /// The text before it, as much as there is.
    pub before: &'t str,
    /// The text after it.
    pub after: &'t str,
}

/// How likely a word is meant so.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(crate) enum Likely {
    No,
    Perhaps,
    Yes,
}

/// What stands directly before or after a word in its sentence.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Neighbour {
    /// *the*, *his*, *Gran's*, *two*.
    Determiner,
    /// *they*, *can*, *don't*.
    Doer,
    /// *to*.
    To,
    /// *is*, *felt*, *very*.
    Being,
    /// *have*, *had*.
    Having,
    /// *in*, *with*.
    Preposition,
    /// *of*.
    Of,
    /// *and*, *not*, *that*.
    Other,
    /// The sentence or clause begins or ends here.
    Edge,
    /// Any other word.
    Content,
}

const DETERMINERS: &str = "a an the my your his her its our their this these those every each some any no another both two three \
     four five six seven eight nine ten many few all more most";
const DOERS: &str = "i he she they we you who can could will would shall should may might must let's please don't didn't won't \
     can't couldn't wouldn't doesn't cannot i'll he'll she'll they'll we'll you'll did does do";
const BEING: &str = "is was are were am be been being isn't wasn't aren't weren't it's he's she's that's i'm you're we're they're feel \
     feels felt look looks looked seem seems seemed sound sounded smell smelled taste tasted become became very so too quite really";
const HAVING: &str = "has have had i've you've we've they've hadn't haven't hasn't having got get getting gets";
const PREPOSITIONS: &str = "in on at with for from by under over near into onto up down off out about after before behind beside \
     between through across around along past like until inside outside without against than";
const OTHERS: &str = "and or but not if when while because that then as there here it him them us me what which where how just \
     now never always again soon away back together";

impl Neighbour {
    fn of(word: &str) -> Neighbour {
        let word = fold_word(word);
        let among = |list: &str| list.split(' ').any(|known| known == word);
        match () {
            () if word.is_empty() => Neighbour::Edge,
            () if word == "to" => Neighbour::To,
            () if word == "of" => Neighbour::Of,
            () if among(BEING) => Neighbour::Being,
            () if among(DETERMINERS) || word.ends_with("'s") || word.ends_with("s'") => Neighbour::Determiner,
            () if among(DOERS) => Neighbour::Doer,
            () if among(HAVING) => Neighbour::Having,
            () if among(PREPOSITIONS) => Neighbour::Preposition,
            () if among(OTHERS) => Neighbour::Other,
            () => Neighbour::Content,
        }
    }
}

impl<'t> Around<'t> {
    /// The text around a stretch of a text, in bytes. Empty where the stretch is not one of the text.
    #[must_use]
    pub fn of(text: &'t str, span: &std::ops::Range<usize>) -> Around<'t> {
        let (before, after) = (text.get(..span.start), text.get(span.end..));
        Around { before: before.unwrap_or_default(), after: after.unwrap_or_default() }
    }

    /// The words before, the nearest first: empty from the edge of a clause on.
    fn words_before(self) -> [&'t str; 3] {
        let mut rest = self.before;
        [(); 3].map(|()| {
            let Some(spaced) = rest.strip_suffix([' ', '\n', '\u{a0}']) else { return "" };
            let end = spaced.trim_end_matches([' ', '\n', '\r', '\u{a0}']);
            let start = end.rfind(|c: char| !is_letter(c)).map_or(0, |at| at + char_length(end, at));
            rest = &end[..start];
            &end[start..]
        })
    }

    /// The word directly after; empty at the edge of a clause.
    fn word_after(self) -> &'t str {
        let Some(spaced) = self.after.strip_prefix([' ', '\n', '\r', '\u{a0}']) else { return "" };
        let start = spaced.trim_start_matches([' ', '\n', '\r', '\u{a0}']);
        let end = start.find(|c: char| !is_letter(c)).unwrap_or(start.len());
        &start[..end]
    }

    /// The article directly before: *a* or *an*, as written.
    pub(crate) fn article(self) -> Option<&'t str> {
        let [before, ..] = self.words_before();
        let spaced = self.before.ends_with(' ') && matches!(before, "a" | "A" | "an" | "An" | "AN");
        spaced.then_some(before)
    }

    /// Whether a singular noun can give way to another here: there is a *the* or *my* before it that goes with the other as well, and the word
    /// is no half of a compound such as *life jacket*, *washing basket* or *post office*. `may_be_noun` says it of a word.
    pub(crate) fn frees_noun(self, may_be_noun: impl Fn(&str) -> bool, is_singular: bool) -> bool {
        let before = self.words_before();
        let own = before.iter().map(|word| Neighbour::of(word)).take_while(|one| *one != Neighbour::Edge);
        let own: Vec<Neighbour> = own.collect();
        let determined = own.contains(&Neighbour::Determiner);
        let first = fold_word(before[0]);
        let halves = may_be_noun(&first) || own.get(1) == Some(&Neighbour::Determiner) && first.ends_with("ing");
        let halved = own.first() == Some(&Neighbour::Content) && halves && !before[0].starts_with(char::is_uppercase);
        let after = fold_word(self.word_after());
        let leads_on = Neighbour::of(&after) == Neighbour::Content && may_be_noun(&after);
        (determined || !is_singular) && !halved && !leads_on
    }

    /// Whether a noun or an adjective before one follows a *the*, and what follows is its noun: *the bouncing ball*.
    pub(crate) fn is_before_noun(self) -> bool {
        let [before, ..] = self.words_before().map(Neighbour::of);
        before == Neighbour::Determiner && Neighbour::of(self.word_after()) == Neighbour::Content
    }

    /// Whether the word is told how much of it there is: *so many*, *very loud*. Another *very* has no place there, nor has a phrase.
    pub(crate) fn is_graded(self) -> bool {
        const GRADES: &str = "so too very as how quite rather really such pretty more most that";
        let before = fold_word(self.words_before()[0]);
        GRADES.split(' ').any(|grade| grade == before) || fold_word(self.word_after()) == "as"
    }

    /// Whether a phrase can stand for an adverb here: at the beginning or end of a clause, or before *into the hut*.
    pub(crate) fn is_at_edge(self) -> bool {
        let [before, ..] = self.words_before().map(Neighbour::of);
        let after = Neighbour::of(self.word_after());
        before == Neighbour::Edge || matches!(after, Neighbour::Edge | Neighbour::Preposition)
    }

    /// Whether a thing can change its color here without another of the sentence: before its noun, no color beside it.
    pub(crate) fn frees_color(self) -> bool {
        const COLORS: &str =
            "red blue green yellow orange purple pink brown black white gray grey gold golden silver tan";
        let near = |word: &str| COLORS.split(' ').any(|color| color == fold_word(word));
        let end = |c: char| matches!(c, '.' | '!' | '?' | '\n');
        let before = self.before.rsplit(end).next().unwrap_or_default();
        let after = self.after.split(end).next().unwrap_or_default();
        let words = before.split(|c| !is_letter(c)).chain(after.split(|c| !is_letter(c)));
        Neighbour::of(self.word_after()) == Neighbour::Content && !words.into_iter().any(near)
    }

    /// Whether an adjective is one half of a phrase here: *as tall as*, *fast asleep*, *wide open*.
    pub(crate) fn binds_adjective(self) -> bool {
        let before = fold_word(self.words_before()[0]);
        matches!(before.as_str(), "as" | "fast" | "wide" | "sound") || fold_word(self.word_after()) == "as"
    }

    /// How likely a word in a form is a certain part of speech here.
    pub(crate) fn likely(self, part_of_speech: PartOfSpeech, form: FormKind) -> Likely {
        use Likely::{No, Perhaps, Yes};
        use PartOfSpeech::{Adjective, Adverb, Noun, Other, Verb};
        let [before, ..] = self.words_before().map(Neighbour::of);
        let after = Neighbour::of(self.word_after());
        let finite = matches!(form, FormKind::Base | FormKind::S);
        // *the red kite*: the word after is what the determiner belongs to.
        let leads_on = matches!(after, Neighbour::Content);
        match (before, part_of_speech) {
            // *behind the house*, but *from behind*.
            (_, Other) if matches!(after, Neighbour::Determiner) => Yes,
            (_, Adverb) if matches!(after, Neighbour::Edge) && before != Neighbour::Determiner => Yes,
            (_, Other) => Perhaps,
            (Neighbour::Determiner | Neighbour::Of, Verb) if finite => No,
            (Neighbour::Determiner | Neighbour::Of | Neighbour::Preposition, Noun) if !leads_on => Yes,
            (Neighbour::Determiner | Neighbour::Of | Neighbour::Preposition, Adjective) if leads_on => Yes,
            (Neighbour::Determiner, Adverb) if !leads_on => No,
            (Neighbour::Doer, Verb) => Yes,
            (Neighbour::Doer, Noun | Adjective) => No,
            (Neighbour::To, Verb) if form == FormKind::Base => Yes,
            (Neighbour::Being, Verb) if finite => No,
            (Neighbour::Being, Adjective) => Yes,
            (Neighbour::Being, Verb) => Yes,
            (Neighbour::Preposition, Verb) if finite => No,
            (_, Verb) if matches!(after, Neighbour::Determiner) => Yes,
            (_, Noun) if after == Neighbour::Of => Yes,
            (Neighbour::Edge, Verb) if form == FormKind::Base && after != Neighbour::Content => Perhaps,
            _ => Perhaps,
        }
    }

    /// Whether a verb stands after *have* or *be* here, so that *chased* is the participle: *had chased*, *was just chased*.
    pub(crate) fn wants_participle(self) -> bool {
        let [before, earlier, _] = self.words_before().map(Neighbour::of);
        let after_be = |neighbour| matches!(neighbour, Neighbour::Having | Neighbour::Being);
        after_be(before) || before == Neighbour::Other && after_be(earlier)
    }
}

/// Whether a folded word belongs before a noun as *the* does: *his*, *Gran's*, *two*, *3*.
pub(crate) fn is_determiner(word: &str) -> bool {
    const LIST: &str =
        "a an the my your his her its our their this that these those one two three four five six seven eight nine ten";
    const CONTRACTED: &str = "it's he's she's that's there's what's who's where's here's how's let's when's one's";
    let among = |list: &str| list.split(' ').any(|known| known == word);
    let owns = (word.ends_with("'s") || word.ends_with("s'")) && !among(CONTRACTED);
    owns || among(LIST) || !word.is_empty() && word.chars().all(|c| c.is_ascii_digit())
}

/// Whether a word is none of those that hold sentences together.
pub(crate) fn is_content(word: &str) -> bool {
    Neighbour::of(word) == Neighbour::Content
}

fn is_letter(c: char) -> bool {
    c.is_alphabetic() || matches!(c, '\'' | '\u{2019}')
}

fn char_length(text: &str, at: usize) -> usize {
    text[at..].chars().next().map_or(1, char::len_utf8)
}

#[cfg(test)]
mod tests {
    use super::*;
    use Likely::{No, Perhaps, Yes};
    use PartOfSpeech::{Adjective, Noun, Verb};

    #[test]
    fn the_neighbours_tell_what_a_word_is() {
        for (sentence, part_of_speech, form, likely) in [
            ("The *light* went out.", Noun, FormKind::Base, Perhaps),
            ("Put the *light* on.", Noun, FormKind::Base, Yes),
            ("Put the *light* on.", Verb, FormKind::Base, No),
            ("They *light* a lamp.", Verb, FormKind::Base, Yes),
            ("They *light* a lamp.", Noun, FormKind::Base, No),
            ("The box is *light*.", Adjective, FormKind::Base, Yes),
            ("The box is *light*.", Verb, FormKind::Base, No),
            ("A *light* box", Adjective, FormKind::Base, Yes),
            ("Gran’s *light* is on", Noun, FormKind::Base, Yes),
            ("She wants to *light* it", Verb, FormKind::Base, Yes),
            ("*light*", Noun, FormKind::Base, Perhaps),
            ("é *light*", Noun, FormKind::Base, Perhaps),
            ("\n*light*\n\n", Verb, FormKind::Base, Perhaps),
        ] {
            let start = sentence.find('*').unwrap();
            let end = sentence.rfind('*').unwrap() + 1;
            let around = Around::of(sentence, &(start..end));
            assert_eq!(around.likely(part_of_speech, form), likely, "{sentence} {part_of_speech:?}");
        }
    }

    #[test]
    fn halves_of_phrases_are_seen() {
        let after = |after| Around { before: "", after };
        assert!(Around { before: "was fast ", after: "" }.binds_adjective() && after(" as a hat").binds_adjective());
        assert!(!after(" cat").binds_adjective());
    }

    #[test]
    fn participles_are_known_by_their_helpers() {
        for (before, wants) in
            [("She had ", true), ("It was just ", true), ("She ", false), ("", false), ("had. She ", false)]
        {
            assert_eq!(Around { before, after: "" }.wants_participle(), wants, "{before}");
        }
    }
}
