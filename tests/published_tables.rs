//! The cuttings held against published tables of English spelling, and against the cutting convention's own examples.
//!
//! Every table names its source in its first lines, and for every row whether it was read in a public copy of that source or
//! written down from memory (the column `from`). Where a cutting differs from a table for a reason, the reason is listed here; a
//! listed difference that no longer is one fails as well.

use std::collections::{BTreeMap, BTreeSet};

use crate::shared::{cut, rows};
use untaught::{Accent, Part, Reader, Reading, Word, fold_word};
use untaught_lexicon::{Lexicon, PackedPart};
use untaught_phonics::{SoundId, spelled};

const ENGLAND: &str = include_str!("data/england_appendix1.tsv");
const COMMON_CORE: &str = include_str!("data/common_core_graphemes.tsv");
const SYLLABLES: &str = include_str!("data/common_core_syllables.tsv");
const FREQUENCIES: &str = include_str!("data/spelling_frequencies.tsv");

fn read(reader: &Reader, word: &str) -> Word {
    reader.read(&fold_word(word))
}

/// How a word is cut in each of its readings, with the sounds: `s=S·u=AH·n=N`.
fn shown(word: &Word) -> String {
    let sounded =
        |part: &Part| format!("{}={}", part.spelling(), part.id().map_or("?", |id| id.get().sound.get().name));
    let reading = |reading: &Reading| reading.parts.iter().map(sounded).collect::<Vec<_>>().join("·");
    word.readings.iter().map(reading).collect::<Vec<_>>().join(" or ")
}

/// Fails for every difference that nobody explained, and for every explanation that explains nothing.
fn assert_explained(found: &BTreeMap<(&str, &str), String>, explained: &[(&str, &str, &str)]) {
    let listed: BTreeSet<(&str, &str)> = explained.iter().map(|(word, of, _)| (*word, *of)).collect();
    assert_eq!(listed.len(), explained.len(), "a difference is explained twice");
    let mut wrong: Vec<String> =
        found.iter().filter(|(key, _)| !listed.contains(*key)).map(|(_, why)| why.clone()).collect();
    let stale = listed.iter().filter(|key| !found.contains_key(*key));
    wrong.extend(stale.map(|(word, of)| format!("{word}, {of}: explained, but no longer a difference")));
    assert!(wrong.is_empty(), "{} rows:\n{}", wrong.len(), wrong.join("\n"));
}

// England: Department for Education, National curriculum in England (2013, framework December 2014), English Appendix 1: Spelling,
// years 1 and 2. Open Government Licence v3.0. All rows: public copy. The example words are not statutory; the sounds are British.

/// Word, grapheme, and why this dictionary's accent or the cutting convention shows another one. All rows: public copy.
const ACCENT: &[(&str, &str, &str)] = &[
    ("catches", "es", "a free choice: the ending's weak vowel is a schwa here, the i of sit in the rule"),
    ("walk", "a", "convention: the silent l of walk, talk and half belongs to the vowel, al as in walk"),
    ("talk", "a", "convention: as in walk"),
    ("nostril", "il", "a free choice: the last vowel stays the i of sit here, it is a schwa in the rule"),
    ("age", "ge", "convention 1: the e makes the split spelling a_e, g alone spells the consonant"),
    ("huge", "ge", "convention 1: u_e and g"),
    ("village", "ge", "convention 1: a_e and g, whatever the sound of the vowel"),
    ("television", "s", "convention 7: si is one part, the o after it another"),
];

/// Rules about endings: the letters may be several parts, and they end the word. The others are about one part, wherever it stands.
const ENDING_RULES: [&str; 16] = [
    "plural / 3rd person -es",
    "ending -ing, root unchanged",
    "ending -ed, root unchanged",
    "ending -er, root unchanged",
    "ending -er, adjective root unchanged",
    "ending -est, adjective root unchanged",
    "final -el",
    "final -al",
    "final -il",
    "-es on roots ending y",
    "endings on consonant+y roots",
    "drop e before vowel suffix",
    "double final consonant before vowel suffix",
    "x never doubled",
    "consonant suffix, root unchanged",
    "consonant suffix, exceptions",
];

