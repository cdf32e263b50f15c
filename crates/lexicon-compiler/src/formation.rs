//! Finds what each word in the dictionary is made of: the first way to split its letters whose pieces are ordinary words and are
//! heard in it.

use std::collections::BTreeMap;
use std::rc::Rc;

use untaught_phonics::formation::affixes::{ABLE, ALLY, ED, ER, ES, EST, LY, OR, POSSESSIVE, S};
use untaught_phonics::formation::forms::{Form, beginnings, endings};
use untaught_phonics::formation::{Change, Class, Side, Vocabulary as _, compounds, is_contraction};
use untaught_phonics::{CorrespondenceId, Formation, Phone, parse_phones};

use crate::commonness::Commonness;
use crate::dictionary::{Pronunciation, Words};
use crate::exceptions::Exceptions;

/// What each reading of each word is made of, by word.
pub(crate) type Formations = BTreeMap<String, Vec<Option<Formation>>>;

/// Finds what every word is made of.
pub(crate) fn recognise(words: &Words, commonness: &Commonness, exceptions: &Exceptions) -> Formations {
    let recogniser = Recogniser { words, commonness, exceptions };
    let made = |(word, readings): (&String, &Vec<Pronunciation>)| {
        (word.clone(), readings.iter().map(|reading| recogniser.made(word, reading)).collect())
    };
    words.iter().map(made).collect()
}

/// Returns the exceptions that deny an analysis that rules would not find anyway.
pub(crate) fn idle(words: &Words, commonness: &Commonness, exceptions: &Exceptions) -> Vec<String> {
    let none = Exceptions::default();
    let recogniser = Recogniser { words, commonness, exceptions: &none };
    let claims = |word: &str, of: &str| {
        let readings = recogniser.readings(word).iter();
        let claimed = |made: Formation| described(word, made).as_deref() == Some(of);
        readings.into_iter().any(|reading| recogniser.ways(word, reading).any(claimed))
    };
    let idle = exceptions.denials().filter(|(word, of)| !claims(word, of));
    let mut idle: Vec<String> = idle.map(|(word, of)| format!("{word}: {of}")).collect();
    idle.sort();
    idle
}

/// What a word is made of, in the notation of the list of exceptions.
fn described(word: &str, made: Formation) -> Option<String> {
    match made {
        Formation::Affixed { affix, change, .. } => {
            let (base, affix) = (change.base_of(word, affix)?, affix.get());
            Some(match affix.side() {
                Side::Before => format!("{} {base}", affix.name),
                Side::After => format!("{base} {}", affix.name),
            })
        }
        Formation::Compound { seam, .. } => {
            let (first, second) = word.split_at_checked(usize::from(seam))?;
            Some(format!("{first} {second}"))
        }
    }
}

struct Recogniser<'a> {
    words: &'a Words,
    commonness: &'a Commonness,
    exceptions: &'a Exceptions,
}

