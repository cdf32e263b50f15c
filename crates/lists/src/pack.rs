//! The whole lesson: all its lists at once, and a sentence for each that cannot be made.

use serde::Serialize;
use untaught::{Focus, Judge, LessonIndex, Pattern, Scope, fold_word};

use crate::ages::Vocabulary;
use crate::dictation::draw;
use crate::fitness::{Purpose, is_fit};
use crate::{
    Bank, Boxes, CannotMake, Chain, ChainRequest, Contrast, Dictation, Introduction, Oral, OralWord, SightCard,
    WordFilter, WordSort, boxes, cards, chain, dictation, introductions, listening, nonsense, oral, word_sort,
};

/// What a pack is made for.
#[derive(Clone, Debug)]
pub struct PackRequest {
    /// The lesson.
    pub lesson: LessonIndex,
    /// The patterns to practise, if not those of the lesson.
    pub focus: Option<(Focus, Vec<Pattern>)>,
    /// The words that the lists may have.
    pub vocabulary: Vocabulary,
    /// Decides the random choices.
    pub seed: u64,
}

/// The lists of a lesson, in the published shape.
#[derive(Clone, Debug, Serialize)]
pub struct Pack {
    /// The version of the shape.
    format: u32,
    /// The title of the scope.
    pub scope: String,
    /// The id of the lesson.
    pub lesson: String,
    /// The title of the lesson; may be empty.
    pub title: String,
    /// The seed that makes the same pack again.
    pub seed: u64,
    /// The patterns that it practises.
    pub patterns: Vec<String>,
    /// The sight words of the lesson.
    pub sight_new: Vec<String>,
    /// How to introduce what is new.
    pub introduce: Vec<Introduction>,
    /// Sight words of earlier lessons: one, two, four, eight … lessons back.
    pub sight_review: Vec<String>,
    /// Words to listen to.
    pub listening: Option<Contrast>,
    /// Lists for the other sounds of the lesson.
    pub listening_more: Vec<Contrast>,
    /// Words to blend and to take apart by ear.
    pub oral: Oral,
    /// Words to sort under headings.
    pub sort: Option<WordSort>,
    /// Nonsense words to read.
    pub nonsense: Option<Vec<OralWord>>,
    /// The new sight words with the letters to learn by heart.
    pub cards: Vec<SightCard>,
    /// Words to blend, in sound boxes.
    pub blending: Option<Vec<Boxes>>,
    /// A chain of words.
    pub chain: Option<Chain>,
    /// Words and sentences to spell.
    pub dictation: Option<Dictation>,
    /// The lists that cannot be made.
    pub lacking: Vec<MissingList>,
}

/// A list that cannot be made.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct MissingList {
    /// The name of its field in [`Pack`].
    pub list: &'static str,
    /// Why not: a sentence for a teacher, without a capital and a full stop.
    pub why: String,
}

impl MissingList {
    /// What a page calls the list.
    #[must_use]
    pub fn heading(&self) -> &'static str {
        match self.list {
            "listening" => "Listening list",
            "blending" => "Sound boxes",
            "chain" => "Word chain",
            "nonsense" => "Nonsense words",
            "sort" => "Word sort",
            _ => "Dictation",
        }
    }
}

/// Words to blend, words of the listening list with the sound, words and sentences of the dictation.
const BLENDING: usize = 9;
const LISTENING: usize = 6;
const SPELLED: usize = 6;
const SENTENCES: usize = 3;
const NONSENSE: usize = 10;

/// Sight words of earlier lessons.
const REVIEWED: usize = 8;

/// The fewest words for a blending list.
const FEWEST: usize = 4;

