//! What a word may be made of, by its letters alone: every suffix, prefix and seam that fits. The caller decides whether the
//! pieces are words and whether they are heard in it.

use std::borrow::Cow;

use super::affixes::{self, AFFIXES, Affix, AffixId, Change, Class, Side};

/// A word split into a base and an affix.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Form<'w> {
    /// The base; usually a slice of the word.
    pub base: Cow<'w, str>,
    /// The affix.
    pub affix: AffixId,
    /// How the base changed.
    pub change: Change,
}

/// Minimum number of letters in a base.
const SHORTEST_BASE: usize = 2;

/// Every suffix that fits, with the base it would leave, in table order. Cost: a check of the suffixes with the word's last
/// letter.
pub fn endings(word: &str) -> impl Iterator<Item = Form<'_>> {
    let last = |text: &str| text.as_bytes().last().copied();
    let is_ending = move |affix: &AffixId| {
        let affix = affix.get();
        affix.side() == Side::After && affix.class != Class::Bound && last(affix.letters()) == last(word)
    };
    let found = AffixId::all().filter(is_ending).flat_map(move |affix| bases(word, affix));
    // dogs'
    let owners =
        word.strip_suffix("s'").map(|base| Form { base: base.into(), affix: affixes::S, change: Change::None });
    found.chain(owners)
}

fn bases(word: &str, affix: AffixId) -> impl Iterator<Item = Form<'_>> {
    let table = affix.get();
    let stem = word.strip_suffix(table.letters()).filter(|stem| stem.len() >= SHORTEST_BASE);
    let stem = stem.filter(|stem| may_precede(stem, affix));
    let changes = stem.into_iter().flat_map(|stem| table.changes.iter().map(move |change| (stem, *change)));
    changes.filter_map(move |(stem, change)| Some(Form { base: restore(word, stem, affix, change)?, affix, change }))
}

/// Whether a suffix may follow a stem that ends in these letters.
fn may_precede(stem: &str, affix: AffixId) -> bool {
    match affix {
        // *princess* is not a plural of a plural. *it's* is not *it'* with an s.
        affixes::S => !stem.ends_with(['s', '\'']),
        affixes::Y => !stem.ends_with('y'),
        affixes::ALLY => stem.ends_with("ic"),
        _ => true,
    }
}

/// Undoes a change: returns the base of a stem.
fn restore<'w>(word: &'w str, stem: &'w str, affix: AffixId, change: Change) -> Option<Cow<'w, str>> {
    let e_first = matches!(affix, affixes::ED | affixes::ER | affixes::EST) || affix.get().letters() == "en";
    match change {
        // *leer* is not *le* with -er, because the e of a base and the e of the suffix merge.
        Change::None => (!(e_first && stem.ends_with('e'))).then_some(Cow::Borrowed(stem)),
        // *simply*: the l of *simple* and the l of the suffix merge.
        Change::DropLe => Some(Cow::Owned(format!("{stem}le"))),
        // *truly*, *wholly*, but not *holy*.
        Change::DropE if affix == affixes::LY && !stem.ends_with(['u', 'l']) => None,
        Change::DropE if e_first => Some(Cow::Borrowed(&word[..=stem.len()])),
        Change::DropE => Some(Cow::Owned(format!("{stem}e"))),
        Change::Double => match stem.as_bytes() {
            // *panicked*: a c is doubled by a k.
            [.., b'c', b'k'] => Some(Cow::Borrowed(&stem[..stem.len() - 1])),
            [.., before, last] if before == last && last.is_ascii() && !b"aeiousxw".contains(last) => {
                Some(Cow::Borrowed(&stem[..stem.len() - 1]))
            }
            _ => None,
        },
        Change::IeToY => stem.strip_suffix('y').map(|root| Cow::Owned(format!("{root}ie"))),
        Change::YToI => stem.strip_suffix('i').map(|root| Cow::Owned(format!("{root}y"))),
    }
}

impl Change {
    /// Writes a base with a suffix and this change. A base without the letters for the change is left as it is.
    pub(super) fn write(self, base: &str, affix: AffixId) -> String {
        let letters = affix.get().letters();
        let without = |end: &str| base.strip_suffix(end).unwrap_or(base);
        match self {
            Change::None => format!("{base}{letters}"),
            Change::DropE => format!("{}{letters}", without("e")),
            Change::DropLe => format!("{}{letters}", without("le")),
            Change::YToI => format!("{}i{letters}", without("y")),
            Change::IeToY => format!("{}y{letters}", without("ie")),
            // *panicked*: a c is doubled by a k.
            Change::Double if base.ends_with('c') => format!("{base}k{letters}"),
            Change::Double => {
                format!("{base}{}{letters}", base.chars().next_back().map_or(String::new(), String::from))
            }
        }
    }

    /// Returns the base of a word with this suffix and this change; `None` if the word does not have the letters for it.
    #[must_use]
    pub fn base_of(self, word: &str, affix: AffixId) -> Option<String> {
        let letters = affix.get().letters();
        if affix.get().side() == Side::Before {
            return word.strip_prefix(letters).map(str::to_owned);
        }
        if affix == affixes::S
            && let Some(base) = word.strip_suffix("s'")
        {
            return Some(base.to_owned());
        }
        let stem = word.strip_suffix(letters)?;
        restore(word, stem, affix, self).map(Cow::into_owned)
    }
}

/// Every prefix that fits, with the base it would leave.
pub fn beginnings(word: &str) -> impl Iterator<Item = Form<'_>> {
    AffixId::all().filter(|affix| affix.get().side() == Side::Before && affix.get().class != Class::Bound).filter_map(
        move |affix| {
            let base = word.strip_prefix(affix.get().letters()).filter(|base| base.len() >= SHORTEST_BASE)?;
            Some(Form { base: base.into(), affix, change: Change::None })
        },
    )
}

/// Whether letters on this side of a word are an affix rather than half of a compound: *inter*, *ship* at the end.
#[must_use]
pub fn is_affix(letters: &str, side: Side) -> bool {
    let like = |affix: &Affix| {
        affix.letters() == letters && (affix.class == Class::Bound || affix.side() == side && !is_word_too(letters))
    };
    AFFIXES.iter().any(like)
}

/// Whether a prefix is also a word that begins compounds: *overcoat*.
fn is_word_too(letters: &str) -> bool {
    matches!(letters, "over" | "under" | "out" | "fore")
}
