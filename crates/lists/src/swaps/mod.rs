//! What a writer may put in place of a word that the children cannot read yet: words and short phrases of the same meaning, and
//! others of the kind.
//!
//! What is written for a form of a word in a context (`context`) is surest and comes first; the table knows only the word and guesses its
//! part of speech from its neighbours.
//!
//! The table was written and read twice for this project, for the stories that children of five to eight read. It is packed when the
//! crate is built and read in place.

mod classes;
mod context;
mod forms;
mod meaning;
mod opening;
mod place;
mod plain_verb;
mod question;
mod reword;
mod sentence;
mod table;
#[cfg(test)]
mod tests;

use std::ops::Range;

use untaught::{Judge, LessonIndex};

use context::{Asked, LEAVE_OUT};
use forms::{FormKind, bases};
use meaning::may_be_noun;
use question::Question;
use table::PartOfSpeech;

pub use reword::Rewording;
pub use sentence::Around;

/// How many swaps of the same meaning are offered at most.
pub const MOST_SWAPS: usize = 6;

/// How many others of the kind are offered at most.
pub const MOST_OF_THE_KIND: usize = 3;

/// How many rewordings are offered at most.
pub const MOST_REWORDINGS: usize = 4;

/// How many offers of the same meaning come from the table, or as a last resort, at most. Of the first more are usable than of the later
/// ones.
const MOST_UNSURE: usize = 2;

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
    let question = Question::new(word, around, judge, lesson);
    let is_title = place::is_in_title(word, around);
    if !is_title && classes::is_named(word, &question.place) {
        // Of a name only a title may go: *Captain Lu*.
        return Swaps { same: Vec::new(), rewordings: Vec::new(), ..question.in_context(Asked::First) };
    }
    let mut found = if is_title { Swaps::default() } else { question.in_context(Asked::First) };
    // What is written for the context is surer than what the table knows of the word alone.
    if found.same.is_empty() && found.rewordings.is_empty() {
        question.add_from_table(&mut found, is_title);
    }
    if found.is_empty() && !is_title {
        found = question.in_context(Asked::Last);
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

    /// Adds an offer, unless it is there already or the list is full.
    fn add(&mut self, made: &str, sense: &'static str, other: bool, question: &Question<'_>) {
        let text = like(question.word, made);
        let again = self.has(&text);
        let takes_an = question.takes_an(made);
        let article = question.around.article().and_then(|article| changed_article(article, takes_an));
        let (list, most) = if other { (&mut self.of_the_kind, MOST_OF_THE_KIND) } else { (&mut self.same, MOST_SWAPS) };
        if !again && list.len() < most {
            list.push(Swap { text, article, takes_an, sense });
        }
    }

    fn has(&self, text: &str) -> bool {
        self.same.iter().chain(&self.of_the_kind).any(|swap| swap.text == text)
    }
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
