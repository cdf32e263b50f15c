//! The notation of patterns: `sh`, `a_e`, `ea as in bread`, `ea = /ɛ/`, `amp as in stamp`, `-ed as in jumped`, `un-`.

use untaught_phonics::formation::AffixId;
use untaught_phonics::{Accent, CORRESPONDENCES, CorrespondenceId, Grade, Part, Reading, SoundId, spelled, spelled_in};

use super::Skill;
use crate::Reader;
use crate::yaml::{nearest, too_long};

/// What a lesson teaches.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Pattern {
    /// A spelling given bare: its everyday sounds, but for those that the file names on their own.
    Bare(&'static str),
    /// One correspondence, with its name: by the file's key word if it gives one.
    One(CorrespondenceId, String),
    /// A run of parts taught as one chunk, an ending or a beginning.
    Chunk(Chunk),
    /// A skill, such as `final-blends`.
    Skill(Skill),
}

/// A run of parts that is taught as one, an ending or a beginning.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Chunk {
    /// As written in the scope: `amp as in stamp`.
    pub label: String,
    /// Alternative runs of correspondences: `-s` is /s/ or /z/.
    pub runs: Vec<Vec<CorrespondenceId>>,
    /// Only at the start of a word: `un-`.
    pub start: bool,
    /// Only at the end of a word: `-ing`.
    pub end: bool,
    /// The affix that it is, if it makes words of words; `-tion` and `-able` are chunks at the end of a word.
    pub affix: Option<AffixId>,
}

/// Endings and beginnings that may be named without a key word, with key words that show all of their sounds.
const AFFIXES: [(&str, &[&str]); 21] = [
    ("-s", &["cats", "dogs"]),
    ("-es", &["boxes"]),
    ("-'s", &["it's", "he's", "church's"]),
    ("-ed", &["jumped", "rained", "landed"]),
    ("-ing", &["jumping"]),
    ("-er", &["faster"]),
    ("-est", &["fastest"]),
    ("-ly", &["sadly"]),
    ("-y", &["rainy"]),
    ("-ful", &["helpful", "spoonful"]),
    ("-less", &["helpless"]),
    ("-ness", &["sadness"]),
    ("-ment", &["payment"]),
    ("-en", &["wooden"]),
    ("-tion", &["nation"]),
    ("-sion", &["tension", "vision"]),
    ("un-", &["unhappy", "unlock"]),
    ("re-", &["replay", "return"]),
    ("dis-", &["dislike"]),
    ("mis-", &["mislead"]),
    ("pre-", &["prepay"]),
];

impl Chunk {
    /// Whether it is an ending of a weak vowel and more, such as `-el` and `-al`: naming it holds back the words that end in it.
    pub(crate) fn is_weak_ending(&self) -> bool {
        let weak = |run: &Vec<CorrespondenceId>| run.len() > 1 && run[0].get().sound.get().name == "AX";
        self.end && self.affix.is_none() && self.runs.iter().any(weak)
    }

    fn new(label: String, runs: Vec<Vec<CorrespondenceId>>, start: bool, end: bool) -> Chunk {
        let name = label.split(" as in ").next().unwrap_or_default().trim();
        let affix = AffixId::named(name).filter(|affix| affix.get().holds_back);
        Chunk { label, runs, start, end, affix }
    }
}

impl Pattern {
    /// The pattern's name, for people.
    #[must_use]
    pub fn label(&self) -> String {
        match self {
            Pattern::Bare(spelling) => (*spelling).to_owned(),
            Pattern::One(_, label) => label.clone(),
            Pattern::Chunk(run) => run.label.clone(),
            Pattern::Skill(skill) => skill.label().to_owned(),
        }
    }

