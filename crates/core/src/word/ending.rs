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
    Able,
    /// *Basically*: after *-ic*.
    Ally,
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
            Ending::Able => "able",
            Ending::Ally => "ally",
        }
    }
}

const ALL: [Ending; 15] = [
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
    Ending::Able,
    Ending::Ally,
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

/// Whether letters are an ending that makes words of words; `-able` is a chunk that reads *capable* too.
pub(crate) fn is_ending(letters: &str) -> bool {
    letters == "en" || !matches!(letters, "able" | "ally") && ALL.iter().any(|ending| ending.spelling() == letters)
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
    let stem_ends_in = |letters: &[u8]| stem.as_bytes().last().is_some_and(|last| letters.contains(last));
    let unlike = match ending {
        // *princess*, *readies*: no plural of plurals.
        Ending::S => stem_ends_in(b"s"),
        Ending::Y => stem_ends_in(b"y"),
        Ending::Ally => !stem.ends_with("ic"),
        _ => false,
    };
    if unlike {
        return Default::default();
    }
    let vowel_first = matches!(ending, Ending::Ed | Ending::Ing | Ending::Er | Ending::Est | Ending::Y | Ending::Able);
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
    // *Leer* is not *le* with *-er*: the e of a base and that of the ending are one.
    let whole = !(stem_ends_in(b"e") && matches!(ending, Ending::Ed | Ending::Er | Ending::Est));
    let root = stem.strip_suffix('i').filter(|_| !matches!(ending, Ending::Possessive | Ending::S | Ending::Ing));
    [
        whole.then_some((Cow::Borrowed(stem), ending, Change::None)),
        // *simply*: the l of *simple* and that of the ending are one.
        match ending {
            Ending::Ly => Some((Cow::Owned(format!("{stem}le")), ending, Change::DropE)),
            _ => vowel_first.then(|| (with_e(), ending, Change::DropE)),
        },
        undoubled().filter(|_| vowel_first).map(|base| (base, ending, Change::Double)),
        root.map(|root| (Cow::Owned(format!("{root}y")), ending, Change::YToI)),
    ]
}
