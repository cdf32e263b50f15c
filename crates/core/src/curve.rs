//! Where in a scope a text fits: its percentages at every lesson, from one check.

use std::collections::BTreeMap;

use crate::{Judge, LessonIndex, Need, Report, Scope, Status, percent};

/// How much of a text can be read at each lesson.
#[derive(Clone, PartialEq, Eq, Debug, serde::Serialize)]
pub struct Curve {
    /// Number of running words.
    pub words: usize,
    /// Number of decodable words, by lesson.
    pub decodable: Vec<usize>,
    /// Number of readable words (decodable, sight or declared), by lesson.
    pub readable: Vec<usize>,
}

/// Computes the curve of a checked text. Cost: proportional to the lessons plus the distinct words.
#[must_use]
pub fn curve(report: &Report, scope: &Scope) -> Curve {
    let lessons = scope.lessons().len();
    let (mut decodable, mut readable) = (vec![0; lessons], vec![0; lessons]);
    let mut add = |lesson: Option<LessonIndex>, count: usize, to_readable: bool| {
        let list = if to_readable { &mut readable } else { &mut decodable };
        if let Some(n) = lesson.and_then(|lesson| list.get_mut(lesson.get())) {
            *n += count;
        }
    };
    for word in &report.distinct {
        add(word.verdict.first_decodable(), word.count, false);
        let declared = word.declared.then_some(LessonIndex::FIRST);
        add(declared.or(word.verdict.first_readable()), word.count, true);
    }
    for list in [&mut decodable, &mut readable] {
        for at in 1..lessons {
            list[at] += list[at - 1];
        }
    }
    Curve { words: report.tokens.words, decodable, readable }
}

impl Curve {
    /// Percentage of words that are decodable at a lesson; `None` for a text without words or a lesson past the end.
    #[must_use]
    pub fn percent_decodable(&self, lesson: LessonIndex) -> Option<f64> {
        self.decodable.get(lesson.get()).and_then(|n| percent(*n, self.words))
    }

    /// Percentage of words that are readable at a lesson; `None` for a text without words or a lesson past the end.
    #[must_use]
    pub fn percent_readable(&self, lesson: LessonIndex) -> Option<f64> {
        self.readable.get(lesson.get()).and_then(|n| percent(*n, self.words))
    }

    /// The earliest lesson at which a percentage of the words is readable.
    #[must_use]
    pub fn reaches(&self, readable: f64) -> Option<LessonIndex> {
        self.first(0.0, readable)
    }

    /// The earliest lesson at which the text reaches both percentages. A text without words reaches them at the first lesson.
    #[must_use]
    pub fn first(&self, least_decodable: f64, least_readable: f64) -> Option<LessonIndex> {
        let reaches = |percent: Option<f64>, least: f64| percent.is_none_or(|percent| percent + 1e-9 >= least);
        (0..self.readable.len()).filter_map(LessonIndex::new).find(|lesson| {
            reaches(self.percent_decodable(*lesson), least_decodable)
                && reaches(self.percent_readable(*lesson), least_readable)
        })
    }
}

/// The words of a text that no lesson of a scope makes readable, and what pre-teaching them would do.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct NeverReadable {
    /// The different words, in order of first appearance.
    pub words: Vec<String>,
    /// The earliest lesson at which all other words can be read.
    pub lesson: LessonIndex,
}

/// Returns the words of a checked text that cannot be read at any lesson; `None` if there are none.
#[must_use]
pub fn never_readable(report: &Report) -> Option<NeverReadable> {
    let (never, others): (Vec<_>, Vec<_>) =
        report.distinct.iter().filter(|word| !word.declared).partition(|word| word.verdict.first_readable().is_none());
    let lesson = others.iter().filter_map(|word| word.verdict.first_readable()).max().unwrap_or(LessonIndex::FIRST);
    let words: Vec<String> = never.iter().map(|word| word.verdict.word.text.clone()).collect();
    (!words.is_empty()).then_some(NeverReadable { words, lesson })
}

/// A single thing to teach that would make more words of a text readable.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Obstacle {
    /// What must be taught.
    pub need: Need,
    /// The word itself, if it must be taught as a whole word.
    pub word: Option<String>,
    /// Number of running words that need it and nothing else.
    pub words: usize,
    /// The distinct words among these, in order of first appearance.
    pub types: Vec<String>,
}

