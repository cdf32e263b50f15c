//! What may be put in place of a word.

use untaught::{Judge, Origin, Place, Status, fold_word};
use untaught_materials::fit::is_fit;

use crate::form::{Form, bases, inflect};
use crate::packed::{Group, Word, find};

/// Words offered at most.
pub const MOST: usize = 6;

/// Words that hold sentences together, or say so little that they may stand for anything: neither swapped nor offered.
const COMMON: &str = "a an the and or but if he she it they we you i me my his her him them us our your their its is was are were be \
    been am has have had do does did done will would can could shall should may might must in on at by of to for \
    from with as so not no up down out over under off into this that these those who what which when where why how \
    there here then than too very just now get got make made take took thing being individual soul unit act body \
    mass sort one two ten six more most zero three four five seven eight nine eleven twelve thirteen fourteen fifteen sixteen seventeen \
    eighteen nineteen twenty thirty forty fifty hundred thousand million first second third half quarter nothing anything \
    something everything everyone everybody somebody anybody nobody mr mrs ever never always already maybe";

fn is_common(word: &str) -> bool {
    COMMON.split(' ').any(|common| common == word)
}

/// The rarest size class of a word that is offered for one of the same group, and for one of a group near it.
const RARE: u8 = 35;
const COMMON_CLASS: u8 = 20;

/// How far a candidate is from the word, the nearest first.
type Distance = u32;

/// Words of like meaning that can be read at a lesson, sounded out or known whole, in the form of the word and with its capitals; the
/// nearest meaning first, at most [`MOST`]. None for a word without such a one. Cost: some judgements of words; well under a millisecond.
#[must_use]
pub fn swaps(word: &str, judge: &Judge<'_>, lesson: Place) -> Vec<String> {
    let folded = fold_word(word);
    let (stem, owner) = folded.strip_suffix("'s").map_or((folded.as_str(), ""), |stem| (stem, "'s"));
    if is_common(stem) {
        return Vec::new();
    }
    let mut found: Vec<(Distance, String)> = Vec::new();
    let bases = bases(stem, |word| find(word).is_some());
    // *found* is the past of *find*, not to found something.
    let is_past = bases.iter().any(|(_, form)| *form == Form::Past) && !stem.ends_with("ed");
    for (base, form) in bases {
        // *left* may be a side or the past of *leave*: what the dictionary has as it stands comes first.
        let further = if form == Form::Base { 0 } else { 2 };
        let kinds = |kind: u8| !(is_past && form == Form::Base && kind == b'v');
        for (distance, candidate) in find(&base).into_iter().flat_map(|word| near(word, form, kinds)) {
            let fits =
                inflect(candidate, form).into_iter().find(|made| is_fit(made) && is_readable(made, judge, lesson));
            if let Some(made) = fits.filter(|made| made != stem && candidate != base) {
                found.push((distance + further, made));
            }
        }
    }
    found.sort();
    let mut swaps: Vec<String> = Vec::new();
    for (_, made) in found {
        let swap = like(word, &format!("{made}{owner}"));
        if !swaps.contains(&swap) && (owner.is_empty() || is_readable(&fold_word(&swap), judge, lesson)) {
            swaps.push(swap);
        }
    }
    swaps.truncate(MOST);
    swaps
}

/// The words of like meaning: those of the same group, then those of broader and similar ones.
fn near(word: Word, form: Form, kinds: impl Fn(u8) -> bool) -> Vec<(Distance, &'static str)> {
    let mut found = Vec::new();
    for (_, sense, group) in word.groups().filter(|(kind, ..)| form.fits(*kind) && kinds(*kind)) {
        let mut add = |group: Group, step: Distance| {
            for (candidate, at) in group.words().filter(|(candidate, _)| !is_common(candidate.text)) {
                // A candidate that is rare, or rare in that meaning, is mostly read in another.
                let (far, rare) = if step == 0 { (3, RARE) } else { (2, COMMON_CLASS) };
                if u32::from(at) <= far && candidate.class <= rare {
                    let class = u32::from(candidate.class) / 10;
                    let distance = step * 10 + u32::from(sense - 1) * 4 + u32::from(at - 1) * 3 + class;
                    found.push((distance, candidate.text));
                }
            }
        };
        add(group, 0);
        group.near().for_each(|near| add(near, 1));
    }
    found
}

/// Whether the dictionary has the word and it can be read at the lesson.
fn is_readable(word: &str, judge: &Judge<'_>, lesson: Place) -> bool {
    let verdict = judge.judge(word);
    let status = verdict.status(lesson, false);
    (verdict.word.origin == Origin::Dictionary || word.ends_with("'s"))
        && matches!(status, Status::Decodable | Status::Sight)
        && verdict.other_reading(lesson).is_none()
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

    fn swaps_at(words: &[&str], lesson: &str) -> Vec<Vec<String>> {
        let reader = Reader::default();
        let scope = Scope::embedded("starter", &reader).unwrap();
        let judge = Judge { reader: &reader, scope: &scope };
        let at = scope.place(lesson).unwrap();
        words.iter().map(|word| swaps(word, &judge, at)).collect()
    }

    #[test]
    fn form_and_capitals_are_kept() {
        let found = swaps_at(&["large", "Large", "LARGE", "stones", "shouted", "leaping"], "30");
        assert!(found[0].contains(&"big".to_owned()), "{found:?}");
        assert!(found[1].contains(&"Big".to_owned()), "{found:?}");
        assert!(found[2].contains(&"BIG".to_owned()), "{found:?}");
        assert!(found[3].contains(&"rocks".to_owned()), "{found:?}");
        assert!(found[4].contains(&"yelled".to_owned()), "{found:?}");
        assert!(found[5].contains(&"jumping".to_owned()), "{found:?}");
    }

    #[test]
    fn only_readable_words_are_offered_and_few() {
        let reader = Reader::default();
        let scope = Scope::embedded("starter", &reader).unwrap();
        let judge = Judge { reader: &reader, scope: &scope };
        for (word, lesson) in [("knight", 20), ("beautiful", 25), ("hurried", 30), ("enormous", 40), ("tiny", 15)] {
            let found = swaps(word, &judge, lesson);
            assert!(found.len() <= MOST);
            for swap in &found {
                assert!(is_readable(swap, &judge, lesson), "{word}: {swap}");
            }
        }
        assert_eq!(swaps("the", &judge, 30), [""; 0]);
        assert_eq!(swaps("", &judge, 30), [""; 0]);
        assert_eq!(swaps("splunked", &judge, 30), [""; 0]);
    }

    #[test]
    fn nothing_unfit_is_in_any_group() {
        let unfit = include_str!("../data/unfit.txt");
        for word in unfit.lines().filter(|line| !line.starts_with('#')) {
            assert!(find(word).is_none_or(|found| found.groups().next().is_none()), "{word}");
        }
    }
}
