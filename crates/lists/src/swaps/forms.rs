//! The forms of words: *dashed* is *dash* in the past, and *run* in the past is *ran*. Regular forms are made and recognised by the rules
//! of word formation; irregular ones are listed.

use std::sync::LazyLock;

use super::table::PartOfSpeech;
use untaught_phonics::formation::affixes::{ED, ER, ES, EST, ING, S};
use untaught_phonics::formation::{AffixId, forms, inflect};

/// A form of a word.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum FormKind {
    /// As the dictionary has it.
    Base,
    /// A noun for more than one: *dogs*.
    Plural,
    /// A verb after *she*: *runs*.
    S,
    /// *ran*, *dashed*.
    Past,
    /// *been*, *taken*, if it is not the past.
    Participle,
    /// *running*.
    Ing,
    /// *bigger*.
    Er,
    /// *biggest*.
    Est,
}

impl FormKind {
    const ALL: [FormKind; 8] = [
        FormKind::Base,
        FormKind::Plural,
        FormKind::S,
        FormKind::Past,
        FormKind::Participle,
        FormKind::Ing,
        FormKind::Er,
        FormKind::Est,
    ];

    /// Whether words of a part of speech have the form.
    pub(crate) fn fits(self, kind: PartOfSpeech) -> bool {
        match self {
            FormKind::Base => true,
            FormKind::Plural => kind == PartOfSpeech::Noun,
            FormKind::S | FormKind::Past | FormKind::Participle | FormKind::Ing => kind == PartOfSpeech::Verb,
            FormKind::Er | FormKind::Est => matches!(kind, PartOfSpeech::Adjective | PartOfSpeech::Adverb),
        }
    }

    /// The ending that makes it of a regular word.
    fn ending(self) -> Option<AffixId> {
        match self {
            FormKind::Base => None,
            FormKind::Plural | FormKind::S => Some(S),
            FormKind::Past | FormKind::Participle => Some(ED),
            FormKind::Ing => Some(ING),
            FormKind::Er => Some(ER),
            FormKind::Est => Some(EST),
        }
    }

    /// Where irregular words of the form are listed, and in which column.
    fn irregular(self) -> Option<(&'static Rows, usize)> {
        match self {
            FormKind::Plural => Some((&*NOUNS, 1)),
            FormKind::Past => Some((&*VERBS, 1)),
            FormKind::Participle => Some((&*VERBS, 2)),
            _ => None,
        }
    }
}

type Rows = Vec<Vec<&'static str>>;
/// Verbs: base, past, participle. They are looked through for every word of a text, so they are split up once.
static VERBS: LazyLock<Rows> = LazyLock::new(|| rows(include_str!("../../data/swaps/irregular-verbs.tsv")));
/// Nouns: one, several.
static NOUNS: LazyLock<Rows> = LazyLock::new(|| rows(include_str!("../../data/swaps/irregular-nouns.tsv")));

/// Whether a verb has irregular forms.
pub(crate) fn is_irregular_verb(base: &str) -> bool {
    VERBS.iter().any(|row| row[0] == base)
}

fn rows(table: &'static str) -> Rows {
    table.lines().filter(|line| !line.starts_with('#')).map(|line| line.split('\t').collect()).collect()
}

/// The spellings of a word in a form, the likeliest first.
pub(crate) fn spellings(base: &str, form: FormKind) -> Vec<String> {
    let irregular = form.irregular().and_then(|(table, column)| {
        let row = table.iter().find(|row| row[0] == base)?;
        Some(vec![row[column].to_owned()])
    });
    irregular.unwrap_or_else(|| form.ending().map_or_else(|| vec![base.to_owned()], |ending| inflect(base, ending)))
}

/// The known words that a written one may be a form of, each with the form.
pub(crate) fn bases(written: &str, known: impl Fn(&str) -> bool) -> Vec<(String, FormKind)> {
    let regular: Vec<forms::Form<'_>> = forms::endings(written).collect();
    let mut found = Vec::new();
    for form in FormKind::ALL {
        let mut candidates: Vec<String> = Vec::new();
        if let Some((table, column)) = form.irregular() {
            candidates.extend(table.iter().filter(|row| row[column] == written).map(|row| row[0].to_owned()));
        }
        match form.ending() {
            None => candidates.push(written.to_owned()),
            Some(ending) => {
                let made = |one: &&forms::Form<'_>| one.affix == ending || (one.affix, ending) == (ES, S);
                candidates.extend(regular.iter().filter(made).map(|one| one.base.clone().into_owned()));
            }
        }
        for base in candidates {
            // If past and participle are the same, the past is enough.
            let again = form == FormKind::Participle && found.contains(&(base.clone(), FormKind::Past));
            if known(&base)
                && !again
                && spellings(&base, form).iter().any(|spelling| spelling == written)
                && !found.contains(&(base.clone(), form))
            {
                found.push((base, form));
            }
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn forms_are_made_and_recognised_again() {
        for (base, form, made) in [
            ("dog", FormKind::Plural, "dogs"),
            ("box", FormKind::Plural, "boxes"),
            ("fly", FormKind::S, "flies"),
            ("toy", FormKind::Plural, "toys"),
            ("child", FormKind::Plural, "children"),
            ("stop", FormKind::Past, "stopped"),
            ("quit", FormKind::Ing, "quitting"),
            ("rush", FormKind::Past, "rushed"),
            ("hope", FormKind::Ing, "hoping"),
            ("see", FormKind::Ing, "seeing"),
            ("lie", FormKind::Ing, "lying"),
            ("cry", FormKind::Past, "cried"),
            ("enter", FormKind::Past, "entered"),
            ("begin", FormKind::Ing, "beginning"),
            ("run", FormKind::Past, "ran"),
            ("take", FormKind::Participle, "taken"),
            ("big", FormKind::Est, "biggest"),
            ("happy", FormKind::Er, "happier"),
            ("load", FormKind::Past, "loaded"),
            ("fix", FormKind::Ing, "fixing"),
        ] {
            assert!(spellings(base, form).contains(&made.to_owned()), "{base}: {:?}", spellings(base, form));
            assert!(bases(made, |word| word == base).contains(&(base.to_owned(), form)), "{made}");
        }
    }

    #[test]
    fn a_past_is_not_a_participle_too() {
        assert_eq!(bases("dashed", |word| word == "dash"), [("dash".to_owned(), FormKind::Past)]);
        assert_eq!(bases("found", |word| word == "find"), [("find".to_owned(), FormKind::Past)]);
    }

    #[test]
    fn what_is_no_form_is_only_itself() {
        assert_eq!(bases("bed", |word| word != "b"), [("bed".to_owned(), FormKind::Base)]);
        assert_eq!(bases("é", |_| false), []);
    }
}
