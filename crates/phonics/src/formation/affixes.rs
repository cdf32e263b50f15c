//! The table of affixes: suffixes and prefixes, with their sounds and the ways they change a base.
//!
//! It follows common practice; there is no published source.

use crate::CorrespondenceId;

/// The index of an affix in [`AFFIXES`].
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct AffixId(u8);

/// The side of the base on which an affix is written.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Side {
    /// A prefix: *un-*.
    Before,
    /// A suffix: *-ing*.
    After,
}

/// The kind of word that an affix forms.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Class {
    /// A form of the same word: *cats, jumped, faster*.
    Inflection,
    /// A new word: *sadly, unhappy*.
    Derivation,
    /// Letters that look like a word but are never half of a compound: *anti-, -ship*. Words are never split at one.
    Bound,
}

/// How a base changes before an ending.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Change {
    /// No change: *jump, jumping*.
    None,
    /// It loses its e: *hope, hoping*.
    DropE,
    /// It loses its le: *simple, simply*.
    DropLe,
    /// Its last consonant is doubled: *hop, hopping*.
    Double,
    /// Its y becomes i: *cry, cried*.
    YToI,
    /// Its ie becomes y: *die, dying*.
    IeToY,
}

/// A suffix or a prefix.
#[derive(Debug)]
pub struct Affix {
    /// Its name in scope files, with its hyphen: `-ing`, `un-`.
    pub name: &'static str,
    /// The kind of word it forms.
    pub class: Class,
    /// The changes it can cause in a base.
    pub changes: &'static [Change],
    /// One or more ways to cut it into parts; empty if its class is [`Class::Bound`].
    pub cut: &'static [&'static [CorrespondenceId]],
    /// Phones that a prefix may have instead of those of its cut: `re-` in *return*.
    pub also_heard: &'static [&'static str],
    /// Whether words that are not in the dictionary may be formed with it.
    pub productive: bool,
    /// Whether a scope that names it holds back every word formed with it until its lesson. Other affixes are taught as chunks:
    /// `-able` reads *capable* too.
    pub holds_back: bool,
}

const fn id(spelling: &str, sound: &str) -> CorrespondenceId {
    CorrespondenceId::known(spelling, sound)
}

const fn ending(
    name: &'static str,
    class: Class,
    changes: &'static [Change],
    cut: &'static [&'static [CorrespondenceId]],
    productive: bool,
) -> Affix {
    Affix { name, class, changes, cut, also_heard: &[], productive, holds_back: productive }
}

/// Marks a suffix that is taught as a chunk.
const fn chunk(affix: Affix) -> Affix {
    Affix { holds_back: false, ..affix }
}

const fn beginning(
    name: &'static str,
    cut: &'static [&'static [CorrespondenceId]],
    also_heard: &'static [&'static str],
    productive: bool,
) -> Affix {
    Affix { name, class: Class::Derivation, changes: PLAIN, cut, also_heard, productive, holds_back: true }
}

const fn bound(name: &'static str) -> Affix {
    Affix { name, class: Class::Bound, changes: &[], cut: &[], also_heard: &[], productive: false, holds_back: false }
}

const PLAIN: &[Change] = &[Change::None];
const VOWEL_FIRST: &[Change] = &[Change::None, Change::DropE, Change::Double];
const VOWEL_FIRST_Y: &[Change] = &[Change::None, Change::DropE, Change::Double, Change::YToI];
const CONSONANT_FIRST: &[Change] = &[Change::None, Change::YToI];

use Class::{Derivation, Inflection};

