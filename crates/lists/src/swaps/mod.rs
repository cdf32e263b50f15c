//! What a writer may put in place of a word that the children cannot read yet: words and short phrases of the same meaning, and
//! others of the kind.
//!
//! The table was written and read twice for this project, for the stories that children of five to eight read. It is packed when the
//! crate is built and read in place.

mod forms;
mod phrase;
mod sentence;
mod table;

use crate::fitness::{Purpose, is_fit, is_fit_as_heard};
use crate::sounds::heard;
use untaught::{Judge, LessonIndex, Status, WordOrigin, fold_word};

use forms::{FormKind, bases};
use sentence::Likely;
use table::{Meaning, PartOfSpeech};

pub use sentence::Around;

/// How many swaps of the same meaning are offered at most.
pub const MOST_SWAPS: usize = 6;

/// How many others of the kind are offered at most.
pub const MOST_OF_THE_KIND: usize = 3;

/// A word or a short phrase that may take the place of another.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Swap {
    /// In the form of the word, with its capitals.
    pub text: String,
    /// The article that has to take the place of the one directly before the word: *an enormous* becomes *a big*.
    pub article: Option<&'static str>,
    /// Whether it takes *an*, not *a*.
    pub takes_an: bool,
    /// The meaning of the word that it stands for, where there are several; empty otherwise.
    pub sense: &'static str,
}

impl Swap {
    /// The text, after the article if that changes.
    #[must_use]
    pub fn with_article(&self) -> String {
        self.article.map_or_else(|| self.text.clone(), |article| format!("{article} {}", self.text))
    }
}

/// Whether the table has a word, in its base form.
pub(crate) fn has_headword(word: &str) -> bool {
    table::find(word).next().is_some()
}

/// Whether a word in lower case can be a verb in the past: *ran*, *jumped*.
pub(crate) fn is_past_of_verb(word: &str) -> bool {
    let is_verb = |base: &str| {
        forms::is_irregular_verb(base) || table::find(base).any(|meaning| meaning.part_of_speech == PartOfSpeech::Verb)
    };
    bases(word, is_verb).iter().any(|(_, form)| *form == FormKind::Past)
}

/// What may take the place of a word.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Swaps {
    /// What means the same, the nearest first; at most [`MOST_SWAPS`].
    pub same: Vec<Swap>,
    /// Other things of the same kind, which the writer may simply change to: *brown* to *red*; at most [`MOST_OF_THE_KIND`].
    pub of_the_kind: Vec<Swap>,
}

/// Words and phrases that can be read at a lesson, sounded out or as sight words, in the form of the word and with its capitals. The text
/// around the word tells a noun from a verb: *the light*, *they light*. Cost: some judgements of words; well under a millisecond.
///
/// ```
/// use untaught::{Judge, LessonIndex, Reader, Scope};
/// use untaught_lists::{Around, swaps};
///
/// let reader = Reader::default();
/// let scope = Scope::parse("format: 1\nlessons:\n- teach: [b, i, g]\n", &reader).unwrap();
/// let judge = Judge::new(&reader, &scope);
/// let found = swaps("Huge", Around { before: "the ", after: " kite" }, &judge, LessonIndex::FIRST);
/// assert_eq!(found.same[0].text, "Big");
/// ```
#[must_use]
pub fn swaps(word: &str, around: Around<'_>, judge: &Judge<'_>, lesson: LessonIndex) -> Swaps {
    let folded = fold_word(word);
    let (stem, owner) = folded.strip_suffix("'s").map_or((folded.as_str(), ""), |stem| (stem, "'s"));
    let meanings = meanings(stem, !owner.is_empty(), around);
    let several = meanings.len() > 1;
    let mut found = Swaps::default();
    for (meaning, form) in meanings {
        let sense = if several { meaning.sense } else { "" };
        let mut add = |phrase: &str, other: bool| {
            if !suits(meaning, form, phrase, around, other) {
                return;
            }
            let Some(made) = offered(phrase, meaning.part_of_speech, form, owner, judge, lesson) else { return };
            if made == stem || found.has(&like(word, &made)) || !around.takes(&made) {
                return;
            }
            let takes_an = takes_an(&made, judge);
            let article = around.article().and_then(|article| changed_article(article, takes_an));
            let (list, most) =
                if other { (&mut found.of_the_kind, MOST_OF_THE_KIND) } else { (&mut found.same, MOST_SWAPS) };
            if list.len() < most {
                list.push(Swap { text: like(word, &made), article, takes_an, sense });
            }
        };
        meaning.same().for_each(|phrase| add(phrase, false));
        meaning.of_the_kind().for_each(|phrase| add(phrase, true));
    }
    found
}

