//! What stands around a word, for contexts: the three words before and after, and where its sentence or quotation begins and ends.

use untaught::fold_word;

use super::sentence::Around;

/// What stands at one place before or after a word.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Element<'t> {
    /// A sentence or a quotation begins.
    Start,
    /// Another edge: a comma, a dash, the end.
    Edge,
    /// An edge with a quotation mark: *“Yes!” she said*, *she said, “Yes!”*
    Quote,
    Word {
        text: &'t str,
        /// Whether it is the first of its sentence, so that its capital tells nothing.
        begins: bool,
    },
    /// Beyond an edge.
    Beyond,
}

/// The place of a word: the nearest element first on each side.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Place<'t> {
    pub(crate) before: [Element<'t>; 3],
    pub(crate) after: [Element<'t>; 3],
}

const QUOTES: [char; 9] = ['"', '\u{201c}', '\u{201d}', '\'', '\u{2018}', '\u{2019}', '(', ')', '\u{ab}'];
const ENDS: [char; 4] = ['.', '!', '?', '\u{2026}'];
/// What marks emphasis in plain text.
const EMPHASIS: [char; 2] = ['*', '_'];
/// Their full stop does not end a sentence.
const TITLES: [&str; 5] = ["Mr.", "Mrs.", "Ms.", "Dr.", "St."];

/// Whether a word with what follows it says whose a thing is: *the boys' hut*.
pub(crate) fn is_of_owners(word: &str, around: Around<'_>) -> bool {
    let mut after = around.after.chars();
    let apostrophe = matches!(after.next(), Some('\'' | '\u{2019}'));
    word.ends_with('s') && apostrophe && after.next() == Some(' ') && after.next().is_some_and(char::is_alphabetic)
}

fn is_of_word(c: char) -> bool {
    c.is_alphanumeric() || matches!(c, '\'' | '\u{2019}' | '-')
}

fn has_capital(word: &str) -> bool {
    word.starts_with(char::is_uppercase)
}

impl<'t> Place<'t> {
    pub(crate) fn of(word: &str, around: Around<'t>) -> Place<'t> {
        Place { before: before(word, around.before), after: after(around.after) }
    }

    /// Whether the word is all that is said: *“Surprise!”*
    pub(crate) fn is_alone(&self) -> bool {
        !matches!(self.before[0], Element::Word { .. }) && !matches!(self.after[0], Element::Word { .. })
    }

    pub(crate) fn begins(&self) -> bool {
        self.before[0] == Element::Start
    }

    /// The word directly before, folded; empty at an edge.
    pub(crate) fn word_before(&self) -> String {
        folded(self.before[0])
    }

    /// Whether the thing is only told what it is like, so that a word before it is what is said: *it was a cold day*, *like a big dog*.
    pub(crate) fn is_told(&self) -> bool {
        const TELLING: &str =
            "is was are were am be been it's he's she's that's i'm you're we're they're became become like such what";
        let before = folded(self.before[1]);
        TELLING.split(' ').any(|one| one == before)
    }

    /// Whether the thing is what another is like, so that it has to be this one: *as tiny as a toy*, *like a balloon*.
    pub(crate) fn is_likened(&self) -> bool {
        let before = [folded(self.before[0]), folded(self.before[1])];
        matches!(before[0].as_str(), "a" | "an" | "the") && matches!(before[1].as_str(), "as" | "like")
    }

    /// The word directly after, as written; empty at an edge.
    pub(crate) fn word_after(&self) -> &'t str {
        match self.after[0] {
            Element::Word { text, .. } => text,
            _ => "",
        }
    }
}

fn folded(element: Element<'_>) -> String {
    match element {
        Element::Word { text, .. } => fold_word(text),
        _ => String::new(),
    }
}

fn before<'t>(word: &str, text: &'t str) -> [Element<'t>; 3] {
    let mut found = [Element::Beyond; 3];
    let (mut rest, mut next_has_capital) = (text, has_capital(word));
    for at in 0..found.len() {
        let (element, left) = one_before(rest, next_has_capital);
        found[at] = element;
        match element {
            Element::Word { text, .. } => next_has_capital = has_capital(text),
            Element::Start if at > 0 => {
                if let Element::Word { begins, .. } = &mut found[at - 1] {
                    *begins = true;
                }
                break;
            }
            _ => break,
        }
        rest = left;
    }
    // A fourth place tells whether the third word is the first of its sentence.
    if let Element::Word { begins, .. } = &mut found[2] {
        *begins = one_before(rest, next_has_capital).0 == Element::Start;
    }
    found
}