/// Where the letters of a rule stand in its words.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Stands {
    Part,
    Run,
    First,
    Last,
}

fn stands(rule: &str) -> Stands {
    match rule {
        "prefix un-" => Stands::First,
        // Its words include *national*.
        "final -tion" => Stands::Run,
        rule if ENDING_RULES.contains(&rule) => Stands::Last,
        _ => Stands::Part,
    }
}

/// The IPA forms in a cell such as `/u:/ or /ju:/`, without length marks; none where no sound is stated.
fn forms(cell: &str) -> Vec<String> {
    cell.split('/').skip(1).step_by(2).map(|form| form.replace([':', 'ː'], "")).collect()
}

/// A run of parts in IPA as it is shown, without length marks; an r that is sounded because a vowel follows belongs to the next
/// syllable.
fn written(parts: &[(&Part, String)]) -> String {
    let all: String = parts.iter().map(|(_, ipa)| ipa.replace('ː', "")).collect();
    let r_vowel =
        parts.last().and_then(|(part, _)| part.id()).is_some_and(|id| id.get().sound.get().name.ends_with(" R"));
    if r_vowel { all.trim_end_matches('r').to_owned() } else { all }
}

/// Whether whole parts of the reading spell the letters, at the place that the rule is about, with a sound that it states.
fn shows(reading: &Reading, letters: &str, sounds: &[String], place: Stands) -> bool {
    let parts: Vec<(&Part, String)> = reading.parts_with_ipa().collect();
    let runs = (0..parts.len()).flat_map(|from| (from + 1..=parts.len()).map(move |to| (from, to)));
    runs.filter(|(from, to)| match place {
        Stands::Part => from + 1 == *to,
        Stands::Run => true,
        Stands::First => *from == 0,
        Stands::Last => *to == parts.len(),
    })
    .map(|(from, to)| &parts[from..to])
    .filter(|run| run.iter().map(|(part, _)| part.spelling()).collect::<String>() == letters)
    .any(|run| sounds.is_empty() || sounds.contains(&written(run)))
}

#[test]
fn england_appendix_1_words_show_the_spelling_and_sound_of_their_rule() {
    let reader = Reader::new(Accent::SouthernBritish);
    let mut found = BTreeMap::new();
    let mut checked = 0;
    for row in rows(ENGLAND) {
        let [year, rule, letters, sound, word, from] = row[..] else { panic!("six columns: {row:?}") };
        if letters.is_empty() {
            continue;
        }
        checked += 1;
        let (read, sounds) = (read(&reader, word), forms(sound));
        // Apostrophes belong to no part.
        let right = match letters.split_once('\'') {
            Some((_, "")) => {
                word.contains('\'') && read.readings.iter().all(|r| r.parts.iter().all(|part| part.id().is_some()))
            }
            Some((_, after)) => {
                word.ends_with(letters)
                    && read.readings.iter().any(|reading| shows(reading, after, &sounds, Stands::Last))
            }
            None => read.readings.iter().any(|reading| shows(reading, letters, &sounds, stands(rule))),
        };
        if !right {
            let why = format!("{word}: {letters} {sound} (year {year}, {rule}; {from}), cut {}", shown(&read));
            found.insert((word, letters), why);
        }
    }
    println!("{checked} rows with a spelling, {} differ", found.len());
    assert_explained(&found, ACCENT);
}

#[test]
fn england_appendix_1_two_syllable_words_have_two_syllables() {
    let reader = Reader::default();
    for row in rows(ENGLAND) {
        let (rule, word) = (row[1], row[4]);
        if rule == "two-syllable words" {
            let read = read(&reader, word);
            assert!(read.readings.iter().all(|reading| reading.syllables() == 2), "{word} is cut {}", shown(&read));
        }
    }
}

