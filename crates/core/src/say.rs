//! Findings in a sentence, for whatever shows one beside the word.

use std::borrow::Cow;

use crate::{Finding, Need, Place, Scope, TwoReadings};

/// Characters of a longer text that a message shows.
const EXCERPT: usize = 40;

/// The id of the lesson at a place; nothing for a place past the end.
fn id(scope: &Scope, place: Place) -> &str {
    scope.lesson(place).map_or("", |lesson| lesson.id.as_str())
}

/// `igh as in night (lesson 48)`.
#[must_use]
pub fn need(need: &Need, scope: &Scope) -> String {
    match need.lesson.and_then(|place| scope.lesson(place)) {
        Some(lesson) => format!("{} (lesson {})", need.label, lesson.id),
        None => format!("{} (never taught)", need.label),
    }
}

/// `needs igh as in night (lesson 48)`; `is a sight word of lesson 21`.
#[must_use]
pub fn needs(needs: &[Need], scope: &Scope) -> String {
    if let [Need { lesson: Some(lesson), label }] = needs
        && label == crate::judge::WHOLE
    {
        return format!("is {label} of lesson {}", id(scope, *lesson));
    }
    let needs: Vec<String> = needs.iter().map(|one| need(one, scope)).collect();
    match needs.as_slice() {
        [] => "needs more than has been taught".to_owned(),
        [need] => format!("needs {need}"),
        [first @ .., last] => format!("needs {} and {last}", first.join(", ")),
    }
}

/// `“night” is untaught at lesson 12: it needs igh as in night (lesson 48).`
#[must_use]
pub fn untaught(finding: &Finding, scope: &Scope, at: Place) -> String {
    let needs = needs(&finding.needs, scope);
    let mut sentence = format!("“{}” is untaught at lesson {}: it {needs}.", finding.word(), id(scope, at));
    if finding.likely_name {
        sentence += " It looks like a name: if the child is told it beforehand, declare it.";
    }
    if finding.by_letters {
        sentence += " It is not in the dictionary and was read by its letters.";
    }
    sentence
}

/// `“wind” can be read with i as in win (/wɪnd/), but not yet with i as in wild (/waɪnd/).`
#[must_use]
pub fn two_readings(two: &TwoReadings) -> String {
    let (counted, other) = &two.patterns;
    format!(
        "“{}” can be read with {counted} (/{}/), but not yet with {other} (/{}/).",
        two.word(),
        two.counted,
        two.other
    )
}

/// `“splunk” is not in the dictionary; by its letters it can be read.`
#[must_use]
pub fn by_letters(word: &str) -> String {
    format!("“{word}” is not in the dictionary; by its letters it can be read. Is it spelled right?")
}

/// A percentage for people: `96.3 %`, `–` where there is none. Nothing is rounded up to 100.
#[must_use]
pub fn percent(percent: Option<f64>) -> String {
    let shown = |percent: f64| if percent < 100.0 { percent.min(99.94) } else { percent };
    percent.map_or_else(|| "–".to_owned(), |percent| format!("{:.1} %", (shown(percent) * 10.0).round() / 10.0))
}

/// A percentage for programs: two decimals, nothing rounded up to 100.
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
    fn a_word_to_be_known_whole_is_called_a_sight_word() {
        let reader = Reader::default();
        let lessons = "format: 1\nlessons:\n- teach: [s, a, t]\n- {teach: [igh], sight: [said]}\n";
        let scope = Scope::parse(lessons, &reader).unwrap();
        let report = check("Said night", &scope, &reader, &Options::at(0));
        assert_eq!(
            untaught(&report.findings[0], &scope, 0),
            "“said” is untaught at lesson 1: it is a sight word of lesson 2."
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
