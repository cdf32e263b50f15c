//! How common each word is: size classes from an open word list.

use std::collections::HashMap;

use untaught_lexicon::format::{AMERICAN, BRITISH, CLASS};
use untaught_phonics::formation::Vocabulary;

/// Size classes by word, from 10 (commonest) to 50 (rarest listed).
#[derive(Debug)]
pub(crate) struct Commonness(HashMap<String, u8>);

impl Commonness {
    /// The class of a word; 0 if it is not listed.
    pub(crate) fn class(&self, word: &str) -> u8 {
        self.0.get(word).map_or(0, |packed| packed & CLASS)
    }

    /// The class with the country whose spelling the word is, as packed.
    pub(crate) fn packed(&self, word: &str) -> u8 {
        self.0.get(word).copied().unwrap_or(0)
    }

    /// Adds a word that is spelled so only in Britain.
    pub(crate) fn add_british(&mut self, word: &str, class: u8) -> Result<(), String> {
        match self.0.insert(word.to_owned(), class | BRITISH) {
            None => Ok(()),
            Some(_) => Err(format!("{word} is listed already")),
        }
    }

    /// Marks a word that is spelled so only in America.
    pub(crate) fn mark_american(&mut self, word: &str) {
        if let Some(class) = self.0.get_mut(word) {
            *class |= AMERICAN;
        }
    }
}

impl Vocabulary for Commonness {
    fn is_ordinary(&self, word: &str) -> bool {
        self.class(word) != 0
    }
}

pub(crate) fn read(text: &str) -> Result<Commonness, String> {
    let mut classes = HashMap::new();
    for (number, line) in (1..).zip(text.lines()).filter(|(_, line)| !line.starts_with('#')) {
        let (word, class) = line.split_once('\t').ok_or_else(|| format!("{number}: word and class expected"))?;
        let class = class.parse().map_err(|_| format!("{number}: {class} is not a class"))?;
        if classes.insert(word.to_owned(), class).is_some() {
            return Err(format!("{number}: duplicate word {word}"));
        }
    }
    Ok(Commonness(classes))
}
