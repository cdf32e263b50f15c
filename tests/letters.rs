//! Reading by letters, measured: every tenth word of the dictionary is withheld, and read as the program reads a word that it does not
//! know: derived from the words that are left, or else by its letters, with a model that has learnt from the others. Its verdict is
//! held against the true one at five lessons of two scopes, and that of the words read by their letters alone once more by itself.
//!
//! For comparison, from memory: joint n-grams got about 24.5 % of words wrong on the 2007 split of this dictionary, a WFST model about
//! 34 % on a newer, harder copy. The split here is ours (every tenth of the ordinary words in alphabetical order, weak vowels not told
//! apart), so the figures are not comparable digit by digit.

use untaught::{Judge, LessonIndex, Origin, Part, Reader, Reading, Scope, Word};
use untaught_lexicon::{Entry, Lexicon};
use untaught_phonics::formation::derive;
use untaught_phonics::lattice::SpellingIndex;
use untaught_phonics::{CorrespondenceId, LetterModel};

/// The parts of a reading, an e that an ending took apart; none where a part is irregular.
fn parts(entry: &Entry) -> Option<Vec<CorrespondenceId>> {
    let known = |part| match part {
        untaught_lexicon::PackedPart::Known { id, e_dropped: false } => Some(id),
        untaught_lexicon::PackedPart::Known { id, e_dropped: true } => Some(id.without_e()),
        untaught_lexicon::PackedPart::Odd(_) => None,
    };
    entry.readings().next()?.parts().map(known).collect()
}

/// Sounds, weak vowels alike.
fn sounds(parts: &[CorrespondenceId]) -> Vec<&'static str> {
    let names = parts.iter().map(|id| id.get().sound.get().name);
    names.map(|name| if name == "IH" { "AX" } else { name }).collect()
}

fn edits(a: &[&str], b: &[&str]) -> usize {
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, x) in a.iter().enumerate() {
        let mut diagonal = row[0];
        row[0] = i + 1;
        for (j, y) in b.iter().enumerate() {
            let changed = diagonal + usize::from(x != y);
            diagonal = row[j + 1];
            row[j + 1] = changed.min(diagonal + 1).min(row[j] + 1);
        }
    }
    row[b.len()]
}

#[test]
fn words_withheld_from_the_dictionary_get_their_true_verdict() {
    let lexicon = Lexicon::embedded();
    let plain = |entry: &Entry| entry.commonness().is_some() && entry.word().bytes().all(|b| b.is_ascii_lowercase());
    let ordinary: Vec<Entry> = lexicon.entries().filter(plain).collect();
    let (held, rest): (Vec<_>, Vec<_>) = ordinary.iter().enumerate().partition(|(number, _)| number % 10 == 0);
    let learnt: Vec<Vec<CorrespondenceId>> = rest.iter().filter_map(|(_, entry)| parts(entry)).collect();
    let model = LetterModel::learn(learnt.iter().map(Vec::as_slice));
    let index = SpellingIndex::default();
    let reader = Reader::default();
    let scopes = ["starter", "england-years-1-2"].map(|name| Scope::embedded(name, &reader).unwrap());
    let (mut verdicts_by_letters, mut agreed_by_letters) = (0, 0);
    let (mut words, mut wrong, mut all_sounds, mut edited, mut verdicts, mut agreed) = (0, 0, 0, 0, 0, 0);
    for (_, entry) in &held {
        let Some(truth) = parts(entry) else { continue };
        let read = model.read(entry.word().as_bytes(), 0, &index).unwrap_or_default();
        let (true_sounds, read_sounds) = (sounds(&truth), sounds(&read));
        words += 1;
        wrong += usize::from(true_sounds != read_sounds);
        all_sounds += true_sounds.len();
        edited += edits(&true_sounds, &read_sounds);
        let derived = derive(entry.word(), &reader);
        let by_letters = derived.is_empty();
        let parts = read.into_iter().map(|id| Part::Known { id, e_dropped: false }).collect();
        let readings = if by_letters { vec![Reading { parts, ..Reading::default() }] } else { derived };
        let word = Word { text: entry.word().to_owned(), origin: Origin::Letters, readings };
        for scope in &scopes {
            let judge = Judge::new(&reader, scope);
            let first = |lesson: Option<LessonIndex>| lesson.map_or(usize::MAX, LessonIndex::get);
            let truth = first(judge.judge(entry.word()).first_decodable());
            let guess = word
                .readings
                .iter()
                .map(|reading| first(judge.first_decodable(&word, reading)))
                .min()
                .unwrap_or(usize::MAX);
            for fifth in 1..=5 {
                let at = scope.lessons().len() * fifth / 5 - 1;
                let agrees = usize::from((truth <= at) == (guess <= at));
                verdicts += 1;
                agreed += agrees;
                if by_letters {
                    verdicts_by_letters += 1;
                    agreed_by_letters += agrees;
                }
            }
        }
    }
    let share = |part: usize, whole: usize| part as f64 * 100.0 / whole as f64;
    println!("{words} words withheld, {} learnt from", learnt.len());
    println!("words wrong: {:.1} %; sounds wrong: {:.1} %", share(wrong, words), share(edited, all_sounds));
    println!("verdicts agree: {agreed} of {verdicts}, {:.2} %", share(agreed, verdicts));
    let alone = share(agreed_by_letters, verdicts_by_letters);
    println!("by their letters alone: {agreed_by_letters} of {verdicts_by_letters}, {alone:.2} %");
    assert!(words > 4000 && verdicts_by_letters > 5_000);
    assert!(share(agreed, verdicts) >= 96.0, "{:.2} %", share(agreed, verdicts));
    assert!(alone >= 93.0, "{alone:.2} %");
    assert!(share(wrong, words) <= 40.0, "{:.1} %", share(wrong, words));
}
