//! Lists for lessons: at every lesson of every scope that comes with the program each list is made or a sentence says why not, and
//! what is made is right, by checks that share nothing with what made it.

use std::collections::HashSet;
use std::fs;

use untaught::{Judge, Options, Reader, Scope, Status, check};
use untaught_materials::{Bank, Chain, ChainWanted, Contrast, PackWanted, Shape, Wanted, chain, contrast, pack};

fn every_lesson(mut look: impl FnMut(&str, &Scope, &Reader, u16)) {
    let reader = Reader::default();
    for (name, _) in Scope::all_embedded() {
        let scope = Scope::embedded(name, &reader).unwrap();
        for lesson in 0..=scope.last() {
            look(name, &scope, &reader, lesson);
        }
    }
}

/// Whether a text is readable as a whole at a lesson, and decodable as a whole, by the check itself.
fn reads(text: &str, scope: &Scope, reader: &Reader, lesson: u16) -> (bool, bool) {
    let report = check(text, scope, reader, &Options::at(lesson));
    (report.findings.is_empty(), report.distinct.iter().all(|word| word.status == Status::Decodable))
}

/// The sounds of a word by its ARPAbet symbols: `x` and `qu` give two, /aw/ counts as the vowel of *hot*.
fn sounds(reader: &Reader, word: &str) -> Vec<String> {
    let parts = reader.read(word).readings[0].parts.clone();
    let split = |phones: &str| -> Vec<String> {
        let cluster = ["K S", "G Z", "K W", "K SH", "T S"].contains(&phones);
        if cluster { phones.split(' ').map(ToOwned::to_owned).collect() } else { vec![phones.to_owned()] }
    };
    parts.iter().flat_map(|part| split(part.arpabet())).map(|s| if s == "AO" { "AA".to_owned() } else { s }).collect()
}

/// Edit distance over sounds, the plain way.
fn distance(one: &[String], other: &[String]) -> usize {
    let mut row: Vec<usize> = (0..=other.len()).collect();
    for (i, a) in one.iter().enumerate() {
        let mut before = row[0];
        row[0] = i + 1;
        for (j, b) in other.iter().enumerate() {
            let old = row[j + 1];
            row[j + 1] = (before + usize::from(a != b)).min(old + 1).min(row[j] + 1);
            before = old;
        }
    }
    row[other.len()]
}

fn assert_chain(made: &Chain, scope: &Scope, reader: &Reader, lesson: u16, what: &str) {
    let words: Vec<&str> = made.words.iter().map(|word| word.word.as_str()).collect();
    assert_eq!(words.len(), made.steps.len() + 1, "{what}: {words:?}");
    assert_eq!(words.iter().collect::<HashSet<_>>().len(), words.len(), "{what}: a word stands twice: {words:?}");
    assert!(reads(&words.join(" "), scope, reader, lesson).1, "{what}: {words:?}");
    for pair in words.windows(2) {
        assert_eq!(distance(&sounds(reader, pair[0]), &sounds(reader, pair[1])), 1, "{what}: {pair:?}");
    }
}

/// The words of the lists of what is unfit; with those that are only odd, or without.
fn unfit(odd: bool) -> HashSet<String> {
    let lines = |name: &str| fs::read_to_string(format!("../crates/materials/data/{name}.tsv")).unwrap();
    let words = [lines("unfit"), if odd { lines("odd") } else { String::new() }];
    let words = words.iter().flat_map(|text| text.lines()).filter(|line| !line.starts_with('#'));
    words.map(|line| line.split('\t').next().unwrap().to_owned()).collect()
}

