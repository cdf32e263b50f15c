//! The reviewed list of words that only look as if they were made of others, and of the few that rules do not recognise.

use std::collections::{HashMap, HashSet};

use untaught_phonics::formation::forms::Form;

/// The parsed list.
#[derive(Debug, Default)]
pub(crate) struct Exceptions {
    /// Words with their false analyses, as written in the list: `corn -er`, `un- less`, `car nation`.
    denied: HashSet<(String, String)>,
    /// Compounds, with the byte offset at which their second word begins.
    compounds: HashMap<String, usize>,
    /// Words with a suffix on a base that is not a word or sounds different: `eld -est`.
    endings: HashMap<String, String>,
}

/// Parses the list. Columns: word, claim (`not-ending`, `not-beginning`, `not-compound`, `compound`, `ending`), made of, reason.
pub(crate) fn read(text: &str) -> Result<Exceptions, String> {
    let mut exceptions = Exceptions::default();
    for (number, line) in (1..).zip(text.lines()).filter(|(_, line)| !line.starts_with('#') && !line.is_empty()) {
        let columns: Vec<&str> = line.split('\t').collect();
        let [word, claim, of, reason] = columns[..] else {
            return Err(format!("{number}: four columns expected: word, claim, made of, reason"));
        };
        if reason.trim().is_empty() {
            return Err(format!("{number}: the reason is missing"));
        }
        let Some((first, _)) = of.split_once(' ') else {
            return Err(format!("{number}: two pieces expected, not {of}"));
        };
        let new = match claim {
            "compound" => exceptions.compounds.insert(word.to_owned(), first.len()).is_none(),
            "ending" => exceptions.endings.insert(word.to_owned(), of.to_owned()).is_none(),
            "not-ending" | "not-beginning" | "not-compound" => {
                exceptions.denied.insert((word.to_owned(), of.to_owned()))
            }
            _ => return Err(format!("{number}: unknown claim {claim}")),
        };
        if !new {
            return Err(format!("{number}: {word} is listed twice"));
        }
    }
    Ok(exceptions)
}

impl Exceptions {
    pub(crate) fn deny_ending(&self, word: &str, form: &Form<'_>) -> bool {
        self.denies(word, format!("{} {}", form.base, form.affix.get().name))
    }

    pub(crate) fn deny_beginning(&self, word: &str, form: &Form<'_>) -> bool {
        self.denies(word, format!("{} {}", form.affix.get().name, form.base))
    }

    pub(crate) fn deny_compound(&self, word: &str, seam: usize) -> bool {
        self.denies(word, format!("{} {}", &word[..seam], &word[seam..]))
    }

    fn denies(&self, word: &str, of: String) -> bool {
        self.denied.contains(&(word.to_owned(), of))
    }

    /// The false analyses in the list: each word with what it only looks made of.
    pub(crate) fn denials(&self) -> impl Iterator<Item = (&str, &str)> {
        self.denied.iter().map(|(word, of)| (word.as_str(), of.as_str()))
    }

    /// Whether the list confirms this analysis of a word with a suffix.
    pub(crate) fn confirms_ending(&self, word: &str, form: &Form<'_>) -> bool {
        self.endings.get(word).is_some_and(|of| *of == format!("{} {}", form.base, form.affix.get().name))
    }

    /// The seam of a listed compound.
    pub(crate) fn seam(&self, word: &str) -> Option<usize> {
        self.compounds.get(word).copied()
    }
}
