//! Lists for lessons: at each lesson of each scope that comes with the program every list is made or a sentence says why not, and every
//! list is right by checks that share no code with what made it.
//!
//! One lesson in five is tried, and the last; all of them with `UNTAUGHT_WHOLE=1`.

use std::collections::HashSet;
use std::fs;

use untaught::{Judge, LessonIndex, Options, Part, Pattern, Reader, Scope, Status, check};
use untaught_lists::{
    Bank, Chain, ChainRequest, Contrast, PackRequest, Shape, Vocabulary, WordFilter, WordPosition, chain, contrast,
    pack,
};
use untaught_phonics::SoundId;

/// Calls a function at lessons of all scopes; gives how many there were.
fn at_lessons(mut look: impl FnMut(&str, &Scope, &Reader, LessonIndex)) -> usize {
    let reader = Reader::default();
    let step = if std::env::var_os("UNTAUGHT_WHOLE").is_some() { 1 } else { 5 };
    let mut count = 0;
    for (name, _) in Scope::all_embedded() {
        let scope = Scope::embedded(name, &reader).unwrap();
        let chosen = scope.indexed_lessons().map(|(lesson, _)| lesson);
        for lesson in chosen.filter(|lesson| lesson.get() % step == 0 || *lesson == scope.last()) {
            look(name, &scope, reader.in_accent(scope.accent()), lesson);
            count += 1;
        }
    }
    count
}

/// Whether a text is readable as a whole at a lesson, and decodable as a whole, by the check itself.
fn reads(text: &str, scope: &Scope, reader: &Reader, lesson: LessonIndex) -> (bool, bool) {
    let report = check(text, scope, reader, &Options::at(lesson));
    (report.findings.is_empty(), report.distinct.iter().all(|word| word.status == Status::Decodable))
}

/// The sounds of a word by its ARPAbet symbols: `x` and `qu` give two, /aw/ counts as the vowel of *hot*.
fn sounds(reader: &Reader, word: &str) -> Vec<String> {
    let american = !reader.accent().is_british();
    let merged = |sound: String| if american && sound == "AO" { "AA".to_owned() } else { sound };
    sounds_apart(reader, word).into_iter().map(merged).collect()
}

