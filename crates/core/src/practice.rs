//! What a text practises: how often its decodable words contain each pattern of a scope.

use std::collections::HashMap;
use std::sync::Arc;

use crate::{Focus, Judge, LessonIndex, Report, Scope, Status, Verdict};

/// Counts the practice of a scope's patterns. A word that occurs in several texts is analysed only once.
#[derive(Debug)]
pub struct Practice<'a> {
    judge: Judge<'a>,
    patterns: Vec<TaughtPattern>,
    known: HashMap<Box<str>, Vec<u16>>,
}

/// A pattern of a scope.
#[derive(Clone, Debug)]
pub struct TaughtPattern {
    /// The pattern, for people.
    pub label: String,
    /// The lesson that teaches it.
    pub lesson: LessonIndex,
    focus: Focus,
}

impl<'a> Practice<'a> {
    /// Prepares the patterns of the judge's scope.
    #[must_use]
    pub fn new(judge: Judge<'a>) -> Practice<'a> {
        let scope = judge.scope();
        let taught = scope.indexed_lessons().flat_map(|(lesson, entry)| {
            entry.patterns.iter().map(move |pattern| TaughtPattern {
                label: pattern.label(),
                lesson,
                focus: Focus::of(scope, std::slice::from_ref(pattern)),
            })
        });
        let patterns = taught.collect();
        Practice { judge, patterns, known: HashMap::new() }
    }

    /// The scope.
    #[must_use]
    pub fn scope(&self) -> &'a Scope {
        self.judge.scope()
    }

    /// The patterns of the scope, in scope order.
    #[must_use]
    pub fn patterns(&self) -> &[TaughtPattern] {
        &self.patterns
    }

    /// Counts the running words of a checked text that practise each pattern, in the order of [`Practice::patterns`]. Only
    /// words that are decodable at the lesson of the check count. Cost: one comparison for each new word and pattern.
    #[must_use]
    pub fn count(&mut self, report: &Report) -> Vec<usize> {
        let mut counts = vec![0; self.patterns.len()];
        for word in report.distinct.iter().filter(|word| word.status == Status::Decodable) {
            for number in self.patterns_in(&word.verdict) {
                counts[usize::from(*number)] += word.count;
            }
        }
        counts
    }

    /// The patterns that are in a word, whether it is decodable or not: their numbers in [`Practice::patterns`], in order. Cost: for a
    /// new word, one comparison for each pattern.
    pub fn patterns_in(&mut self, verdict: &Arc<Verdict>) -> &[u16] {
        let Practice { judge, patterns, known } = self;
        let word = &verdict.word;
        if !known.contains_key(word.text.as_str()) {
            let practised = |(_, pattern): &(u16, &TaughtPattern)| {
                word.readings.first().is_some_and(|reading| pattern.focus.is_in(judge.reader(), &word.text, reading))
            };
            let numbers = (0..).zip(patterns.iter()).filter(practised).map(|(number, _)| number).collect();
            known.insert(word.text.as_str().into(), numbers);
        }
        &known[word.text.as_str()]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Options, Reader, Scope, check};

    #[test]
    fn decodable_words_practise_their_patterns() {
        let reader = Reader::default();
        let text =
            "format: 1\nlessons:\n- teach: [a, t, m, i, n, p]\n- {teach: [sh, ck], sight: [she]}\n- teach: [igh]\n";
        let scope = Scope::parse(text, &reader).unwrap();
        let judge = Judge::new(&reader, &scope);
        let mut practice = Practice::new(judge);
        let report = check(
            "Tim, mash a ship. She mashed a ship at night.",
            &scope,
            &reader,
            &Options::at(LessonIndex::new(1).unwrap()),
        );
        let labels: Vec<String> = practice.patterns().iter().map(|taught| taught.label.clone()).collect();
        let counts = practice.count(&report);
        let found: Vec<(&str, usize)> = labels.iter().map(String::as_str).zip(counts).filter(|(_, n)| *n > 0).collect();
        assert_eq!(found, [("a", 2), ("t", 2), ("m", 2), ("i", 3), ("p", 2), ("sh", 3)]);
    }
}
