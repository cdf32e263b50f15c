//! The shape of a word: its consonants and vowels, as in CVC.

use crate::sounds::{SpokenSound, is_vowel};

/// A shape such as `CVC` or `CCVC`: a letter for each sound, `C` a consonant, `V` a vowel.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Shape(String);

impl Shape {
    /// Reads a shape, in capitals or not.
    ///
    /// # Errors
    /// A sentence where there are other letters than c and v.
    pub fn parse(text: &str) -> Result<Shape, String> {
        let shape = text.trim().to_ascii_uppercase();
        if shape.is_empty() || !shape.bytes().all(|b| matches!(b, b'C' | b'V')) {
            return Err(format!(
                "a shape is written with C for consonants and V for vowels, such as CVC; not “{}”",
                untaught::messages::excerpt(text)
            ));
        }
        Ok(Shape(shape))
    }

    /// The shape of some sounds.
    #[must_use]
    pub fn of(sounds: &[SpokenSound]) -> Shape {
        Shape(sounds.iter().map(|heard| if is_vowel(heard.sound) { 'V' } else { 'C' }).collect())
    }
}

impl std::fmt::Display for Shape {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::Shape;

    #[test]
    fn shapes_are_read_and_refused() {
        assert_eq!(Shape::parse("cvc").unwrap().to_string(), "CVC");
        assert!(Shape::parse("cvx").unwrap_err().contains("C for consonants"));
        assert!(Shape::parse("").is_err());
    }
}