// Common Core: Common Core State Standards for English Language Arts (2010), Appendix A, Reading Foundational Skills, figures 8
// and 9 (correspondences) and 11 (syllable types). National Governors Association Center for Best Practices and Council of Chief State
// School Officers. All rows: public copy; the pairing of spelling and example is the collector's where the print underlines it.

/// Word, grapheme, how the word is cut instead, and why. All rows: public copy.
const CONVENTION: &[(&str, &str, &str, &str)] = &[
    ("quiet", "q", "qu·i·e·t", "convention 4: qu is one part"),
    ("queen", "u", "qu·ee·n", "convention 4: qu is one part"),
    ("nose", "se", "n·o_e·s", "convention 1: the e makes the split spelling o_e"),
    ("wage", "ge", "w·a_e·g", "convention 1: the e makes the split spelling a_e"),
    ("breathe", "th", "b·r·ea·the", "convention 2: after a vowel team the e belongs to the consonant"),
    ("single", "le", "s·i·n·g·le", "convention 6: final -le is one part, a syllable with its own weak vowel"),
    ("mission", "ss", "m·i·ssi·o·n", "convention 7: ssi is one part"),
    ("mission", "si", "m·i·ssi·o·n", "convention 7: ssi is one part"),
    ("use", "u", "u_e·s", "conventions 1 and 8: u_e, whose one sound is /yoo/"),
    ("feud", "eu", "f·eu·d", "convention 8: /yoo/ is one sound"),
];

/// Spellings printed with a neighbour that only says where they stand: the run of parts, and which of them is meant.
const CONTEXT: [(&str, [&str; 2], usize); 2] = [("wa", ["w", "a"], 1), ("all", ["a", "ll"], 0)];

/// Whether the reading has the spelling with the sound, where the table says that it stands: `-y` last, `o-` in an open syllable.
fn has(reading: &Reading, grapheme: &str, sound: SoundId) -> bool {
    let parts = &reading.parts;
    let sounds_so = |at: usize| parts[at].id().is_some_and(|id| id.get().sound == sound);
    if let Some((_, run, meant)) = CONTEXT.iter().find(|(spelling, ..)| *spelling == grapheme) {
        let spell = |pair: &[Part]| pair[0].spelling() == run[0] && pair[1].spelling() == run[1];
        return parts.windows(2).enumerate().any(|(at, pair)| spell(pair) && sounds_so(at + meant));
    }
    let is_open = |at: usize| {
        matches!(&parts[at + 1..], [next, after, ..] if !next.is_vowel() && after.is_vowel())
            || matches!(&parts[at + 1..], [next, ..] if next.is_vowel())
    };
    (0..parts.len()).any(|at| {
        let place = match (grapheme.starts_with('-'), grapheme.ends_with('-')) {
            (true, _) => at + 1 == parts.len(),
            (_, true) => is_open(at),
            _ => true,
        };
        place && parts[at].spelling() == grapheme.trim_matches('-') && sounds_so(at)
    })
}

