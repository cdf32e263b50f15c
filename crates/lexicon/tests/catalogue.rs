//! Tests every catalogue entry with its key word, and the packed bytes themselves.

use untaught_lexicon::{Flaw, Lexicon, PackedPart};
use untaught_phonics::{Accent, CorrespondenceId, Grade};

fn spellings(lexicon: &Lexicon, word: &str) -> Vec<String> {
    let entry = lexicon.get(word).into_iter();
    let cut = entry.flat_map(|entry| entry.readings()).map(|reading| {
        let parts = reading.parts().map(|part| match part {
            PackedPart::Known { id, .. } => id.get().spelling,
            PackedPart::Odd(_) => "?",
        });
        parts.collect::<Vec<_>>().join("·")
    });
    cut.collect()
}

#[test]
fn every_key_word_is_cut_as_its_entry_says() {
    let lexicon = Lexicon::embedded();
    let mut wrong = Vec::new();
    // British readings are not packed as they are: the core tests them.
    for id in CorrespondenceId::all().filter(|id| id.get().is_in(Accent::GeneralAmerican)) {
        let entry = id.get();
        let word = lexicon.get(entry.key);
        if word.is_none() && entry.key.ends_with("'s") {
            continue; // Possessives are not in the lexicon; the core forms and tests them.
        }
        let found = word.is_some_and(|word| {
            word.readings()
                .any(|r| r.parts().any(|part| matches!(part, PackedPart::Known { id: known, .. } if known == id)))
        });
        if !found {
            let cut = spellings(&lexicon, entry.key).join(", ");
            wrong.push(format!("{} {} as in {}: {cut}", entry.spelling, entry.sound.get().name, entry.key));
        }
    }
    assert!(wrong.is_empty(), "{} of {} entries:\n{}", wrong.len(), CorrespondenceId::all().count(), wrong.join("\n"));
}

/// A bare spelling in a scope file must teach something, and a child could know its key word.
#[test]
fn everyday_key_words_are_common() {
    let lexicon = Lexicon::embedded();
    let everyday = CorrespondenceId::all().map(CorrespondenceId::get).filter(|entry| entry.grade == Grade::Everyday);
    let everyday = everyday.filter(|entry| !entry.key.ends_with("'s"));
    let rare: Vec<&str> = everyday
        .filter(|entry| lexicon.get(entry.key).is_none_or(|word| word.commonness().is_none()))
        .map(|entry| entry.key)
        .collect();
    assert!(rare.is_empty(), "{rare:?}");
}

#[test]
fn the_packed_lexicon_is_sound() {
    let lexicon = Lexicon::verified().unwrap();
    assert_eq!(lexicon.entries().count(), lexicon.len());
    let mut last = "";
    for entry in lexicon.entries() {
        assert!(last < entry.word(), "{last} before {}", entry.word());
        last = entry.word();
        assert_eq!(lexicon.get(entry.word()).map(|found| found.word()), Some(entry.word()));
        assert!(entry.readings().next().is_some(), "{last} has no reading");
        for reading in entry.readings() {
            assert!(reading.parts().next().is_some(), "{last} has an empty reading");
            for part in reading.parts() {
                if let PackedPart::Odd(number) = part {
                    assert!(lexicon.oddity(number).is_some(), "{last} names an oddity that is not there");
                }
            }
        }
    }
    assert!(lexicon.get("").is_none() && lexicon.get("zzzzzz").is_none() && lexicon.get(&"a".repeat(300)).is_none());
}

#[test]
fn bytes_that_are_not_a_lexicon_are_refused() {
    assert_eq!(Lexicon::open(b"").unwrap_err(), Flaw::NotALexicon);
    assert_eq!(Lexicon::open(&[0; 100]).unwrap_err(), Flaw::NotALexicon);
    static OTHER: [u8; 64] = {
        let mut bytes = [0; 64];
        let magic = *b"untaught";
        let mut at = 0;
        while at < 8 {
            bytes[at] = magic[at];
            at += 1;
        }
        bytes[8] = 99;
        bytes
    };
    assert_eq!(Lexicon::open(&OTHER).unwrap_err(), Flaw::OtherVersion);
}

/// The letters of every cut add up to the letters of the word.
#[test]
fn every_cutting_spells_its_word() {
    let lexicon = Lexicon::embedded();
    for entry in lexicon.entries() {
        let letters: String = entry.word().chars().filter(char::is_ascii_lowercase).collect();
        for reading in entry.readings() {
            let mut spelled = String::new();
            let mut waiting = 0;
            for part in reading.parts() {
                match part {
                    PackedPart::Odd(number) => spelled.push_str(lexicon.oddity(number).unwrap().0),
                    PackedPart::Known { id, e_dropped } => {
                        let spelling = id.get().spelling;
                        let whole = if e_dropped { spelling.trim_end_matches('e') } else { spelling };
                        if let Some(vowel) = spelling.strip_suffix("_e") {
                            spelled.push_str(vowel);
                            waiting = if e_dropped { 0 } else { spelled.len() };
                            continue;
                        }
                        spelled.push_str(whole);
                    }
                }
                if waiting > 0 && letters.as_bytes().get(spelled.len()) == Some(&b'e') {
                    spelled.push('e');
                    waiting = 0;
                }
            }
            assert_eq!(spelled, letters, "{}", entry.word());
        }
    }
}
