//! The regular forms of a word: a base with an inflection.

use super::affixes::{self, AffixId, Change, Class};
use super::doubling::{doubles, may_double};

/// The spellings of a base with an inflection such as `-ed`, likeliest first: more than one if the letters do not decide
/// (*entered*, but *deferred*). `-s` also means `-es` where the base needs it. Empty for an affix that is not an inflection.
#[must_use]
pub fn inflect(base: &str, ending: AffixId) -> Vec<String> {
    if ending.get().class != Class::Inflection || base.is_empty() {
        return Vec::new();
    }
    let endings = if ending == affixes::S { s_or_es(base) } else { vec![ending] };
    let mut written = Vec::new();
    for ending in endings {
        written.extend(changes(base, ending).iter().map(|change| change.write(base, ending)));
    }
    written
}

/// `-s`, `-es`, or both if the letters do not decide: *heroes*, *pianos*; *beaches*, *stomachs*.
fn s_or_es(base: &str) -> Vec<AffixId> {
    let both = vec![affixes::ES, affixes::S];
    match base.as_bytes() {
        [.., b'c', b'h'] => both,
        [.., b's' | b'x' | b'z'] | [.., b's', b'h'] => vec![affixes::ES],
        [.., before, b'y'] if !is_vowel(*before) => vec![affixes::ES],
        [.., before, b'o'] if !is_vowel(*before) => both,
        _ => vec![affixes::S],
    }
}

/// The changes that an inflection causes in a base, likeliest first.
fn changes(base: &str, ending: AffixId) -> &'static [Change] {
    let allowed = |change| ending.get().changes.contains(&change);
    let change: &[Change] = match base.as_bytes() {
        [.., b'i', b'e'] if allowed(Change::IeToY) => &[Change::IeToY],
        // *Seeing*, *shoeing*, *dyeing*: the e belongs to the preceding vowel.
        [.., b'e' | b'o' | b'y', b'e'] if ending == affixes::ING => &[Change::None],
        [.., b'e'] if allowed(Change::DropE) => &[Change::DropE],
        [.., before, b'y'] if !is_vowel(*before) && allowed(Change::YToI) => &[Change::YToI],
        // *Panicked*, *picnicking*.
        [.., before, b'c'] if is_vowel(*before) && allowed(Change::Double) => &[Change::Double],
        _ if doubles(base) && allowed(Change::Double) => &[Change::Double],
        _ if may_double(base) && allowed(Change::Double) => &[Change::None, Change::Double],
        _ => &[Change::None],
    };
    change
}

fn is_vowel(letter: u8) -> bool {
    b"aeiou".contains(&letter)
}

#[cfg(test)]
mod tests {
    use super::super::forms::endings;
    use super::*;
    use affixes::{ED, ER, EST, ING, LY, POSSESSIVE, S};

    /// Common practice; there is no published source.
    const FORMS: [(&str, AffixId, &[&str]); 34] = [
        ("dog", S, &["dogs"]),
        ("box", S, &["boxes"]),
        ("bus", S, &["buses"]),
        ("wish", S, &["wishes"]),
        ("beach", S, &["beaches", "beachs"]),
        ("stomach", S, &["stomaches", "stomachs"]),
        ("hero", S, &["heroes", "heros"]),
        ("radio", S, &["radios"]),
        ("fly", S, &["flies"]),
        ("toy", S, &["toys"]),
        ("horse", S, &["horses"]),
        ("dog", POSSESSIVE, &["dog's"]),
        ("jump", ED, &["jumped"]),
        ("rush", ED, &["rushed"]),
        ("stop", ED, &["stopped"]),
        ("hope", ED, &["hoped"]),
        ("agree", ED, &["agreed"]),
        ("cry", ED, &["cried"]),
        ("load", ED, &["loaded"]),
        ("play", ED, &["played"]),
        ("panic", ED, &["panicked"]),
        ("enter", ED, &["entered", "enterred"]),
        ("hope", ING, &["hoping"]),
        ("see", ING, &["seeing"]),
        ("dye", ING, &["dyeing"]),
        ("lie", ING, &["lying"]),
        ("cry", ING, &["crying"]),
        ("fix", ING, &["fixing"]),
        ("snow", ING, &["snowing"]),
        ("quit", ING, &["quitting"]),
        ("begin", ING, &["begining", "beginning"]),
        ("big", EST, &["biggest"]),
        ("happy", ER, &["happier"]),
        ("free", ER, &["freer"]),
    ];

    #[test]
    fn forms_follow_the_spelling_rules() {
        for (base, ending, spellings) in FORMS {
            assert_eq!(inflect(base, ending), spellings, "{base} {}", ending.get().name);
        }
        assert!(inflect("sad", LY).is_empty() && inflect("", S).is_empty());
    }

    /// The recogniser takes apart every form that is made here.
    #[test]
    fn forms_are_recognised_again() {
        for (base, ending, spellings) in FORMS {
            for spelling in spellings {
                let found = endings(spelling).any(|form| {
                    form.base == base && (form.affix == ending || (form.affix, ending) == (affixes::ES, S))
                });
                assert!(found, "{spelling}: {base}");
            }
        }
    }

    #[test]
    fn any_letters_have_forms() {
        for base in ["é", "ß", "日本", "x", "zzz", "ice é"] {
            for ending in [S, ED, ING, ER, EST] {
                assert!(inflect(base, ending).iter().all(|form| form.len() > base.len()), "{base}");
            }
        }
    }
}
