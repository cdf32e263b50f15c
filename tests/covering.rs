//! The earliest lesson of a word, held against a plain oracle that tries every way to cover its parts. The oracle shares nothing with
//! the judge but how a word is cut and what it is made of: neither the relaxation nor the tables a scope is compiled to.

use proptest::prelude::*;
use untaught::phonics::formation::{AffixId, Class, Side};
use untaught::phonics::{Formation, Grade};
use untaught::{Judge, Part, Reader, Reading, Scope};

/// Spellings taught bare.
const SPELLINGS: [&str; 44] = [
    "a", "b", "c", "d", "e", "f", "g", "h", "i", "j", "k", "l", "m", "n", "o", "p", "r", "s", "t", "u", "w", "y", "z",
    "ck", "sh", "ch", "th", "ng", "qu", "a_e", "i_e", "o_e", "ee", "ai", "igh", "ar", "er", "or", "le", "ll", "ss",
    "tt", "pp", "ed",
];
/// Chunks, each with the letters of its parts.
const CHUNKS: [(&str, &[&str]); 3] =
    [("ank as in bank", &["a", "n", "k"]), ("ing as in sing", &["i", "ng"]), ("amp as in stamp", &["a", "m", "p"])];
const AFFIXES: [&str; 4] = ["-s", "-ed", "-ing", "un-"];
const SKILLS: [&str; 5] = ["initial-blends", "final-blends", "two-syllable-words", "longer-words", "compound-words"];

const WORDS: [&str; 36] = [
    "cat", "cats", "ship", "ships", "rabbit", "bank", "banks", "banking", "sing", "singing", "hoping", "hopping",
    "hope", "jumped", "rained", "landed", "bell", "bells", "kitten", "apple", "star", "light", "lights", "unlock",
    "unpacked", "bathtub", "bathtubs", "uphill", "stamp", "stamped", "hippo", "quilt", "blanket", "thanked", "napkins",
    "sunset",
];

/// A scope as the oracle sees it: each entry with its lesson.
#[derive(Clone, Debug, Default)]
struct Plan {
    spellings: Vec<(usize, usize)>,
    chunks: Vec<(usize, usize)>,
    affixes: Vec<(usize, usize)>,
    skills: Vec<(usize, usize)>,
    lessons: usize,
}

fn plan() -> impl Strategy<Value = Plan> {
    let some = |most: usize, share: f64| {
        proptest::collection::vec(proptest::option::weighted(share, 0..8usize), most).prop_map(|lessons| {
            lessons.into_iter().enumerate().filter_map(|(n, at)| Some((n, at?))).collect::<Vec<_>>()
        })
    };
    (some(SPELLINGS.len(), 0.8), some(CHUNKS.len(), 0.5), some(AFFIXES.len(), 0.4), some(SKILLS.len(), 0.3))
        .prop_map(|(spellings, chunks, affixes, skills)| Plan { spellings, chunks, affixes, skills, lessons: 8 })
}

impl Plan {
    fn text(&self) -> String {
        let listed = |list: &[(usize, usize)], names: &[&str], lesson: usize| -> Vec<String> {
            list.iter().filter(|(_, at)| *at == lesson).map(|(n, _)| format!("\"{}\"", names[*n])).collect()
        };
        let chunks = CHUNKS.map(|(label, _)| label);
        let mut text = "format: 1\nlessons:\n".to_owned();
        for lesson in 0..self.lessons {
            let teach = [
                listed(&self.spellings, &SPELLINGS, lesson),
                listed(&self.chunks, &chunks, lesson),
                listed(&self.affixes, &AFFIXES, lesson),
            ];
            let skills = listed(&self.skills, &SKILLS, lesson).join(", ");
            text.push_str(&format!("- {{teach: [{}], skills: [{skills}]}}\n", teach.concat().join(", ")));
        }
        text
    }

    fn spelling(&self, spelling: &str) -> Option<usize> {
        self.spellings.iter().find(|(n, _)| SPELLINGS[*n] == spelling).map(|(_, lesson)| *lesson)
    }

    fn affix(&self, name: &str) -> Option<usize> {
        self.affixes.iter().find(|(n, _)| AFFIXES[*n] == name).map(|(_, lesson)| *lesson)
    }

    fn skill(&self, name: &str) -> Option<usize> {
        self.skills.iter().find(|(n, _)| SKILLS[*n] == name).map(|(_, lesson)| *lesson)
    }
}

