//! What a writer may put in place of a word that the children cannot read yet: words and short phrases of the same meaning, and
//! others of the kind.
//!
//! What is written for a form of a word in a context (`context`) is surest and comes first; the table knows only the word and guesses its
//! part of speech from its neighbours.
//!
//! The table was written and read twice for this project, for the stories that children of five to eight read. It is packed when the
//! crate is built and read in place.

mod context;
mod forms;
mod meaning;
mod opening;
mod place;
mod plain_verb;
mod reword;
mod sentence;
mod table;
#[cfg(test)]
mod tests;

use std::ops::Range;

use crate::fitness::{Purpose, is_fit, is_fit_as_heard};
use crate::sounds::heard;
use untaught::{Judge, LessonIndex, Status, WordOrigin, fold_word};

use context::{Asked, LEAVE_OUT, Offer};
use forms::{FormKind, bases, spellings};
use meaning::{american_spellings, may_be_noun, meanings, suits};
use opening::without_opening;
use place::Place;
use plain_verb::plain_past;
use table::PartOfSpeech;

pub use reword::Rewording;
use reword::rewording;
pub use sentence::Around;

/// How many swaps of the same meaning are offered at most.
pub const MOST_SWAPS: usize = 6;

/// How many others of the kind are offered at most.
pub const MOST_OF_THE_KIND: usize = 3;

/// How many rewordings are offered at most.
pub const MOST_REWORDINGS: usize = 4;

/// How many offers of the same meaning come from the table at most. Of its first offers more are usable than of the later ones.
const MOST_FROM_THE_TABLE: usize = 2;

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
    /// The word and some of its neighbours said in another way: *in the garden* as *on the grass*; at most [`MOST_REWORDINGS`].
    pub rewordings: Vec<Rewording>,
    /// Whether the word may simply go: *gently* in *she put it gently under the sofa*.
    pub leave_out: bool,
    /// The article that has to take the place of the one directly before if the word goes: *an enormous tent* becomes *a tent*.
    pub article_without: Option<&'static str>,
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
/// let found = swaps("huge", Around { before: "the ", after: " kite" }, &judge, LessonIndex::FIRST);
/// assert_eq!(found.same[0].text, "big");
/// ```
#[must_use]
pub fn swaps(word: &str, around: Around<'_>, judge: &Judge<'_>, lesson: LessonIndex) -> Swaps {
    if place::is_hyphened(around) || place::is_of_owners(word, around) {
        return Swaps::default();
    }
    let place = Place::of(word, around);
    let is_title = place::is_in_title(word, around);
    if !is_title && context::is_named(word, &place) {
        return in_context_of_name(word, &place, around, judge, lesson);
    }
    let contexts = |asked| in_context(word, &place, around, judge, lesson, asked);
    let mut found = if is_title { Swaps::default() } else { contexts(Asked::First) };
    // What is written for the context is surer than what the table knows of the word alone.
    if found.same.is_empty() && found.rewordings.is_empty() {
        found.add_from_table(word, &place, is_title, around, judge, lesson);
    }
    if found.is_empty() && !is_title {
        found = contexts(Asked::Last);
    }
    found
}

/// How many places of a word are asked about at most.
const MOST_PLACES: usize = 12;

/// What may take the place of a word in the first of its places where anything may, and which of them that is, counted from 0. Of `places`,
/// in bytes of `text`, the first twelve are asked about. Cost: that of [`swaps`] for each.
#[must_use]
pub fn swaps_somewhere(text: &str, places: &[Range<usize>], judge: &Judge<'_>, lesson: LessonIndex) -> (usize, Swaps) {
    let at = |place: &Range<usize>| {
        let word = text.get(place.clone()).unwrap_or_default();
        swaps(word, Around::of(text, place), judge, lesson)
    };
    let found = places.iter().take(MOST_PLACES).map(at).enumerate().find(|(_, found)| !found.is_empty());
    found.unwrap_or_default()
}

/// What is offered for a word that is written as a name: only that a title may go, *Captain Lu*.
fn in_context_of_name(
    word: &str,
    place: &Place<'_>,
    around: Around<'_>,
    judge: &Judge<'_>,
    lesson: LessonIndex,
) -> Swaps {
    Swaps { same: Vec::new(), rewordings: Vec::new(), ..in_context(word, place, around, judge, lesson, Asked::First) }
}

