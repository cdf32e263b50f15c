//! The marks of a story: the status of every word, the figures, the curve, what to look at.

use serde::Serialize;
use untaught::{
    Counts, FocusCount, Judge, LessonIndex, Need, Reader, Report, Scope, Status, Type, curve, messages, obstacles,
};

use crate::ask::StoryQuestion;
use crate::known_scope::KnownScope;

#[derive(Serialize)]
pub(crate) struct StoryMarks {
    counts: Counts,
    percent: PercentTexts,
    types: Counts,
    /// Start, end and number of the different word, for each running word; places in UTF-16 code units.
    words: Vec<usize>,
    distinct: Vec<MarkedWord>,
    /// Untaught words in the order of their first place.
    untaught: Vec<UntaughtMark>,
    /// Words that depend on how they are read.
    two_readings: Vec<WordRemark>,
    /// Words that are not in the dictionary, and can be read by their letters.
    by_letters: Vec<WordRemark>,
    focus: PracticeMarks,
    review: PracticeMarks,
    curve: CurveMarks,
    obstacles: Vec<ObstacleMark>,
    uncounted: Vec<String>,
    not_in_text: Vec<String>,
}

#[derive(Serialize)]
struct PercentTexts {
    decodable: String,
    readable: String,
}

#[derive(Serialize)]
struct MarkedWord {
    word: String,
    /// The same as it is shown: with its capital if it looks like a name.
    shown: String,
    status: &'static str,
    count: usize,
    focus: bool,
    declared: bool,
    /// The verdict depends on how it is read, or was made from its letters alone.
    doubtful: bool,
}

#[derive(Serialize)]
struct UntaughtMark {
    number: usize,
    needs: String,
    /// What it waits for longest.
    hurdle: HurdleMark,
    /// The lesson from which it can be read.
    first: Option<LessonIndex>,
    likely_name: bool,
    by_letters: bool,
}

#[derive(Serialize)]
struct HurdleMark {
    label: String,
    /// None if no lesson teaches it.
    lesson: Option<LessonIndex>,
}

#[derive(Serialize)]
struct WordRemark {
    number: usize,
    say: String,
}

#[derive(Serialize)]
struct PracticeMarks {
    patterns: Vec<String>,
    tokens: usize,
    percent: String,
    numbers: Vec<usize>,
}

#[derive(Serialize)]
struct CurveMarks {
    decodable: Vec<Option<f64>>,
    readable: Vec<Option<f64>>,
    /// The first lesson at which all can be read.
    whole: Option<LessonIndex>,
}

#[derive(Serialize)]
struct ObstacleMark {
    label: String,
    lesson: Option<LessonIndex>,
    words: usize,
    types: Vec<String>,
}

/// Obstacles shown.
const OBSTACLES: usize = 3;

pub(crate) fn mark(reader: &Reader, known: &mut KnownScope, asked: &StoryQuestion) -> Result<StoryMarks, String> {
    let report = known.check(reader, asked)?;
    Ok(marked(reader, &known.scope, &asked.text, &report))
}

