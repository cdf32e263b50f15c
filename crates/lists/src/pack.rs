//! The whole lesson: all its lists at once, and a sentence for each that cannot be made.

use untaught::{Focus, Judge, LessonIndex, Pattern, Scope};
use untaught_phonics::SoundId;

use crate::dictation::draw;
use crate::{
    Bank, Boxes, Chain, ChainWanted, Contrast, Dictation, Lacking, Wanted, boxes, chain, contrast, dictation, fit,
};

/// What a pack is made for.
#[derive(Clone, Debug)]
pub struct PackWanted {
    /// The lesson.
    pub lesson: LessonIndex,
    /// The patterns to practise, if not those of the lesson.
    pub focus: Option<(Focus, Vec<Pattern>)>,
    /// Size class of the words.
    pub class: u8,
    /// For what is drawn by lot.
    pub seed: u64,
}

/// The lists of a lesson.
#[derive(Debug)]
pub struct Pack {
    /// The lesson.
    pub lesson: LessonIndex,
    /// The patterns that it practises.
    pub patterns: Vec<String>,
    /// Words to know whole: those of the lesson.
    pub sight_new: Vec<String>,
    /// Those of earlier lessons, one, two, four, eight … lessons back.
    pub sight_review: Vec<String>,
    /// Words to listen for.
    pub listening: Result<Contrast, Lacking>,
    /// Words to blend, in sound boxes.
    pub blending: Result<Vec<Boxes>, Lacking>,
    /// A chain of words.
    pub chain: Result<Chain, Lacking>,
    /// Words and sentences to spell.
    pub dictation: Result<Dictation, Lacking>,
}

/// Words to blend, words of the listening list with the sound, words and sentences of the dictation.
const BLENDING: usize = 9;
const LISTENING: usize = 6;
const SPELLED: usize = 6;
const SENTENCES: usize = 3;

/// Fewest words for a blending list.
const FEWEST: usize = 4;

/// Makes the lists of a lesson. Never fails as a whole.
#[must_use]
pub fn pack(judge: Judge<'_>, wanted: &PackWanted) -> Pack {
    let scope = judge.scope();
    let lesson = scope.lesson(wanted.lesson);
    let taught = lesson.map_or(&[][..], |lesson| &lesson.patterns);
    let reviewed = lesson.map_or(&[][..], |lesson| &lesson.review_patterns);
    let reader = judge.reader();
    // A lesson that teaches no pattern practises what it reviews.
    let (focus, patterns) = match &wanted.focus {
        Some((focus, patterns)) => (focus.clone(), patterns.clone()),
        None if taught.is_empty() => (Focus::of(scope, reviewed), reviewed.to_vec()),
        None => (Focus::of(scope, taught), taught.to_vec()),
    };
    // The words that practise a pattern may be long; the others of a lesson on paper are short.
    let bank = Bank::new(judge, wanted.lesson, wanted.class, 1..=3);
    let mut rng = fastrand::Rng::with_seed(wanted.seed);
    let listening = listening(reader, &bank, &patterns, wanted.seed);
    let blending = blending(&bank, &focus, &mut rng);
    let chain_wanted = ChainWanted {
        steps: None,
        from: None,
        to: None,
        changes: Vec::new(),
        focus: Some(focus.clone()),
        seed: wanted.seed,
    };
    // The longest chain there is, from eight steps down to four.
    let shorter = |steps: usize| chain(&bank, &ChainWanted { steps: Some(steps), ..chain_wanted.clone() });
    let chain = [8, 6, 4].into_iter().map(shorter).find(Result::is_ok).unwrap_or_else(|| shorter(4));
    let dictation = dictation(&bank, &focus, SPELLED, SENTENCES, wanted.seed);
    let sight = |place: LessonIndex| scope.lesson(place).map_or(&[][..], |lesson| &lesson.sight).iter();
    let fit = |word: &&String| fit::is_fit(&untaught::fold_word(word));
    let back = std::iter::successors(Some(1_usize), |back| back.checked_mul(2));
    let back = back.map_while(|back| wanted.lesson.back(back)).flat_map(sight);
    Pack {
        lesson: wanted.lesson,
        patterns: focus.labels.clone(),
        sight_new: sight(wanted.lesson).filter(fit).cloned().collect(),
        sight_review: back.filter(fit).take(8).cloned().collect(),
        listening,
        blending,
        chain,
        dictation,
    }
}

fn blending(bank: &Bank<'_>, focus: &Focus, rng: &mut fastrand::Rng) -> Result<Vec<Boxes>, Lacking> {
    let practise = Some(focus.clone()).filter(|focus| !focus.is_empty());
    let wanted = Wanted { focus: practise, sounds: 2..=6, only_new: focus.is_empty(), ..Wanted::default() };
    let mut words = bank.select(&wanted);
    if words.len() < FEWEST && focus.is_empty() {
        words = bank.select(&Wanted { sounds: 2..=6, ..Wanted::default() });
    }
    if words.len() < FEWEST {
        let known: Vec<&str> = words.iter().map(|word| word.word.as_str()).collect();
        let known = if known.is_empty() { String::new() } else { format!(" ({})", known.join(", ")) };
        return Err(Lacking(format!(
            "only {} common words that practise {} can be sounded out at this lesson{known}",
            words.len(),
            focus.labels.join(", ")
        )));
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

/// Words to listen for: the sound of the first pattern that has enough of them.
fn listening(reader: &untaught::Reader, bank: &Bank<'_>, patterns: &[Pattern], seed: u64) -> Result<Contrast, Lacking> {
    let mut last = Lacking("this lesson teaches no pattern whose sound could be listened for".to_owned());
    for sound in patterns.iter().filter_map(|pattern| sound_taught(bank.judge.scope(), pattern)) {
        match contrast(reader, sound, None, LISTENING, seed) {
            Ok(made) => return Ok(made),
            Err(lacking) => last = lacking,
        }
    }
    Err(last)
}

/// The sound that a pattern teaches, if it can be listened for: of a chunk its first vowel.
#[must_use]
pub fn sound_taught(scope: &Scope, pattern: &Pattern) -> Option<SoundId> {
    match pattern {
        Pattern::One(id, _) => single(id.get().sound),
        Pattern::Bare(spelling) => {
            let focus = Focus::of(scope, std::slice::from_ref(pattern));
            let first = untaught_phonics::spelled(spelling).find(|id| focus.teaches(*id))?;
            single(first.get().sound)
        }
        Pattern::Chunk(run) => {
            let sounds: Vec<SoundId> = run.runs.first()?.iter().map(|id| id.get().sound).collect();
            // Of a chunk such as `ank` its vowel. An ending such as -ful has none that can be heard well, and of its
            // consonants none is what the lesson is about; -s or -ed is a single sound.
            let vowel = sounds.iter().copied().filter(|sound| sound.get().kind.is_vowel()).find_map(single);
            vowel.or_else(|| sounds.first().copied().filter(|_| sounds.len() == 1).and_then(single))
        }
    }
}

/// A sound that can be listened for: one sound, not weak.
fn single(sound: SoundId) -> Option<SoundId> {
    use untaught_phonics::SoundKind::{Cluster, Weak};
    (!matches!(sound.get().kind, Cluster | Weak)).then_some(sound)
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
                let made = pack(judge, &PackWanted { lesson, focus: None, class: 20, seed: 1 });
                for lacking in [made.listening.err(), made.blending.err(), made.chain.err(), made.dictation.err()] {
                    assert!(lacking.is_none_or(|lacking| lacking.0.contains(' ')), "{name} {lesson}");
                }
            }
        }
    }
}