#[test]
fn common_core_correspondences_are_in_the_catalogue_and_in_their_words() {
    let reader = Reader::default();
    let mut found = BTreeMap::new();
    let mut checked = 0;
    for row in rows(COMMON_CORE) {
        let [_, phoneme, arpabet, grapheme, word, _, from] = row[..] else { panic!("seven columns: {row:?}") };
        checked += 1;
        let context = CONTEXT.iter().find(|(spelling, ..)| *spelling == grapheme);
        let spelling = context.map_or(grapheme.trim_matches('-'), |(_, run, meant)| run[*meant]);
        let sound = SoundId::named(arpabet).unwrap_or_else(|| panic!("{word}: no sound is called {arpabet}"));
        let read = read(&reader, word);
        let listed = spelled(spelling).any(|id| id.get().sound == sound);
        if !listed || !read.readings.iter().any(|reading| has(reading, grapheme, sound)) {
            let catalogue = if listed { "in the catalogue" } else { "not in the catalogue" };
            let why = format!("{word}: {grapheme} for {phoneme} {arpabet} ({from}), {catalogue}, cut {}", shown(&read));
            found.insert((word, grapheme), why);
        }
    }
    println!("{checked} rows, {} differ", found.len());
    for (word, _, instead, why) in CONVENTION {
        let read = read(&reader, word);
        assert!(
            read.readings.iter().any(|reading| cut(reading) == *instead),
            "{word} is not cut {instead} ({why}): {}",
            shown(&read)
        );
    }
    let explained: Vec<_> = CONVENTION.iter().map(|(word, grapheme, _, why)| (*word, *grapheme, *why)).collect();
    assert_explained(&found, &explained);
}

/// Word, number of syllables printed, and why it is another number here. All rows: public copy.
const SYLLABLES_DIFFER: &[(&str, &str, &str)] =
    &[("injurious", "3", "printed in-jur-ious, the ending undivided: its i and ou are two vowels heard")];

#[test]
fn common_core_example_words_have_as_many_syllables_as_hyphens_divide() {
    let reader = Reader::default();
    let mut found = BTreeMap::new();
    let table = rows(SYLLABLES);
    let divided: Vec<(&str, String, String)> =
        table.iter().map(|row| (row[2], row[2].replace('-', ""), row[2].split('-').count().to_string())).collect();
    for (example, word, count) in &divided {
        let read = read(&reader, word);
        if !read.readings.iter().any(|reading| reading.syllables().to_string() == *count) {
            let ours: Vec<usize> = read.readings.iter().map(Reading::syllables).collect();
            found.insert(
                (word.as_str(), count.as_str()),
                format!("{example}: {count}, not {ours:?}: cut {}", shown(&read)),
            );
        }
    }
    assert_explained(&found, SYLLABLES_DIFFER);
}

// Spelling frequencies: Hanna, Hanna, Hodges & Rudorf (1966), Phoneme-grapheme correspondences as cues to spelling improvement, and
// Fry (2004), Phonics: a large phoneme-grapheme frequency count revised, Journal of Literacy Research 36(1):85-98, as summarised in
// teacher-education pages; the rows called `Hanna 1966 percentages as reprinted in teacher texts` are from memory, the others were
// read in a public copy. Percentages of a sound's spellings over types: their order is compared, over the types of this dictionary.

/// The least rank correlation that counts as agreement.
const AGREES: f64 = 0.8;

const SUMMARY: &str = "Hanna 1966 / Fry 2004";
const REPRINTED: &str = "Hanna 1966 percentages as reprinted in teacher texts";

/// Study (up to its first comma), sound, and why the orders differ. The rows of `SUMMARY`: public copy; of `REPRINTED`: memory.
const LOWER: &[(&str, &str, &str)] = &[
    (
        SUMMARY,
        "AA R",
        "are is 5 % there, but the only types with it here are *are*, *aren't*, *ares*, *hectare*, *hectares*: 5 of 1,300, \
         where *heart*, *hearth*, *hearken* and their families are 37",
    ),
    (SUMMARY, "AH", WEAK_E),
    (REPRINTED, "AH(schwa)", WEAK_E),
    (
        REPRINTED,
        "EH R",
        "three spellings, two of them nearly tied there (are 23 %, air 21 %): air leads here by 152 to 131, only because \
         27 inflected types such as *sharing* stand without the e of are",
    ),
];

