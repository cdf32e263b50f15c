//! Words that the dictionary lacks, made of words that it has: each row stands for a class, and was cut by ear (common practice, no
//! source). Where a class was once read wrongly, the false reading is named.

use untaught::{Judge, Origin, Reader, Scope};

/// A word, its cutting and its sounds.
const DERIVED: [(&str, &str, &str); 42] = [
    // One ending, the base unchanged, without its e, doubled, with i for y.
    ("clomping", "c·l·o·m·p·i·ng", "ˈklɑmpɪŋ"),
    ("lacing", "l·a·c·i·ng", "ˈleɪsɪŋ"),
    ("clopped", "c·l·o·pp·ed", "klɑpt"),
    ("messiness", "m·e·ss·i·n·e·ss", "ˈmɛsiːnəs"),
    ("baddies", "b·a·dd·ie·s", "ˈbædiːz"),
    // Not of a plain word that would double its last letter: not /strɪpi/, /pælər/, /hʌɡər/.
    ("stripy", "s·t·r·i·p·y", "ˈstraɪpiː"),
    ("paler", "p·a·l·er", "ˈpeɪlɜr"),
    ("huger", "h·u·g·er", "ˈhjuːdʒɜr"),
    ("sloped", "s·l·o·p·ed", "sloʊpt"),
    // Not of a plural: not /tɛnzd/.
    ("tensed", "t·e·n·s·ed", "tɛnst"),
    // -ly after l, -le, -able and -ic.
    ("causally", "c·au·s·a·ll·y", "ˈkɔːzəliː"),
    ("pimply", "p·i·m·p·l·y", "ˈpɪmpliː"),
    ("applicably", "a·pp·l·i·c·a·b·l·y", "ˈæpləkəbliː"),
    ("chaotically", "ch·a·o·t·i·c·a·ll·y", "keɪˈɑtɪkəliː"),
    // Not *chew* and *able*.
    ("chewable", "ch·ew·a·b·le", "ˈtʃuːəbəl"),
    // Two endings.
    ("contrivers", "c·o·n·t·r·i·v·er·s", "kənˈtraɪvɜrz"),
    ("hammiest", "h·a·mm·i·e·s·t", "ˈhæmiːəst"),
    ("portliness", "p·or·t·l·i·n·e·ss", "ˈpɔrtliːnəs"),
    ("eyefuls", "eye·f·u·l·s", "ˈaɪfəlz"),
    // Compounds, not after a plural: not *toads* and *tool*.
    ("goatherds", "g·oa·t·h·er·d·s", "ˈɡoʊthɜrdz"),
    ("toadstool", "t·oa·d·s·t·oo·l", "ˈtoʊdstuːl"),
    ("peashooter", "p·ea·sh·oo·t·er", "ˈpiːʃuːtɜr"),
    ("rosehips", "r·o_e·s·h·i·p·s", "ˈroʊzhɪps"),
    // Beginnings, before compounds: not *ref* and *old*.
    ("refold", "r·e·f·o·l·d", "riːˈfoʊld"),
    ("readapt", "r·e·a·d·a·p·t", "riːəˈdæpt"),
    ("unfussy", "u·n·f·u·ss·y", "ʌnˈfʌsiː"),
    ("degrease", "d·e·g·r·ea·se", "diːˈɡriːs"),
    // Lengthened: three letters alike, or two that no word writes.
    ("soooo", "s·o", "soʊ"),
    ("goood", "g·oo·d", "ɡʊd"),
    ("ooooh", "ooh", "uː"),
    ("eeek", "ee·k", "iːk"),
    ("meee", "m·e", "miː"),
    ("eww", "ew", "juː"),
    ("shhh", "sh", "ʃ"),
    ("woofed", "w·oo·f·ed", "wuːft"),
    ("whooshed", "wh·oo·sh·ed", "wuːʃt"),
    ("squelchy", "s·qu·e·l·ch·y", "ˈskwɛltʃiː"),
    ("splotches", "s·p·l·o·tch·e·s", "ˈsplɑtʃəz"),
    ("clunked", "c·l·u·n·k·ed", "klʌŋkt"),
    ("froggy", "f·r·o·gg·y", "ˈfrɑɡiː"),
    ("goatlike", "g·oa·t·l·i_e·k", "ˈɡoʊtlaɪk"),
    ("slipperiest", "s·l·i·pp·er·i·e·s·t", "ˈslɪpɜriːəst"),
];