impl Swaps {
    /// Whether nothing is offered.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.same.is_empty() && self.of_the_kind.is_empty()
    }

    fn has(&self, text: &str) -> bool {
        self.same.iter().chain(&self.of_the_kind).any(|swap| swap.text == text)
    }
}

/// The meanings that a word may have in its sentence, each with the form in which it stands; only the likely ones, if some are.
fn meanings(word: &str, owns: bool, around: Around<'_>) -> Vec<(Meaning, FormKind)> {
    let known = |word: &str| table::find(&american(word)).next().is_some();
    let mut found: Vec<(Meaning, FormKind, Likely)> = Vec::new();
    let bases = bases(word, known);
    // *found* is the past of *find*, not to found something; *left* is the past of *leave* or a side.
    let is_past = bases.iter().any(|(_, form)| *form == FormKind::Past) && !word.ends_with("ed");
    for (base, form) in bases {
        for meaning in table::find(&american(&base)).filter(|meaning| form.fits(meaning.part_of_speech)) {
            let part_of_speech = meaning.part_of_speech;
            let unlike = is_past && form == FormKind::Base && part_of_speech == PartOfSpeech::Verb;
            if unlike || owns && part_of_speech != PartOfSpeech::Noun {
                continue;
            }
            let form = if form == FormKind::Past && around.wants_participle() { FormKind::Participle } else { form };
            let likely = around.likely(part_of_speech, form);
            found.push((meaning, form, likely));
        }
    }
    // Only the likeliest meaning of each part of speech: what else a word may mean, its sentence seldom means.
    let mut seen: Vec<(PartOfSpeech, &str)> = Vec::new();
    found.retain(|(meaning, ..)| {
        let key = (meaning.part_of_speech, meaning.word);
        let first = !seen.contains(&key);
        seen.push(key);
        first
    });
    let best = found.iter().map(|(.., likely)| *likely).max().unwrap_or(Likely::No);
    found.retain(|(.., likely)| *likely == best && best != Likely::No);
    found.into_iter().map(|(meaning, form, _)| (meaning, form)).collect()
}

/// Words with so many uses that what stands for one of them seldom stands for the one in a sentence.
const MANY_USES: &str = "about along around before through up way call see hold shake turn fall get take go make find set keep start leave \
    look love miss cry lie lay give put let feel seem sound open free snap catch pass play point run draw drop hang work stick strike bring \
    break carry clear fair fine form fresh hard high light line mark mind move note order part place pull raise rest right round run save \
    sense sharp side sort space stand state step still stop strong thing think time tip touch try view wear well while wind end together \
    minus service station clue rooftop people being";

/// Parts of the body: a hat goes on a head, not on a leg.
const OF_THE_BODY: &str = "ear arm knee head nose face tummy neck tail leg finger toe hand foot eye mouth chin hair wing paw back shoulder \
    elbow cheek beak claw tongue tooth thumb lap heel fur skin chest stomach belly lip ankle wrist hip";

/// Whether a phrase of the table suits the place of a word. `other`: it is another thing of the kind, not the same.
fn suits(meaning: Meaning, form: FormKind, phrase: &str, around: Around<'_>, other: bool) -> bool {
    let among = |list: &str| list.split(' ').any(|known| known == meaning.word);
    let is_noun = |word: &str| {
        let mut parts = table::find(word).map(|meaning| meaning.part_of_speech).peekable();
        parts.peek().is_some() && parts.all(|part| part == PartOfSpeech::Noun)
    };
    let long = phrase.contains(' ');
    if among(MANY_USES) {
        return false;
    }
    match meaning.part_of_speech {
        PartOfSpeech::Noun => {
            let frees = around.frees_noun(is_noun, form == FormKind::Base);
            frees && (!long || around.is_after_determiner()) && !(other && among(OF_THE_BODY))
        }
        PartOfSpeech::Verb => !(long && around.leads_to_particle()),
        PartOfSpeech::Adjective => !(other && around.binds_adjective()),
        PartOfSpeech::Adverb | PartOfSpeech::Other => true,
    }
}

