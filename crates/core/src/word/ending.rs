//! Inflectional endings by form: taken off a word, they leave a base.

use std::borrow::Cow;

/// An ending.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Ending {
    S,
    Es,
    Possessive,
    Ed,
    Ing,
    Er,
    Est,
    Ly,
    Y,
    Ful,
    Less,
    Ness,
    Ment,
}

impl Ending {
    pub(crate) fn spelling(self) -> &'static str {
        match self {
            Ending::S => "s",
            Ending::Es => "es",
            Ending::Possessive => "'s",
            Ending::Ed => "ed",
            Ending::Ing => "ing",
            Ending::Er => "er",
            Ending::Est => "est",
            Ending::Ly => "ly",
            Ending::Y => "y",
            Ending::Ful => "ful",
            Ending::Less => "less",
            Ending::Ness => "ness",
            Ending::Ment => "ment",
        }
    }
}

const ALL: [Ending; 13] = [
    Ending::Possessive,
    Ending::Es,
    Ending::S,
    Ending::Ed,
    Ending::Ing,
    Ending::Er,
    Ending::Est,
    Ending::Ly,
    Ending::Ful,
    Ending::Less,
    Ending::Ness,
    Ending::Ment,
    Ending::Y,
];

/// How the base changed before the ending.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Change {
    /// Not at all: jump, jumping.
    None,
    /// It lost its e: hope, hoping.
    DropE,
    /// Its last consonant was doubled: hop, hopping.
    Double,
    /// Its y became i: cry, cried.
    YToI,
}

/// Whether letters are an ending that makes words of words.
pub(crate) fn is_ending(letters: &str) -> bool {
    letters == "en" || ALL.iter().any(|ending| ending.spelling() == letters)
}

/// What is left of a word without an ending: mostly a stretch of its letters.
pub(crate) type Base<'w> = Cow<'w, str>;

/// Every ending and base a word may be made of by form alone; whether the base is a word is for the caller to see.
pub(crate) fn strip(word: &str) -> Vec<(Base<'_>, Ending, Change)> {
    let mut found = Vec::new();
    // The last letters of all endings: most words end otherwise.
    if !word.ends_with(['s', 'd', 'g', 'r', 't', 'y', 'l', '\'']) {
        return found;
    }
    for ending in ALL {
        let Some(stem) = word.strip_suffix(ending.spelling()).filter(|stem| stem.len() >= 2) else { continue };
        let vowel_first = matches!(ending, Ending::Ed | Ending::Ing | Ending::Er | Ending::Est | Ending::Y);
        found.push((Cow::Borrowed(stem), ending, Change::None));
        if vowel_first {
            // *hoped*: the e of the ending stands where that of the base did.
            let with_e = match ending {
                Ending::Ed | Ending::Er | Ending::Est => Cow::Borrowed(&word[..=stem.len()]),
                _ => Cow::Owned(format!("{stem}e")),
            };
            found.push((with_e, ending, Change::DropE));
            if let [.., before, last] = stem.as_bytes()
                && before == last
                && last.is_ascii()
                && !b"aeiousxw".contains(last)
            {
                found.push((Cow::Borrowed(&stem[..stem.len() - 1]), ending, Change::Double));
            }
        }
        if let Some(root) =
            stem.strip_suffix('i').filter(|_| !matches!(ending, Ending::Possessive | Ending::S | Ending::Ing))
        {
            found.push((Cow::Owned(format!("{root}y")), ending, Change::YToI));
        }
    }
    // dogs'
    if let Some(stem) = word.strip_suffix("s'") {
        found.push((Cow::Borrowed(stem), Ending::S, Change::None));
    }
    found
}