    /// Reads one entry: a pattern, or the name of a skill.
    ///
    /// # Errors
    /// A sentence that says what is wrong and what was probably meant.
    pub fn parse(text: &str, reader: &Reader) -> Result<Pattern, String> {
        if let Some(skill) = Skill::named(text.trim()) {
            return Ok(Pattern::Skill(skill));
        }
        Pattern::read(text, reader, true)
    }

    /// The same, but no skill; `hints` is whether to say what was probably meant, which takes time.
    pub(super) fn read(text: &str, reader: &Reader, hints: bool) -> Result<Pattern, String> {
        let text = text.trim();
        if let Some(message) = too_long(text) {
            return Err(message);
        }
        if let Some((spelling, key)) = text.split_once(" as in ") {
            return with_key(text, spelling.trim(), key.trim(), reader);
        }
        if let Some((spelling, ipa)) = text.split_once('=') {
            return with_ipa(&split_notation(spelling.trim()), ipa.trim(), reader.accent(), hints);
        }
        if text.starts_with('-') || text.ends_with('-') {
            return affix(text, reader);
        }
        bare(&split_notation(text), reader.accent(), hints)
    }
}

/// `ea as in bread`.
pub(crate) fn label(id: CorrespondenceId) -> String {
    let part = id.get();
    format!("{} as in {}", part.spelling, part.key)
}

/// `a-e` is `a_e`.
fn split_notation(spelling: &str) -> String {
    match spelling.as_bytes() {
        [vowel, b'-', b'e'] if vowel.is_ascii_alphabetic() => spelling.replace('-', "_").to_lowercase(),
        _ => spelling.to_lowercase(),
    }
}

/// Chunks that teachers write without a key word, each with one. None is also a spelling of one sound, as `st` is in *castle*.
const CHUNKS: [(&str, &str); 44] = [
    ("nk", "bank"),
    ("ank", "bank"),
    ("ink", "pink"),
    ("onk", "honk"),
    ("unk", "junk"),
    ("ang", "bang"),
    ("ing", "ring"),
    ("ong", "song"),
    ("ung", "sung"),
    ("all", "ball"),
    ("old", "cold"),
    ("ild", "wild"),
    ("ind", "kind"),
    ("ost", "most"),
    ("olt", "bolt"),
    ("oll", "roll"),
    ("am", "ham"),
    ("an", "pan"),
    ("at", "cat"),
    ("bl", "black"),
    ("br", "brick"),
    ("cl", "clap"),
    ("cr", "crab"),
    ("dr", "drum"),
    ("fl", "flag"),
    ("fr", "frog"),
    ("gl", "glad"),
    ("gr", "grin"),
    ("pl", "plan"),
    ("pr", "press"),
    ("sk", "skip"),
    ("sl", "slip"),
    ("sm", "smell"),
    ("sn", "snap"),
    ("sp", "spot"),
    ("tr", "trip"),
    ("spl", "splash"),
    ("spr", "spring"),
    ("str", "strap"),
    ("lp", "help"),
    ("lt", "belt"),
    ("mp", "lamp"),
    ("nt", "tent"),
    ("xt", "next"),
];

fn unknown(spelling: &str, hints: bool) -> String {
    if spelling.is_empty() {
        return "an empty entry; write a spelling such as `sh`".to_owned();
    }
    if spelling.chars().filter(|c| c.is_alphabetic()).count() > 1 && spelling.contains(' ') {
        return format!(
            "`{spelling}` is no spelling; write each pattern as an entry of its own, such as `ea as in bread`"
        );
    }
    if let Some((_, key)) = CHUNKS.iter().find(|(chunk, _)| *chunk == spelling) {
        return format!("`{spelling}` is several spellings; to teach it as a chunk, write `{spelling} as in {key}`");
    }
    let near = if hints { nearest(spelling, CORRESPONDENCES.iter().map(|part| part.spelling)) } else { None };
    let near = near.map_or_else(|| "a".to_owned(), |near| format!("did you mean `{near}`? A"));
    format!(
        "the catalogue has no spelling `{spelling}`; {near} chunk of several spellings needs a key word: `{spelling} as in …`"
    )
}