/// A word of the table for one in British spelling: *color* for *colour*.
fn american(word: &str) -> std::borrow::Cow<'_, str> {
    if table::find(word).next().is_some() {
        return word.into();
    }
    for (british, american) in
        [("our", "or"), ("re", "er"), ("ise", "ize"), ("yse", "yze"), ("grey", "gray"), ("ll", "l")]
    {
        if word.contains(british) {
            let other = word.replacen(british, american, 1);
            if table::find(&other).next().is_some() {
                return other.into();
            }
        }
    }
    word.into()
}

/// A phrase of the table as it is offered, if it can be read and is fit.
fn offered(
    phrase: &str,
    part_of_speech: PartOfSpeech,
    form: FormKind,
    owner: &str,
    judge: &Judge<'_>,
    lesson: LessonIndex,
) -> Option<String> {
    // *the cup of milk's* is nobody's English.
    if !owner.is_empty() && phrase.contains(' ') {
        return None;
    }
    let is_word = |word: &str| is_fit(word, Purpose::OfferedForMeaning) && judge.reader().spells(word);
    let made = phrase::in_form(phrase, part_of_speech, form, is_word)? + owner;
    made.split(' ').all(|word| may_be_offered(word, judge, lesson)).then_some(made)
}

/// Whether a word is fit for children and can be read at the lesson, in each of its readings.
fn may_be_offered(word: &str, judge: &Judge<'_>, lesson: LessonIndex) -> bool {
    let verdict = judge.judge(word);
    let sounds = verdict.word.readings.first().and_then(heard).unwrap_or_default();
    if !is_fit_as_heard(word, &sounds, Purpose::OfferedForMeaning) {
        return false;
    }
    let status = verdict.status(lesson, false);
    (verdict.word.origin == WordOrigin::Dictionary || word.ends_with("'s"))
        && matches!(status, Status::Decodable | Status::Sight)
        && verdict.other_reading(lesson).is_none()
}

/// Whether a phrase begins with a vowel sound: *an old hen*, but *a unit*.
fn takes_an(phrase: &str, judge: &Judge<'_>) -> bool {
    let first = phrase.split(' ').next().unwrap_or_default();
    let read = judge.reader().read(first);
    let starts = read.readings.first().and_then(|reading| reading.parts.first());
    starts.is_some_and(|part| part.is_vowel() && !part.arpabet().starts_with(['Y', 'W']))
}

/// The article that has to stand before a phrase, if it is not the one that does.
fn changed_article(written: &str, takes_an: bool) -> Option<&'static str> {
    match (written, takes_an) {
        ("a", true) => Some("an"),
        ("A", true) => Some("An"),
        ("an", false) => Some("a"),
        ("An" | "AN", false) => Some("A"),
        _ => None,
    }
}

/// A word with the capitals of another.
fn like(written: &str, word: &str) -> String {
    let mut letters = written.chars().filter(|c| c.is_alphabetic());
    let capital = letters.next().is_some_and(char::is_uppercase);
    if !capital {
        return word.to_owned();
    }
    if letters.clone().next().is_some() && letters.all(char::is_uppercase) {
        return word.to_uppercase();
    }
    let mut rest = word.chars();
    rest.next().map_or_else(String::new, |first| first.to_uppercase().chain(rest).collect())
}
#[cfg(test)]
mod tests {
    use super::*;
    use untaught::{Reader, Scope};

