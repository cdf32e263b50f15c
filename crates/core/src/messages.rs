//! All sentences about words, for the command, the page and the editor. Everywhere else, reasons are types.

use std::borrow::Cow;

use untaught_phonics::CorrespondenceId;

use crate::scope::catalogue_label;
use crate::{Finding, LessonIndex, Need, Scope, TwoReadings};

/// The most characters of a longer text that a message shows.
const EXCERPT: usize = 40;

/// The name of a correspondence, with the scope's own key word if it gives one, otherwise the catalogue's.
#[must_use]
pub fn correspondence(id: CorrespondenceId, scope: &Scope) -> String {
    scope.own_label(id).map_or_else(|| catalogue_label(id), str::to_owned)
}

/// Describes a need without its lesson: `igh as in night`, `two syllables`, `a sight word`.
#[must_use]
pub fn need(need: &Need, scope: &Scope) -> String {
    match need {
        Need::Correspondence { id, .. } => correspondence(*id, scope),
        Need::ChangedY { y, into, .. } => {
            format!("y → {} ({})", into.get().spelling, correspondence(*y, scope))
        }
        Need::Chunk { chunk, .. } => scope.chunk(*chunk).label.clone(),
        Need::Skill { skill, .. } => skill.label().to_owned(),
        Need::SightWord { .. } => "a sight word".to_owned(),
        Need::SightForm { base, affix, .. } => format!("the sight word {base} with {}", affix.get().name),
        Need::SightCompound { words: [first, second], .. } => format!("{first} and {second}"),
        Need::Irregular { .. } => "irregular: teach it as a whole word".to_owned(),
        Need::Abbreviation => "an abbreviation: teach it as a whole word".to_owned(),
    }
}

/// Describes a need with its lesson: `igh as in night (lesson 48)`.
#[must_use]
pub fn need_at(what: &Need, scope: &Scope) -> String {
    match (what, what.lesson()) {
        (Need::SightForm { base, base_lesson, affix, affix_lesson }, _) => format!(
            "{base} (sight word, lesson {}) and {} (lesson {})",
            scope.id(*base_lesson),
            affix.get().name,
            scope.id(*affix_lesson)
        ),
        (_, Some(lesson)) => format!("{} (lesson {})", need(what, scope), scope.id(lesson)),
        (Need::Irregular { .. } | Need::Abbreviation, None) => need(what, scope),
        (_, None) => format!("{} (never taught)", need(what, scope)),
    }
}

/// The predicate of a sentence about a word: `needs igh as in night (lesson 48)`; `is a sight word taught in lesson 21`.
#[must_use]
pub fn needs(needs: &[Need], scope: &Scope) -> String {
    match needs {
        [] => return "needs more than has been taught".to_owned(),
        [what @ Need::SightWord { lesson }] => {
            return format!("is {} taught in lesson {}", need(what, scope), scope.id(*lesson));
        }
        [Need::Irregular { .. }] => return "is irregular: teach it as a whole word".to_owned(),
        [Need::Abbreviation] => return "is an abbreviation: teach it as a whole word".to_owned(),
        _ => {}
    }
    let irregular: Vec<&str> = needs.iter().filter_map(irregular_letters).collect();
    let mut listed: Vec<String> =
        needs.iter().filter(|need| irregular_letters(need).is_none()).map(|need| need_at(need, scope)).collect();
    if !irregular.is_empty() {
        listed.push(format!("{}, which is irregular (teach it as a whole word)", irregular.join(", ")));
    }
    match listed.as_slice() {
        [need] => format!("needs {need}"),
        [first @ .., last] => format!("needs {} and {last}", first.join(", ")),
        [] => unreachable!("there is at least one need"),
    }
}

fn irregular_letters(need: &Need) -> Option<&str> {
    match need {
        Need::Irregular { letters } => Some(letters),
        _ => None,
    }
}