/// Every affix. Suffixes are tried in this order.
pub static AFFIXES: [Affix; 68] = [
    ending("-'s", Inflection, PLAIN, &[&[id("s", "Z")], &[id("s", "S")], &[id("s", "AX Z")]], true),
    ending("-es", Inflection, CONSONANT_FIRST, &[&[id("e", "AX"), id("s", "Z")], &[id("s", "Z")]], true),
    ending("-s", Inflection, PLAIN, &[&[id("s", "Z")], &[id("s", "S")]], true),
    ending("-ed", Inflection, VOWEL_FIRST_Y, &[&[id("ed", "T")], &[id("ed", "D")], &[id("ed", "AX D")]], true),
    ending(
        "-ing",
        Inflection,
        &[Change::None, Change::DropE, Change::Double, Change::IeToY],
        &[&[id("i", "IH"), id("ng", "NG")]],
        true,
    ),
    ending("-er", Inflection, VOWEL_FIRST_Y, &[&[id("er", "ER")]], true),
    ending("-est", Inflection, VOWEL_FIRST_Y, &[&[id("e", "AX"), id("s", "S"), id("t", "T")]], true),
    ending(
        "-ly",
        Derivation,
        &[Change::None, Change::DropLe, Change::DropE, Change::YToI],
        &[&[id("l", "L"), id("y", "IY")]],
        true,
    ),
    ending(
        "-ful",
        Derivation,
        CONSONANT_FIRST,
        &[&[id("f", "F"), id("u", "AX"), id("l", "L")], &[id("f", "F"), id("u", "UH"), id("l", "L")]],
        true,
    ),
    ending("-less", Derivation, CONSONANT_FIRST, &[&[id("l", "L"), id("e", "AX"), id("ss", "S")]], true),
    ending("-ness", Derivation, CONSONANT_FIRST, &[&[id("n", "N"), id("e", "AX"), id("ss", "S")]], true),
    ending("-ment", Derivation, CONSONANT_FIRST, &[&[id("m", "M"), id("e", "AX"), id("n", "N"), id("t", "T")]], true),
    chunk(ending("-able", Derivation, VOWEL_FIRST_Y, &[&[id("a", "AX"), id("b", "B"), id("le", "AX L")]], true)),
    chunk(ending("-ally", Derivation, PLAIN, &[&[id("a", "AX"), id("ll", "L"), id("y", "IY")]], true)),
    Affix { holds_back: true, ..ending("-en", Derivation, VOWEL_FIRST, &[&[id("e", "AX"), id("n", "N")]], false) },
    ending("-ish", Derivation, VOWEL_FIRST, &[&[id("i", "IH"), id("sh", "SH")]], false),
    ending("-or", Derivation, VOWEL_FIRST, &[&[id("or", "ER")]], false),
    ending("-y", Derivation, VOWEL_FIRST, &[&[id("y", "IY")]], true),
    ending("-ty", Derivation, PLAIN, &[&[id("t", "T"), id("y", "IY")]], false),
    ending("-some", Derivation, CONSONANT_FIRST, &[&[id("s", "S"), id("o_e", "AX"), id("m", "M")]], false),
    ending("-hood", Derivation, CONSONANT_FIRST, &[&[id("h", "HH"), id("oo", "UH"), id("d", "D")]], false),
    ending("-ship", Derivation, PLAIN, &[&[id("sh", "SH"), id("i", "IH"), id("p", "P")]], false),
    ending("-ward", Derivation, PLAIN, &[&[id("w", "W"), id("ar", "ER"), id("d", "D")]], false),
    ending("-wards", Derivation, PLAIN, &[&[id("w", "W"), id("ar", "ER"), id("d", "D"), id("s", "Z")]], false),
    beginning("un-", &[&[id("u", "AH"), id("n", "N")]], &[], true),
    beginning("re-", &[&[id("r", "R"), id("e", "IY")]], &["R IH", "R IX", "R AX"], true),
    beginning("dis-", &[&[id("d", "D"), id("i", "IH"), id("s", "S")]], &["D IX S"], true),
    beginning("mis-", &[&[id("m", "M"), id("i", "IH"), id("s", "S")]], &["M IX S"], true),
    beginning("pre-", &[&[id("p", "P"), id("r", "R"), id("e", "IY")]], &["P R IX", "P R AX"], true),
    beginning("non-", &[&[id("n", "N"), id("o", "AA"), id("n", "N")]], &[], true),
    beginning("over-", &[&[id("o", "OW"), id("v", "V"), id("er", "ER")]], &[], true),
    beginning("under-", &[&[id("u", "AH"), id("n", "N"), id("d", "D"), id("er", "ER")]], &[], true),
    beginning("out-", &[&[id("ou", "AW"), id("t", "T")]], &[], true),
    beginning("de-", &[&[id("d", "D"), id("e", "IY")]], &[], true),
    beginning("fore-", &[&[id("f", "F"), id("ore", "AO R")]], &[], false),
    beginning("sub-", &[&[id("s", "S"), id("u", "AH"), id("b", "B")]], &["S AX B"], false),
    beginning("inter-", &[&[id("i", "IH"), id("n", "N"), id("t", "T"), id("er", "ER")]], &["IX N T ER"], false),
    beginning("ac-", &[&[id("a", "AE"), id("c", "K")]], &["AX K"], false),
    beginning("mc-", &[&[id("m", "M AX"), id("c", "K")]], &[], true),
    // These look like words, but are never half of a compound.
    bound("anti-"),
    bound("cardio-"),
    bound("com-"),
    bound("con-"),
    bound("extra-"),
    bound("for-"),
    bound("imp-"),
    bound("kilo-"),
    bound("multi-"),
    bound("per-"),
    bound("photo-"),
    bound("post-"),
    bound("pro-"),
    bound("psycho-"),
    bound("semi-"),
    bound("super-"),
    bound("ultra-"),
    bound("-ability"),
    bound("-ably"),
    bound("-age"),
    bound("-ant"),
    bound("-ate"),
    bound("-ation"),
    bound("-ion"),
    bound("-ism"),
    bound("-ling"),
    bound("-teen"),
    bound("-tic"),
    bound("-tor"),
];