impl Obstacle {
    /// A description for people: `igh as in night`, `the as a sight word`.
    #[must_use]
    pub fn label(&self, scope: &Scope) -> String {
        match (&self.word, &self.need) {
            (Some(word), Need::SightWord { .. } | Need::SightForm { .. } | Need::SightCompound { .. }) => {
                format!("{word} as a sight word")
            }
            (Some(word), _) => format!("{word} as a whole word"),
            (None, need) => crate::messages::need(need, scope),
        }
    }
}

/// Finds the obstacles of a text at a lesson, starting with the one whose teaching would make the most words readable. Words that
/// need several things are left out; each word that must be taught whole is an obstacle of its own. Cost: the cost of finding the
/// needs of the untaught words.
#[must_use]
pub fn obstacles(report: &Report, judge: &Judge<'_>, at: LessonIndex) -> Vec<Obstacle> {
    ranked(report, judge, at, |needs| match needs {
        [need] => Some(need),
        _ => None,
    })
}

/// The same for every untaught word: one that needs several things counts for the last of them to be taught. Cost: as above.
#[must_use]
pub fn all_obstacles(report: &Report, judge: &Judge<'_>, at: LessonIndex) -> Vec<Obstacle> {
    ranked(report, judge, at, |needs| needs.iter().max_by_key(|need| (need.lesson().is_none(), need.lesson())))
}

fn ranked(
    report: &Report,
    judge: &Judge<'_>,
    at: LessonIndex,
    decisive: impl Fn(&[Need]) -> Option<&Need>,
) -> Vec<Obstacle> {
    let mut found: BTreeMap<(Option<String>, Need), Obstacle> = BTreeMap::new();
    for word in &report.distinct {
        if word.verdict.status(at, word.declared) != Status::Untaught {
            continue;
        }
        let needs = judge.needs(&word.verdict, at);
        let Some(need) = decisive(&needs) else { continue };
        let whole = need.is_whole_word().then(|| word.verdict.word.text.clone());
        let obstacle = found.entry((whole.clone(), need.clone())).or_insert_with(|| Obstacle {
            need: need.clone(),
            word: whole,
            words: 0,
            types: Vec::new(),
        });
        obstacle.words += word.count;
        obstacle.types.push(word.verdict.word.text.clone());
    }
    let scope = judge.scope();
    let mut found: Vec<Obstacle> = found.into_values().collect();
    let rank = |obstacle: &Obstacle| {
        let lesson = obstacle.need.lesson();
        (std::cmp::Reverse(obstacle.words), lesson.is_none(), lesson, obstacle.label(scope))
    };
    found.sort_by_cached_key(rank);
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Options, Reader, check};

    fn scope(reader: &Reader) -> Scope {
        let text = "format: 1\nlessons:\n- teach: [s, a, t, m, i, n]\n- {teach: [sh], sight: [the]}\n- teach: [igh]\n";
        Scope::parse(text, reader).unwrap()
    }

    #[test]
    fn the_curve_counts_what_each_lesson_adds() {
        let reader = Reader::default();
        let scope = scope(&reader);
        let options = Options { declared: vec!["tomas".to_owned()], ..Options::at(LessonIndex::FIRST) };
        let report = check("Tam sat in the mash. The night! Tomas sat at sight. Jump!", &scope, &reader, &options);
        let curve = curve(&report, &scope);
        assert_eq!((curve.words, &curve.decodable[..], &curve.readable[..]), (12, &[5, 6, 8][..], &[6, 9, 11][..]));
        assert_eq!(curve.first(0.0, 75.0), LessonIndex::new(1));
        assert_eq!(curve.first(60.0, 75.0), LessonIndex::new(2));
        assert_eq!(curve.first(0.0, 100.0), None);
    }

    #[test]
    fn obstacles_are_what_would_lift_it_most() {
        let reader = Reader::default();
        let scope = scope(&reader);
        let judge = Judge::new(&reader, &scope);
        let report =
            check("The night, the sight, the mash. Brainstorm!", &scope, &reader, &Options::at(LessonIndex::FIRST));
        let found = obstacles(&report, &judge, LessonIndex::FIRST);
        let shown: Vec<(String, usize)> = found.iter().map(|o| (o.label(&scope), o.words)).collect();
        let expected = [("the as a sight word", 3), ("igh as in night", 2), ("sh as in ship", 1)];
        assert_eq!(shown, expected.map(|(label, words)| (label.to_owned(), words)));
    }
}