impl Recogniser<'_> {
    fn readings(&self, word: &str) -> &[Pronunciation] {
        self.words.get(word).map(Vec::as_slice).unwrap_or_default()
    }

    fn made(&self, word: &str, reading: &Pronunciation) -> Option<Formation> {
        self.ways(word, reading).next()
    }

    /// Every possible analysis of a word, likeliest first.
    fn ways<'r>(&'r self, word: &'r str, reading: &'r Pronunciation) -> impl Iterator<Item = Formation> + 'r {
        // *Airship* is listed as a compound: it is not *air* with -ship.
        let listed = self.exceptions.seam(word).is_some().then(|| self.compounds(word, reading));
        listed
            .into_iter()
            .flatten()
            .chain(self.with_ending(word, reading))
            .chain(self.with_beginning(word, reading, true))
            .chain(self.compounds(word, reading))
            .chain(self.with_beginning(word, reading, false))
    }

    fn with_ending<'r>(&'r self, word: &'r str, reading: &'r Pronunciation) -> impl Iterator<Item = Formation> + 'r {
        let listed = endings(word).find(|form| self.exceptions.confirms_ending(word, form));
        let listed = listed.map(|form| Formation::Affixed { affix: form.affix, change: form.change, base: 0 });
        let ordinary = self.commonness.is_ordinary(word) || is_contraction(word);
        // *Branches* does not come from *Branche*, a name; but names take an s.
        let may_be_base = |form: &Form<'_>| {
            let is_s = matches!(form.affix, S | POSSESSIVE) && form.base.len() > 2;
            self.commonness.is_ordinary(&form.base) || is_s && !ordinary
        };
        let allowed = |form: &Form<'_>| may_be_base(form) && !self.exceptions.deny_ending(word, form);
        let mut forms: Vec<Form<'_>> = endings(word).filter(allowed).collect();
        // *stepping* comes from *step*, not *steppe*; *browses* from *browse*, not *brows*; *teddies* from *teddy*, not *Teddie*.
        forms.sort_by_key(|form| {
            let class = Some(self.commonness.class(&form.base)).filter(|class| *class != 0);
            // *matting* comes from *mat*, not *matte*; *tensed* from *tense*, not *tens*.
            let bytes = form.base.as_bytes();
            let double_e = form.change == Change::DropE && matches!(bytes, [.., a, b, b'e'] if a == b);
            let plural = form.base.strip_suffix('s').is_some_and(|one| self.commonness.is_ordinary(one));
            (
                double_e || plural,
                class.unwrap_or(u8::MAX),
                form.change != Change::YToI,
                std::cmp::Reverse(form.base.len()),
            )
        });
        // If nothing fits exactly, a vowel may be weak in one of the two: the dictionary does not mark weak vowels consistently.
        let forms = Rc::new(forms);
        let passes = [(alike as Alike, 0), (reduced, LONG)].into_iter();
        let found = passes.flat_map(move |(alike, shortest)| {
            let forms = Rc::clone(&forms);
            (0..forms.len()).filter_map(move |number| {
                let form = &forms[number];
                // *policy* is not *police* with -y: only forms of a word may differ from it in this way.
                let uneven = form.affix.get().class == Class::Inflection || matches!(form.affix, ABLE | OR);
                if shortest > 0 && !(form.base.len() >= shortest && uneven) {
                    return None;
                }
                let fits = |base: &Pronunciation| ends_as(&base.phones, form, &reading.phones, alike);
                let base = self.readings(&form.base).iter().position(fits)?;
                Some(Formation::Affixed { affix: form.affix, change: form.change, base: u8::try_from(base).ok()? })
            })
        });
        listed.into_iter().chain(found)
    }

    /// `firm`: only prefixes that few compounds seem to begin with.
    fn with_beginning<'r>(
        &'r self,
        word: &'r str,
        reading: &'r Pronunciation,
        firm: bool,
    ) -> impl Iterator<Item = Formation> + 'r {
        beginnings(word)
            .filter(move |form| !matches!(form.affix.get().letters(), "over" | "under" | "out" | "fore" | "mc") == firm)
            .filter(|form| form.base.len() > 2 || form.base == "do")
            .filter(|form| self.commonness.is_ordinary(&form.base) && !self.exceptions.deny_beginning(word, form))
            .filter_map(|form| {
                let affix = form.affix.get();
                let mut heads: Vec<Vec<Phone>> = affix.cut.iter().map(|cut| phones(cut)).collect();
                heads.extend(affix.also_heard.iter().map(|heard| parse(heard)));
                let fits = |base: &Pronunciation| {
                    let split = reading.phones.len().checked_sub(base.phones.len());
                    split.is_some_and(|split| {
                        let (head, tail) = reading.phones.split_at(split);
                        same(tail, &base.phones) && heads.iter().any(|heard| same(head, heard))
                    })
                };
                let base = self.readings(&form.base).iter().position(fits)?;
                Some(Formation::Affixed { affix: form.affix, change: form.change, base: u8::try_from(base).ok()? })
            })
    }

    fn compounds<'r>(&'r self, word: &'r str, reading: &'r Pronunciation) -> impl Iterator<Item = Formation> + 'r {
        let mut seams: Vec<usize> = match self.exceptions.seam(word) {
            Some(seam) => vec![seam],
            None => compounds::seams(word, self.commonness)
                .filter(|seam| !self.exceptions.deny_compound(word, *seam))
                .collect(),
        };
        seams.sort_by_key(|seam| std::cmp::Reverse(*seam.min(&(word.len() - seam))));
        seams.into_iter().filter_map(|seam| {
            let (first, second) = word.split_at(seam);
            // The second word of *fireman* is weak.
            let weak = matches!(second, "man" | "men" | "land" | "lands");
            let [mut one, mut two] = [0, 0];
            let found = self.readings(first).iter().enumerate().any(|(a, head)| {
                self.readings(second).iter().enumerate().any(|(b, tail)| {
                    (one, two) = (a, b);
                    joins(&head.phones, &tail.phones, &reading.phones, weak)
                })
            });
            let readings = [u8::try_from(one).ok()?, u8::try_from(two).ok()?];
            found.then_some(Formation::Compound { seam: u8::try_from(seam).ok()?, readings })
        })
    }
}

fn parse(names: &str) -> Vec<Phone> {
    // The table writes weak vowels as they are called here.
    let symbols = names.replace("AX", "AH0").replace("IX", "IH0");
    parse_phones(&symbols).map(|(phones, _)| phones).unwrap_or_default()
}

/// How the dictionary writes a run of correspondences.
fn phones(cut: &[CorrespondenceId]) -> Vec<Phone> {
    cut.iter().flat_map(|id| id.get().heard[0].phones).copied().collect()
}

/// Whether two phones sound alike to a teacher, such as all short weak vowels, or the vowels of *frog* and *leapfrog*.
fn alike(a: Phone, b: Phone) -> bool {
    let class = |phone: Phone| match phone.name() {
        "IX" | "IH" => "AX",
        "AO" => "AA",
        name => name,
    };
    a == b || class(a) == class(b)
}

