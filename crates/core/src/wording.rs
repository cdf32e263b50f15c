//! Numbers and quoted texts as messages show them.

use std::borrow::Cow;

/// The most characters of a longer text that a message shows.
const EXCERPT: usize = 40;

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

    #[test]
    fn no_percentage_is_rounded_up_to_100() {
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
