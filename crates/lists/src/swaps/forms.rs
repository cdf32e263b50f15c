//! The forms of words: *dashed* is *dash* in the past, and *run* in the past is *ran*.

/// A form of a word.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Form {
    /// As the dictionary has it.
    Base,
    /// Several, of a noun: *dogs*.
    Plural,
    /// *runs*.
    S,
    /// *ran*, *dashed*.
    Past,
    /// *been*, *taken*, where it is not the past.
    Participle,
    /// *running*.
    Ing,
    /// *bigger*.
    Er,
    /// *biggest*.
    Est,
}

impl Form {
    const ALL: [Form; 8] =
        [Form::Base, Form::Plural, Form::S, Form::Past, Form::Participle, Form::Ing, Form::Er, Form::Est];

    /// Whether words of a kind have the form: n noun, v verb, a adjective, r adverb.
    pub(crate) fn fits(self, kind: u8) -> bool {
        match self {
            Form::Base => true,
            Form::Plural => kind == b'n',
            Form::S | Form::Past | Form::Participle | Form::Ing => kind == b'v',
            Form::Er | Form::Est => kind == b'a',
        }
    }
}

/// Verbs: base, past, participle.
const VERBS: &str = include_str!("../data/irregular.tsv");
/// Nouns: one, several.
const NOUNS: &str = include_str!("../data/plurals.tsv");