fn one_before(text: &str, next_has_capital: bool) -> (Element<'_>, &str) {
    let text = text.trim_end_matches(EMPHASIS);
    let spaced = text.trim_end();
    let gap = &text[spaced.len()..];
    if spaced.is_empty() || gap.matches('\n').count() > 1 || gap.contains('\n') && next_has_capital {
        return (Element::Start, "");
    }
    if gap.is_empty() {
        // A quotation mark directly before a word opens.
        let opens = spaced.ends_with(QUOTES) && !spaced.ends_with(')');
        return (if opens { Element::Start } else { Element::Edge }, "");
    }
    let spaced = spaced.trim_end_matches(EMPHASIS);
    let end = TITLES.iter().find(|title| spaced.ends_with(**title)).map_or(spaced, |_| &spaced[..spaced.len() - 1]);
    let owns = end.ends_with("s'") || end.ends_with("s\u{2019}");
    if !owns && end.ends_with(QUOTES) {
        let ends = end.trim_end_matches(QUOTES).ends_with(ENDS) && next_has_capital;
        return (if ends { Element::Start } else { Element::Quote }, "");
    }
    if end.ends_with(ENDS) || end.ends_with(':') && next_has_capital {
        return (Element::Start, "");
    }
    let start = end.trim_end_matches(is_of_word).len();
    let word = end[start..].trim_start_matches(['\'', '\u{2019}', '-']);
    match word.is_empty() {
        true => (Element::Edge, ""),
        false => (Element::Word { text: word, begins: false }, &end[..end.len() - word.len()]),
    }
}

fn after(text: &str) -> [Element<'_>; 3] {
    let mut found = [Element::Beyond; 3];
    let mut rest = text;
    for one in &mut found {
        rest = rest.trim_start_matches(EMPHASIS);
        let spaced = rest.trim_start();
        let gap = &rest[..rest.len() - spaced.len()];
        let spaced = spaced.trim_start_matches(EMPHASIS);
        let ends = gap.is_empty() || gap.matches('\n').count() > 1 || gap.contains('\n') && has_capital(spaced);
        let end = spaced.find(|c| !is_of_word(c)).unwrap_or(spaced.len());
        // The apostrophe of *dogs'* is kept; a quotation mark before the word is an edge.
        let word = spaced[..end].trim_end_matches(['-']);
        if ends || word.is_empty() || spaced.starts_with(['\'', '\u{2019}', '-']) {
            let mark = rest.trim_start_matches([',', ':', '.', '!', '?', ' ']);
            let is_mark = |text: &str| text.starts_with(['"', '\u{201c}', '\u{201d}', '\u{2018}']);
            *one = if is_mark(mark) || is_mark(spaced) { Element::Quote } else { Element::Edge };
            break;
        }
        let closed = word.strip_suffix(['\'', '\u{2019}']).filter(|word| !word.ends_with('s'));
        let word = closed.unwrap_or(word);
        *one = Element::Word { text: word, begins: false };
        rest = &spaced[word.len()..];
    }
    found
}

/// A line is no title if there is more of it than that before or after a word, in bytes; nor is more looked at.
const LONGEST_TITLE: usize = 120;

/// The line that a text ends in, unless it is long.
fn line_before(text: &str) -> Option<&str> {
    let from = (text.len().saturating_sub(LONGEST_TITLE)..=text.len()).find(|at| text.is_char_boundary(*at))?;
    text[from..].rsplit_once('\n').map(|(_, line)| line).or((from == 0).then_some(text))
}

/// The line that a text begins with, unless it is long.
fn line_after(text: &str) -> Option<&str> {
    let to = (0..=text.len().min(LONGEST_TITLE)).rev().find(|at| text.is_char_boundary(*at))?;
    text[..to].split_once('\n').map(|(line, _)| line).or((to == text.len()).then_some(text))
}

/// Whether the line of a word is a title: *Too Many Beds*. There a phrase of the story's sentences seldom stands.
pub(crate) fn is_in_title(word: &str, around: Around<'_>) -> bool {
    let (Some(before), Some(after)) = (line_before(around.before), line_after(around.after)) else { return false };
    let words = || before.split_whitespace().chain([word]).chain(after.split_whitespace());
    let line = [before, word, after].concat();
    let ends = line.trim_end().ends_with(['.', ',', ':', ';', '"', '\'', '\u{201d}', '\u{2019}', '\u{2026}']);
    let small = |word: &str| word.chars().filter(|c| c.is_alphabetic()).count() < 4;
    let title_like = |word: &str| small(word) || !word.starts_with(char::is_lowercase);
    let begins = line.trim_start_matches(['#', ' ', '*', '_']).starts_with(char::is_uppercase);
    begins && !ends && (2..=9).contains(&words().count()) && words().all(title_like)
}

