//! British accents: classes of words against what British dictionaries print, and what must hold for every reading.
//!
//! Sources: common practice in British dictionaries, written down from memory; the tables of England's national curriculum are in
//! `published_tables.rs`, and comparisons with independent dictionaries run outside the tests.

use std::collections::BTreeSet;

use untaught::{Accent, Judge, Reader, Scope};
use untaught_phonics::CorrespondenceId;

/// How a word is read: `v/v a/ɛə r/r y/i`.
fn read(reader: &Reader, word: &str) -> Vec<String> {
    let show = |reading: &untaught::Reading| {
        let parts = reading.parts_with_ipa().map(|(part, ipa)| format!("{}/{ipa}", part.spelling()));
        parts.collect::<Vec<_>>().join(" ")
    };
    reader.read(word).readings.iter().map(show).collect()
}

fn assert_read(accent: Accent, table: &[(&str, &str)]) {
    let reader = Reader::new(accent);
    let wrong: Vec<String> = table
        .iter()
        .filter(|(word, wanted)| !read(&reader, word).iter().any(|reading| reading == wanted))
        .map(|(word, wanted)| format!("{word}: {:?}, not {wanted}", read(&reader, word)))
        .collect();
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), table.len(), wrong.join("\n"));
}

#[test]
fn southern_british_classes() {
    assert_read(
        Accent::SouthernBritish,
        &[
            // r only before a vowel.
            ("car", "c/k ar/ɑː"),
            ("fork", "f/f or/ɔː k/k"),
            ("her", "h/h er/ɜː"),
            ("hear", "h/h ear/ɪə"),
            ("hearing", "h/h ear/ɪər i/ɪ ng/ŋ"),
            // The second word of a compound keeps its stress, with an ending too.
            ("outbursts", "ou/aʊ t/t b/b ur/ɜː s/s t/t s/s"),
            ("afterburner", "a/ɑː f/f t/t er/ə b/b ur/ɜː n/n er/ə"),
            ("takeover", "t/t a_e/eɪ k/k o/əʊ v/v er/ə"),
            ("fire", "f/f ire/aɪə"),
            // Weak r-vowels, and full ones without stress.
            ("sister", "s/s i/ɪ s/s t/t er/ə"),
            ("doctor", "d/d o/ɒ c/k t/t or/ə"),
            ("picture", "p/p i/ɪ c/k t/tʃ ure/ə"),
            ("homework", "h/h o_e/əʊ m/m w/w or/ɜː k/k"),
            ("failure", "f/f ai/eɪ l/l ure/jə"),
            // lot, cloth, thought; father, bath, want.
            ("hot", "h/h o/ɒ t/t"),
            ("dog", "d/d o/ɒ g/ɡ"),
            ("saw", "s/s aw/ɔː"),
            ("father", "f/f a/ɑː th/ð er/ə"),
            ("bath", "b/b a/ɑː th/θ"),
            ("bathtub", "b/b a/ɑː th/θ t/t u/ʌ b/b"),
            ("classes", "c/k l/l a/ɑː ss/s e/ə s/z"),
            ("ant", "a/æ n/n t/t"),
            ("want", "w/w a/ɒ n/n t/t"),
            ("squash", "s/s qu/kw a/ɒ sh/ʃ"),
            ("water", "w/w a/ɔː t/t er/ə"),
            ("sausage", "s/s au/ɒ s/s a_e/ə g/dʒ"),
            // A short vowel and an r.
            ("hurry", "h/h u/ʌ rr/r y/i"),
            ("furry", "f/f urr/ɜːr y/i"),
            ("worry", "w/w o/ʌ rr/r y/i"),
            ("courage", "c/k ou/ʌ r/r a_e/ə g/dʒ"),
            ("orange", "o/ɒ r/r a/ə n/n ge/dʒ"),
            ("story", "s/s t/t or/ɔːr y/i"),
            ("parent", "p/p a/ɛə r/r e/ə n/n t/t"),
            ("carrot", "c/k a/æ rr/r o/ə t/t"),
            ("library", "l/l i/aɪ b/b r/r a/ə r/r y/i"),
            // y before a long u.
            ("new", "n/n ew/juː"),
            ("Tuesday", "t/t ue/juː s/z d/d ay/eɪ"),
            ("blue", "b/b l/l ue/uː"),
            ("hero", "h/h e/ɪə r/r o/əʊ"),
            ("reroute", "r/r e/iː r/r ou/uː te/t"),
            ("during", "d/d u/jʊə r/r i/ɪ ng/ŋ"),
            // One sound for poor, saw, fork and door.
            ("poor", "p/p oor/ɔː"),
            ("sure", "s/ʃ ure/ɔː"),
            ("cure", "c/k ure/jʊə"),
            // A silent l belongs to the vowel.
            ("half", "h/h al/ɑː f/f"),
            ("walk", "w/w al/ɔː k/k"),
            ("could", "c/k oul/ʊ d/d"),
            // Other vowels, other consonants, final i.
            ("fertile", "f/f er/ɜː t/t i_e/aɪ l/l"),
            ("tomato", "t/t o/ə m/m a/ɑː t/t o/əʊ"),
            ("because", "b/b e/ə c/k au/ɒ se/z"),
            ("happy", "h/h a/æ pp/p y/i"),
            ("anybody", "a/ɛ n/n y/i b/b o/ɒ d/d y/i"),
            // British spellings, and words that are not in the dictionary.
            ("colour", "c/k o/ʌ l/l our/ə"),
            ("centre", "c/s e/ɛ n/n t/t re/ə"),
            ("organised", "or/ɔː g/ɡ a/ə n/n i/aɪ s/z ed/d"),
            ("unpasted", "u/ʌ n/n p/p a/eɪ s/s t/t ed/ɪd"),
            ("unwatering", "u/ʌ n/n w/w a/ɔː t/t er/ər i/ɪ ng/ŋ"),
            ("nonbath", "n/n o/ɒ n/n b/b a/ɑː th/θ"),
            ("zarker", "z/z ar/ɑː k/k er/ə"),
        ],
    );
}