#[test]
fn every_lesson_has_a_pack_and_all_in_it_can_be_read() {
    let (unfit, never) = (unfit(true), unfit(false));
    let (mut chains, mut sentences, mut lacking) = (0, 0, 0);
    every_lesson(|name, scope, reader, lesson| {
        let what = format!("{name} {}", scope.lessons()[usize::from(lesson)].id);
        let judge = Judge::new(reader, scope);
        let made = pack(judge, &PackWanted { lesson, focus: None, class: 35, seed: 11 });
        let mut all: Vec<String> = Vec::new();
        match &made.chain {
            Ok(made) => {
                assert_chain(made, scope, reader, lesson, &what);
                all.extend(made.words.iter().map(|word| word.word.clone()));
                chains += 1;
            }
            Err(why) => {
                assert!(why.0.contains("can be sounded out at this lesson"), "{what}: {why}");
                lacking += 1;
            }
        }
        match &made.blending {
            Ok(words) => {
                let words: Vec<String> = words.iter().map(|boxes| boxes.word.clone()).collect();
                assert!(words.len() >= 4 && reads(&words.join(" "), scope, reader, lesson).1, "{what}: {words:?}");
                all.extend(words);
            }
            Err(why) => assert!(why.0.contains("only"), "{what}: {why}"),
        }
        match &made.dictation {
            Ok(made) => {
                let words = [made.new.clone(), made.review.clone()].concat();
                assert!(words.is_empty() || reads(&words.join(" "), scope, reader, lesson).1, "{what}: {words:?}");
                for sentence in &made.sentences {
                    assert!(reads(sentence, scope, reader, lesson).0, "{what}: {sentence}");
                    assert!(sentence.ends_with(['.', '?', '!']), "{what}: {sentence}");
                    // Names in sentences are names, not odd words.
                    let words = untaught::tokens(sentence).map(|t| untaught::fold_word(&sentence[t.span]));
                    assert!(!words.into_iter().any(|word| never.contains(&word)), "{what}: {sentence}");
                    sentences += 1;
                }
                all.extend(words);
            }
            Err(why) => assert!(why.0.contains("too few"), "{what}: {why}"),
        }
        if let Ok(made) = &made.listening {
            assert_contrast(made, reader, &what);
            all.extend(made.items.iter().map(|item| item.word.clone()));
        }
        let found: Vec<&String> = all.iter().filter(|word| unfit.contains(*word)).collect();
        assert!(found.is_empty(), "{what}: {found:?}");
    });
    assert!(chains > 80 && sentences > 200, "{chains} chains ({lacking} lacking), {sentences} sentences");
}

fn assert_contrast(made: &Contrast, reader: &Reader, what: &str) {
    let name = made.sound.get().arpabet;
    let has = made.items.iter().filter(|item| item.has).count();
    assert_eq!(has * 2, made.items.len(), "{what}");
    for item in &made.items {
        assert_eq!(sounds(reader, &item.word).iter().any(|sound| sound == name), item.has, "{what}: {}", item.word);
    }
    for (one, other) in &made.pairs {
        assert_eq!(distance(&sounds(reader, one), &sounds(reader, other)), 1, "{what}: {one} {other}");
    }
}

/// No word that any command can output, at any lesson, is on the list of unfit words.
#[test]
fn nothing_unfit_is_in_any_bank() {
    let (unfit, never) = (unfit(true), unfit(false));
    let reader = Reader::default();
    for (name, _) in Scope::all_embedded() {
        let scope = Scope::embedded(name, &reader).unwrap();
        let bank = Bank::new(Judge::new(&reader, &scope), scope.last(), 50, 1..=usize::MAX);
        for word in &bank.words {
            assert!(!unfit.contains(&word.word), "{name}: {}", word.word);
        }
    }
    // All words of listening lists, and all frames and their words.
    let words = fs::read_to_string("../crates/materials/data/slots.tsv").unwrap();
    let names = fs::read_to_string("../crates/materials/data/names.txt").unwrap();
    let frames = fs::read_to_string("../crates/materials/data/frames.txt").unwrap();
    for line in words.lines().filter(|line| !line.starts_with('#')) {
        let word = line.split('\t').next().unwrap();
        assert!(!unfit.contains(word), "{word}");
    }
    let text = format!("{names} {frames}");
    for token in untaught::tokens(&text) {
        assert!(!never.contains(&text[token.span].to_lowercase()));
    }
    for sound in ["S", "SH", "K", "B", "P", "T", "D", "F", "AE", "EH", "IH", "AA", "AH", "UW", "IY"] {
        let sound = untaught_phonics::SoundId::named(sound).unwrap();
        for seed in 0..8 {
            if let Ok(made) = contrast(&reader, sound, None, 20, seed) {
                assert!(made.items.iter().all(|item| !unfit.contains(&item.word)));
            }
        }
    }
}