impl Affix {
    /// The side of the base it is written on.
    #[must_use]
    pub fn side(&self) -> Side {
        if self.name.ends_with('-') { Side::Before } else { Side::After }
    }

    /// Its letters, with its apostrophe but without its hyphen.
    #[must_use]
    pub fn letters(&self) -> &'static str {
        self.name.trim_matches('-')
    }
}

impl AffixId {
    /// The affix itself.
    #[must_use]
    pub fn get(self) -> &'static Affix {
        &AFFIXES[usize::from(self.0)]
    }

    /// The index in [`AFFIXES`].
    #[must_use]
    pub fn index(self) -> u8 {
        self.0
    }

    /// The affix at an index of [`AFFIXES`].
    #[must_use]
    pub fn at(index: u8) -> Option<AffixId> {
        (usize::from(index) < AFFIXES.len()).then_some(AffixId(index))
    }

    /// Every affix.
    pub fn all() -> impl Iterator<Item = AffixId> {
        (0u8..).zip(&AFFIXES).map(|(index, _)| AffixId(index))
    }

    /// Finds the affix with this name (`-ing`, `un-`), unless its class is [`Class::Bound`].
    #[must_use]
    pub fn named(name: &str) -> Option<AffixId> {
        AffixId::all().find(|affix| affix.get().name == name && affix.get().class != Class::Bound)
    }

    /// Returns the affix with this name, which must be in the table. For constants.
    ///
    /// # Panics
    /// If it is not in the table. In a constant, that stops the build.
    #[must_use]
    pub const fn known(name: &str) -> AffixId {
        let mut index = 0;
        while index < AFFIXES.len() {
            if crate::sound::same(AFFIXES[index].name, name) {
                return AffixId(index as u8);
            }
            index += 1;
        }
        panic!("the table has no such affix")
    }
}

/// `-s`.
pub const S: AffixId = AffixId::known("-s");
/// `-es`.
pub const ES: AffixId = AffixId::known("-es");
/// `-'s`.
pub const POSSESSIVE: AffixId = AffixId::known("-'s");
/// `-ed`.
pub const ED: AffixId = AffixId::known("-ed");
/// `-ing`.
pub const ING: AffixId = AffixId::known("-ing");
/// `-er`.
pub const ER: AffixId = AffixId::known("-er");
/// `-est`.
pub const EST: AffixId = AffixId::known("-est");
/// `-ly`.
pub const LY: AffixId = AffixId::known("-ly");
/// `-y`.
pub const Y: AffixId = AffixId::known("-y");
/// `-ful`.
pub const FUL: AffixId = AffixId::known("-ful");
/// `-less`.
pub const LESS: AffixId = AffixId::known("-less");
/// `-or`.
pub const OR: AffixId = AffixId::known("-or");
/// `-able`.
pub const ABLE: AffixId = AffixId::known("-able");
/// `-ally`.
pub const ALLY: AffixId = AffixId::known("-ally");
/// `mc-`.
pub const MC: AffixId = AffixId::known("mc-");