fn sounds_apart(reader: &Reader, word: &str) -> Vec<String> {
    let parts = reader.read(word).readings[0].parts.clone();
    let heard = |part: &Part| part.id().map_or("", |id| reader.accent().heard(id.get().sound).get().arpabet);
    let split = |phones: &str| -> Vec<String> {
        let cluster = ["K S", "G Z", "K W", "K SH", "T S"].contains(&phones);
        if cluster { phones.split(' ').map(ToOwned::to_owned).collect() } else { vec![phones.to_owned()] }
    };
    parts.iter().flat_map(|part| split(heard(part))).collect()
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

fn assert_chain(made: &Chain, scope: &Scope, reader: &Reader, lesson: LessonIndex, what: &str) {
    let words: Vec<&str> = made.words.iter().map(String::as_str).collect();
    assert_eq!(words.len(), made.steps.len() + 1, "{what}: {words:?}");
    assert_eq!(words.iter().collect::<HashSet<_>>().len(), words.len(), "{what}: a word stands twice: {words:?}");
    assert!(reads(&words.join(" "), scope, reader, lesson).1, "{what}: {words:?}");
    for pair in words.windows(2) {
        assert_eq!(distance(&sounds(reader, pair[0]), &sounds(reader, pair[1])), 1, "{what}: {pair:?}");
    }
}

fn spelled(reader: &Reader, word: &str) -> Vec<String> {
    reader.read(word).readings[0].parts.iter().map(|part| part.spelling().to_owned()).collect()
}

/// Six words in ten have a spelling of the lesson, where it teaches nothing but spellings; no step spells the other sounds in another way;
/// the tiles lay every word.
fn assert_practises(made: &Chain, scope: &Scope, reader: &Reader, lesson: LessonIndex, what: &str) {
    let taught = scope.lesson(lesson).unwrap();
    let bare = |pattern: &Pattern| match pattern {
        Pattern::Bare(spelling) => Some((*spelling).to_owned()),
        Pattern::One(id, _) => Some(id.get().spelling.to_owned()),
        _ => None,
    };
    let spellings: Option<Vec<String>> = taught.taught().iter().map(bare).collect();
    if let Some(spellings) = spellings.filter(|spellings| !spellings.is_empty()) {
        // The `se` of *raised* has lost its e to the ending.
        let has = |word: &&String| {
            let parts = reader.read(word).readings[0].parts.clone();
            parts.iter().filter_map(Part::id).any(|id| spellings.iter().any(|spelling| spelling == id.get().spelling))
        };
        let practising = made.words.iter().filter(has).count();
        assert!(practising * 10 >= made.words.len() * 6, "{what}: {practising} of {:?}", made.words);
    }
    for pair in made.words.windows(2) {
        let (old, new) = (spelled(reader, &pair[0]), spelled(reader, &pair[1]));
        let start = old.iter().zip(&new).take_while(|(a, b)| a == b).count();
        let most = old.len().min(new.len()) - start;
        let end = old.iter().rev().zip(new.iter().rev()).take(most).take_while(|(a, b)| a == b).count();
        assert!(old.len() - start - end <= 1 && new.len() - start - end <= 1, "{what}: {pair:?}");
    }
    for word in &made.words {
        let mut tiles = made.tiles.clone();
        for part in spelled(reader, word) {
            let at = tiles.iter().position(|tile| *tile == part);
            tiles.remove(at.unwrap_or_else(|| panic!("{what}: no tile {part} for {word}")));
        }
    }
}

/// The words of the reviewed lists of unfit words; with those that are only odd, or without.
fn unfit(odd: bool) -> HashSet<String> {
    let lines = |name: &str| fs::read_to_string(format!("data/fitness/{name}.tsv")).unwrap();
    let words = [lines("unfit"), if odd { lines("odd") } else { String::new() }];
    let words = words.iter().flat_map(|text| text.lines()).filter(|line| !line.starts_with('#'));
    words.map(|line| line.split('\t').next().unwrap().to_owned()).collect()
}

#[test]
fn every_lesson_has_a_pack_and_all_in_it_can_be_read() {
    let (unfit, never) = (unfit(true), unfit(false));
    let (mut chains, mut sentences) = (0, 0);
    let lessons = at_lessons(|name, scope, reader, lesson| {
        let what = format!("{name} {}", scope.id(lesson));
        let judge = Judge::new(reader, scope);
        let made = pack(judge, &PackRequest { lesson, focus: None, vocabulary: Vocabulary::default(), seed: 11 });
        let mut all: Vec<String> = Vec::new();
        if let Some(made) = &made.chain {
            assert_chain(made, scope, reader, lesson, &what);
            assert_practises(made, scope, reader, lesson, &what);
            all.extend(made.words.iter().cloned());
            chains += 1;
        }
        if let Some(words) = &made.blending {
            let words: Vec<String> = words.iter().map(|boxes| boxes.word.clone()).collect();
            assert!(words.len() >= 4 && reads(&words.join(" "), scope, reader, lesson).1, "{what}: {words:?}");
            all.extend(words);
        }
        if let Some(made) = &made.dictation {
            let words = [made.new.clone(), made.review.clone()].concat();
            assert!(words.is_empty() || reads(&words.join(" "), scope, reader, lesson).1, "{what}: {words:?}");
            for sentence in &made.sentences {
                assert!(reads(sentence, scope, reader, lesson).0, "{what}: {sentence}");
                assert!(sentence.trim_end_matches('"').ends_with(['.', '?', '!']), "{what}: {sentence}");
                // Names in sentences are names, not odd words.
                let words = untaught::tokens(sentence).map(|t| untaught::fold_word(&sentence[t.span]));
                assert!(!words.into_iter().any(|word| never.contains(&word)), "{what}: {sentence}");
                sentences += 1;
            }
            all.extend(words);
        }
        for made in made.listening.iter().chain(&made.listening_more) {
            assert_contrast(made, reader, &what);
            all.extend(made.items.iter().map(|item| item.word.clone()));
        }
        for word in made.oral.blend.iter().chain(&made.oral.segment) {
            assert!(reads(&word.word, scope, reader, lesson).1, "{what}: {}", word.word);
            assert_eq!(word.sounds, spelled(reader, &word.word), "{what}");
            all.push(word.word.clone());
        }
        for lacking in &made.lacking {
            let said = match lacking.list {
                "chain" => "words",
                "blending" => "common words",
                "nonsense" => "too few words",
                "sort" => "no sort can be made",
                "dictation" => "too few",
                "listening" => " ",
                other => panic!("{what}: {other}"),
            };
            assert!(lacking.why.contains(said), "{what}: {}", lacking.why);
        }
        let found: Vec<&String> = all.iter().filter(|word| unfit.contains(*word)).collect();
        assert!(found.is_empty(), "{what}: {found:?}");
    });
    assert!(chains * 2 > lessons && sentences > lessons, "{lessons} lessons, {chains} chains, {sentences} sentences");
}

fn assert_contrast(made: &Contrast, reader: &Reader, what: &str) {
    let name = made.sound.get().arpabet;
    let sounds = |reader: &Reader, word: &str| match name {
        // A list for the vowel of *saw* keeps it apart from that of *hot*.
        "AO" => sounds_apart(reader, word),
        _ => sounds(reader, word),
    };
    // The key word shows the sound as the lesson spells it.
    let shows = made.letters.split('_').all(|letters| made.key.contains(letters));
    assert!(shows && sounds(reader, &made.key).iter().any(|sound| sound == name), "{what}: {}", made.plain_heading());
    let has = made.items.iter().filter(|item| item.has).count();
    assert_eq!(has * 2, made.items.len(), "{what}");
    let rows = made.items.chunk_by(|one, other| one.has == other.has).map(<[_]>::len).max();
    assert!(rows <= Some(4), "{what}: {rows:?} equal answers in a row");
    for item in &made.items {
        let sounds = sounds(reader, &item.word);
        assert_eq!(sounds.iter().any(|sound| sound == name), item.has, "{what}: {}", item.word);
        let at = sounds.iter().position(|sound| sound == name);
        let place = match made.position {
            WordPosition::Start => at == Some(0),
            WordPosition::End => at == sounds.len().checked_sub(1),
            WordPosition::Middle => at.is_some_and(|at| at > 0 && at + 1 < sounds.len()),
        };
        assert!(place || !item.has, "{what}: {} {:?}", item.word, made.position);
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
        let bank =
            Bank::new(Judge::new(&reader, &scope), scope.last(), Vocabulary { class: 50, older: true }, 1..=usize::MAX);
        for word in &bank.words {
            assert!(!unfit.contains(&word.word), "{name}: {}", word.word);
        }
    }
    // All words of listening lists, and all frames and their words.
    let words = fs::read_to_string("data/sentences/slots.tsv").unwrap();
    let names = fs::read_to_string("data/sentences/names.txt").unwrap();
    let frames = fs::read_to_string("data/sentences/frames.txt").unwrap();
    for line in words.lines().filter(|line| !line.starts_with('#')) {
        let word = line.split('\t').next().unwrap();
        assert!(!unfit.contains(word), "{word}");
    }
    let text = format!("{names} {frames}");
    for token in untaught::tokens(&text) {
        assert!(!never.contains(&text[token.span].to_lowercase()));
    }
    for sound in ["S", "SH", "K", "B", "P", "T", "D", "F", "AE", "EH", "IH", "AA", "AH", "UW", "IY"] {
        let sound = SoundId::named(sound).unwrap();
        for seed in 0..8 {
            if let Ok(made) = contrast(&reader, sound, None, &[], 20, seed) {
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
    let bank = Bank::new(Judge::new(&reader, &scope), scope.last(), Vocabulary::default(), 1..=usize::MAX);
    for (from, to) in [("box", "fox"), ("thin", "chin"), ("grass", "glass")] {
        let wanted =
            ChainRequest { from: Some(from.to_owned()), to: Some(to.to_owned()), seed: 1, ..ChainRequest::default() };
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
    let bank = Bank::new(Judge::new(&reader, &scope), lesson, Vocabulary::default(), 1..=usize::MAX);
    let wanted =
        |from: Option<&str>, to: Option<&str>, steps: Option<usize>, changes: &[&str], seed: u64| ChainRequest {
            steps,
            from: from.map(ToOwned::to_owned),
            to: to.map(ToOwned::to_owned),
            changes: changes.iter().map(|change| (*change).to_owned()).collect(),
            focus: None,
            respell: false,
            seed,
        };
    for seed in 0..20 {
        let made = chain(&bank, &wanted(None, None, Some(10), &[], seed)).unwrap();
        assert_eq!(made.steps.len(), 10);
        assert_chain(&made, &scope, &reader, lesson, &format!("seed {seed}"));
        let again = chain(&bank, &wanted(None, None, Some(10), &[], seed)).unwrap();
        assert_eq!(made.words, again.words, "the same seed makes the same chain");
        let made = chain(&bank, &wanted(Some("cat"), None, Some(5), &["swap", "first"], seed)).unwrap();
        assert!(made.steps.iter().all(|step| step.change.name() == "swap" && step.place == "first"), "{made:?}");
        assert_eq!(made.words[0], "cat");
    }
    let made = chain(&bank, &wanted(Some("cat"), Some("dog"), None, &[], 1)).unwrap();
    assert_chain(&made, &scope, &reader, lesson, "cat to dog");
    assert_eq!((made.words[0].as_str(), made.words.last().unwrap().as_str()), ("cat", "dog"));
    assert!((3..=5).contains(&made.steps.len()), "{made:?}");
    let never = chain(&bank, &wanted(Some("nation"), None, None, &[], 1)).unwrap_err();
    assert!(never.0.contains("cannot be sounded out at this lesson"), "{never}");
}

#[test]
fn banks_are_filters_over_the_judge() {
    let reader = Reader::default();
    let scope = Scope::embedded("starter", &reader).unwrap();
    let lesson = scope.index_of("22").unwrap();
    let bank = Bank::new(Judge::new(&reader, &scope), lesson, Vocabulary::default(), 1..=usize::MAX);
    let three = bank.select(&WordFilter { sounds: 3..=3, shape: Shape::parse("CVC").ok(), ..WordFilter::default() });
    assert!(three.len() > 200, "{}", three.len());
    assert!(three.iter().all(|word| sounds(&reader, &word.word).len() == 3));
    let new = bank.select(&WordFilter { only_new: true, ..WordFilter::default() });
    assert!(!new.is_empty());
    for word in new {
        assert!(
            !reads(&word.word, &scope, &reader, lesson.back(1).unwrap()).1
                && reads(&word.word, &scope, &reader, lesson).1
        );
    }
}