/// Whether a word is joined to another by a hyphen: *great-aunt*.
pub(crate) fn is_hyphened(around: Around<'_>) -> bool {
    let joins = |c: char| matches!(c, '-' | '\u{2010}' | '\u{2011}');
    let before = around.before.strip_suffix(joins).is_some_and(|text| text.ends_with(char::is_alphanumeric));
    before || around.after.strip_prefix(joins).is_some_and(|text| text.starts_with(char::is_alphanumeric))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What stands around the word between stars: `^` a start, `|` an edge, `+` a word that begins its sentence.
    fn shown(sentence: &str) -> String {
        let (start, end) = (sentence.find('<').unwrap(), sentence.find('>').unwrap());
        let around = Around { before: &sentence[..start], after: &sentence[end + 1..] };
        let place = Place::of(&sentence[start + 1..end], around);
        let one = |element: &Element<'_>| match element {
            Element::Start => "^".to_owned(),
            Element::Edge => "|".to_owned(),
            Element::Quote => "\"".to_owned(),
            Element::Beyond => String::new(),
            Element::Word { text, begins } => format!("{text}{}", if *begins { "+" } else { "" }),
        };
        let before: Vec<String> = place.before.iter().rev().map(one).filter(|text| !text.is_empty()).collect();
        let after: Vec<String> = place.after.iter().map(one).filter(|text| !text.is_empty()).collect();
        [before, vec!["_".to_owned()], after].concat().join(" ")
    }

    #[test]
    fn the_words_around_end_at_edges() {
        for (sentence, around) in [
            ("She <gently> put it down.", "^ She+ _ put it down"),
            ("Then she put it <gently> down.", "she put it _ down |"),
            ("One day she <put> it", "One+ day she _ it |"),
            ("\u{201c}Mum, <somebody> took it,\u{201d} she said.", "| _ took it \""),
            ("\u{201c}<Somebody> took it.", "^ _ took it |"),
            ("\u{201c}Mum!\u{201d} she <shouted>.", "\" she _ |"),
            ("Juno woke and <shouted>, \"Yes!\"", "Juno+ woke and _ \""),
            ("She <called> \u{201c}Yes!", "^ She+ _ \""),
            ("\"So <good>,\" she said", "^ So+ _ \""),
            ("\u{201c}Blow!\u{201d} <shouted> Captain Lu. Then", "\" _ Captain Lu |"),
            ("\u{201c}Blow!\u{201d} <Nothing> happened.", "^ _ happened |"),
            ("No. <Nothing> came", "^ _ came |"),
            ("He saw Mrs. Gribble <hurry> to Mr. Pip", "saw Mrs Gribble _ to Mr |"),
            ("It said \u{2018}<Hello> there\u{2019} to", "^ _ there |"),
            ("the dogs' <huge> bed", "^ the+ dogs' _ bed |"),
            ("red - <huge> - bed", "| _ |"),
            ("on a *very* <huge> *bed*", "on+ a very _ bed |"),
            ("A Title\n<Nobody> came", "^ _ came |"),
            ("when\n<nobody> came\n\nThen", "^ when+ _ came |"),
            ("é<é>é", "| _ |"),
            ("<x>", "^ _ |"),
            ("Up: <Huge> rocks", "^ _ rocks |"),
            ("up: <huge> rocks", "| _ rocks |"),
        ] {
            let found = shown(sentence);
            assert_eq!(found, around, "{sentence}");
        }
    }

    #[test]
    fn titles_and_hyphens_are_known() {
        let at = |line: &'static str, word: &'static str| {
            let start = line.find(word).unwrap();
            (word, Around { before: &line[..start], after: &line[start + word.len()..] })
        };
        for (line, word, title) in [
            ("Too Many Beds\n\nDimple was", "Many", true),
            ("# Captain Lu and the Lazy Wind\n", "Lazy", true),
            ("Who Is Eating the Snowman?\n", "Eating", true),
            ("Dimple was sad.\n", "Dimple", false),
            ("Dimple Was Sad.\n", "Was", false),
            ("On Monday, Hattie and Solomon made it", "Hattie", false),
            ("beds", "beds", false),
        ] {
            let (word, around) = at(line, word);
            assert_eq!(is_in_title(word, around), title, "{line}");
        }
        assert!(is_hyphened(at("her great-aunt", "great").1) && is_hyphened(at("her great-aunt", "aunt").1));
        assert!(!is_hyphened(at("her great aunt - yes", "aunt").1) && !is_hyphened(at("- aunt", "aunt").1));
    }
}