    /// What is offered for the word between stars, at a lesson of the starter scope.
    fn found(sentence: &str, lesson: &str) -> Swaps {
        let reader = Reader::default();
        let scope = Scope::embedded("starter", &reader).unwrap();
        let (start, end) = (sentence.find('*').unwrap(), sentence.rfind('*').unwrap());
        let around = Around { before: &sentence[..start], after: &sentence[end + 1..] };
        let lesson = scope.index_of(lesson).unwrap();
        swaps(&sentence[start + 1..end], around, &Judge::new(&reader, &scope), lesson)
    }

    fn texts(swaps: &[Swap]) -> Vec<&str> {
        swaps.iter().map(|swap| swap.text.as_str()).collect()
    }

    #[test]
    fn the_form_the_capitals_and_the_article_follow_the_sentence() {
        let hurried = found("She *hurried* to the hut.", "28");
        assert!(texts(&hurried.same).contains(&"rushed"), "{hurried:?}");
        assert!(hurried.same.iter().all(|swap| !swap.text.starts_with("hurr")), "{hurried:?}");
        let big = found("It was *big*.", "60");
        assert!(big.same.iter().all(|swap| swap.article.is_none()), "{big:?}");
        let bears = found("The *Animals* ran.", "25");
        assert!(bears.of_the_kind.iter().chain(&bears.same).all(|swap| swap.text.starts_with(char::is_uppercase)));
        // *an apple* becomes *a plum*.
        let apple = found("He had an *apple*.", "25");
        let articles: Vec<Option<&str>> = apple.of_the_kind.iter().map(|swap| swap.article).collect();
        assert!(!articles.is_empty() && articles.iter().all(|article| *article == Some("a")), "{apple:?}");
        assert!(apple.of_the_kind[0].with_article().starts_with("a "), "{apple:?}");
    }

    #[test]
    fn every_phrase_of_the_table_is_of_ordinary_fit_words() {
        let reader = Reader::default();
        let mut unknown = Vec::new();
        let mut meanings = 0;
        for meaning in table::all() {
            meanings += 1;
            for phrase in meaning.same().chain(meaning.of_the_kind()) {
                for word in phrase.split(' ').map(|word| word.strip_suffix('*').unwrap_or(word)) {
                    if !reader.spells(word) {
                        unknown.push(format!("{}: {phrase}", meaning.word));
                    }
                    assert!(is_fit(word, Purpose::OfferedForMeaning), "{}: {phrase}", meaning.word);
                }
            }
        }
        assert!(unknown.is_empty(), "{unknown:?}");
        assert!(meanings > 900, "{meanings}");
    }

    /// In every form of every headword: all that is offered can be read and is fit, and there is not too much of it.
    #[test]
    fn only_readable_fit_words_are_offered_and_few() {
        let reader = Reader::default();
        let scope = Scope::embedded("starter", &reader).unwrap();
        let judge = Judge::new(&reader, &scope);
        let mut offered = 0;
        for lesson in ["15", "30", "60"] {
            let lesson = scope.index_of(lesson).unwrap();
            let mut last = "";
            for meaning in table::all() {
                if std::mem::replace(&mut last, meaning.word) == meaning.word {
                    continue;
                }
                for form in [FormKind::Base, FormKind::Plural, FormKind::Past, FormKind::Ing, FormKind::Est] {
                    let Some(word) = forms::spellings(meaning.word, form).into_iter().next() else { continue };
                    let found = swaps(&word, Around::default(), &judge, lesson);
                    assert!(found.same.len() <= MOST_SWAPS && found.of_the_kind.len() <= MOST_OF_THE_KIND, "{word}");
                    for swap in found.same.iter().chain(&found.of_the_kind) {
                        assert!(swap.text != word, "{word}");
                        for part in swap.text.split(' ') {
                            assert!(is_fit(part, Purpose::OfferedForMeaning), "{word}: {swap:?}");
                            assert!(may_be_offered(part, &judge, lesson), "{word}: {swap:?}");
                        }
                        offered += 1;
                    }
                }
            }
        }
        assert!(offered > 5_000, "{offered}");
        for word in ["", "splunked", "the cat", "é"] {
            assert!(swaps(word, Around::default(), &judge, scope.last()).is_empty(), "{word}");
        }
    }
}
