//! The entries of a field that was typed or pasted: patterns, words, skills, pronunciations.

use std::collections::BTreeMap;

use untaught::Skill;

/// What separates entries, whatever else does.
const SEPARATORS: [char; 4] = [',', ';', '\n', '\r'];

/// What people put around entries.
const AROUND: [char; 8] = ['[', ']', '"', '“', '”', '<', '>', '⟨'];

fn is_around(c: char) -> bool {
    AROUND.contains(&c) || c == '⟩'
}

/// Patterns, with spaces or commas between them: `s a th as in thin`, `sh (ship)`, `ea = /ɛ/`, `sh /ʃ/`.
pub(super) fn patterns(text: &str) -> Vec<String> {
    text.split(SEPARATORS).flat_map(patterns_of_piece).collect()
}

fn patterns_of_piece(piece: &str) -> Vec<String> {
    let piece = piece.replace('=', " = ");
    let tokens: Vec<&str> = piece.split_whitespace().map(|token| token.trim_matches(is_around)).collect();
    let tokens: Vec<&str> = tokens.into_iter().filter(|token| !token.is_empty()).collect();
    let mut out = Vec::new();
    let mut rest = tokens.as_slice();
    while let Some((first, after)) = rest.split_first() {
        // *sh and ch*; not *and as in hand*, which is taught as a chunk.
        if joins(first) && !after.is_empty() && !out.is_empty() && !after.first().is_some_and(|next| is(next, "as")) {
            rest = after;
            continue;
        }
        let (pattern, left) = match after {
            [r#as, r#in, key, left @ ..] if is(r#as, "as") && is(r#in, "in") => {
                (format!("{first} as in {}", word(key)), left)
            }
            ["=", ipa, left @ ..] => (format!("{first} = {ipa}"), left),
            [ipa, left @ ..] if is_ipa(ipa) => (format!("{first} = {ipa}"), left),
            ["(as", r#in, key, left @ ..] if is(r#in, "in") => (format!("{first} as in {}", word(key)), left),
            [key, left @ ..] if key.len() > 2 && key.starts_with('(') && key.ends_with(')') => {
                let key = word(key);
                (if is_ipa(key) { format!("{first} = {key}") } else { format!("{first} as in {key}") }, left)
            }
            left => ((*first).to_owned(), left),
        };
        out.push(pattern);
        rest = left;
    }
    out
}

/// Words that join the last entry of a list to the others.
fn joins(token: &str) -> bool {
    is(token, "and") || token == "&" || token == "+"
}

fn is(token: &str, word: &str) -> bool {
    token.eq_ignore_ascii_case(word)
}

fn is_ipa(token: &str) -> bool {
    token.len() > 2 && token.starts_with('/') && token.ends_with('/')
}

/// A key word without the brackets around it.
fn word(key: &str) -> &str {
    key.trim_matches(['(', ')', '*', '_'])
}

/// Words, with spaces or commas between them.
pub(super) fn words(text: &str) -> Vec<String> {
    let words = text.split(|c: char| SEPARATORS.contains(&c) || c.is_whitespace());
    let words = words.map(|word| word.trim_matches(|c| is_around(c) || matches!(c, '(' | ')' | '.' | ':')));
    words.filter(|word| !word.is_empty()).map(str::to_owned).collect()
}

/// Skills, by their names or by what they are called on the page. What is no skill stays as it is, so that it is told.
pub(super) fn skills(text: &str) -> Vec<String> {
    let of_piece = |piece: &str| {
        let tokens: Vec<Option<&str>> = piece.split_whitespace().map(|token| skill(token).map(Skill::name)).collect();
        match (skill(piece), tokens.into_iter().collect::<Option<Vec<&str>>>()) {
            (Some(skill), _) => vec![skill.name().to_owned()],
            (None, Some(names)) if !names.is_empty() => names.into_iter().map(str::to_owned).collect(),
            _ => vec![piece.to_owned()],
        }
    };
    let pieces = text.split(SEPARATORS).map(|piece| piece.trim_matches(|c: char| is_around(c) || c.is_whitespace()));
    let pieces = pieces.filter(|piece| !piece.is_empty());
    pieces.flat_map(of_piece).collect()
}

/// Whether a text names skills and nothing else.
pub(super) fn are_skills(text: &str) -> bool {
    skills(text).iter().all(|one| skill(one).is_some())
}

/// A skill by its name or label, with spaces for hyphens and in any case.
pub(super) fn skill(written: &str) -> Option<Skill> {
    let plain = |text: &str| text.trim().trim_matches(is_around).to_lowercase().replace(['-', ' '], " ");
    let written = plain(written);
    Skill::ALL.into_iter().find(|skill| plain(skill.name()) == written || plain(skill.label()) == written)
}

/// Names and how they are read, and what is wrong with lines that cannot be written.
pub(super) fn pronounced(text: &str) -> (BTreeMap<String, String>, Vec<String>) {
    let mut found = BTreeMap::new();
    let mut faults = Vec::new();
    for line in text.lines().map(str::trim).filter(|line| !line.is_empty()) {
        let parts = line.split_once(':').map(|(word, cutting)| (word.trim(), cutting.trim()));
        match parts.filter(|(word, cutting)| !word.is_empty() && word.chars().nth(64).is_none() && !cutting.is_empty())
        {
            None => faults.push(format!(
                "`{}`: write the name, a colon and how it is split up, such as Priya: p·r·i=/iː/·y·a=/ə/",
                untaught::messages::excerpt(line)
            )),
            Some((word, _)) if found.contains_key(word) => faults.push(format!("{word} is here twice")),
            Some((word, cutting)) => drop(found.insert(word.to_owned(), cutting.to_owned())),
        }
    }
    (found, faults)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn patterns_are_taken_apart_as_teachers_write_them() {
        for (typed, wanted) in [
            ("s a t p i n", vec!["s", "a", "t", "p", "i", "n"]),
            ("sh, th as in thin, th as in this", vec!["sh", "th as in thin", "th as in this"]),
            ("a-e -ed as in jumped un-", vec!["a-e", "-ed as in jumped", "un-"]),
            ("ea (bread) ow (as in cow)", vec!["ea as in bread", "ow as in cow"]),
            ("ea=/ɛ/; sh /ʃ/; ch (/k/)", vec!["ea = /ɛ/", "sh = /ʃ/", "ch = /k/"]),
            ("[s, \"n\"]", vec!["s", "n"]),
            (" ,, ;\n", vec![]),
            ("th as", vec!["th", "as"]),
            ("sh and ch, ng & ck", vec!["sh", "ch", "ng", "ck"]),
            ("ing, and as in hand", vec!["ing", "and as in hand"]),
        ] {
            assert_eq!(patterns(typed), wanted, "{typed}");
        }
    }

    #[test]
    fn words_and_skills_are_taken_apart() {
        assert_eq!(words("the, I  said; “was” it's"), ["the", "I", "said", "was", "it's"]);
        assert_eq!(skills("Final blends, schwa"), ["final-blends", "schwa"]);
        assert_eq!(skills("initial-blends final-blends"), ["initial-blends", "final-blends"]);
        assert_eq!(skills("two syllables, jumping about"), ["two-syllable-words", "jumping about"]);
        let (found, faults) = pronounced("Priya: p·r·i\n\nTam\nPriya: p");
        assert_eq!((found.len(), faults.len()), (1, 2));
    }
}
