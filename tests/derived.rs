//! Words that the dictionary lacks, made of words that it has: each row stands for a class, and was cut by ear (common practice, no
//! source). Where a class was once read wrongly, the false reading is named.

use untaught::{Judge, LessonIndex, Need, Reader, Scope, WordOrigin};

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
        if (parts.join("·").as_str(), reading.ipa().as_str()) != (cut, ipa) || read.origin != WordOrigin::Derived {
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
                if read.origin != WordOrigin::Derived || word.as_bytes().chunk_by(|a, b| a == b).any(long) {
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
        assert_eq!((read.origin, parts.join("·").as_str()), (WordOrigin::Letters, cut), "{word}");
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
        let needs = judge.needs(&verdict, LessonIndex::new(10).unwrap());
        assert_eq!((verdict.first_readable(), verdict.by_letters()), (None, false), "{abbreviation}");
        assert_eq!(needs.len(), 1, "{abbreviation}");
        assert_eq!(needs[0], Need::Abbreviation, "{abbreviation}");
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
            let needs = judge.needs(&verdict, scope.last());
            let labels: Vec<String> = needs.iter().map(|need| untaught::messages::need(need, &scope)).collect();
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
    let first = |word: &str| judge.judge(word).first_decodable().map_or(usize::MAX, LessonIndex::get);
    let es = first("lunches");
    for word in ["branches", "bunches", "ashes", "grasses", "masses", "presses", "riches"] {
        assert_eq!(first(word), es, "{word}");
    }
    for word in ["bunnies", "pennies", "candies", "hobbies", "berries", "ladies"] {
        assert_eq!(first(word), first("puppies").max(first(&word.replace("ies", "y"))), "{word}");
    }
    assert_eq!(first("stories"), first("story"));
}

/// What a word is made of: the classes that were once misread, each by words that show it. Common practice, no source.
#[test]
fn words_are_made_of_what_they_are_made_of() {
    let reader = Reader::default();
    let scope = Scope::embedded("starter", &reader).unwrap();
    let judge = Judge::new(&reader, &scope);
    let made_of = |word: &str| judge.explain(word).readings[0].made_of.clone().unwrap_or_default();
    let wrong = |table: &[(&str, &str)]| -> Vec<String> {
        let wrong = table.iter().filter(|(word, made)| made_of(word) != *made);
        wrong.map(|(word, made)| format!("{word} = {}, not {made}", made_of(word))).collect()
    };
    let made = [
        // Endings that were missed, or whose base was.
        ("dogs", "dog + -s"),
        ("axes", "axe + -s"),
        ("eldest", "eld + -est"),
        ("sprightly", "spright + -ly"),
        ("truly", "true + -ly"),
        ("wholly", "whole + -ly"),
        ("spoonful", "spoon + -ful"),
        ("pocketful", "pocket + -ful"),
        ("ashamed", "ashame + -ed"),
        ("panicked", "panic + -ed"),
        ("dying", "die + -ing"),
        ("starring", "star + -ing"),
        ("admitted", "admit + -ed"),
        ("stepping", "step + -ing"),
        ("matting", "mat + -ing"),
        // The commoner base, by what is heard.
        ("browses", "browse + -s"),
        ("branches", "branch + -es"),
        ("teddies", "teddy + -es"),
        ("caring", "care + -ing"),
        ("tensed", "tense + -ed"),
        // The l belongs to the base.
        ("wobbly", "wobble + -y"),
        ("simply", "simple + -ly"),
        ("really", "real + -ly"),
        // Beginnings, and compounds with short words.
        ("unlock", "un- + lock"),
        ("undo", "un- + do"),
        ("uphill", "up + hill"),
        ("nobody", "no + body"),
        ("bypass", "by + pass"),
        ("someone", "some + one"),
        ("friendship", "friend + -ship"),
        ("spaceship", "space + ship"),
        ("earring", "ear + ring"),
        ("backfire", "back + fire"),
    ];
    assert_eq!(wrong(&made), [""; 0]);
    // Words that only look made of others.
    let simple = [
        "corner",
        "supper",
        "mister",
        "patter",
        "pitcher",
        "dover",
        "priest",
        "evening",
        "its",
        "shout",
        "heroes'",
        "forget",
        "forgot",
        "format",
        "carnation",
        "pumpkin",
        "antifreeze",
        "semicircle",
        "postwar",
        "represent",
        "disease",
        "policy",
        "nomad",
        "feed",
        "news",
        "baby",
        "parish",
        "fourteen",
    ];
    let simple: Vec<(&str, &str)> =
        simple.iter().filter(|word| !word.ends_with('\'')).map(|word| (*word, "")).collect();
    assert_eq!(wrong(&simple), [""; 0]);
    assert_eq!(made_of("heroes"), "hero + -es");
    assert_eq!(made_of("forgotten"), "forgot + -en");
}

/// Words that were cut or sounded wrongly, each of a class. Common practice, no source.
#[test]
fn classes_of_cuttings_that_were_wrong() {
    let reader = Reader::default();
    for (word, cut, syllables) in [
        // A long vowel before ve makes a split spelling, wherever it is.
        ("evening", "e_e·v·n·i·ng", 2),
        ("ashamed", "a·sh·a·m·ed", 2),
        ("hooray", "h·oo·r·ay", 2),
        ("trowel", "t·r·ow·e·l", 2),
        ("hereafter", "h·ere·a·f·t·er", 3),
        ("forlorn", "f·or·l·or·n", 2),
        ("shepherdess", "sh·e·p·h·er·d·e·ss", 3),
        ("scarecrow", "s·c·are·c·r·ow", 2),
        // Two syllables as they are said.
        ("every", "e·v·er·y", 2),
        ("everyone", "e·v·er·y·o_e·n", 3),
        ("different", "d·i·ff·er·e·n·t", 2),
        ("several", "s·e·v·er·a·l", 2),
    ] {
        let read = reader.read(word);
        let cut_as = crate::shared::cut(&read.readings[0]);
        assert_eq!((cut_as.as_str(), read.readings[0].syllables()), (cut, syllables), "{word}");
        assert_eq!(read.readings.len(), 1, "{word}");
    }
    // The everyday reading alone.
    for (word, ipa) in [("dove", "dʌv"), ("minute", "ˈmɪnət"), ("puss", "pʊs"), ("fie", "faɪ"), ("ma'am", "mæm")]
    {
        let readings: Vec<String> = reader.read(word).readings.iter().map(untaught::Reading::ipa).collect();
        assert_eq!(readings, [ipa], "{word}");
    }
    // A mute e that changes nothing is read with the plain spelling.
    let scope = Scope::parse("format: 1\nlessons:\n- teach: [a, b, r, x, ea]\n- teach: [th]\n", &reader).unwrap();
    let first = |word: &str| Judge::new(&reader, &scope).judge(word).first_decodable().map(LessonIndex::get);
    assert_eq!((first("axe"), first("breathe")), (Some(0), Some(1)));
}

/// No form of a word is read before the word, whatever its ending; a compared adjective is not held to it.
#[test]
fn no_form_of_a_word_is_read_before_the_word() {
    let reader = Reader::default();
    let mut seen = 0;
    for name in ["starter", "england-years-1-2", "common-core-k-3"] {
        let scope = Scope::embedded(name, &reader).unwrap();
        let judge = Judge::new(&reader, &scope);
        let first = |word: &str| judge.judge(word).first_readable().map_or(usize::MAX, LessonIndex::get);
        for (form, base) in [("leaving", "leave"), ("promised", "promise"), ("cried", "cry"), ("pages", "page")] {
            assert!(first(form) >= first(base), "{name}: {form}");
        }
        for (word, _) in reader.common(20) {
            let read = reader.read(word);
            let [reading] = read.readings.as_slice() else { continue };
            let form = ["s", "ed", "ing"].iter().any(|ending| word.ends_with(ending));
            let Some(base) = reader.inflected_of(word, reading).filter(|_| form) else { continue };
            if reader.read(&base).readings.len() == 1 && scope.sight_lesson(word).is_none() {
                seen += 1;
                assert!(first(word) >= first(&base), "{name}: {word} before {base}");
            }
        }
    }
    assert!(seen > 5_000, "{seen}");
}

/// The s of *chews* is the ending -s once the scope names that, and *it's* is never made with -s.
#[test]
fn an_ending_is_practised_as_that_ending() {
    let reader = Reader::default();
    let text = "format: 1\nlessons:\n- teach: [ch, ew, i, t, s as in is]\n- teach: [-s]\n";
    let scope = Scope::parse(text, &reader).unwrap();
    let focus = |pattern: &str| untaught::Focus::of(&scope, &[untaught::Pattern::parse(pattern, &reader).unwrap()]);
    let practises = |word: &str, pattern: &str| {
        let read = reader.read(word);
        focus(pattern).is_in(&reader, word, &read.readings[0])
    };
    assert!(practises("chews", "-s") && !practises("chews", "s as in is") && practises("is", "s as in is"));
    assert!(!practises("it's", "-s") && practises("it's", "-'s"));
}