/// Whether one of two vowels is a weak form of the other.
fn reduced(a: Phone, b: Phone) -> bool {
    let weak = |phone: Phone| matches!(phone.name(), "AX" | "IX");
    alike(a, b) || a.is_vowel() && b.is_vowel() && (weak(a) || weak(b))
}

/// Whether two vowels are the same before an r: *peer* and *peering*.
fn alike_before_r(a: Phone, b: Phone) -> bool {
    let class = |phone: Phone| match phone.name() {
        "IY" | "IH" | "IX" => 1,
        "UW" | "UH" => 2,
        "EH" | "AE" | "EY" => 3,
        _ => 0,
    };
    class(a) != 0 && class(a) == class(b)
}

/// Whether two phones sound alike.
type Alike = fn(Phone, Phone) -> bool;

/// Bases with fewer letters than this must be heard exactly.
const LONG: usize = 5;

fn same(a: &[Phone], b: &[Phone]) -> bool {
    same_by(a, b, alike)
}

fn same_by(a: &[Phone], b: &[Phone], alike: Alike) -> bool {
    let r = |at: usize| a.get(at + 1).is_some_and(|phone| phone.name() == "R");
    a.len() == b.len() && (0..a.len()).all(|at| alike(a[at], b[at]) || r(at) && alike_before_r(a[at], b[at]))
}

/// Whether a word sounds like two others. `weak`: the vowels of the second may be schwas.
fn joins(first: &[Phone], second: &[Phone], whole: &[Phone], weak: bool) -> bool {
    let Some((head, tail)) = whole.split_at_checked(first.len()) else { return false };
    same(first, head) && (same(second, tail) || weak && same_by(second, tail, reduced))
}

/// Whether a word sounds like a base with a suffix.
fn ends_as(base: &[Phone], form: &Form<'_>, word: &[Phone], alike: Alike) -> bool {
    debug_assert_eq!(form.affix.get().side(), Side::After);
    let heads = heads(base, form);
    let tails = tails(base, form);
    heads.iter().any(|head| {
        let Some((begun, ended)) = word.split_at_checked(head.len()) else { return false };
        same_by(head, begun, alike) && tails.iter().any(|tail| same(tail, ended))
    })
}

/// The sounds that a base may have before a suffix.
fn heads(base: &[Phone], form: &Form<'_>) -> Vec<Vec<Phone>> {
    let names: Vec<&str> = base.iter().map(|phone| phone.name()).collect();
    let mut heads = vec![base.to_vec()];
    let cut = |n: usize| base[..base.len() - n].to_vec();
    match names[..] {
        // *simply* has one l.
        [.., "AX", "L"] if form.change == Change::DropLe => heads = vec![cut(2)],
        // *really*, *finally* have one l, and perhaps one syllable fewer.
        [.., "AX", "L"] if form.affix == LY => heads.extend([cut(1), cut(2)]),
        [.., "L"] if form.affix == LY => heads.push(cut(1)),
        // *allegedly*: the e is heard only here.
        [.., "D" | "T"] if matches!(form.affix.get().name, "-ly" | "-ness") && form.base.ends_with("ed") => {
            heads.push([cut(1), parse("AX D")].concat());
        }
        // *giggling*: the l begins the syllable of the suffix.
        [.., "AX", "L"] if form.change == Change::DropE => heads.push([cut(2), parse("L")].concat()),
        // *conspiring*: the r begins the syllable of the suffix.
        [.., "AY" | "AW", "ER"] => heads.push([cut(1), parse("R")].concat()),
        [.., "AY" | "AW", "R"] => heads.push([cut(1), parse("ER0")].concat()),
        // *snarled*: the l may be a syllable.
        [.., "R", "L"] => heads.push([cut(1), parse("AX L")].concat()),
        // *longer*: the g is heard again.
        [.., "NG"] if matches!(form.affix, ER | EST) => heads.push([base, &parse("G")].concat()),
        // *happily*: some people pronounce the i weak.
        [.., "IY"] if form.change == Change::YToI => heads.push([cut(1), parse("AX")].concat()),
        _ => {}
    }
    heads
}

/// The sounds that a suffix may have after a base.
fn tails(base: &[Phone], form: &Form<'_>) -> Vec<Vec<Phone>> {
    let last = base.last().map_or("", |phone| phone.name());
    let hissing = matches!(last, "S" | "Z" | "SH" | "ZH" | "CH" | "JH");
    let voiceless = matches!(last, "P" | "T" | "K" | "F" | "TH" | "S" | "SH" | "CH");
    let one = |names: &str| vec![parse(names)];
    match form.affix {
        ES if form.change == Change::YToI || form.base.ends_with('o') => one("Z"),
        ES if !hissing => Vec::new(),
        S | ES | POSSESSIVE if hissing => one("AX Z"),
        S | POSSESSIVE => one(if voiceless { "S" } else { "Z" }),
        ED if matches!(last, "T" | "D") => one("AX D"),
        ED => one(if voiceless { "T" } else { "D" }),
        ALLY => vec![parse("AX L IY"), parse("L IY")],
        affix => affix.get().cut.iter().map(|cut| phones(cut)).collect(),
    }
}