/// What is offered for a word in its context.
fn in_context(
    word: &str,
    place: &Place<'_>,
    around: Around<'_>,
    judge: &Judge<'_>,
    lesson: LessonIndex,
    asked: Asked,
) -> Swaps {
    const LEANS: &str = "so too as how not only no than for if hardly at";
    // *the wet and cold dog*, *sad of him*: what the word leans on would be left.
    const LEANED_ON: &str = "and or but of than enough that";
    // *a loud voice*, *a long time* say little without their word.
    const BARE: &str = "one ones time times way ways voice voices thing things day days look bit lot deal mood smell idea feeling place sort";
    let folded = fold_word(word);
    let mut found = Swaps::default();
    for form in std::iter::once(folded.clone()).chain(american_spellings(&folded)) {
        for Offer { text: offer, with, of_the_kind } in context::offers(&form, place, asked) {
            if with != [0, 0] {
                found.reword(rewording(word, place, around, with, &offer, judge, lesson));
                continue;
            }
            // *another egg* is *an egg*.
            let is_article = offer == "a" && takes_an(&fold_word(place.word_after()), judge);
            let offer = if is_article { "an" } else { offer.as_str() };
            if offer == LEAVE_OUT {
                let before = place.word_before();
                let graded = matches!(before.as_str(), "very" | "quite" | "rather" | "really") && folded != "very";
                let leans = graded || LEANS.split(' ').any(|one| one == before);
                let after = fold_word(place.word_after());
                let leaned_on = LEANED_ON.split(' ').any(|one| one == after);
                let determined = sentence::is_determiner(&before);
                let bare = determined && !after.is_empty() && !sentence::is_content(&after);
                let told = determined && (BARE.split(' ').any(|one| one == after) || place.is_told());
                found.leave_out |= !leans && !leaned_on && !bare && !told && !place.begins();
            } else if offer != folded && offer.split(' ').all(|word| may_be_offered(word, judge, lesson)) {
                found.add(word, offer, "", around, judge, of_the_kind);
            }
        }
    }
    if asked == Asked::First {
        found.reword(without_opening(word, place, around));
    }
    if let Some((pasts, with)) = plain_past(word, place).filter(|_| asked == Asked::First) {
        pasts.iter().for_each(|past| found.reword(rewording(word, place, around, with, past, judge, lesson)));
    }
    if let Some(article) = around.article().filter(|_| found.leave_out) {
        found.article_without = changed_article(article, takes_an(&fold_word(place.word_after()), judge));
    }
    found
}

impl Swaps {
    /// Whether nothing is offered.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.same.is_empty() && self.of_the_kind.is_empty() && self.rewordings.is_empty() && !self.leave_out
    }

    /// Adds a rewording, unless it is there already or the list is full.
    fn reword(&mut self, made: Option<Rewording>) {
        let room = self.rewordings.len() < MOST_REWORDINGS;
        self.rewordings.extend(made.filter(|made| room && !self.rewordings.contains(made)));
    }

    /// Adds what the table knows of a word.
    fn add_from_table(
        &mut self,
        word: &str,
        place: &Place<'_>,
        is_title: bool,
        around: Around<'_>,
        judge: &Judge<'_>,
        lesson: LessonIndex,
    ) {
        let folded = fold_word(word);
        let (stem, owner) = folded.strip_suffix("'s").map_or((folded.as_str(), ""), |stem| (stem, "'s"));
        let meanings = meanings(stem, !owner.is_empty(), around);
        let several = meanings.len() > 1;
        // A word without a text is asked about for itself.
        let only_adverbs = place.is_alone() && around != Around::default();
        for (meaning, form) in meanings {
            let sense = if several { meaning.sense } else { "" };
            let is_adverb = meaning.part_of_speech == PartOfSpeech::Adverb;
            // *“Surprise!”*, *Oh dear*: what is said alone is seldom what it is in a sentence. *Suddenly, it* is.
            if only_adverbs && !(is_adverb && place.begins() && around.after.starts_with(',')) {
                continue;
            }
            if is_title && matches!(meaning.part_of_speech, PartOfSpeech::Adverb | PartOfSpeech::Other) {
                continue;
            }
            // *because of*, *out of*: the two are one.
            if meaning.part_of_speech == PartOfSpeech::Other && place.word_after() == "of" {
                continue;
            }
            let mut add = |phrase: &str, other: bool| {
                if !suits(meaning, form, phrase, around, other) || is_title && phrase.contains(' ') {
                    return;
                }
                let Some(made) = offered(phrase, form, owner, judge, lesson) else { return };
                let enough = !other && self.same.len() >= MOST_FROM_THE_TABLE;
                if made != stem && !enough {
                    self.add(word, &made, sense, around, judge, other);
                }
            };
            meaning.same().for_each(|phrase| add(phrase, false));
            let stays = is_title || place.is_likened();
            meaning.of_the_kind().filter(|_| !stays).for_each(|phrase| add(phrase, true));
        }
    }

    /// Adds an offer, unless it is there already or the list is full.
    fn add(&mut self, word: &str, made: &str, sense: &'static str, around: Around<'_>, judge: &Judge<'_>, other: bool) {
        let text = like(word, made);
        let again = self.has(&text);
        let takes_an = takes_an(made, judge);
        let article = around.article().and_then(|article| changed_article(article, takes_an));
        let (list, most) = if other { (&mut self.of_the_kind, MOST_OF_THE_KIND) } else { (&mut self.same, MOST_SWAPS) };
        if !again && list.len() < most {
            list.push(Swap { text, article, takes_an, sense });
        }
    }

    fn has(&self, text: &str) -> bool {
        self.same.iter().chain(&self.of_the_kind).any(|swap| swap.text == text)
    }
}

/// A phrase of the table as it is offered, if it can be read and is fit.
fn offered(phrase: &str, form: FormKind, owner: &str, judge: &Judge<'_>, lesson: LessonIndex) -> Option<String> {
    // *in a bitter* is no form of *in a bit*.
    if phrase.contains(' ') && (form != FormKind::Base || !owner.is_empty()) {
        return None;
    }
    let is_word = |word: &str| is_fit(word, Purpose::OfferedForMeaning) && judge.reader().spells(word);
    let mut formed = if form == FormKind::Base { vec![phrase.to_owned()] } else { spellings(phrase, form) };
    formed.retain(|made| made.split(' ').all(is_word));
    let made = formed.into_iter().next()? + owner;
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
