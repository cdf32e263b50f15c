//! Words of like meaning that a child can already read: what a writer may put in place of a word that is too hard.
//!
//! The groups of like meaning are WordNet's. They are packed when the crate is built and read in place: no start-up, no memory.

mod forms;
mod packed;

use std::cmp::Reverse;

use crate::fitness::{Purpose, is_fit, is_fit_as_heard};
use crate::sounds::heard;
use untaught::{Judge, LessonIndex, Origin, Status, fold_word};

use forms::{FormKind, bases, spellings};
use packed::{PackedWord, SynonymGroup, find};

/// Kinds of words: noun, verb, adjective, adverb.
const KINDS: [u8; 4] = *b"nvar";

/// How many words are offered at most.
pub const MOST_SWAPS: usize = 6;

/// Words that hold sentences together, or mean so little that they fit anywhere: neither swapped nor offered.
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

/// How often of a hundred times a word must have a meaning, at least, for a word of the same group and for one of a group near it, and how
/// often the word that is offered must have it. Found by reading the offers for ten stories.
const MEANT: u32 = 26;
const MEANT_NEAR: u32 = 50;
const READ: u32 = 20;
/// How often of a hundred times both, at least.
const BOTH: u32 = 10;

/// A word and the form in which it stands.
type WordInForm = (PackedWord, FormKind);

/// Words of like meaning that can be read at a lesson, sounded out or as sight words, in the form of the word and with its capitals; the
/// likeliest first, at most [`MOST_SWAPS`]. The text before the word, if it is known, tells a noun from a verb: *the kite*, *they light*.
/// Cost: some judgements of words; well under a millisecond.
///
/// ```
/// use untaught::{Judge, LessonIndex, Reader, Scope};
///
/// let reader = Reader::default();
/// let scope = Scope::parse("format: 1\nlessons:\n- teach: [b, i, g, s, a, d]\n", &reader).unwrap();
/// let judge = Judge::new(&reader, &scope);
/// assert_eq!(untaught_lists::swaps("Large", "the ", &judge, LessonIndex::FIRST), ["Big"]);
/// ```
#[must_use]
pub fn swaps(word: &str, before: &str, judge: &Judge<'_>, lesson: LessonIndex) -> Vec<String> {
    let folded = fold_word(word);
    let (stem, owner) = folded.strip_suffix("'s").map_or((folded.as_str(), ""), |stem| (stem, "'s"));
    if is_common(stem) {
        return Vec::new();
    }
    let after = After::of(before);
    let mut found: Vec<(Reverse<u32>, String)> = Vec::new();
    let bases: Vec<WordInForm> = bases(stem, |word| find(word).is_some())
        .into_iter()
        .filter_map(|(base, form)| Some((find(&base)?, form)))
        .collect();
    // *found* is the past of *find*, not to found something.
    let is_past = bases.iter().any(|(_, form)| *form == FormKind::Past) && !stem.ends_with("ed");
    let may_be = |kind: u8, form: FormKind| {
        form.fits(kind) && after.allows(kind, form) && !(is_past && form == FormKind::Base && kind == b'v')
    };
    // *leaves* may be leaves or the act of one who leaves, *left* a side or the past of *leave*: as often as each was met.
    let met = |(word, form): WordInForm| -> u32 {
        KINDS.iter().filter(|kind| may_be(**kind, form)).map(|kind| word.met(*kind)).sum()
    };
    let all: u32 = bases.iter().map(|formed| met(*formed)).sum();
    for (base, form) in bases {
        for kind in KINDS.into_iter().filter(|kind| may_be(*kind, form)) {
            let meant = base.met(kind) * 100 / all.max(1);
            for (likely, candidate) in near(base, kind, meant, |word| word.met(kind) * 100 / met((word, form)).max(1)) {
                let fits = spellings(candidate, form).into_iter().find(|made| may_be_offered(made, judge, lesson));
                if let Some(made) = fits.filter(|made| made != stem && candidate != base.text) {
                    found.push((Reverse(likely), made));
                }
            }
        }
    }
    found.sort();
    let mut swaps: Vec<String> = Vec::new();
    for (_, made) in found {
        let swap = like(word, &format!("{made}{owner}"));
        if !swaps.contains(&swap) && (owner.is_empty() || may_be_offered(&fold_word(&swap), judge, lesson)) {
            swaps.push(swap);
        }
    }
    swaps.truncate(MOST_SWAPS);
    swaps
}

/// The words of like meaning to a word of a kind, each with how often of ten thousand times both words are meant so; `meant` and `read`
/// say how often of a hundred times the word, and a candidate, is of that kind.
fn near(word: PackedWord, kind: u8, meant: u32, read: impl Fn(PackedWord) -> u32) -> Vec<(u32, &'static str)> {
    let mut found = Vec::new();
    for (_, share, group) in word.groups().filter(|(known, ..)| *known == kind) {
        let meant = meant * u32::from(share) / 100;
        let mut add = |group: SynonymGroup, least: u32, rarest: u8, nearness: u32| {
            for (candidate, share) in group.words().filter(|(candidate, _)| !is_common(candidate.text)) {
                let read = read(candidate) * u32::from(share) / 100;
                let both = meant * read * nearness / 100;
                if meant >= least && read >= READ && both >= BOTH * 100 && candidate.class <= rarest {
                    found.push((both, candidate.text));
                }
            }
        };
        add(group, MEANT, RARE, 100);
        // What is only broader or similar must be a common word.
        group.near().for_each(|near| add(near, MEANT_NEAR, COMMON_CLASS, 70));
    }
    found
}