/// `“night” is untaught at lesson 12: it needs igh as in night (lesson 48).`
#[must_use]
pub fn untaught(finding: &Finding, scope: &Scope, at: LessonIndex) -> String {
    let needs = needs(&finding.needs, scope);
    let mut sentence = format!("“{}” is untaught at lesson {}: it {needs}.", finding.word(), scope.id(at));
    if finding.likely_name {
        sentence += " It looks like a name: if the children already know it, declare it as a name.";
    }
    if finding.by_letters {
        sentence += " It is not in the dictionary and was read by its letters.";
    }
    sentence
}

/// `“wind” can be read with i as in win (/wɪnd/), but not yet with i as in wild (/waɪnd/).`
#[must_use]
pub fn two_readings(two: &TwoReadings, scope: &Scope) -> String {
    let [counted, other] = two.differ_in(scope);
    format!(
        "“{}” can be read with {counted} (/{}/), but not yet with {other} (/{}/).",
        two.word(),
        two.counted,
        two.other
    )
}

/// `“splunk” is not in the dictionary and was read by its letters.`
#[must_use]
pub fn by_letters(word: &str) -> String {
    format!("“{word}” is not in the dictionary and was read by its letters. Is it spelled correctly?")
}

/// Formats a percentage for people: `96.3 %`, or `–` if there is none. Never rounds up to 100.
#[must_use]
pub fn percent(percent: Option<f64>) -> String {
    let shown = |percent: f64| if percent < 100.0 { percent.min(99.94) } else { percent };
    percent.map_or_else(|| "–".to_owned(), |percent| format!("{:.1} %", (shown(percent) * 10.0).round() / 10.0))
}

/// Rounds a percentage for programs to two decimals. Never rounds up to 100.
#[must_use]
pub fn rounded(percent: Option<f64>) -> Option<f64> {
    percent.map(|percent| if percent < 100.0 { ((percent * 100.0).round() / 100.0).min(99.99) } else { percent })
}

/// A text for a message: the beginning of a long one.
#[must_use]
pub fn excerpt(text: &str) -> Cow<'_, str> {
    // Whoever quotes a text wants it whole if it is nearly short enough.
    match (text.char_indices().nth(EXCERPT), text.char_indices().nth(EXCERPT + 20)) {
        (Some((end, _)), Some(_)) => Cow::Owned(format!("{}…", &text[..end])),
        _ => Cow::Borrowed(text),
    }
}

/// A number with commas: 10,000.
#[must_use]
pub fn thousands(number: usize) -> String {
    let digits = number.to_string();
    let mut out = String::new();
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            out.push(',');
        }
        out.push(digit);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Options, Reader, check};

    #[test]
    fn sentences_name_sight_words_and_lessons() {
        let reader = Reader::default();
        let lessons = "format: 1\nlessons:\n- teach: [s, a, t]\n- {teach: [igh], sight: [said]}\n";
        let scope = Scope::parse(lessons, &reader).unwrap();
        let report = check("Said night", &scope, &reader, &Options::at(LessonIndex::FIRST));
        assert_eq!(
            untaught(&report.findings[0], &scope, LessonIndex::FIRST),
            "“said” is untaught at lesson 1: it is a sight word taught in lesson 2."
        );
        assert_eq!(
            needs(&report.findings[1].needs, &scope),
            "needs n as in net (never taught) and igh as in night (lesson 2)"
        );
        assert_eq!(
            (percent(Some(99.97)).as_str(), percent(Some(100.0)).as_str(), percent(None).as_str()),
            ("99.9 %", "100.0 %", "–")
        );
        assert_eq!(rounded(Some(99.999)), Some(99.99));
    }

    #[test]
    fn long_texts_are_cut_and_numbers_have_commas() {
        let long = "é".repeat(61);
        assert_eq!((excerpt(&long).chars().count(), excerpt(&long[2..]).len()), (41, 120));
        assert_eq!([0, 999, 1000, 100_000, 1_234_567].map(thousands), ["0", "999", "1,000", "100,000", "1,234,567"]);
    }
}
