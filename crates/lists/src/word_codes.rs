//! Texts that are kept as numbers for their words, as `build/word_codes.rs` writes them.

/// The commonest words and signs take one byte, this many of them.
const SHORT: usize = 200;

/// The text of what was coded with this joiner; what is not a code is left out.
pub(crate) fn decoded(coded: &[u8], joiner: char) -> String {
    let mut pieces = coded.split(|byte| *byte == 0);
    let known: Vec<&str> = pieces.by_ref().take_while(|piece| !piece.is_empty()).map(as_text).collect();
    let start = known.iter().map(|word| word.len() + 1).sum::<usize>() + 1;
    let mut codes = coded.get(start..).unwrap_or_default().iter().map(|byte| usize::from(*byte));
    let mut out = String::new();
    let mut after_word = false;
    while let Some(code) = codes.next() {
        let number = if code < SHORT { code } else { SHORT + (code - SHORT) * 256 + codes.next().unwrap_or_default() };
        let word = known.get(number).copied().unwrap_or_default();
        let is_word = word.starts_with(|c: char| c.is_alphanumeric() || c == '\'');
        if after_word && is_word {
            out.push(joiner);
        }
        out += word;
        after_word = is_word;
    }
    out
}

fn as_text(bytes: &[u8]) -> &str {
    std::str::from_utf8(bytes).unwrap_or_default()
}

#[cfg(test)]
#[path = "../build/word_codes.rs"]
mod coder;

#[cfg(test)]
mod tests {
    use super::{coder::coded, decoded};

    #[test]
    fn every_text_comes_back() {
        let many: String = (0..9_000).map(|number| format!("w{number}|x [_ {}]\n", number % 70)).collect();
        for text in ["", "a", "a|b c", "|a||b|", "in the [_|don't of]\n\nEND, ~fox, (é)", "''a' b", many.as_str()] {
            for joiner in ['|', ' '] {
                assert_eq!(decoded(&coded(text, joiner), joiner), text, "{text:?}");
            }
        }
        let again = "go|went on _ END\n".repeat(500);
        assert!(coded(&again, '|').len() < again.len() * 2 / 3);
    }
}