#[test]
fn northern_english_classes() {
    assert_read(
        Accent::NorthernEnglish,
        &[
            ("bath", "b/b a/æ th/θ"),
            ("class", "c/k l/l a/æ ss/s"),
            ("laugh", "l/l au/æ gh/f"),
            ("father", "f/f a/ɑː th/ð er/ə"),
            ("half", "h/h al/ɑː f/f"),
            ("cup", "c/k u/ʊ p/p"),
            ("put", "p/p u/ʊ t/t"),
            ("car", "c/k ar/ɑː"),
            ("want", "w/w a/ɒ n/n t/t"),
            ("new", "n/n ew/juː"),
        ],
    );
}

/// Whatever the accent, the parts of a word have all of its letters, and no part has a sound that its accent lacks.
#[test]
fn every_reading_spells_its_word_with_sounds_of_its_accent() {
    let american = Reader::default();
    let letters = |parts: &[untaught::Part]| parts.iter().map(|part| part.letters().len()).sum::<usize>();
    for accent in [Accent::SouthernBritish, Accent::NorthernEnglish] {
        let reader = Reader::new(accent);
        let mut foreign = BTreeSet::new();
        let mut words = 0;
        for (word, _) in reader.common(50) {
            words += 1;
            let (here, there) = (reader.read(word), american.read(word));
            for reading in &here.readings {
                let same = |other: &untaught::Reading| letters(&other.parts) == letters(&reading.parts);
                assert!(there.readings.iter().any(same), "{accent}: {word}: {:?}", read(&reader, word));
                assert!(reading.stressed.is_none_or(|at| at < reading.parts.len()), "{accent}: {word}");
                let ids = reading.parts.iter().filter_map(untaught::Part::id);
                foreign.extend(ids.filter(|id| !id.get().is_in(accent)).map(|id| (id.get().spelling, word)));
            }
        }
        assert!(words > 40_000, "{words}");
        assert!(
            foreign.is_empty(),
            "{accent}: {} parts: {:?}",
            foreign.len(),
            foreign.iter().take(20).collect::<Vec<_>>()
        );
    }
}

#[test]
fn every_british_key_word_is_read_as_its_entry_says() {
    let reader = Reader::new(Accent::SouthernBritish);
    let only = |id: &CorrespondenceId| !id.get().is_in(Accent::GeneralAmerican);
    let mut checked = 0;
    for id in CorrespondenceId::all().filter(only) {
        checked += 1;
        let entry = id.get();
        let found =
            reader.read(entry.key).readings.iter().any(|reading| reading.parts.iter().any(|p| p.id() == Some(id)));
        assert!(found, "{} as in {}: {:?}", entry.spelling, entry.key, read(&reader, entry.key));
    }
    assert!(checked > 30, "{checked}");
}

#[test]
fn a_scope_teaches_apart_what_its_accent_keeps_apart() {
    let reader = Reader::default();
    let scope = |accent: &str, lessons: &str| {
        let parsed = Scope::parse(&format!("format: 1\naccent: {accent}\nlessons:\n{lessons}"), &reader);
        parsed.map_err(|faults| faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("; "))
    };
    let lessons = "- teach: [er as in her, ew as in grew, or as in word, a as in bath, au as in August, al as in walk]\n\
                   - teach: [er as in sister, ew as in new, or as in doctor, a as in want, au as in because, oul as in could]\n";
    assert_eq!(scope("southern-british", lessons).map(|scope| scope.accent()), Ok(Accent::SouthernBritish));
    let same = "- {id: autumn, teach: [a as in bath]}\n- teach: [a as in father]\n";
    assert_eq!(
        scope("southern-british", same).map(|_| ()),
        Err("line 5, column 11: `a as in father` has the same sound in southern British, /ɑː/, as `a as in bath`, which lesson \
             autumn teaches already"
            .to_owned())
    );
    assert!(scope("northern-english", same).is_ok());
    let unknown = scope("southern-brutish", same).map(|_| ()).unwrap_err();
    assert!(
        unknown.starts_with("line 2, column 9: there is no accent southern-brutish; did you mean southern-british?"),
        "{unknown}"
    );
}