#[test]
fn derived_words_are_cut_like_their_bases() {
    let reader = Reader::default();
    let mut wrong = Vec::new();
    for (word, cut, ipa) in DERIVED {
        let read = reader.read(word);
        let reading = &read.readings[0];
        let parts: Vec<&str> = reading.parts.iter().map(untaught::Part::spelling).collect();
        if (parts.join("·").as_str(), reading.ipa().as_str()) != (cut, ipa) || read.origin != Origin::Derived {
            wrong.push(format!("{word}: {} /{}/, {}", parts.join("·"), reading.ipa(), read.origin.name()));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// Nothing is lost or added: the letters of a derived word's parts are its own.
#[test]
fn the_letters_of_a_derived_cutting_are_the_word() {
    let reader = Reader::default();
    let sorted = |mut letters: Vec<u8>| {
        letters.sort_unstable();
        letters
    };
    let (mut seen, mut wrong) = (0, Vec::new());
    for (base, _) in reader.common(20).filter(|(base, _)| base.bytes().all(|b| b.is_ascii_lowercase())) {
        let stem = base.strip_suffix('e').unwrap_or(base);
        for ending in ["ing", "ed", "er", "est", "ly", "y", "able", "ness", "less", "ful", "s", "es"] {
            for word in [format!("{base}{ending}"), format!("{stem}{ending}"), format!("re{base}{ending}")] {
                let read = reader.read(&word);
                // What is lengthened is shortened.
                let long = |run: &[u8]| run.len() > 2 || run.len() == 2 && b"ahijkquvwxy".contains(&run[0]);
                if read.origin != Origin::Derived || word.as_bytes().chunk_by(|a, b| a == b).any(long) {
                    continue;
                }
                seen += 1;
                let parts = read.readings[0].parts.iter().flat_map(|part| part.spelling().bytes());
                if sorted(parts.filter(|b| *b != b'_').collect()) != sorted(word.bytes().collect()) {
                    let parts: Vec<&str> = read.readings[0].parts.iter().map(untaught::Part::spelling).collect();
                    wrong.push(format!("{word}: {}", parts.join("·")));
                }
            }
        }
    }
    assert!(seen > 50_000, "{seen}");
    assert!(wrong.is_empty(), "{} of {seen}: {:?}", wrong.len(), &wrong[..wrong.len().min(60)]);
}

/// What only looks derived is read by its letters: *clippity* not *clip* and *pity*.
#[test]
fn what_only_looks_derived_is_read_by_its_letters() {
    let reader = Reader::default();
    for (word, cut) in [
        ("privateer", "p·r·i·v·a·t·eer"),
        ("clippity", "c·l·i·pp·i·t·y"),
        ("veeblo", "v·ee·b·l·o"),
        ("flotch", "f·l·o·tch"),
    ] {
        let read = reader.read(word);
        let parts: Vec<&str> = read.readings[0].parts.iter().map(untaught::Part::spelling).collect();
        assert_eq!((read.origin, parts.join("·").as_str()), (Origin::Letters, cut), "{word}");
    }
}

/// The l of *giggle* opens the syllable of an ending in every such word, whichever way the dictionary has it.
#[test]
fn a_syllabic_l_opens_the_syllable_of_an_ending() {
    let reader = Reader::default();
    for (word, base) in [
        ("giggling", "giggle"),
        ("chuckling", "chuckle"),
        ("bubbling", "bubble"),
        ("wobbly", "wobble"),
        ("toddler", "toddle"),
        ("gentlest", "gentle"),
        ("scrabbling", "scrabble"),
    ] {
        let read = reader.read(word);
        let reading = &read.readings[0];
        assert_eq!(reading.syllables(), 2, "{word}");
        if word.ends_with("ing") {
            assert_eq!(reader.inflected_of(word, reading).as_deref(), Some(base), "{word}");
        }
    }
}

/// Consonants alone are a sound of stories, or an abbreviation, which is to be taught whole.
#[test]
fn consonants_alone_are_sounds_or_abbreviations() {
    let reader = Reader::default();
    let scope = Scope::embedded("starter", &reader).unwrap();
    let judge = Judge::new(&reader, &scope);
    for sound in ["shh", "psst", "hmm", "zzz", "brrr", "chrrr", "tsk"] {
        assert!(judge.judge(sound).first_decodable().is_some(), "{sound}");
    }
    for abbreviation in ["dr", "ms", "lt", "km", "xkcd", "phd"] {
        let verdict = judge.judge(abbreviation);
        let needs = judge.needs(&verdict, 10);
        assert_eq!((verdict.first_readable(), verdict.by_letters()), (None, false), "{abbreviation}");
        assert_eq!(needs.len(), 1, "{abbreviation}");
        assert_eq!(needs[0].label, "teaching whole, as an abbreviation", "{abbreviation}");
    }
}

/// Once a scope names an ending, every word that sounds it is read with it, also where the base is not known or is no verb.
#[test]
fn a_past_is_read_by_its_ending_wherever_it_stands() {
    let reader = Reader::default();
    for name in ["starter", "england-years-1-2"] {
        let scope = Scope::embedded(name, &reader).unwrap();
        let judge = Judge::new(&reader, &scope);
        for word in ["panicked", "unwanted", "unused", "unexpected", "supposedly", "embedded", "enclosed", "clogged"] {
            let verdict = judge.judge(word);
            let labels: Vec<String> = judge.needs(&verdict, scope.last()).into_iter().map(|need| need.label).collect();
            assert!(
                !labels.iter().any(|label| label.starts_with("ed ") || label.starts_with("-ed")),
                "{name}: {word}: {labels:?}"
            );
        }
    }
}

/// *Backfired* is a compound because *backfire* is; *carnation* and *napkin* only look like two words.
#[test]
fn compounds_are_told_from_what_looks_like_them() {
    let reader = Reader::default();
    let is_compound = |word: &str| {
        let word = reader.read(word);
        untaught::skills_demanded(&reader, &word, &word.readings[0]).contains(&untaught::Skill::CompoundWords)
    };
    for word in [
        "bathtub",
        "bathtubs",
        "backfired",
        "babysitting",
        "fireman",
        "leapfrog",
        "into",
        "toadstool",
        "afternoon",
        "earring",
        "teammates",
        "granddaughter",
    ] {
        assert!(is_compound(word), "{word}");
    }
    for word in
        ["carnation", "napkins", "pumpkin", "candid", "robins", "friendship", "friendships", "mending", "season"]
    {
        assert!(!is_compound(word), "{word}");
    }
}

/// A plural is of an ordinary word, not of a name that looks like its base: *branches* is not of *Branche*, *stories* not of *Storie*.
#[test]
fn plurals_are_of_ordinary_words() {
    let reader = Reader::default();
    let scope = Scope::embedded("starter", &reader).unwrap();
    let judge = Judge::new(&reader, &scope);
    let first = |word: &str| judge.judge(word).first_decodable().unwrap_or(u16::MAX);
    let es = first("lunches");
    for word in ["branches", "bunches", "ashes", "grasses", "masses", "presses", "riches"] {
        assert_eq!(first(word), es, "{word}");
    }
    for word in ["bunnies", "pennies", "candies", "hobbies", "berries", "ladies"] {
        assert_eq!(first(word), first("puppies").max(first(&word.replace("ies", "y"))), "{word}");
    }
    assert_eq!(first("stories"), first("story"));
}