/// Why e leads among the spellings of a schwa here and comes last or last but one in both studies. Counted on the 20,000 types that
/// are no inflection or derivation of another, and without the first and the last but one group below, the order is a, o, i, e:
/// theirs, but for one swap of neighbours.
const WEAK_E: &str = "of 7,500 weak e, 2,100 are in be-, de-, re-, e-, which the study counts with the long e (its example is \
    *beware*); 1,600 are in -es, -est, -ness, -less, in a list of which more than half are inflections and derivations; \
    700 are in -en and -el, where it has a syllabic l of its own (its sound AH L); and the i of its example *panic*, \
    like most weak i, is the short i of *sit* here, not a schwa";

/// How often neighbouring parts stand in the dictionary's ordinary words, in the first reading.
#[derive(Default)]
struct Tally {
    words: usize,
    parts: BTreeMap<(&'static str, &'static str), usize>,
    pairs: BTreeMap<[(&'static str, &'static str); 2], usize>,
}

impl Tally {
    fn take() -> Tally {
        let mut tally = Tally::default();
        for entry in Lexicon::embedded().entries().filter(|entry| entry.commonness().is_some()) {
            let Some(reading) = entry.readings().next() else {
                continue;
            };
            tally.words += 1;
            let parts: Vec<Option<(&str, &str)>> = reading.parts().map(standing).collect();
            parts.iter().flatten().for_each(|part| *tally.parts.entry(*part).or_default() += 1);
            for pair in parts.windows(2) {
                if let [Some(one), Some(two)] = *pair {
                    *tally.pairs.entry([one, two]).or_default() += 1;
                }
            }
        }
        tally
    }

    fn part(&self, sound: &'static str, spelling: &str) -> usize {
        let of_sound = self.parts.iter().filter(|((name, letters), _)| *name == sound && *letters == spelling);
        of_sound.map(|(_, n)| n).sum()
    }

    fn before(&self, one: (&str, &str), next: impl Fn(&str, &str) -> bool) -> usize {
        let pairs = self.pairs.iter().filter(|([first, second], _)| *first == one && next(second.0, second.1));
        pairs.map(|(_, n)| n).sum()
    }

    /// The count to hold against a row of the table, whose units are not always ours.
    fn ours(&self, phoneme: &'static str, spelling: &str) -> usize {
        let r = |sound: &str, _: &str| sound == "R";
        match (phoneme, spelling) {
            // The table's short u is both that of *up* and the schwa of *alarm*.
            ("AH", _) => self.part("AH", spelling) + self.part("AX", spelling),
            ("AH(schwa)", _) => self.part("AX", spelling),
            // *parable*, *vary*: a vowel letter before an r that opens the next syllable.
            ("EH R", "ar" | "a") => self.part("EH R", "ar") + self.before(("EH", "a"), r),
            // *experience*.
            ("IH R", "er") => self.part("IH R", "er") + self.before(("IY", "e"), r),
            ("IH R", "e_e") => self.part("IH R", "ere"),
            // Its example is *give*: convention 1 gives the e to the v.
            ("IH", "i_e") => self.part("IH", "i_e") + self.before(("IH", "i"), |_, letters| letters == "ve"),
            ("G", "x") => self.part("G Z", "x"),
            // Its example is *age*. The rows leave no room for a soft g without e: it is counted in.
            ("JH", "ge") => self.part("JH", "ge") + self.part("JH", "g"),
            ("JH", "dge") => self.part("JH", "dge") + self.part("JH", "dg"),
            _ => self.part(phoneme, spelling),
        }
    }
}

/// The sound and the letters of a part as it stands in its word.
fn standing(part: PackedPart) -> Option<(&'static str, &'static str)> {
    let PackedPart::Known { id, e_dropped } = part else {
        return None;
    };
    let spelling = id.get().spelling;
    let letters = if e_dropped { spelling.trim_end_matches('e').trim_end_matches('_') } else { spelling };
    Some((id.get().sound.get().name, letters))
}

