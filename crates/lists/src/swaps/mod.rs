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
mod phrase;
mod place;
mod sentence;
mod table;

use crate::fitness::{Purpose, is_fit, is_fit_as_heard};
use crate::sounds::heard;
use untaught::{Judge, LessonIndex, Status, WordOrigin, fold_word};

use context::LEAVE_OUT;
use forms::{FormKind, bases};
use place::Place;
use sentence::Likely;
use table::{Meaning, PartOfSpeech};

pub use sentence::Around;

/// How many swaps of the same meaning are offered at most.
pub const MOST_SWAPS: usize = 6;

/// How many others of the kind are offered at most.
pub const MOST_OF_THE_KIND: usize = 3;

/// From so many offers for the context on, the table is not asked.
const ENOUGH_IN_CONTEXT: usize = 2;

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
    if place::is_hyphened(around) {
        return Swaps::default();
    }
    let place = Place::of(word, around);
    let is_title = place::is_in_title(word, around);
    if !is_title && context::is_named(word, &place) {
        return in_context_of_name(word, &place, around, judge, lesson);
    }
    let mut found = if is_title { Swaps::default() } else { in_context(word, &place, around, judge, lesson) };
    // What is written for the context is surer than what the table knows of the word alone.
    if found.same.len() >= ENOUGH_IN_CONTEXT {
        return found;
    }
    let fits_context = !found.same.is_empty();
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
        let mut add = |phrase: &str, other: bool| {
            if !suits(meaning, form, phrase, around, other) || is_title && phrase.contains(' ') {
                return;
            }
            let Some(made) = offered(phrase, meaning.part_of_speech, form, owner, judge, lesson) else { return };
            if made != stem && around.takes(&made) {
                found.add(word, &made, sense, around, judge, other);
            }
        };
        meaning.same().for_each(|phrase| add(phrase, false));
        let stays = fits_context || is_title && meaning.part_of_speech == PartOfSpeech::Adjective;
        meaning.of_the_kind().filter(|_| !stays).for_each(|phrase| add(phrase, true));
    }
    found
}

/// What is offered for a word that is written as a name: only that a title may go, *Captain Lu*.
fn in_context_of_name(
    word: &str,
    place: &Place<'_>,
    around: Around<'_>,
    judge: &Judge<'_>,
    lesson: LessonIndex,
) -> Swaps {
    Swaps { same: Vec::new(), ..in_context(word, place, around, judge, lesson) }
}