/// The earlier of two lessons, none being never.
fn earlier(a: Option<usize>, b: Option<usize>) -> Option<usize> {
    a.into_iter().chain(b).min()
}

/// The later of two lessons, none being never.
fn later(a: Option<usize>, b: Option<usize>) -> Option<usize> {
    Some(a?.max(b?))
}

struct Oracle<'a> {
    plan: &'a Plan,
    reader: &'a Reader,
}

impl Oracle<'_> {
    /// The lesson at which a spelling with its sound is taught by itself.
    fn taught(&self, spelling: &str, grade: Grade) -> Option<usize> {
        let letters: Vec<char> = spelling.chars().collect();
        let doubled = letters.len() == 2 && letters[0] == letters[1] && !"aeiou".contains(letters[0]);
        if doubled && self.plan.spelling(spelling).is_none() {
            return self.plan.spelling(&spelling[..1]);
        }
        // One pattern teaches the syllable -ed as well as /t/ and /d/ once it is named as an ending.
        let ending = (spelling == "ed").then(|| self.plan.affix("-ed")).flatten();
        let bare = self.plan.spelling(spelling).filter(|_| grade == Grade::Everyday);
        earlier(bare, ending)
    }

    fn alone(&self, reading: &Reading, at: usize) -> Option<usize> {
        let Part::Known { id, e_dropped } = &reading.parts[at] else { return None };
        let part = id.get();
        let sound = part.sound.get().name;
        let whole = self.taught(part.spelling, part.grade);
        if *e_dropped {
            let bare = id.without_e();
            return earlier(whole, self.taught(bare.get().spelling, bare.get().grade));
        }
        let long = reading.parts.iter().filter(|part| part.is_vowel()).count() > 1;
        if sound == "AX" && part.spelling.len() == 1 && long {
            // A weak vowel letter counts as its short sound.
            return earlier(whole, self.plan.spelling(part.spelling));
        }
        whole
    }

    /// Every way to cover the parts from one on: the least of the greatest lessons.
    fn cover(&self, word: &str, reading: &Reading, at: usize) -> Option<usize> {
        let parts = &reading.parts;
        if at == parts.len() {
            return Some(0);
        }
        let mut best = later(self.alone(reading, at), self.cover(word, reading, at + 1));
        let spelled = |from: usize, letters: &[&str]| {
            parts.len() >= from + letters.len() && (0..letters.len()).all(|n| parts[from + n].spelling() == letters[n])
        };
        for (number, lesson) in &self.plan.chunks {
            let (label, letters) = CHUNKS[*number];
            let key = self.reader.read(label.split(" as in ").nth(1).unwrap());
            let key = &key.readings[0].parts;
            let same = (0..key.len()).any(|from| {
                letters.len() > 1
                    && key
                        .get(from..from + letters.len())
                        .is_some_and(|run| parts.get(at..at + letters.len()) == Some(run))
            });
            if same && spelled(at, letters) {
                best = earlier(best, later(Some(*lesson), self.cover(word, reading, at + letters.len())));
            }
        }
        for (number, lesson) in &self.plan.affixes {
            let affix = AffixId::named(AFFIXES[*number]).unwrap();
            let start = affix.get().side() == Side::Before;
            for run in affix.get().cut {
                let ids = parts.get(at..at + run.len()).map(|parts| parts.iter().map(Part::id).collect::<Vec<_>>());
                let fits = ids == Some(run.iter().copied().map(Some).collect());
                let placed = if start { at == 0 } else { at > 0 && at + run.len() == parts.len() };
                if fits && placed && self.has(word, reading, affix) {
                    best = earlier(best, later(Some(*lesson), self.cover(word, reading, at + run.len())));
                }
            }
        }
        best
    }

    fn base(&self, word: &str, reading: &Reading) -> Option<(String, Reading, AffixId)> {
        let Some(Formation::Affixed { affix, change, base }) = reading.made else { return None };
        let text = change.base_of(word, affix)?;
        let base = self.reader.read(&text).readings.into_iter().nth(usize::from(base))?;
        Some((text, base, affix))
    }

    /// Whether a word is made with an affix: its last ending, or a beginning of it or of what is left.
    fn has(&self, word: &str, reading: &Reading, wanted: AffixId) -> bool {
        let Some((base, of, affix)) = self.base(word, reading) else { return false };
        affix == wanted
            || wanted.get().side() == Side::Before && affix.get().side() == Side::After && self.has(&base, &of, wanted)
    }

    fn earliest(&self, word: &str, reading: &Reading) -> Option<usize> {
        let mut lesson = self.cover(word, reading, 0);
        for (number, at) in &self.plan.affixes {
            if self.has(word, reading, AffixId::named(AFFIXES[*number]).unwrap()) {
                lesson = later(lesson, Some(*at));
            }
        }
        let base = self.base(word, reading);
        if let Some((text, of, affix)) = &base
            && affix.get().class == Class::Inflection
            && !matches!(affix.get().name, "-er" | "-est")
        {
            lesson = later(lesson, self.earliest(text, of));
        }
        let parts = &reading.parts;
        let consonants = |parts: &mut dyn Iterator<Item = &Part>| parts.take_while(|part| !part.is_vowel()).count();
        let syllables = parts.iter().filter(|part| part.is_vowel()).count();
        let mut end = consonants(&mut parts.iter().rev());
        if base.as_ref().is_some_and(|(.., affix)| matches!(affix.get().name, "-s" | "-ed")) {
            end = end.saturating_sub(1);
        }
        let compound = |reading: &Reading| matches!(reading.made, Some(Formation::Compound { .. }));
        let demands = [
            ("initial-blends", consonants(&mut parts.iter()) > 1),
            ("final-blends", end > 1),
            ("two-syllable-words", syllables == 2),
            ("longer-words", syllables > 2),
            (
                "compound-words",
                compound(reading)
                    || base.is_some_and(|(_, of, affix)| affix.get().class == Class::Inflection && compound(&of)),
            ),
        ];
        for (skill, demanded) in demands {
            if let Some(at) = self.plan.skill(skill).filter(|_| demanded) {
                lesson = later(lesson, Some(at));
            }
        }
        lesson
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn the_judge_agrees_with_trying_every_covering(plan in plan()) {
        let reader = Reader::default();
        let text = plan.text();
        let scope = Scope::parse(&text, &reader).unwrap_or_else(|faults| panic!("{faults:?}\n{text}"));
        let judge = Judge::new(&reader, &scope);
        let oracle = Oracle { plan: &plan, reader: &reader };
        for word in WORDS {
            let read = reader.read(word);
            for reading in &read.readings {
                let judged = judge.first_decodable(&read, reading).map(|lesson| lesson.get());
                prop_assert_eq!(judged, oracle.earliest(word, reading), "{} {:?}\n{}", word, reading, text);
                // The covering shown reaches from the first part to the last, and its latest lesson is no later than the word's.
                let cover = judge.cover(&read, reading);
                prop_assert_eq!(cover.steps.iter().map(|step| step.parts).sum::<usize>(), reading.parts.len());
                let latest = cover.steps.iter().map(|step| step.need.lesson().map(|lesson| lesson.get()));
                if let Some(judged) = judged {
                    prop_assert!(latest.clone().all(|lesson| lesson.is_some_and(|lesson| lesson <= judged)), "{}", word);
                }
            }
        }
    }
}

/// Of coverings that are possible by the same lesson, the one with the earlier lessons is shown.
#[test]
fn of_equal_coverings_the_earlier_lessons_are_shown() {
    let reader = Reader::default();
    let shown = |lessons: &str, word: &str| -> Vec<String> {
        let scope = Scope::parse(&format!("format: 1\nlessons:\n{lessons}"), &reader).unwrap();
        let judge = Judge::new(&reader, &scope);
        let read = reader.read(word);
        let steps = judge.cover(&read, &read.readings[0]).steps;
        steps.iter().map(|step| untaught::messages::need(&step.need, &scope)).collect()
    };
    // The chunk comes last of all, and is not needed.
    let late = "- teach: [b, a, n, k]\n- teach: [ank as in bank]\n- teach: [sh]\n";
    assert_eq!(shown(late, "bank"), ["b as in bat", "a as in cat", "n as in bank", "k as in kit"]);
    // It comes before its letters, and lifts the word with the b alone.
    let early = "- teach: [ank as in bank]\n- teach: [a, n, k]\n- teach: [b]\n";
    assert_eq!(shown(early, "bank"), ["b as in bat", "ank as in bank"]);
}