/// Ranks from the smallest, ties averaged.
fn ranks(values: &[f64]) -> Vec<f64> {
    let rank = |value: &f64| {
        let below = values.iter().filter(|other| *other < value).count();
        let equal = values.iter().filter(|other| *other == value).count();
        below as f64 + (equal as f64 + 1.0) / 2.0
    };
    values.iter().map(rank).collect()
}

/// Spearman's rank correlation: Pearson's, of the ranks.
fn spearman(one: &[f64], two: &[f64]) -> f64 {
    let (one, two) = (ranks(one), ranks(two));
    let mean = (one.len() as f64 + 1.0) / 2.0;
    let product = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| (a - mean) * (b - mean)).sum::<f64>();
    product(&one, &two) / (product(&one, &one) * product(&two, &two)).sqrt()
}

/// A spelling, its percentage of the sound, and where the row is from.
type Share<'a> = (&'a str, f64, &'a str);

#[test]
fn spelling_frequencies_have_the_order_of_published_counts() {
    let tally = Tally::take();
    println!("{} types of this dictionary", tally.words);
    let mut groups: BTreeMap<(&str, &str), Vec<Share>> = BTreeMap::new();
    for row in rows(FREQUENCIES) {
        let [study, phoneme, spelling, count, _, from] = row[..] else { panic!("six columns: {row:?}") };
        let study = study.split(',').next().unwrap_or(study);
        if let Some(Ok(percent)) = count.strip_suffix('%').map(str::parse) {
            groups.entry((study, phoneme)).or_default().push((spelling, percent, from));
        }
    }
    let mut found = BTreeMap::new();
    for ((study, phoneme), spellings) in groups.iter().filter(|(_, spellings)| spellings.len() >= 3) {
        let ours: Vec<usize> = spellings.iter().map(|(spelling, ..)| tally.ours(phoneme, spelling)).collect();
        let theirs: Vec<f64> = spellings.iter().map(|(_, percent, _)| *percent).collect();
        let rho = spearman(&theirs, &ours.iter().map(|n| *n as f64).collect::<Vec<_>>());
        let columns =
            spellings.iter().zip(&ours).map(|((spelling, percent, _), n)| format!("{spelling} {percent}% {n}"));
        let line =
            format!("{study} ({}), {phoneme}: {rho:.2}: {}", spellings[0].2, columns.collect::<Vec<_>>().join(", "));
        println!("{line}");
        if rho.is_nan() || rho < AGREES - 1e-9 {
            found.insert((*study, *phoneme), line);
        }
    }
    assert_explained(&found, LOWER);
}

/// Fails unless the first reading of every word is cut as given: `mishap m·i·s·h·a·p, …`.
fn assert_cut(words: &str) {
    let reader = Reader::default();
    let mut wrong = Vec::new();
    for line in words.split(", ") {
        let (word, expected) = line.split_once(' ').expect("a word and its cutting");
        let read = read(&reader, word);
        if cut(&read.readings[0]) != expected {
            wrong.push(format!("{word}: {expected}, not {}", shown(&read)));
        }
    }
    assert!(wrong.is_empty(), "{} words:\n{}", wrong.len(), wrong.join("\n"));
}

// Common practice, no source.
#[test]
fn letters_on_both_sides_of_a_seam_are_never_one_part() {
    assert_cut(
        "mishap m·i·s·h·a·p, uphill u·p·h·i·ll, pothole p·o·t·h·o_e·l, sweatshirt s·w·ea·t·sh·ir·t, \
         hothead h·o·t·h·ea·d, dishonest d·i·s·ho·n·e·s·t, beehive b·ee·h·i_e·v, nowhere n·o·wh·ere, \
         foghorn f·o·g·h·or·n, misheard m·i·s·h·ear·d, cowherd c·ow·h·er·d, goatherd g·oa·t·h·er·d, \
         unite u·n·i_e·t, being b·e·i·ng, react r·e·a·c·t",
    );
}