fn bare(spelling: &str, accent: Accent, hints: bool) -> Result<Pattern, String> {
    let known: Vec<CorrespondenceId> = spelled_in(spelling, accent).collect();
    let Some(first) = known.first() else { return Err(unknown(spelling, hints)) };
    if known.iter().any(|id| id.get().grade == Grade::Everyday) {
        return Ok(Pattern::Bare(first.get().spelling));
    }
    match known[..] {
        [only] => Ok(Pattern::One(only, label(only))),
        _ => {
            let choices: Vec<String> = known.iter().map(|id| format!("`{}`", label(*id))).collect();
            Err(format!("`{spelling}` has no everyday sound; say which: {}", choices.join(", ")))
        }
    }
}

fn with_ipa(spelling: &str, ipa: &str, accent: Accent, hints: bool) -> Result<Pattern, String> {
    if spelled_in(spelling, accent).next().is_none() {
        return Err(unknown(spelling, hints));
    }
    let mut sounds = SoundId::from_ipa(ipa, accent);
    let found = sounds.find_map(|sound| spelled_in(spelling, accent).find(|id| id.get().sound == sound));
    found.map(|id| Pattern::One(id, label(id))).ok_or_else(|| {
        let choice = |id: CorrespondenceId| format!("/{}/ ({})", id.get().sound.get().ipa(accent), id.get().key);
        let choices: Vec<String> = spelled_in(spelling, accent).map(choice).collect();
        format!("`{spelling}` does not spell {ipa}; its sounds are {}", choices.join(", "))
    })
}

fn with_key(text: &str, written: &str, key: &str, reader: &Reader) -> Result<Pattern, String> {
    let spelling = split_notation(written);
    let word = crate::fold_word(key);
    if word.is_empty() || word.contains(' ') {
        return Err(format!("`{text}`: the key word is missing"));
    }
    let (start, end) = (spelling.ends_with('-'), spelling.starts_with('-'));
    let letters = spelling.trim_matches('-');
    let read = reader.read(&word);
    let runs: Vec<&[Part]> = read.readings.iter().flat_map(|reading| runs(reading, letters, start, end)).collect();
    // What is one everyday spelling elsewhere is no chunk here: *mishap* has no `sh`.
    let single = spelled(letters).any(|id| id.get().grade == Grade::Everyday) && !start && !end;
    let Some(run) = runs.first().filter(|run| run.len() == 1 || !single) else {
        let cut: Vec<&str> = read.readings[0].parts.iter().map(Part::spelling).collect();
        return Err(format!("`{text}`: {key} is cut {} and has no part spelled `{letters}`", cut.join("·")));
    };
    let ids: Option<Vec<CorrespondenceId>> = run.iter().map(Part::id).collect();
    let ids =
        ids.ok_or_else(|| format!("`{text}`: {key} is spelled unlike it sounds there; choose another key word"))?;
    match ids[..] {
        [one] if !start && !end => Ok(Pattern::One(one, format!("{} as in {key}", one.get().spelling))),
        _ => Ok(Pattern::Chunk(Chunk::new(format!("{written} as in {key}"), vec![ids], start, end))),
    }
}

/// The stretches of parts in a reading that are spelled so; single parts first.
fn runs<'r>(reading: &'r Reading, letters: &str, start: bool, end: bool) -> Vec<&'r [Part]> {
    let parts = &reading.parts;
    let mut found = Vec::new();
    for length in 1..=parts.len() {
        for from in 0..=parts.len() - length {
            let run = &parts[from..from + length];
            let spelled = match run {
                [one] => one.spelling() == letters || one.letters() == letters && !one.is_split(),
                _ => run.iter().try_fold(letters, |rest, part| rest.strip_prefix(part.letters())) == Some(""),
            };
            if spelled && (!start || from == 0) && (!end || from + length == parts.len()) {
                found.push(run);
            }
        }
    }
    found
}