/// Sounds, not letters: common practice, no source.
#[test]
fn one_sound_is_one_sound_however_it_is_spelled() {
    let reader = Reader::default();
    for (one, other) in
        [("box", "fox"), ("thin", "chin"), ("glass", "grass"), ("cat", "hat"), ("ship", "chip"), ("rain", "cane")]
    {
        assert_eq!(distance(&sounds(&reader, one), &sounds(&reader, other)), 1, "{one} {other}");
    }
    let scope = Scope::embedded("starter", &reader).unwrap();
    let bank = Bank::new(Judge::new(&reader, &scope), scope.last(), 35, 1..=usize::MAX);
    for (from, to) in [("box", "fox"), ("thin", "chin"), ("grass", "glass")] {
        let wanted = ChainWanted {
            steps: None,
            from: Some(from.to_owned()),
            to: Some(to.to_owned()),
            changes: Vec::new(),
            focus: None,
            seed: 1,
        };
        let made = chain(&bank, &wanted).unwrap();
        assert_eq!(made.steps.len(), 1, "{from} {to}");
        assert_eq!(made.steps[0].change.name(), "swap");
    }
}

#[test]
fn chains_keep_to_what_is_asked_for() {
    let reader = Reader::default();
    let scope = Scope::embedded("starter", &reader).unwrap();
    let lesson = scope.index_of("36").unwrap();
    let bank = Bank::new(Judge::new(&reader, &scope), lesson, 35, 1..=usize::MAX);
    let wanted =
        |from: Option<&str>, to: Option<&str>, steps: Option<usize>, changes: &[&str], seed: u64| ChainWanted {
            steps,
            from: from.map(ToOwned::to_owned),
            to: to.map(ToOwned::to_owned),
            changes: changes.iter().map(|change| (*change).to_owned()).collect(),
            focus: None,
            seed,
        };
    for seed in 0..20 {
        let made = chain(&bank, &wanted(None, None, Some(10), &[], seed)).unwrap();
        assert_eq!(made.steps.len(), 10);
        assert_chain(&made, &scope, &reader, lesson, &format!("seed {seed}"));
        let again = chain(&bank, &wanted(None, None, Some(10), &[], seed)).unwrap();
        let words = |chain: &Chain| chain.words.iter().map(|word| word.word.clone()).collect::<Vec<_>>();
        assert_eq!(words(&made), words(&again), "the same seed makes the same chain");
        let made = chain(&bank, &wanted(Some("cat"), None, Some(5), &["swap", "first"], seed)).unwrap();
        assert!(made.steps.iter().all(|step| step.change.name() == "swap" && step.place == "first"), "{made:?}");
        assert_eq!(made.words[0].word, "cat");
    }
    let made = chain(&bank, &wanted(Some("cat"), Some("dog"), None, &[], 1)).unwrap();
    assert_chain(&made, &scope, &reader, lesson, "cat to dog");
    assert_eq!((made.words[0].word.as_str(), made.words.last().unwrap().word.as_str()), ("cat", "dog"));
    assert!((3..=5).contains(&made.steps.len()), "{made:?}");
    let never = chain(&bank, &wanted(Some("nation"), None, None, &[], 1)).unwrap_err();
    assert!(never.0.contains("cannot be sounded out at this lesson"), "{never}");
}

#[test]
fn banks_are_filters_over_the_judge() {
    let reader = Reader::default();
    let scope = Scope::embedded("starter", &reader).unwrap();
    let lesson = scope.index_of("22").unwrap();
    let bank = Bank::new(Judge::new(&reader, &scope), lesson, 35, 1..=usize::MAX);
    let three = bank.select(&Wanted { sounds: 3..=3, shape: Shape::parse("CVC").ok(), ..Wanted::default() });
    assert!(three.len() > 200, "{}", three.len());
    assert!(three.iter().all(|word| sounds(&reader, &word.word).len() == 3));
    let new = bank.select(&Wanted { only_new: true, ..Wanted::default() });
    assert!(!new.is_empty());
    for word in new {
        assert!(!reads(&word.word, &scope, &reader, lesson - 1).1 && reads(&word.word, &scope, &reader, lesson).1);
    }
}