fn marked(reader: &Reader, scope: &Scope, text: &str, report: &Report) -> StoryMarks {
    let judge = Judge::new(reader, scope);
    let at = report.lesson;
    let curve = curve(report, scope);
    let lessons = || scope.indexed_lessons().map(|(lesson, _)| lesson);
    let mut obstacles = obstacles(report, &judge, at);
    obstacles.truncate(OBSTACLES);
    let mut distinct: Vec<MarkedWord> = report
        .distinct
        .iter()
        .map(|word| MarkedWord {
            word: word.verdict.word.text.clone(),
            shown: word.verdict.word.text.clone(),
            status: word.status.name(),
            count: word.count,
            focus: false,
            declared: word.declared,
            doubtful: is_guessed(word),
        })
        .collect();
    for number in &report.focus.types {
        distinct[*number].focus = true;
    }
    for word in &report.words {
        let (one, of) = (&mut distinct[word.type_number], &report.distinct[word.type_number]);
        let always = of.capitals == of.count && one.shown == one.word;
        // A capital at the start of a sentence says nothing; *I'm* and *USA* have theirs anywhere.
        let shout = text[word.span.clone()].chars().filter(|c| c.is_uppercase()).count() > 1;
        if always && (of.inner_capitals > 0 || of.declared || shout || one.word.starts_with("i'")) {
            text[word.span.clone()].clone_into(&mut one.shown);
        }
    }
    for two in &report.two_readings {
        distinct[two.type_number].doubtful = true;
    }
    let untaught = report.findings.iter().map(|finding| UntaughtMark {
        number: finding.type_number,
        needs: messages::needs(&finding.needs, scope),
        hurdle: hurdle(&finding.needs, scope),
        first: report.distinct[finding.type_number].verdict.first_readable(),
        likely_name: finding.likely_name,
        by_letters: finding.by_letters,
    });
    let by_letters = report.distinct.iter().enumerate().filter(|(_, word)| is_guessed(word));
    let by_letters =
        by_letters.map(|(number, word)| WordRemark { number, say: messages::by_letters(&word.verdict.word.text) });
    let two_readings = report
        .two_readings
        .iter()
        .map(|two| WordRemark { number: two.type_number, say: messages::two_readings(two, scope) });
    StoryMarks {
        counts: report.tokens,
        percent: PercentTexts {
            decodable: messages::percent(report.tokens.percent_decodable()),
            readable: messages::percent(report.tokens.percent_readable()),
        },
        types: report.types,
        words: places(text, report),
        untaught: untaught.collect(),
        two_readings: two_readings.collect(),
        by_letters: by_letters.collect(),
        focus: practised(&report.focus, report),
        review: practised(&report.review, report),
        curve: CurveMarks {
            decodable: lessons().map(|lesson| messages::rounded(curve.percent_decodable(lesson))).collect(),
            readable: lessons().map(|lesson| messages::rounded(curve.percent_readable(lesson))).collect(),
            whole: curve.first(0.0, 100.0).filter(|_| curve.words > 0),
        },
        obstacles: obstacles
            .into_iter()
            .map(|one| ObstacleMark {
                label: one.label(scope),
                lesson: one.need.lesson(),
                words: one.words,
                types: one.types,
            })
            .collect(),
        uncounted: report.uncounted.clone(),
        not_in_text: report.not_in_text.clone(),
        distinct,
    }
}

/// The need that is met last; one that is never met waits longest.
fn hurdle(needs: &[Need], scope: &Scope) -> HurdleMark {
    let last = needs.iter().max_by_key(|need| (need.lesson().is_none(), need.lesson()));
    HurdleMark {
        label: last.map_or_else(|| "more than has been taught".to_owned(), |need| messages::need(need, scope)),
        lesson: last.and_then(Need::lesson),
    }
}

/// Whether a word counts as decodable by its letters alone, and has not been declared.
pub(crate) fn is_guessed(word: &Type) -> bool {
    word.verdict.by_letters() && !word.declared && word.status == Status::Decodable
}

fn practised(count: &FocusCount, report: &Report) -> PracticeMarks {
    PracticeMarks {
        patterns: count.labels.clone(),
        tokens: count.tokens,
        percent: messages::percent(untaught::percent(count.tokens, report.tokens.words)),
        numbers: count.types.clone(),
    }
}

/// The positions of the words in UTF-16 code units.
fn places(text: &str, report: &Report) -> Vec<usize> {
    let (mut at, mut units) = (0, 0);
    let mut out = Vec::with_capacity(report.words.len() * 3);
    for word in &report.words {
        for end in [word.span.start, word.span.end] {
            units += text[at..end].encode_utf16().count();
            at = end;
            out.push(units);
        }
        out.push(word.type_number);
    }
    out
}
