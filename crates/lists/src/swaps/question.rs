//! A word that is asked about: where it stands, and who is to read what takes its place. What the contexts and the table offer for it.

use untaught::{Judge, LessonIndex, Status, WordOrigin, fold_word};

use super::context::{self, Asked, LEAVE_OUT, Offer};
use super::forms::{FormKind, spellings};
use super::meaning::{american_spellings, meanings, suits};
use super::opening::without_opening;
use super::place::Place;
use super::plain_verb::plain_past;
use super::reword::rewording;
use super::sentence::{self, Around};
use super::table::PartOfSpeech;
use super::{MOST_UNSURE, Swaps, changed_article};
use crate::fitness::{Purpose, is_fit, is_fit_as_heard};
use crate::sounds::heard;

/// A word that is asked about.
pub(super) struct Question<'q> {
    pub(super) word: &'q str,
    folded: String,
    pub(super) around: Around<'q>,
    pub(super) place: Place<'q>,
    judge: &'q Judge<'q>,
    lesson: LessonIndex,
}

impl<'q> Question<'q> {
    pub(super) fn new(word: &'q str, around: Around<'q>, judge: &'q Judge<'q>, lesson: LessonIndex) -> Question<'q> {
        Question { word, folded: fold_word(word), around, place: Place::of(word, around), judge, lesson }
    }

    /// What is offered for a word in its context.
    pub(super) fn in_context(&self, asked: Asked) -> Swaps {
        const LEANS: &str = "so too as how not only no than for if hardly at";
        // *the wet and cold dog*, *sad of him*: what the word leans on would be left.
        const LEANED_ON: &str = "and or but of than enough that";
        // *a loud voice*, *a long time* say little without their word.
        const BARE: &str = "one ones time times way ways voice voices thing things day days look bit lot deal mood smell idea feeling place sort";
        let Question { word, ref folded, ref place, around, .. } = *self;
        let mut found = Swaps::default();
        let is_enough =
            |found: &Swaps, of_the_kind: bool| asked == Asked::Last && !of_the_kind && found.same.len() >= MOST_UNSURE;
        for form in std::iter::once(folded.clone()).chain(american_spellings(folded)) {
            for Offer { text: offer, with, of_the_kind } in context::offers(&form, place, asked) {
                if with != [0, 0] {
                    found.reword(rewording(self, with, &offer));
                    continue;
                }
                // *another egg* is *an egg*.
                let is_article = offer == "a" && self.takes_an(&fold_word(place.word_after()));
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
                } else if offer != folded && !is_enough(&found, of_the_kind) && self.may_be_offered(offer) {
                    found.add(offer, "", of_the_kind, self);
                }
            }
        }
        if asked == Asked::First {
            found.reword(without_opening(word, place, around));
        }
        if let Some((pasts, with)) = plain_past(word, place).filter(|_| asked == Asked::First) {
            pasts.iter().for_each(|past| found.reword(rewording(self, with, past)));
        }
        if let Some(article) = around.article().filter(|_| found.leave_out) {
            found.article_without = changed_article(article, self.takes_an(&fold_word(place.word_after())));
        }
        found
    }

    /// Adds what the table knows of a word.
    pub(super) fn add_from_table(&self, found: &mut Swaps, is_title: bool) {
        let Question { ref folded, ref place, around, .. } = *self;
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
                let Some(made) = self.offered(phrase, form, owner) else { return };
                let enough = !other && found.same.len() >= MOST_UNSURE;
                if made != stem && !enough {
                    found.add(&made, sense, other, self);
                }
            };
            meaning.same().for_each(|phrase| add(phrase, false));
            let stays = is_title || place.is_likened();
            meaning.of_the_kind().filter(|_| !stays).for_each(|phrase| add(phrase, true));
        }
    }

    /// A phrase of the table as it is offered, if it can be read and is fit.
    fn offered(&self, phrase: &str, form: FormKind, owner: &str) -> Option<String> {
        // *in a bitter* is no form of *in a bit*.
        if phrase.contains(' ') && (form != FormKind::Base || !owner.is_empty()) {
            return None;
        }
        let is_word = |word: &str| is_fit(word, Purpose::OfferedForMeaning) && self.judge.reader().spells(word);
        let mut formed = if form == FormKind::Base { vec![phrase.to_owned()] } else { spellings(phrase, form) };
        formed.retain(|made| made.split(' ').all(is_word));
        let made = formed.into_iter().next()? + owner;
        self.may_be_offered(&made).then_some(made)
    }

    /// Whether each word of a phrase is fit for children and can be read at the lesson.
    pub(super) fn may_be_offered(&self, phrase: &str) -> bool {
        phrase.split_whitespace().all(|word| may_be_offered(word, self.judge, self.lesson))
    }

    /// Whether a phrase begins with a vowel sound: *an old hen*, but *a unit*.
    pub(super) fn takes_an(&self, phrase: &str) -> bool {
        let first = phrase.split(' ').next().unwrap_or_default();
        let read = self.judge.reader().read(first);
        let starts = read.readings.first().and_then(|reading| reading.parts.first());
        starts.is_some_and(|part| part.is_vowel() && !part.arpabet().starts_with(['Y', 'W']))
    }
}

/// Whether a word is fit for children and can be read at the lesson, in each of its readings.
pub(super) fn may_be_offered(word: &str, judge: &Judge<'_>, lesson: LessonIndex) -> bool {
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
