//! What a settings file may hold: every glob is a small machine that is tried on every text, and every text gets all names.

use untaught::messages::thousands;
use untaught::yaml::{Fault, LONGEST, Outline, bounded};

use crate::file::{Keys, SettingsFile};

/// The most rules in a file, and the most globs in all of them.
const RULES: usize = 1_000;
const GLOBS: usize = 2_000;

/// The most names and story words in a file.
const WORDS: usize = 10_000;

/// The most words with a pronunciation, as in a scope file.
const PRONOUNCED: usize = 1_000;

/// The most patterns in a list.
const PATTERNS: usize = 100;

/// The longest glob and the longest regular expression, in bytes: the machines grow with them.
pub(crate) const LONGEST_GLOB: usize = 500;

/// The largest machine that a regular expression may become, in bytes.
pub(crate) const MACHINE: usize = 1 << 20;

/// The longest path of a scope, in bytes.
const PATH: usize = 4096;

/// What makes a file too large to be used. Looked for before anything is made of its globs.
pub(crate) fn too_much(file: &SettingsFile, outline: &Outline) -> Option<Fault> {
    let most = |count: usize, most: usize, what: &str, key: &str| {
        let message = format!("a settings file has at most {} {what}, not {}", thousands(most), thousands(count));
        (count > most).then(|| Fault::new(outline.position(&[key]), &message))
    };
    let globs = file.exclude.0.len() + file.texts.iter().map(|rule| rule.files.0.len()).sum::<usize>();
    let words = [&file.names, &file.story_words].into_iter();
    let words = words.chain(file.texts.iter().flat_map(|rule| [&rule.names, &rule.story_words]));
    let whole = most(file.pronounce.len(), PRONOUNCED, "pronunciations", "pronounce")
        .or_else(|| most(file.texts.len(), RULES, "rules", "texts"))
        .or_else(|| most(globs, GLOBS, "globs", if file.exclude.0.len() > GLOBS { "exclude" } else { "texts" }))
        .or_else(|| most(words.map(Vec::len).sum(), WORDS, "names and story words", "names"));
    whole.or_else(|| too_long(&file.keys(), &[], outline)).or_else(|| {
        let mut rules = file.texts.iter().enumerate();
        rules.find_map(|(number, rule)| too_long(&rule.keys(), &["texts", &number.to_string()], outline))
    })
}

/// A value, or an entry of a list, that is too long to be used.
fn too_long(keys: &Keys<'_>, at: &[&str], outline: &Outline) -> Option<Fault> {
    let long = |text: Option<&str>, most: usize, key: &str| {
        let long = text.is_some_and(|text| text.len() > most);
        long.then(|| Fault::new(outline.position(&[at, &[key]].concat()), &format!("the {key} is too long")))
    };
    let lists =
        [("names", keys.names, WORDS), ("story-words", keys.story_words, WORDS), ("focus", keys.focus, PATTERNS)];
    long(keys.scope, PATH, "scope").or_else(|| long(keys.lesson, LONGEST, "lesson")).or_else(|| {
        lists.into_iter().find_map(|(key, list, most)| bounded(list, most, &[at, &[key]].concat(), outline))
    })
}
