use super::question::may_be_offered;
use super::*;
use crate::fitness::{Purpose, is_fit};
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
        ("She had an *untidy* tent.", true, Some("a")),
        ("She got a *gigantic* egg.", true, Some("an")),
        ("It was a *gigantic* egg.", false, None),
        ("She had a *gigantic* voice.", false, None),
        ("It was *untidy*.", false, None),
        ("It was an *untidy* and odd tent.", false, None),
        ("It was a very *fluffy* hen.", false, None),
    ] {
        let found = found(sentence, "25");
        assert_eq!((found.leave_out, found.article_without), (goes, article), "{sentence}");
    }
}

#[test]
fn words_that_stand_together_are_said_in_another_way() {
    let began = found("Then she *began* to run home.", "25");
    let made = Rewording { old: "began to run".into(), before: 0, after: 7, new: "ran".into() };
    assert_eq!(began.rewordings, [made]);
    let sitting = found("Fenn was *sitting* on it.", "25");
    assert!(sitting.rewordings.iter().any(|one| (&*one.old, one.before, &*one.new) == ("was sitting", 4, "sat")));
    // What cannot be read is no help.
    assert_eq!(found("Then she *began* to look.", "15").rewordings, []);
}

#[test]
fn what_does_not_join_its_neighbors_is_not_offered() {
    let quickly = found("Gran told it very *quickly*.", "45");
    assert!(quickly.same.iter().all(|swap| !swap.text.starts_with("in ")), "{quickly:?}");
    let because = found("It sounds odd *because* of the gap.", "20");
    assert!(because.same.iter().all(|swap| swap.text != "as"), "{because:?}");
    assert!(texts(&found("It sounds odd *because* I have a gap.", "20").same).contains(&"as"));
    let seen = found("We can *see* you from the hut.", "20");
    assert!(seen.same.iter().all(|swap| swap.text != "make out"), "{seen:?}");
    for sentence in ["It was as green as a *toy*.", "the middle of his *parents*\u{2019} bed"] {
        let found = found(sentence, "45");
        assert!(found.same.is_empty() && found.of_the_kind.is_empty(), "{sentence}: {found:?}");
    }
}

#[test]
fn what_is_no_sentence_gets_nothing_that_only_fits_one() {
    for sentence in [
        "\u{201c}*Surprise*!\u{201d} they said.",
        "Too *Many* Beds\n\nDimple sat.",
        "her *great*-aunt Bess",
        "Then Detective *Paws* sat.",
        "She had the *watering* can.",
    ] {
        let found = found(sentence, "40");
        assert!(found.is_empty(), "{sentence}: {found:?}");
    }
    let colors = found("She had a *yellow* hat.", "40");
    assert!(!colors.of_the_kind.is_empty());
    for sentence in ["Her hat was *yellow*.", "It turned *yellow* and hot.", "She had a *yellow* and red hat."] {
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
    }
    assert!(offered > 5_000, "{offered}");
    for word in ["", "splunked", "the cat", "é"] {
        assert!(swaps(word, Around::default(), &judge, scope.last()).is_empty(), "{word}");
    }
}

#[test]
fn a_word_is_asked_about_where_something_may_stand() {
    let reader = Reader::default();
    let scope = Scope::embedded("starter", &reader).unwrap();
    let judge = Judge::new(&reader, &scope);
    let text = "Home, but Quickly\n\nThen she ran home quickly.";
    let places: Vec<_> = text.match_indices("uickly").map(|(at, found)| at - 1..at + found.len()).collect();
    let (place, found) = swaps_somewhere(text, &places, &judge, scope.index_of("28").unwrap());
    assert_eq!((place, texts(&found.same).contains(&"fast")), (1, true), "{found:?}");
    let (place, found) = swaps_somewhere(text, &[], &judge, LessonIndex::FIRST);
    assert_eq!((place, found.is_empty()), (0, true));
}