fn rows(table: &'static str) -> impl Iterator<Item = Vec<&'static str>> {
    table.lines().filter(|line| !line.starts_with('#')).map(|line| line.split('\t').collect())
}

fn is_vowel(c: char) -> bool {
    matches!(c, 'a' | 'e' | 'i' | 'o' | 'u')
}

/// A word in a form; the likeliest spelling first.
pub(crate) fn inflect(base: &str, form: Form) -> Vec<String> {
    let irregular = |column: usize| rows(VERBS).find(|row| row[0] == base).map(|row| vec![row[column].to_owned()]);
    match form {
        Form::Base => vec![base.to_owned()],
        Form::Plural => match rows(NOUNS).find(|row| row[0] == base) {
            Some(row) => vec![row[1].to_owned()],
            None => with_s(base),
        },
        Form::S => with_s(base),
        Form::Past => irregular(1).unwrap_or_else(|| with(base, "ed")),
        Form::Participle => irregular(2).unwrap_or_else(|| with(base, "ed")),
        Form::Ing => with(base, "ing"),
        Form::Er => with(base, "er"),
        Form::Est => with(base, "est"),
    }
}

fn with_s(base: &str) -> Vec<String> {
    let before = base.chars().rev().nth(1).unwrap_or('a');
    if base.ends_with('y') && !is_vowel(before) {
        return vec![format!("{}ies", &base[..base.len() - 1])];
    }
    if ["s", "x", "z", "ch", "sh"].iter().any(|end| base.ends_with(end)) {
        return vec![format!("{base}es")];
    }
    if base.ends_with('o') && !is_vowel(before) {
        return vec![format!("{base}es"), format!("{base}s")];
    }
    vec![format!("{base}s")]
}

fn with(base: &str, ending: &str) -> Vec<String> {
    let last: Vec<char> = base.chars().rev().take(3).collect();
    let [end, before] = [0, 1].map(|at| last.get(at).copied().unwrap_or('a'));
    let ing = ending == "ing";
    if base.ends_with("ie") && ing {
        return vec![format!("{}ying", &base[..base.len() - 2])];
    }
    if end == 'e' {
        let keeps = ing && matches!(before, 'e' | 'o' | 'y');
        let stem = if keeps { base } else { &base[..base.len() - 1] };
        return vec![format!("{stem}{ending}")];
    }
    if end == 'y' && !is_vowel(before) && !ing {
        return vec![format!("{}i{ending}", &base[..base.len() - 1])];
    }
    let third = last.get(2).copied().unwrap_or('b');
    let short = is_vowel(before)
        && !is_vowel(end)
        && !matches!(end, 'w' | 'x' | 'y')
        && (!is_vowel(third) || base.contains("qu"));
    let (plain, doubled) = (format!("{base}{ending}"), format!("{base}{end}{ending}"));
    match short {
        // *stopped*; of longer words (*entered*, *began*) the dictionary knows.
        true if base.chars().filter(|c| is_vowel(*c)).count() == 1 || base.contains("qu") => vec![doubled],
        true => vec![plain, doubled],
        false => vec![plain],
    }
}

/// The words that a written one may be a form of, with the form.
pub(crate) fn bases(written: &str, known: impl Fn(&str) -> bool) -> Vec<(String, Form)> {
    let mut found = Vec::new();
    for form in Form::ALL {
        for base in stems(written, form) {
            if known(&base)
                && inflect(&base, form).contains(&written.to_owned())
                && !found.contains(&(base.clone(), form))
            {
                found.push((base, form));
            }
        }
    }
    found
}

/// What a form may have been made from: more than there is; [`inflect`] tells.
fn stems(written: &str, form: Form) -> Vec<String> {
    let mut stems: Vec<String> = Vec::new();
    let ending = match form {
        Form::Base => return vec![written.to_owned()],
        Form::Plural | Form::S => "s",
        Form::Past | Form::Participle => "ed",
        Form::Ing => "ing",
        Form::Er => "er",
        Form::Est => "est",
    };
    match form {
        Form::Plural => stems.extend(rows(NOUNS).filter(|row| row[1] == written).map(|row| row[0].to_owned())),
        Form::Past => stems.extend(rows(VERBS).filter(|row| row[1] == written).map(|row| row[0].to_owned())),
        // Where past and participle are one, the past is enough.
        Form::Participle => {
            let only = rows(VERBS).filter(|row| row[2] == written && row[1] != row[2]);
            stems.extend(only.map(|row| row[0].to_owned()));
            return stems;
        }
        _ => {}
    }
    let Some(stem) = written.strip_suffix(ending).filter(|stem| stem.is_ascii() && !stem.is_empty()) else {
        return stems;
    };
    stems.push(stem.to_owned());
    stems.push(format!("{stem}e"));
    if let Some(short) = stem.strip_suffix('i').or_else(|| stem.strip_suffix("ie")) {
        stems.push(format!("{short}y"));
    }
    if let Some(short) = stem.strip_suffix('y') {
        stems.push(format!("{short}ie"));
    }
    stems.extend(stem.strip_suffix('e').map(str::to_owned));
    if let [.., a, b] = stem.as_bytes()
        && a == b
    {
        stems.push(stem[..stem.len() - 1].to_owned());
    }
    stems
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn forms_are_made_and_known_again() {
        for (base, form, made) in [
            ("dog", Form::Plural, "dogs"),
            ("box", Form::Plural, "boxes"),
            ("fly", Form::S, "flies"),
            ("toy", Form::Plural, "toys"),
            ("child", Form::Plural, "children"),
            ("stop", Form::Past, "stopped"),
            ("quit", Form::Ing, "quitting"),
            ("rush", Form::Past, "rushed"),
            ("hope", Form::Ing, "hoping"),
            ("see", Form::Ing, "seeing"),
            ("lie", Form::Ing, "lying"),
            ("cry", Form::Past, "cried"),
            ("enter", Form::Past, "entered"),
            ("begin", Form::Ing, "beginning"),
            ("run", Form::Past, "ran"),
            ("take", Form::Participle, "taken"),
            ("big", Form::Est, "biggest"),
            ("happy", Form::Er, "happier"),
            ("load", Form::Past, "loaded"),
            ("fix", Form::Ing, "fixing"),
        ] {
            assert!(inflect(base, form).contains(&made.to_owned()), "{base}: {:?}", inflect(base, form));
            assert!(bases(made, |word| word == base).contains(&(base.to_owned(), form)), "{made}");
        }
    }

    #[test]
    fn what_is_no_form_is_only_itself() {
        assert_eq!(bases("bed", |word| word != "b"), [("bed".to_owned(), Form::Base)]);
        assert_eq!(bases("é", |_| false), []);
    }
}