fn affix(text: &str, reader: &Reader) -> Result<Pattern, String> {
    let text = text.to_lowercase();
    let Some((_, keys)) = AFFIXES.iter().find(|(known, _)| *known == text) else {
        let near = nearest(&text, AFFIXES.iter().map(|(known, _)| *known));
        let near = near.map_or_else(String::new, |near| format!(" (did you mean `{near}`?)"));
        return Err(format!("`{text}`{near} needs a key word: `{text} as in …`"));
    };
    let (start, end) = (text.ends_with('-'), text.starts_with('-'));
    let letters = text.trim_matches('-').replace('\'', "");
    let mut parts: Vec<Vec<CorrespondenceId>> = Vec::new();
    for key in *keys {
        let read = reader.read(key);
        for run in read.readings.iter().flat_map(|reading| runs(reading, &letters, start, end)) {
            let ids: Vec<CorrespondenceId> = run.iter().filter_map(Part::id).collect();
            if !parts.contains(&ids) {
                parts.push(ids);
            }
        }
    }
    Ok(Pattern::Chunk(Chunk::new(text, parts, start, end)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_affix_has_a_run_for_each_key_word() {
        let reader = Reader::default();
        for (text, keys) in AFFIXES {
            let Ok(Pattern::Chunk(run)) = Pattern::parse(text, &reader) else { panic!("{text}") };
            assert!(!run.runs.is_empty(), "{text}");
            assert!(run.runs.iter().all(|parts| !parts.is_empty()), "{text}");
            for key in keys {
                let letters = text.trim_matches('-').replace('\'', "");
                let read = reader.read(key);
                let found = read.readings.iter().any(|r| !runs(r, &letters, run.start, run.end).is_empty());
                assert!(found, "{text}: {key}");
            }
        }
    }

    #[test]
    fn a_chunk_without_a_key_word_is_offered_one_that_is_read() {
        let reader = Reader::default();
        let is_good = |chunk: &str, offered: &str| {
            let refused =
                Pattern::parse(chunk, &reader).is_err_and(|message| message.ends_with(&format!("`{offered}`")));
            refused && Pattern::parse(offered, &reader).is_ok()
        };
        let offers = CHUNKS.map(|(chunk, key)| (chunk, format!("{chunk} as in {key}")));
        let bad: Vec<_> = offers.iter().filter(|(chunk, offered)| !is_good(chunk, offered)).collect();
        assert!(bad.is_empty(), "{bad:?}");
    }

    #[test]
    fn the_notation_reads_as_a_teacher_means_it() {
        let reader = Reader::default();
        let read = |text: &str| Pattern::parse(text, &reader).map(|pattern| pattern.label());
        assert_eq!(read("a-e"), Ok("a_e".to_owned()));
        assert_eq!(read("ea as in bread"), Ok("ea as in bread".to_owned()));
        assert_eq!(read("ea as in head"), Ok("ea as in head".to_owned()));
        assert_eq!(read("ea = /ɛ/"), Ok("ea as in bread".to_owned()));
        assert_eq!(read("ear = /ɪə/"), Ok("ear as in hear".to_owned()));
        assert_eq!(read("amp as in stamp"), Ok("amp as in stamp".to_owned()));
        assert_eq!(read("-ed as in jumped"), Ok("-ed as in jumped".to_owned()));
        assert_eq!(
            read("ea as in bed"),
            Err("`ea as in bed`: bed is cut b·e·d and has no part spelled `ea`".to_owned())
        );
        assert!(read("shh").unwrap_err().contains("did you mean `sh`?"));
        assert!(read("sh ch").unwrap_err().contains("an entry of its own"));
        assert!(read("ea = /z/").unwrap_err().contains("/iː/ (eat)"));
        assert!(read("-ible").unwrap_err().contains("needs a key word"));
    }
}