// Common practice, no source.
#[test]
fn the_examples_of_the_cutting_convention_are_cut_so() {
    assert_cut(
        "cake c·a_e·k, taste t·a_e·s·t, some s·o_e·m, have h·a·ve, love l·o·ve, dive d·i_e·v, mouse m·ou·se, \
         leave l·ea·ve, nurse n·ur·se, fence f·e·n·ce, barge b·ar·ge, park p·ar·k, storm s·t·or·m, here h·ere, \
         care c·are, merry m·e·rr·y, hero h·e·r·o, story s·t·or·y, bank b·a·n·k, knot kn·o·t, thumb th·u·mb, \
         talk t·a·lk, would w·ou·ld, castle c·a·st·le, landed l·a·n·d·ed, apple a·pp·le, motion m·o·ti·o·n, \
         nature n·a·t·ure, hoping h·o·p·i·ng, bathtub b·a·th·t·u·b, dish d·i·sh, chill ch·i·ll, badge b·a·dge, \
         make m·a_e·k, horse h·or·se, little l·i·tt·le, start s·t·ar·t, night n·igh·t, jumped j·u·m·p·ed, \
         station s·t·a·ti·o·n, sign s·i·gn",
    );
}

/// The least share of words with a whole cutting, of the common ones (size classes 10 to 35) and of all.
const COMMON_WHOLE: f64 = 0.999;
const ALL_WHOLE: f64 = 0.99;

#[test]
fn nearly_every_word_of_the_dictionary_has_a_whole_cutting() {
    let (mut words, mut common, mut common_odd) = (0, 0, Vec::new());
    let (mut whole_odd, mut part_odd) = (Vec::new(), Vec::new());
    for entry in Lexicon::embedded().entries() {
        words += 1;
        let is_common = matches!(entry.commonness(), Some(10 | 20 | 35));
        common += usize::from(is_common);
        let parts: Vec<PackedPart> = entry.readings().next().map_or_else(Vec::new, |reading| reading.parts().collect());
        let odd = parts.iter().filter(|part| matches!(part, PackedPart::Odd(_))).count();
        if odd == 0 && !parts.is_empty() {
            continue;
        }
        if odd == parts.len() { &mut whole_odd } else { &mut part_odd }.push(entry.word());
        if is_common {
            common_odd.push(entry.word());
        }
    }
    let share = |odd: usize, of: usize| (of - odd) as f64 / of as f64;
    let (common_whole, all_whole) = (share(common_odd.len(), common), share(whole_odd.len() + part_odd.len(), words));
    println!("common words: {} of {common} whole, {:.3} %", common - common_odd.len(), 100.0 * common_whole);
    println!("all words: {} of {words} whole, {:.3} %", words - whole_odd.len() - part_odd.len(), 100.0 * all_whole);
    println!("the whole word odd (initialisms, abbreviations), {}: {}", whole_odd.len(), whole_odd.join(" "));
    println!("a part odd, {}: {}", part_odd.len(), part_odd.join(" "));
    println!("of these common: {}", common_odd.join(" "));
    assert!(common_whole >= COMMON_WHOLE, "{:.3} % of {common}: not {}", 100.0 * common_whole, common_odd.join(" "));
    assert!(all_whole >= ALL_WHOLE, "{:.3} % of {words}", 100.0 * all_whole);
}

/// A test that reads no rows proves nothing.
#[test]
fn the_tables_are_not_empty_and_say_where_each_row_is_from() {
    for (name, table, least) in [
        ("England", ENGLAND, 400),
        ("Common Core", COMMON_CORE, 140),
        ("syllables", SYLLABLES, 18),
        ("frequencies", FREQUENCIES, 140),
    ] {
        let rows = rows(table);
        assert!(rows.len() >= least, "{name}: {} rows", rows.len());
        for row in rows {
            assert!(matches!(row.last(), Some(&("public copy" | "memory"))), "{name}: {row:?}");
        }
    }
}
