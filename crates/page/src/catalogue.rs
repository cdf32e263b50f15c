//! Patterns to choose from, found by a spelling, a key word, or any word that has them.

use serde::{Deserialize, Serialize};
use untaught::phonics::{CorrespondenceId, Grade, spelled_in};
use untaught::{Accent, Part, Pattern, Reader, fold_word};

/// A search of the catalogue.
#[derive(Debug, Deserialize)]
pub(crate) struct CatalogueQuestion {
    /// A spelling or a word; empty for the everyday patterns.
    search: String,
    #[serde(default)]
    accent: String,
}

#[derive(Serialize)]
pub(crate) struct CatalogueAnswer {
    patterns: Vec<PatternChoice>,
    /// The word that was searched, split up.
    split: Option<String>,
}

/// A pattern to choose.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
struct PatternChoice {
    /// As a scope file has it.
    pattern: String,
    spelling: String,
    /// Words in which it is.
    keys: Vec<String>,
    /// Its sounds in IPA.
    ipa: Vec<&'static str>,
    /// How common it is.
    grade: &'static str,
}

/// The longest search, in characters: longer than any word.
const LONGEST: usize = 60;

/// Patterns of an answer.
const MOST: usize = 40;

/// Endings and beginnings that need no key word, each with a word that has it.
const AFFIXES: [(&str, &str); 12] = [
    ("-s", "cats"),
    ("-es", "boxes"),
    ("-ed", "jumped"),
    ("-ing", "jumping"),
    ("-er", "faster"),
    ("-est", "fastest"),
    ("-ly", "sadly"),
    ("-ful", "helpful"),
    ("-less", "helpless"),
    ("-tion", "nation"),
    ("un-", "unhappy"),
    ("re-", "replay"),
];

/// The patterns that fit what is searched: those of a word first, then those of the spelling, then those that begin so.
pub(crate) fn search(reader: &Reader, asked: &CatalogueQuestion) -> CatalogueAnswer {
    let accent = Accent::named(&asked.accent).unwrap_or_default();
    let reader = reader.in_accent(accent);
    let wanted = asked.search.trim().to_lowercase();
    if wanted.chars().nth(LONGEST).is_some() {
        return CatalogueAnswer { patterns: Vec::new(), split: None };
    }
    let spelling = if wanted.len() == 3 { wanted.replace('-', "_") } else { wanted.clone() };
    let word = fold_word(&wanted);
    let mut found: Vec<PatternChoice> = Vec::new();
    let mut split = None;
    if word.len() > 2 && word.bytes().all(|b| b.is_ascii_lowercase()) && reader.spells(&word) {
        let read = reader.read(&word);
        if let Some(reading) = read.readings.first() {
            split = Some(reading.parts.iter().map(Part::spelling).collect::<Vec<_>>().join("·"));
            for part in &reading.parts {
                let Some(id) = part.id() else { continue };
                add(&mut found, everyday_of(id, accent));
                add(&mut found, named(id, &word, reader));
            }
        }
    }
    let all: Vec<CorrespondenceId> = CorrespondenceId::all().filter(|id| id.get().is_in(accent)).collect();
    let exact = all.iter().filter(|id| id.get().spelling == spelling);
    let keyed = all.iter().filter(|id| !wanted.is_empty() && id.get().key == wanted);
    let begin = |id: &&CorrespondenceId| {
        let part = id.get();
        part.grade != Grade::Odd
            && if wanted.is_empty() {
                part.grade == Grade::Everyday
            } else {
                part.spelling.starts_with(&spelling) || wanted.len() > 1 && part.key.starts_with(&wanted)
            }
    };
    for id in exact.chain(keyed).chain(all.iter().filter(begin)) {
        add(&mut found, everyday_of(*id, accent));
        if !wanted.is_empty() && spelled_in(id.get().spelling, accent).nth(1).is_some() {
            add(&mut found, named(*id, id.get().key, reader));
        }
    }
    let bare = wanted.trim_matches('-');
    for (affix, key) in
        AFFIXES.iter().filter(|(affix, key)| affix.trim_matches('-').starts_with(bare) || *key == wanted)
    {
        let spelling = (*affix).to_owned();
        let choice = PatternChoice {
            pattern: spelling.clone(),
            spelling,
            keys: vec![(*key).to_owned()],
            ipa: Vec::new(),
            grade: "ending or beginning",
        };
        add(&mut found, Some(choice));
    }
    found.truncate(MOST);
    CatalogueAnswer { patterns: found, split }
}

