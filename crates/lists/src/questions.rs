//! Questions to ask after a story, made of its own sentences, and only where the story itself gives the one answer: *Who had a red kite?*
//! and *Which comes first in the story?* A story of which none can be asked honestly gets none.

use serde::Serialize;
use untaught::{fold_word, tokens};

use crate::swaps::is_past_of_verb;

/// A question with its answer.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct StoryQuestion {
    /// The question.
    pub ask: String,
    /// The answer, in words of the story.
    pub answer: String,
}

/// The most questions.
const MOST: usize = 3;

/// The fewest and the most words of a sentence that is asked about.
const WORDS: std::ops::RangeInclusive<usize> = 4..=9;

/// Words that mean something only after an earlier sentence, or that make a sentence of two.
const LEANING: &str = "he she it they him her his hers them their its this that these those there then here i me my we us our you your so \
     too also again but and or if when as because who what which one ones not did";

/// Makes questions on a story from its sentences in order. `is_name` says whether a word as written is the name of somebody.
#[must_use]
pub fn questions(sentences: &[&str], is_name: impl Fn(&str) -> bool) -> Vec<StoryQuestion> {
    let sentences: Vec<Sentence<'_>> = sentences.iter().map(|text| Sentence::read(text)).collect();
    let mut made: Vec<StoryQuestion> = Vec::new();
    let mut asked: Vec<&str> = Vec::new();
    for sentence in sentences.iter().filter(|sentence| sentence.is_whole()) {
        let [name, verb, ..] = sentence.words[..] else { continue };
        // What somebody else may have done as well has two answers.
        let once =
            sentences.iter().flat_map(|other| &other.words).filter(|word| fold_word(word) == fold_word(verb)).count()
                == 1;
        if made.len() + 1 < MOST && is_name(name) && is_past_of_verb(&fold_word(verb)) && once && !asked.contains(&name)
        {
            let rest = sentence.text[sentence.text.find(verb).unwrap_or_default()..].trim_end_matches('.');
            made.push(StoryQuestion { ask: format!("Who {rest}?"), answer: name.to_owned() });
            asked.push(name);
        }
    }
    made.extend(order(&sentences, &is_name));
    made
}

/// Two sentences that do not lean on others and stand apart: which comes first?
fn order(sentences: &[Sentence<'_>], is_name: &impl Fn(&str) -> bool) -> Option<StoryQuestion> {
    let alone = |sentence: &&Sentence<'_>| {
        let first = sentence.words.first().copied().unwrap_or_default();
        sentence.is_whole() && (is_name(first) || first == "The")
    };
    let first = sentences.iter().position(|sentence| alone(&sentence))?;
    let last = sentences.iter().rposition(|sentence| alone(&sentence))?;
    let (first, last) = (sentences.get(first)?.text, sentences.get(last.max(first + 2))?.text);
    let known = sentences.iter().filter(|sentence| sentence.text == last || sentence.text == first).count() == 2;
    // The right answer is not always named first.
    let (one, other) = if first.len() % 2 == 0 { (first, last) } else { (last, first) };
    (known && alone(&&Sentence::read(last))).then(|| StoryQuestion {
        ask: format!("Which comes first in the story? “{one}” or “{other}”"),
        answer: first.to_owned(),
    })
}

/// A sentence and its words.
struct Sentence<'s> {
    text: &'s str,
    words: Vec<&'s str>,
}

impl<'s> Sentence<'s> {
    fn read(text: &'s str) -> Sentence<'s> {
        let text = text.trim();
        Sentence { text, words: tokens(text).map(|token| &text[token.span]).collect() }
    }

    /// Whether it can be understood alone: one plain statement, without a word that leans on another sentence.
    fn is_whole(&self) -> bool {
        let plain = |c: char| c.is_alphabetic() || matches!(c, ' ' | '-' | '\'' | '\u{2019}');
        let leaning = |word: &&str| LEANING.split(' ').any(|known| known == fold_word(word));
        self.text.strip_suffix('.').is_some_and(|body| body.chars().all(plain))
            && WORDS.contains(&self.words.len())
            && !self.words.iter().any(leaning)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn asked(story: &[&str]) -> Vec<(String, String)> {
        let made = questions(story, |word| matches!(word, "Vik" | "Rosa"));
        made.into_iter().map(|question| (question.ask, question.answer)).collect()
    }

    #[test]
    fn a_story_is_asked_about_in_its_own_words() {
        let story =
            ["Vik had a big red kite.", "He let it go.", "Rosa ran to the old mill.", "The kite sat in a tree."];
        let pair = |ask: &str, answer: &str| (ask.to_owned(), answer.to_owned());
        assert_eq!(
            asked(&story),
            [
                pair("Who had a big red kite?", "Vik"),
                pair("Who ran to the old mill?", "Rosa"),
                pair(
                    "Which comes first in the story? “The kite sat in a tree.” or “Vik had a big red kite.”",
                    "Vik had a big red kite."
                ),
            ]
        );
    }

    #[test]
    fn what_the_story_does_not_answer_is_not_asked() {
        // Two who ran; a sentence that leans on another; speech; two sentences in one; no name.
        for story in [
            &["Vik ran up the hill.", "Rosa ran up the hill."][..],
            &["Vik lost his red kite."],
            &["“Vik had a big kite.”"],
            &["Vik sat down and Rosa got up."],
            &["Then came a big red dog."],
            &[],
        ] {
            assert_eq!(asked(story), [], "{story:?}");
        }
    }
}