/// What is offered for a word in its context.
fn in_context(word: &str, place: &Place<'_>, around: Around<'_>, judge: &Judge<'_>, lesson: LessonIndex) -> Swaps {
    const LEANS: &str = "so too as how not only no than for if hardly at";
    // *the wet and cold dog*, *sad of him*: what the word leans on would be left.
    const LEANED_ON: &str = "and or but of than enough that";
    let folded = fold_word(word);
    let mut found = Swaps::default();
    for form in std::iter::once(folded.clone()).chain(american_spellings(&folded)) {
        for offer in context::offers(&form, place) {
            // *another egg* is *an egg*.
            let is_article = offer == "a" && takes_an(&fold_word(place.word_after()), judge);
            let offer = if is_article { "an" } else { offer.as_str() };
            if offer == LEAVE_OUT {
                let before = place.word_before();
                let graded = matches!(before.as_str(), "very" | "quite" | "rather" | "really") && folded != "very";
                let leans = graded || LEANS.split(' ').any(|one| one == before);
                let after = fold_word(place.word_after());
                let leaned_on = LEANED_ON.split(' ').any(|one| one == after);
                let bare = sentence::is_determiner(&before) && !after.is_empty() && !sentence::is_content(&after);
                found.leave_out |= !leans && !leaned_on && !bare && !place.begins();
            } else if offer != folded && offer.split(' ').all(|word| may_be_offered(word, judge, lesson)) {
                found.add(word, offer, "", around, judge, false);
            }
        }
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
        self.same.is_empty() && self.of_the_kind.is_empty() && !self.leave_out
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
    let parts: Vec<(PartOfSpeech, FormKind)> =
        found.iter().map(|(meaning, form, _)| (meaning.part_of_speech, *form)).collect();
    if let Some(part) = likeliest(word, &parts, around) {
        found.retain(|(meaning, ..)| meaning.part_of_speech == part);
    }
    found.into_iter().map(|(meaning, form, _)| (meaning, form)).collect()
}

/// Words that are more often what someone does than a thing, in stories for children.
const VERBS_FIRST: &str = "act answer ask attack beat bend bite blow break bump burn call change chase climb clap cough cover crash cry cut dance \
    dash dig dive draw dream drift drink drip drive drop echo escape fall fear fight finish flap flip float flow fly fold gasp giggle glow \
    go grin grip growl guess help hide hit hold hop hope howl hug hum hunt hurry jump keep kick kiss knock laugh lead leak lean leap lick lie \
    lift listen live look love march mind move nap nod offer open pack pass pat pay peek pick play poke pop pour press promise pull push race \
    reach repair reply rest ride ring roar roll rub run rush sail scream scare search shake share shine shoot shout show shut sigh skip \
    sleep slide slip smell smile snap sneeze sniff snore spill spin splash split spread squeak squeeze stand stare start stay step stir stop \
    stretch stroke swallow swap sweep swim swing talk tap taste tear think throw tip touch treat try turn twist type visit wait wake walk \
    wander wash watch wave welcome whisper whistle wipe wish wobble wonder work worry wrap yawn yell";

/// The part of speech that a word most often is in stories, of those that its neighbours leave possible.
fn likeliest(word: &str, parts: &[(PartOfSpeech, FormKind)], around: Around<'_>) -> Option<PartOfSpeech> {
    use PartOfSpeech::{Adjective, Noun, Verb};
    let has = |part| parts.iter().find(|(one, _)| *one == part).map(|(_, form)| *form);
    let base = |form| bases(word, has_headword).into_iter().find(|(_, one)| *one == form).map(|(base, _)| base);
    let is_verb_first = |form| base(form).is_some_and(|base| VERBS_FIRST.split(' ').any(|verb| verb == base));
    match (has(Noun), has(Verb), has(Adjective)) {
        // *Dimple puffed* and *bouncing over the waves* are what they do; *a bouncing ball* is what it is like.
        (_, Some(form), Some(FormKind::Base)) if form != FormKind::Base => {
            Some(if around.is_before_noun() { Adjective } else { Verb })
        }
        (_, Some(form), Some(_)) => Some(if is_verb_first(form) { Verb } else { Adjective }),
        (Some(_), Some(form), None) => Some(if is_verb_first(form) { Verb } else { Noun }),
        (Some(_), None, Some(_)) => Some(Adjective),
        _ => None,
    }
}

/// Words with so many uses that what stands for one of them seldom stands for the one in a sentence.
const MANY_USES: &str = "about along around before through up way call see hold shake turn fall get take go make find set keep start leave \
    look love miss cry lie lay give put let feel seem sound open free snap catch pass play point run draw drop hang work stick strike bring \
    break carry clear fair fine form fresh hard high light line mark mind move note order part place pull raise rest right round run save \
    sense sharp side sort space stand state step still stop strong thing think time tip touch try view wear well while wind end together \
    minus service station clue rooftop people being";

/// Numbers, which may be others of them.
const NUMBERS: &str = "two three four five six seven eight nine ten";

/// Adverbs that say how much, and stand before what they tell it of.
const OF_DEGREE: &str = "almost nearly quite rather pretty totally fully completely only";

/// Parts of the body: a hat goes on a head, not on a leg.
const OF_THE_BODY: &str = "ear arm knee head nose face tummy neck tail leg finger toe hand foot eye mouth chin hair wing paw back shoulder \
    elbow cheek beak claw tongue tooth thumb lap heel fur skin chest stomach belly lip ankle wrist hip";

/// Whether a folded word can be a noun, for one or more, and is no verb in the past.
fn may_be_noun(word: &str) -> bool {
    let forms = bases(word, has_headword);
    let is_past = forms.iter().any(|(_, form)| *form == FormKind::Past);
    let noun = |(base, form): &(String, FormKind)| {
        matches!(form, FormKind::Base | FormKind::Plural)
            && table::find(base).any(|meaning| meaning.part_of_speech == PartOfSpeech::Noun)
    };
    !is_past && forms.iter().any(noun)
}

/// Whether a phrase of the table suits the place of a word. `other`: it is another thing of the kind, not the same.
fn suits(meaning: Meaning, form: FormKind, phrase: &str, around: Around<'_>, other: bool) -> bool {
    let among = |list: &str| list.split(' ').any(|known| known == meaning.word);
    let long = phrase.contains(' ');
    if among(MANY_USES) {
        return false;
    }
    match meaning.part_of_speech {
        PartOfSpeech::Noun => {
            let frees = around.frees_noun(may_be_noun, form == FormKind::Base);
            frees && (!long || around.is_after_determiner()) && !(other && among(OF_THE_BODY))
        }
        // *the washing basket* is not *the rinsing basket*.
        PartOfSpeech::Verb => {
            let named =
                matches!(form, FormKind::Ing | FormKind::Past | FormKind::Participle) && around.is_before_noun();
            !(named || long && around.leads_to_particle())
        }
        PartOfSpeech::Adjective if other && among(NUMBERS) => around.frees_number(),
        PartOfSpeech::Adjective if other => around.frees_color(),
        PartOfSpeech::Adjective => !(around.binds_adjective() || long && around.is_graded()),
        PartOfSpeech::Adverb => {
            let of_manner = meaning.word.ends_with("ly") && !phrase.ends_with("ly") && !among(OF_DEGREE);
            !(long && around.is_graded()) && (around.is_at_edge() || among(OF_DEGREE) || !long && !of_manner)
        }
        PartOfSpeech::Other => !around.is_graded(),
    }
}

/// A word of the table for one in British spelling: *color* for *colour*.
fn american(word: &str) -> std::borrow::Cow<'_, str> {
    if has_headword(word) {
        return word.into();
    }
    american_spellings(word).find(|other| has_headword(other)).map_or_else(|| word.into(), Into::into)
}