fn add(found: &mut Vec<PatternChoice>, choice: Option<PatternChoice>) {
    if let Some(choice) = choice.filter(|choice| !found.iter().any(|known| known.pattern == choice.pattern)) {
        found.push(choice);
    }
}

fn grade(grade: Grade) -> &'static str {
    match grade {
        Grade::Everyday => "everyday",
        Grade::Common => "common",
        Grade::Rare => "rare",
        Grade::Odd => "very rare",
    }
}

/// A correspondence by a key word, if a scope file can name it so: *could* has no `ou` in every accent. The only everyday sound of a
/// spelling is what the spelling alone teaches.
fn named(id: CorrespondenceId, key: &str, reader: &Reader) -> Option<PatternChoice> {
    let part = id.get();
    if everyday_of(id, reader.accent()).is_some_and(|alone| alone.keys.len() == 1) {
        return None;
    }
    let pattern = format!("{} as in {key}", part.spelling);
    let is_it = matches!(Pattern::parse(&pattern, reader), Ok(Pattern::One(read, _)) if read == id);
    let ipa = vec![part.sound.get().ipa(reader.accent())];
    is_it.then(|| PatternChoice {
        pattern,
        spelling: part.spelling.to_owned(),
        keys: vec![key.to_owned()],
        ipa,
        grade: grade(part.grade),
    })
}

/// The spelling alone, if that teaches this sound.
fn everyday_of(id: CorrespondenceId, accent: Accent) -> Option<PatternChoice> {
    let part = id.get();
    let all: Vec<CorrespondenceId> = spelled_in(part.spelling, accent).collect();
    let alone = all.len() == 1;
    if part.grade != Grade::Everyday && !alone {
        return None;
    }
    let taught = all.iter().filter(|id| alone || id.get().grade == Grade::Everyday).map(|id| id.get());
    let mut choice = PatternChoice {
        pattern: part.spelling.to_owned(),
        spelling: part.spelling.to_owned(),
        keys: Vec::new(),
        ipa: Vec::new(),
        grade: grade(part.grade),
    };
    for part in taught {
        choice.keys.push(part.key.to_owned());
        choice.ipa.push(part.sound.get().ipa(accent));
    }
    Some(choice)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(search: &str, accent: &str) -> Vec<String> {
        let asked = CatalogueQuestion { search: search.to_owned(), accent: accent.to_owned() };
        super::search(&Reader::default(), &asked).patterns.into_iter().map(|choice| choice.pattern).collect()
    }

    #[test]
    fn patterns_are_found_by_spelling_key_word_and_any_word() {
        assert_eq!(found("ea", "")[..2], ["ea", "ea as in bread"]);
        assert!(found("bread", "").contains(&"ea as in bread".to_owned()));
        let of_word = found("light", "");
        assert_eq!(of_word[..3], ["l", "igh", "t"]);
        assert!(found("a-e", "").contains(&"a_e".to_owned()));
        assert!(found("ing", "").contains(&"-ing".to_owned()));
        assert!(!found("", "").is_empty());
    }

    #[test]
    fn whatever_can_be_chosen_can_be_read() {
        let reader = Reader::default();
        for accent in Accent::ALL {
            let searches = ["a", "e", "i", "o", "u", "th", "s", "night", "whale", "", "ed", "ough", "about"];
            for search in searches {
                for pattern in found(search, accent.name()) {
                    let read = Pattern::parse(&pattern, reader.in_accent(accent));
                    assert!(read.is_ok(), "{pattern} in {accent}: {read:?}");
                }
            }
        }
    }
}
