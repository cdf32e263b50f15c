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
pub(crate) fn strip(word: &str) -> impl Iterator<Item = (Base<'_>, Ending, Change)> {
    let last = |text: &str| text.as_bytes().last().copied();
    // Most words have the last letter of no ending.
    let endings = ALL.into_iter().filter(move |ending| last(ending.spelling()) == last(word));
    let found = endings.flat_map(move |ending| bases(word, ending).into_iter().flatten());
    // dogs'
    found.chain(word.strip_suffix("s'").map(|stem| (Cow::Borrowed(stem), Ending::S, Change::None)))
}

/// What a word may be made of with one ending.
fn bases(word: &str, ending: Ending) -> [Option<(Base<'_>, Ending, Change)>; 4] {
    let Some(stem) = word.strip_suffix(ending.spelling()).filter(|stem| stem.len() >= 2) else {
        return Default::default();
    };
    let vowel_first = matches!(ending, Ending::Ed | Ending::Ing | Ending::Er | Ending::Est | Ending::Y);
    // *hoped*: the e of the ending stands where that of the base did.
    let with_e = || match ending {
        Ending::Ed | Ending::Er | Ending::Est => Cow::Borrowed(&word[..=stem.len()]),
        _ => Cow::Owned(format!("{stem}e")),
    };
    let undoubled = || match stem.as_bytes() {
        [.., before, last] if before == last && last.is_ascii() && !b"aeiousxw".contains(last) => {
            Some(Cow::Borrowed(&stem[..stem.len() - 1]))
        }
        _ => None,
    };
    let root = stem.strip_suffix('i').filter(|_| !matches!(ending, Ending::Possessive | Ending::S | Ending::Ing));
    [
        Some((Cow::Borrowed(stem), ending, Change::None)),
        vowel_first.then(|| (with_e(), ending, Change::DropE)),
        undoubled().filter(|_| vowel_first).map(|base| (base, ending, Change::Double)),
        root.map(|root| (Cow::Owned(format!("{root}y")), ending, Change::YToI)),
    ]
}