/// What the word before tells of a word.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum After {
    /// *the*, *his*, *Gran's*: no verb follows, unless it is one that has become an adjective (*the chopped nuts*).
    Owner,
    /// *they*, *can*: no noun and no adjective follows.
    Doer,
    Anything,
}

impl After {
    fn of(before: &str) -> After {
        let Some(rest) = before.strip_suffix([' ', '\n']) else { return After::Anything };
        let start = rest.rfind(char::is_whitespace).map_or(0, |at| at + 1);
        let last = fold_word(rest[start..].trim_start_matches(|c: char| !c.is_alphabetic()));
        let among = |list: &str| list.split(' ').any(|known| known == last);
        if among(
            "i he she they we you who can could will would shall should may might must let's don't didn't won't can't \
            couldn't wouldn't doesn't i'll he'll she'll they'll we'll you'll",
        ) {
            After::Doer
        } else if among("a an the my your his her its our their this these those every some no") || last.ends_with("'s")
        {
            After::Owner
        } else {
            After::Anything
        }
    }

    fn allows(self, kind: u8, form: FormKind) -> bool {
        match self {
            After::Owner => kind != b'v' || !matches!(form, FormKind::Base | FormKind::S),
            After::Doer => !matches!(kind, b'n' | b'a'),
            After::Anything => true,
        }
    }
}

/// Whether the dictionary has a word, it is fit for children, and it can be read at the lesson.
fn may_be_offered(word: &str, judge: &Judge<'_>, lesson: LessonIndex) -> bool {
    if !is_fit(word, Purpose::OfferedForMeaning) {
        return false;
    }
    let verdict = judge.judge(word);
    let sounds = verdict.word.readings.first().and_then(heard).unwrap_or_default();
    if !is_fit_as_heard(word, &sounds, Purpose::OfferedForMeaning) {
        return false;
    }
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
        let judge = Judge::new(&reader, &scope);
        let at = scope.index_of(lesson).unwrap();
        words.iter().map(|word| swaps(word, "", &judge, at)).collect()
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
    fn a_noun_is_not_swapped_as_a_verb_nor_a_rare_meaning_offered() {
        let reader = Reader::default();
        let scope = Scope::embedded("starter", &reader).unwrap();
        let judge = Judge::new(&reader, &scope);
        let at = scope.index_of("40").unwrap();
        let offered = |before: &str, word: &str, swap: &str| swaps(word, before, &judge, at).contains(&swap.to_owned());
        // The word before tells.
        for (before, word, swap) in
            [("Go to the ", "ferry", "bring"), ("“The ", "seal", "shut"), ("Sam\u{2019}s ", "hedge", "evade")]
        {
            assert!(!offered(before, word, swap), "{before}{word}: {swap}");
        }
        assert!(offered("They ", "jump", "spring") && !offered("The ", "jump", "spring"));
        // Seldom met as a verb, or in that meaning.
        for (word, swap) in
            [("book", "request"), ("cart", "drag"), ("shook", "barrel"), ("old", "past"), ("flat", "box")]
        {
            assert!(!offered("", word, swap), "{word}: {swap}");
        }
    }

    #[test]
    fn what_stands_before_is_read_to_its_last_word() {
        for (before, after) in [
            ("the ", After::Owner),
            ("(The\n", After::Owner),
            ("Gran's ", After::Owner),
            ("Gran’s ", After::Owner),
            ("Let's ", After::Doer),
            ("“They ", After::Doer),
            ("the, ", After::Anything),
            ("the", After::Anything),
            ("run ", After::Anything),
            ("é ", After::Anything),
            (" ", After::Anything),
            ("", After::Anything),
        ] {
            assert_eq!(After::of(before), after, "{before:?}");
        }
    }

    #[test]
    fn only_readable_words_are_offered_and_few() {
        let reader = Reader::default();
        let scope = Scope::embedded("starter", &reader).unwrap();
        let judge = Judge::new(&reader, &scope);
        for (word, lesson) in
            [("knight", "21"), ("beautiful", "26"), ("hurried", "31"), ("enormous", "41"), ("tiny", "16")]
        {
            let lesson = scope.index_of(lesson).unwrap();
            let found = swaps(word, "", &judge, lesson);
            assert!(found.len() <= MOST_SWAPS);
            for swap in &found {
                assert!(may_be_offered(swap, &judge, lesson), "{word}: {swap}");
            }
        }
        for word in ["the", "", "splunked"] {
            assert_eq!(swaps(word, "", &judge, scope.last()), [""; 0]);
        }
    }

    #[test]
    fn nothing_unfit_is_offered_for_any_word() {
        let reader = Reader::default();
        let scope = Scope::embedded("starter", &reader).unwrap();
        let judge = Judge::new(&reader, &scope);
        let mut offered = 0;
        for word in packed::words() {
            for swap in swaps(word.text, "", &judge, scope.last()) {
                assert!(is_fit(&swap, Purpose::OfferedForMeaning), "{}: {swap}", word.text);
                offered += 1;
            }
        }
        assert!(offered > 3000, "{offered}");
    }
}