/// *sister* waits for the lesson that names its sound; with the bare spelling both sounds are taught.
#[test]
fn verdicts_follow_the_accent_of_the_scope() {
    let reader = Reader::default();
    let letters = "s, i, t, h, e, b, a, th as in thin, n";
    let first = |accent: &str, later: &str, word: &str| {
        let text = format!(
            "format: 1\naccent: {accent}\nlessons:\n- teach: [{letters}]\n- teach: [{later}]\n- teach: [a as in father]\n"
        );
        let scope = Scope::parse(&text, &reader).unwrap();
        Judge::new(&reader, &scope).judge(word).first_decodable().map(|lesson| scope.id(lesson).to_owned())
    };
    let second = Some("2".to_owned());
    assert_eq!(first("southern-british", "er as in her", "sister"), None);
    assert_eq!(first("southern-british", "er as in sister", "sister"), second);
    assert_eq!(first("southern-british", "er", "sister"), second);
    assert_eq!(first("general-american", "er as in her", "sister"), second);
    // Where no r is heard, *wire* has the i_e of *five*.
    let wire = |accent: &str, later: &str| {
        let text = format!("format: 1\naccent: {accent}\nlessons:\n- teach: [w, i_e]\n- teach: [{later}]\n");
        let scope = Scope::parse(&text, &reader).unwrap();
        Judge::new(&reader, &scope).judge("wire").first_decodable().map(|lesson| scope.id(lesson).to_owned())
    };
    assert_eq!(wire("southern-british", "sh"), Some("1".to_owned()));
    assert_eq!(wire("southern-british", "ire as in fire"), Some("2".to_owned()));
    assert_eq!(wire("general-american", "sh"), None);
    assert_eq!(first("southern-british", "er", "bath"), Some("3".to_owned()));
    assert_eq!(first("northern-english", "er", "bath"), Some("1".to_owned()));
    assert_eq!(first("general-american", "er", "bath"), Some("1".to_owned()));
}

/// General American has one sound in *her* and *sister*: a scope that names both gets them apart, for that spelling alone.
#[test]
fn an_american_scope_may_keep_sister_apart_from_her() {
    let reader = Reader::default();
    let letters = "s, i, t, h, b, f, n, d, o, w, k, l, e, u, a, ck, g, -s, m, j, p, r";
    let first = |lessons: &str, word: &str| {
        let text = format!(
            "format: 1\nlessons:\n- {{teach: [{letters}], skills: [two-syllable-words, longer-words]}}\n{lessons}"
        );
        let scope = Scope::parse(&text, &reader).unwrap_or_else(|faults| panic!("{lessons}: {faults:?}"));
        let judge = Judge::new(&reader, &scope);
        let verdict = judge.judge(word);
        let banked = scope.indexed_lessons().map(|(at, _)| at).find(|at| {
            judge.candidates(*at, 50).any(|found| found.word() == word && judge.decodable(found, *at).is_some())
        });
        assert_eq!(verdict.first_decodable(), banked, "{word}: the bank and the judge agree");
        verdict.first_decodable().map(|lesson| scope.id(lesson).to_owned())
    };
    let apart = "- teach: [er as in her]\n- teach: [er as in sister]\n- teach: [or as in word, c]\n- teach: [-er]\n";
    let at = |lesson: &str| Some(lesson.to_owned());
    for (word, lesson) in [
        ("her", "2"),
        ("herd", "2"),
        ("perfect", "4"),
        ("sister", "3"),
        ("understand", "3"),
        ("lobster", "3"),
        ("word", "4"),
        // The file names no `or as in doctor`: `or as in word` is enough.
        ("doctor", "4"),
    ] {
        assert_eq!(first(apart, word), at(lesson), "{word}");
    }
    for alone in ["- teach: [er as in her]\n", "- teach: [er as in sister]\n", "- teach: [er]\n"] {
        assert_eq!((first(alone, "her"), first(alone, "sister")), (at("2"), at("2")), "{alone}");
    }
    let reader = Reader::default();
    let both = Scope::parse("format: 1\nlessons:\n- teach: [er as in sister, er as in her]\n", &reader).unwrap();
    assert_eq!(both.accent(), Accent::GeneralAmerican);
    assert_eq!(read(Judge::new(&reader, &both).reader(), "sister"), ["s/s i/ɪ s/s t/t er/ər"]);
    let twice = Scope::parse("format: 1\nlessons:\n- teach: [er as in her, er as in herd]\n", &reader);
    assert_eq!(twice.unwrap_err().len(), 1);
}