/// Makes the lists of a lesson. It never fails as a whole.
#[must_use]
pub fn pack(judge: Judge<'_>, request: &PackRequest) -> Pack {
    let scope = judge.scope();
    let lesson = scope.lesson(request.lesson);
    let taught = lesson.map_or(&[][..], |lesson| &lesson.patterns);
    let reviewed = lesson.map_or(&[][..], |lesson| &lesson.review_patterns);
    let skills: Vec<Pattern> = lesson.iter().flat_map(|lesson| &lesson.skills).copied().map(Pattern::Skill).collect();
    // A lesson that teaches no pattern practises its skills, else what it reviews.
    let (focus, patterns) = match &request.focus {
        Some((focus, patterns)) => (focus.clone(), patterns.clone()),
        None if taught.is_empty() && !skills.is_empty() => (Focus::of(scope, &skills), reviewed.to_vec()),
        None if taught.is_empty() => (Focus::of(scope, reviewed), reviewed.to_vec()),
        None => (Focus::of(scope, taught), taught.to_vec()),
    };
    // The words that practise a pattern may be long; the others of a lesson on paper are short.
    let bank = Bank::new(judge, request.lesson, request.vocabulary, 1..=3);
    let mut rng = fastrand::Rng::with_seed(request.seed);
    let mut lacking = Vec::new();
    let chained = ChainRequest { focus: Some(focus.clone()), seed: request.seed, ..ChainRequest::default() };
    let mut heard = listed("listening", listening(&bank, &patterns, LISTENING, request.seed), &mut lacking)
        .unwrap_or_default()
        .into_iter();
    let oral = oral(&bank, &focus, &mut rng);
    let nonsense = listed("nonsense", nonsense(&bank, &focus, NONSENSE, request.seed), &mut lacking);
    let sort = listed("sort", word_sort(&bank, &patterns, request.seed), &mut lacking);
    let blending = listed("blending", blending(&bank, &focus, &mut rng), &mut lacking);
    let chain = listed("chain", chain(&bank, &chained), &mut lacking);
    let dictation = listed("dictation", dictation(&bank, &focus, SPELLED, SENTENCES, request.seed), &mut lacking);
    let sight_new: Vec<String> = fit_sight_words(scope, request.lesson).collect();
    Pack {
        format: 1,
        scope: scope.title().to_owned(),
        lesson: scope.id(request.lesson).to_owned(),
        title: lesson.map_or_else(String::new, |lesson| lesson.title.clone()),
        seed: request.seed,
        patterns: focus.labels,
        sight_review: earlier(request.lesson)
            .flat_map(|lesson| fit_sight_words(scope, lesson))
            .take(REVIEWED)
            .collect(),
        listening: heard.next(),
        listening_more: heard.collect(),
        oral,
        nonsense,
        sort,
        cards: cards(&judge, request.lesson, &sight_new),
        sight_new,
        introduce: introductions(scope, &patterns),
        blending,
        chain,
        dictation,
        lacking,
    }
}

/// A list that could be made; a note of one that could not.
fn listed<T>(list: &'static str, made: Result<T, CannotMake>, lacking: &mut Vec<MissingList>) -> Option<T> {
    made.map_err(|CannotMake(why)| lacking.push(MissingList { list, why })).ok()
}

/// The lessons one, two, four, eight … before a lesson.
fn earlier(lesson: LessonIndex) -> impl Iterator<Item = LessonIndex> {
    let back = std::iter::successors(Some(1_usize), |back| back.checked_mul(2));
    back.map_while(move |back| lesson.back(back))
}

fn fit_sight_words(scope: &Scope, lesson: LessonIndex) -> impl Iterator<Item = String> {
    let words = scope.lesson(lesson).map_or(&[][..], |lesson| &lesson.sight);
    words.iter().filter(|word| is_fit(&fold_word(word), Purpose::Listed)).cloned()
}

fn blending(bank: &Bank<'_>, focus: &Focus, rng: &mut fastrand::Rng) -> Result<Vec<Boxes>, CannotMake> {
    let practise = Some(focus.clone()).filter(|focus| !focus.is_empty());
    let filter = WordFilter { focus: practise, sounds: 2..=6, only_new: focus.is_empty(), ..WordFilter::default() };
    let mut words = bank.select(&filter);
    if words.len() < FEWEST && focus.is_empty() {
        words = bank.select(&WordFilter { sounds: 2..=6, ..WordFilter::default() });
    }
    if words.len() < FEWEST {
        let known: Vec<&str> = words.iter().map(|word| word.word.as_str()).collect();
        let known = if known.is_empty() { String::new() } else { format!(" ({})", known.join(", ")) };
        let practise =
            if focus.is_empty() { String::new() } else { format!(" that practise {}", focus.labels.join(", ")) };
        let some = if words.is_empty() { "no".to_owned() } else { format!("only {}", words.len()) };
        return Err(CannotMake(format!("{some} common words{practise} can be sounded out at this lesson{known}")));
    }
    let drawn = draw(&words, BLENDING, rng, &Default::default());
    let mut found: Vec<Boxes> = words
        .iter()
        .filter(|word| drawn.contains(&word.word))
        .filter_map(|word| boxes(&word.word, &word.reading))
        .collect();
    found.sort_by(|a, b| (a.sounds, &a.word).cmp(&(b.sounds, &b.word)));
    Ok(found)
}

#[cfg(test)]
mod tests {
    use super::*;
    use untaught::Reader;

    #[test]
    fn every_lesson_of_every_scope_has_a_pack_or_says_why_not() {
        let reader = Reader::default();
        for (name, _) in Scope::all_embedded() {
            let scope = Scope::embedded(name, &reader).unwrap();
            for lesson in (0..scope.lessons().len()).step_by(7).filter_map(LessonIndex::new) {
                let judge = Judge::new(&reader, &scope);
                let made = pack(
                    judge,
                    &PackRequest { lesson, focus: None, vocabulary: Vocabulary { class: 20, older: true }, seed: 1 },
                );
                let lists = [
                    ("listening", made.listening.is_some()),
                    ("blending", made.blending.is_some()),
                    ("chain", made.chain.is_some()),
                    ("dictation", made.dictation.is_some()),
                ];
                for (list, is_there) in lists {
                    let why = made.lacking.iter().find(|lacking| lacking.list == list);
                    assert_eq!(why.is_none(), is_there, "{name} {lesson:?}: {list}");
                    assert!(why.is_none_or(|lacking| lacking.why.contains(' ')), "{name} {lesson:?}");
                }
            }
        }
    }
}