/// How a word may be spelled in America if it is in British spelling.
fn american_spellings(word: &str) -> impl Iterator<Item = String> + '_ {
    let endings = [("our", "or"), ("re", "er"), ("ise", "ize"), ("yse", "yze"), ("grey", "gray")];
    let made = endings.into_iter().filter(|(british, _)| word.contains(british));
    let made = made.map(|(british, american)| word.replacen(british, american, 1));
    // *travell* is what is left of *travelled*; *fille* of *filled* is no such word.
    let single = word.strip_suffix('l').filter(|short| short.len() > 4 && short.ends_with('l')).map(str::to_owned);
    made.chain(single)
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
        assert!(texts(&hurried.same).contains(&"ran"), "{hurried:?}");
        assert!(hurried.same.iter().all(|swap| !swap.text.starts_with("hurr")), "{hurried:?}");
        let big = found("It was *big*.", "60");
        assert!(big.same.iter().all(|swap| swap.article.is_none()), "{big:?}");
        let bears = found("The *Animals* ran.", "25");
        assert!(bears.of_the_kind.iter().chain(&bears.same).all(|swap| swap.text.starts_with(char::is_uppercase)));
        // *an apple* becomes *a plum*.
        let apple = found("He had an *apple*.", "25");
        let plums: Vec<&Swap> = apple.same.iter().chain(&apple.of_the_kind).collect();
        let articles: Vec<Option<&str>> = plums.iter().map(|swap| swap.article).collect();
        assert!(!articles.is_empty() && articles.iter().all(|article| *article == Some("a")), "{apple:?}");
        assert!(plums[0].with_article().starts_with("a "), "{apple:?}");
    }

    #[test]
    fn an_offer_for_the_context_is_the_surest() {
        let said = found("\u{201c}Look!\u{201d} she *shouted*.", "25");
        assert_eq!(texts(&said.same)[0], "said", "{said:?}");
        let got = found("Fenn *FETCHED* a mop.", "25");
        assert!(texts(&got.same).contains(&"GOT"), "{got:?}");
        assert!(found("She had *hurried* home.", "25").same.iter().all(|swap| swap.text != "went"));
    }

    #[test]
    fn a_word_may_go_where_nothing_leans_on_it() {
        for (sentence, goes, article) in [
            ("She put it *gently* under the mat.", true, None),
            ("She put it so *gently* under the mat.", false, None),
            ("*Gently* she put it down.", false, None),
            ("It was an *untidy* tent.", true, Some("a")),
            ("It was a *gigantic* egg.", true, Some("an")),
            ("It was *untidy*.", false, None),
            ("It was an *untidy* and odd tent.", false, None),
            ("It was a very *fluffy* hen.", false, None),
        ] {
            let found = found(sentence, "25");
            assert_eq!((found.leave_out, found.article_without), (goes, article), "{sentence}");
        }
    }

    #[test]
    fn what_is_no_sentence_gets_nothing_that_only_fits_one() {
        for sentence in [
            "\u{201c}*Surprise*!\u{201d} they said.",
            "Too *Many* Beds\n\nDimple sat.",
            "her *great*-aunt Bess",
            "Then Detective *Paws* sat.",
            "She ran to the *washing* basket.",
        ] {
            let found = found(sentence, "40");
            assert!(found.is_empty(), "{sentence}: {found:?}");
        }
        let colors = found("She had a *purple* hat.", "40");
        assert!(!colors.of_the_kind.is_empty());
        for sentence in ["Her hat was *purple*.", "It turned *purple* and hot.", "She had a *purple* and red hat."] {
            assert!(found(sentence, "40").of_the_kind.is_empty(), "{sentence}");
        }
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
        let places = [("Then the ", " and it"), ("Then they ", " in it")];
        let places = places.map(|(before, after)| Around { before, after });
        for lesson in ["15", "30", "60"] {
            let lesson = scope.index_of(lesson).unwrap();
            let mut last = "";
            for meaning in table::all() {
                if std::mem::replace(&mut last, meaning.word) == meaning.word {
                    continue;
                }
                for form in [FormKind::Base, FormKind::Plural, FormKind::Past, FormKind::Ing, FormKind::Est] {
                    let Some(word) = forms::spellings(meaning.word, form).into_iter().next() else { continue };
                    for found in places.map(|around| swaps(&word, around, &judge, lesson)) {
                        assert!(
                            found.same.len() <= MOST_SWAPS && found.of_the_kind.len() <= MOST_OF_THE_KIND,
                            "{word}"
                        );
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
        }
        assert!(offered > 5_000, "{offered}");
        for word in ["", "splunked", "the cat", "é"] {
            assert!(swaps(word, Around::default(), &judge, scope.last()).is_empty(), "{word}");
        }
    }
}
