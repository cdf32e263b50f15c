//! The marks of a story: the status of every word, the figures, the curve, what to look at.

use serde::Serialize;
use untaught::{
    Checker, Counts, Focus, FocusCount, LessonIndex, Options, Pattern, Reader, Report, Scope, Status, curve, messages,
    obstacles,
};

use crate::ask::Story;
use crate::desk::Kept;

#[derive(Serialize)]
pub(crate) struct Marked {
    counts: Counts,
    percent: Percents,
    types: Counts,
    /// Start, end and number of the different word, for each running word; places in UTF-16 code units.
    words: Vec<usize>,
    distinct: Vec<Distinct>,
    /// Untaught words in the order of their first place.
    untaught: Vec<Untaught>,
    /// Words that depend on how they are read.
    two_readings: Vec<Remark>,
    /// Words that are not in the dictionary, and can be read by their letters.
    by_letters: Vec<Remark>,
    focus: Practised,
    review: Practised,
    curve: CurveOut,
    obstacles: Vec<Obstacle>,
    uncounted: Vec<String>,
    not_in_text: Vec<String>,
}

#[derive(Serialize)]
struct Percents {
    decodable: String,
    readable: String,
}

#[derive(Serialize)]
struct Distinct {
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
struct Untaught {
    number: usize,
    needs: String,
    /// The place of the lesson from which it can be read.
    first: Option<LessonIndex>,
    likely_name: bool,
    by_letters: bool,
}

#[derive(Serialize)]
struct Remark {
    number: usize,
    say: String,
}

#[derive(Serialize)]
struct Practised {
    patterns: Vec<String>,
    tokens: usize,
    percent: String,
    numbers: Vec<usize>,
}

#[derive(Serialize)]
struct CurveOut {
    decodable: Vec<Option<f64>>,
    readable: Vec<Option<f64>>,
    /// The place of the first lesson at which all can be read.
    whole: Option<LessonIndex>,
}

#[derive(Serialize)]
struct Obstacle {
    label: String,
    lesson: Option<LessonIndex>,
    words: usize,
    types: Vec<String>,
}

/// Obstacles shown.
const OBSTACLES: usize = 3;

/// Checks a story as `untaught check` does.
pub(crate) fn check<'a>(reader: &'a Reader, kept: &'a mut Kept, asked: &Story) -> Result<Report, String> {
    let focus: Vec<Pattern> = asked.focus.iter().map(|text| Pattern::parse(text, reader)).collect::<Result<_, _>>()?;
    let focus = (!focus.is_empty()).then(|| Focus::of(&kept.scope, &focus));
    let declared = asked.names.iter().chain(&asked.story_words).cloned().collect();
    // What is pasted is the story: the page has fields of its own for what front matter would say.
    let options = Options { declared, every_word: true, focus, start: Some(0), ..Options::at(asked.lesson) };
    let mut checker = Checker::remembering(&kept.scope, reader, std::mem::take(&mut kept.memory));
    let report = checker.check(&asked.text, &options);
    kept.memory = checker.into_memory();
    Ok(report)
}

pub(crate) fn mark(reader: &Reader, kept: &mut Kept, asked: &Story) -> Result<Marked, String> {
    let report = check(reader, kept, asked)?;
    Ok(marked(reader, &kept.scope, &asked.text, &report))
}

fn marked(reader: &Reader, scope: &Scope, text: &str, report: &Report) -> Marked {
    let judge = untaught::Judge::new(reader, scope);
    let at = report.lesson;
    let curve = curve(report, scope);
    let lessons = || scope.indexed_lessons().map(|(lesson, _)| lesson);
    let mut obstacles = obstacles(report, &judge, at);
    obstacles.truncate(OBSTACLES);
    let mut distinct: Vec<Distinct> = report
        .distinct
        .iter()
        .map(|word| Distinct {
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
    let untaught = report.findings.iter().map(|finding| Untaught {
        number: finding.type_number,
        needs: messages::needs(&finding.needs, scope),
        first: report.distinct[finding.type_number].verdict.first_readable(),
        likely_name: finding.likely_name,
        by_letters: finding.by_letters,
    });
    let by_letters = report.distinct.iter().enumerate().filter(|(_, word)| is_guessed(word));
    let by_letters =
        by_letters.map(|(number, word)| Remark { number, say: messages::by_letters(&word.verdict.word.text) });
    let two_readings = report
        .two_readings
        .iter()
        .map(|two| Remark { number: two.type_number, say: messages::two_readings(two, scope) });
    Marked {
        counts: report.tokens,
        percent: Percents {
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
        curve: CurveOut {
            decodable: lessons().map(|place| messages::rounded(curve.percent_decodable(place))).collect(),
            readable: lessons().map(|place| messages::rounded(curve.percent_readable(place))).collect(),
            whole: curve.first(0.0, 100.0).filter(|_| curve.words > 0),
        },
        obstacles: obstacles
            .into_iter()
            .map(|one| Obstacle {
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

/// Whether a word counts as decodable by its letters alone, and nobody has vouched for it.
pub(crate) fn is_guessed(word: &untaught::Type) -> bool {
    word.verdict.by_letters() && !word.declared && word.status == Status::Decodable
}

fn practised(count: &FocusCount, report: &Report) -> Practised {
    Practised {
        patterns: count.labels.clone(),
        tokens: count.tokens,
        percent: messages::percent(untaught::percent(count.tokens, report.tokens.words)),
        numbers: count.types.clone(),
    }
}

/// Where the words stand, as the page's own language counts.
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
