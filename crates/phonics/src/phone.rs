//! Phones: the symbols of the pronouncing dictionary, with stress reduced to "weak or not".

/// A phone of the dictionary. The weak vowels `AH0` and `IH0` are separate phones, `AX` and `IX`, because a teacher hears a schwa
/// where the dictionary writes an unstressed vowel. All other stress marks are dropped.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Phone(pub(crate) u8);

const NAMES: [&str; 41] = [
    "AA", "AE", "AH", "AO", "AW", "AX", "AY", "B", "CH", "D", "DH", "EH", "ER", "EY", "F", "G", "HH", "IH", "IX", "IY",
    "JH", "K", "L", "M", "N", "NG", "OW", "OY", "P", "R", "S", "SH", "T", "TH", "UH", "UW", "V", "W", "Y", "Z", "ZH",
];

impl Phone {
    /// The phone's name: an ARPAbet symbol, `AX` or `IX`.
    #[must_use]
    pub fn name(self) -> &'static str {
        NAMES[usize::from(self.0)]
    }

    /// Parses one symbol as the dictionary writes it (`AH0`, `IY1`, `SH`).
    #[must_use]
    pub fn parse(symbol: &str) -> Option<Phone> {
        let name = match symbol {
            "AH0" => "AX",
            // Where the dictionary marks secondary stress on this vowel, the syllable is usually weak too: *electronic*,
            // *detach*.
            "IH0" | "IH2" => "IX",
            _ => symbol.trim_end_matches(|c: char| c.is_ascii_digit()),
        };
        NAMES.binary_search(&name).ok().map(|index| Phone(u8::try_from(index).unwrap_or(0)))
    }

    /// Whether the phone is a vowel.
    #[must_use]
    pub fn is_vowel(self) -> bool {
        self.name().starts_with(['A', 'E', 'I', 'O', 'U'])
    }
}

/// Parses a pronunciation (`HH AE1 T`). The second value is the index, among all phones, of the vowel with the main stress.
///
/// # Errors
/// The first symbol that is not a phone.
pub fn parse_phones(text: &str) -> Result<(Vec<Phone>, Option<usize>), String> {
    let mut phones = Vec::new();
    let mut stressed = None;
    for symbol in text.split_ascii_whitespace() {
        if symbol.ends_with('1') && stressed.is_none() {
            stressed = Some(phones.len());
        }
        phones.push(Phone::parse(symbol).ok_or_else(|| symbol.to_owned())?);
    }
    Ok((phones, stressed))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_names_are_sorted_and_match_the_data_file() {
        let listed: Vec<&str> = include_str!("../data/phones.txt").split_whitespace().collect();
        assert_eq!(listed, NAMES);
        assert!(NAMES.is_sorted());
    }

    #[test]
    fn weak_vowels_are_separate_phones() {
        let (phones, stressed) = parse_phones("R AE1 B AH0 T").unwrap();
        let names: Vec<&str> = phones.iter().map(|p| p.name()).collect();
        assert_eq!(names, ["R", "AE", "B", "AX", "T"]);
        assert_eq!(stressed, Some(1));
        assert_eq!(parse_phones("R QQ").unwrap_err(), "QQ");
    }
}
