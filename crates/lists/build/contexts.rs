//! Packs the offers in context: those of a form together, the surest first; forms, contexts and offers each for themselves.

use std::cmp::Reverse;
use std::collections::BTreeSet;

use crate::fitness::Fitness;
use crate::word_codes::coded;
use crate::{generate_deflated, lines};

const FILE: &str = "swaps/in-context.tsv";
const CLASSES: [&str; 14] =
    ["DET", "PRON", "OBJ", "NUM", "BE", "CAP", "NOUN", "ING", "PREP", "JOIN", "ANY", "START", "END", "QUOTE"];
/// Stands first in a context that is asked last.
const ELSE: &str = "ELSE ";
const LEAVE_OUT: &str = "(leave out)";

pub(crate) fn write(fitness: &Fitness) {
    let mut all = lines(FILE);
    assert!(all.is_sorted(), "data/{FILE}: not in order");
    let mut seen = BTreeSet::new();
    for line in &all {
        let [form, context, offers] = fields(line);
        assert!(seen.insert((form, context)), "data/{FILE}: twice: {line}");
        check(line, form, context, offers, fitness);
    }
    all.sort_by_key(|line| {
        let [form, context, _] = fields(line);
        (form.to_owned(), context.starts_with(ELSE), Reverse(narrowness(context)))
    });
    let mut columns = [const { String::new() }; 3];
    let mut last = "";
    for line in &all {
        let [form, context, offers] = fields(line);
        // An empty line: the form before.
        columns[0] += if form == last { "" } else { form };
        columns[1] += context;
        columns[2] += &offers.replace(LEAVE_OUT, "-");
        columns.iter_mut().for_each(|column| column.push('\n'));
        last = form;
    }
    let [forms, contexts, offers] = columns;
    generate_deflated("in-context.forms.bin", forms);
    generate_deflated("in-context.contexts.bin", coded(&contexts, '|'));
    generate_deflated("in-context.offers.bin", coded(&offers, ' '));
}

fn fields(line: &str) -> [&str; 3] {
    let fields: Vec<&str> = line.split('\t').collect();
    fields[..].try_into().unwrap_or_else(|_| panic!("data/{FILE}: not three fields: {line}"))
}

/// How much a context asks for: a word more than a class, a class more than any word.
fn narrowness(context: &str) -> usize {
    let weight = |element: &str| match element.trim_matches(['[', ']']) {
        "_" => 0,
        "ANY" => 1,
        element if element.split('|').any(|one| CLASSES.contains(&one)) => 2,
        _ => 3,
    };
    context.split(' ').map(weight).sum()
}

fn check(line: &str, form: &str, context: &str, offers: &str, fitness: &Fitness) {
    let is_word = |text: &str| !text.is_empty() && text.chars().all(|c| c.is_ascii_lowercase() || c == '\'');
    assert!(is_word(form), "data/{FILE}: no form in small letters: {line}");
    let context = context.strip_prefix(ELSE).unwrap_or(context);
    let bare = context.replace(['[', ']'], "");
    let elements: Vec<&str> = bare.split(' ').collect();
    let place = elements.iter().position(|one| *one == "_");
    let place = place.unwrap_or_else(|| panic!("data/{FILE}: no place: {line}"));
    let replaced = check_brackets(line, context, place);
    assert!(place <= 3 && elements.len() - place <= 4, "data/{FILE}: more than three on a side: {line}");
    for (at, element) in elements.iter().enumerate().filter(|(at, _)| *at != place) {
        for one in element.split('|') {
            assert!(is_word(one) || CLASSES.contains(&one), "data/{FILE}: no element of a context: {element}: {line}");
            let edge = if at < place { at == 0 } else { one != "START" && at + 1 == elements.len() };
            assert!(!matches!(one, "START" | "END" | "QUOTE") || edge, "data/{FILE}: an edge inside: {line}");
        }
    }
    let offers: Vec<&str> = offers.split(", ").collect();
    assert!((1..=5).contains(&offers.len()), "data/{FILE}: more than five: {line}");
    for offer in offers {
        assert!(offer != form, "data/{FILE}: a form for itself: {line}");
        if offer == LEAVE_OUT {
            assert!(
                elements[0] != "START" || replaced.start > 1,
                "data/{FILE}: a sentence loses its first word: {line}"
            );
            continue;
        }
        let of_the_kind = offer.strip_prefix('~');
        assert!(of_the_kind.is_none() || replaced.len() == 1, "data/{FILE}: another thing for several words: {line}");
        let words: Vec<&str> = of_the_kind.unwrap_or(offer).split(' ').collect();
        assert!((1..=5).contains(&words.len()), "data/{FILE}: more than five words: {line}");
        let fit = |word: &&str| (is_word(word) || *word == "I") && fitness.may_be_offered(&word.to_lowercase());
        assert!(words.iter().all(fit), "data/{FILE}: {offer} is unfit: {line}");
    }
}

/// The elements that an entry replaces: what stands in brackets, or the form alone.
fn check_brackets(line: &str, context: &str, place: usize) -> std::ops::Range<usize> {
    let elements: Vec<&str> = context.split(' ').collect();
    let Some(start) = elements.iter().position(|one| one.starts_with('[')) else {
        assert!(!context.contains(['[', ']']), "data/{FILE}: brackets: {line}");
        return place..place + 1;
    };
    let end = elements.iter().position(|one| one.ends_with(']')).map_or(0, |at| at + 1);
    assert_eq!(context.matches(['[', ']']).count(), 2, "data/{FILE}: brackets: {line}");
    assert!((start..end).contains(&place) && end - start > 1, "data/{FILE}: brackets without the place: {line}");
    let is_edge = |one: &&str| matches!(one.trim_matches(['[', ']']), "START" | "END" | "QUOTE");
    assert!(!elements[start..end].iter().any(is_edge), "data/{FILE}: an edge in brackets: {line}");
    start..end
}
