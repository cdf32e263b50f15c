//! The story itself, line by line, with its words marked.

use serde::Serialize;
use untaught::Status;

use super::super::sentences;
use crate::analysis::CheckedText;

/// The story as it is shown.
pub(super) struct RunningText {
    /// What marks each distinct word, by its number.
    pub(super) marks: Vec<WordMark>,
    pub(super) paragraphs: Vec<Vec<StoryLine>>,
    pub(super) legend: Vec<LegendEntry>,
}

/// How a word is marked.
#[derive(Serialize)]
pub(super) struct WordMark {
    /// Names of styles.
    class: String,
    title: Option<String>,
    /// The number of the note that says more, if there is one.
    note: Option<usize>,
}

#[derive(Serialize)]
pub(super) struct StoryLine {
    /// Its number in the file; none for an empty line.
    number: Option<usize>,
    pieces: Vec<Stretch>,
    /// Line ends.
    end: String,
}

/// A word that is marked, or all that stands between two of them.
#[derive(Serialize)]
struct Stretch {
    text: String,
    mark: Option<usize>,
    /// Whether it is the first place of its word.
    first: bool,
}

/// A sample of a mark, with what it means.
#[derive(Serialize)]
pub(super) struct LegendEntry {
    class: &'static str,
    sample: &'static str,
    label: &'static str,
}

const LEGEND: [LegendEntry; 7] = [
    LegendEntry { class: "d", sample: "plain", label: "decodable" },
    LegendEntry { class: "f", sample: "bold", label: "practises the patterns of the lesson" },
    LegendEntry { class: "s", sample: "dotted", label: "sight word" },
    LegendEntry { class: "t", sample: "boxed", label: "pre-taught: name or story word" },
    LegendEntry { class: "u", sample: "crossed", label: "untaught" },
    LegendEntry { class: "k", sample: "dagger", label: "not in the dictionary, sounded out from its letters" },
    LegendEntry { class: "w", sample: "double dagger", label: "has two pronunciations, one not taught yet" },
];

/// The story with its words marked.
pub(super) fn of(checked: &CheckedText) -> RunningText {
    let marks = marks(checked);
    let paragraphs = paragraphs(checked, &marks);
    let has = |class: &str| marks.iter().any(|mark| mark.class.split(' ').any(|one| one == class));
    let used = |entry: &LegendEntry| match entry.class {
        "d" => checked.report.tokens.decodable > 0,
        class => has(class),
    };
    RunningText { legend: LEGEND.into_iter().filter(used).collect(), marks, paragraphs }
}

fn marks(checked: &CheckedText) -> Vec<WordMark> {
    let report = &checked.report;
    let mark = |word: &untaught::Type| {
        let (class, title) = match word.status {
            Status::Decodable => ("", None),
            Status::Sight => ("s", Some("sight word".to_owned())),
            Status::Story => ("t", Some("pre-taught".to_owned())),
            Status::Untaught => ("u", None),
        };
        WordMark { class: class.to_owned(), title, note: None }
    };
    let mut marks: Vec<WordMark> = report.distinct.iter().map(mark).collect();
    for number in &report.focus.types {
        marks[*number].add("f");
    }
    let unknown = report.distinct.iter().enumerate().filter(|(_, word)| word.verdict.by_letters());
    for (number, _) in unknown.filter(|(_, word)| matches!(word.status, Status::Decodable | Status::Untaught)) {
        marks[number].add("k");
        marks[number].title = Some("not in the dictionary, sounded out from its letters".to_owned());
    }
    for two in &report.two_readings {
        marks[two.type_number].add("w");
        marks[two.type_number].title = Some(sentences::two_readings(checked, two));
        marks[two.type_number].note = Some(two.type_number);
    }
    for finding in &report.findings {
        marks[finding.type_number].title = Some(format!("untaught: {}", sentences::needs(checked, finding)));
        marks[finding.type_number].note = Some(finding.type_number);
    }
    marks
}

impl WordMark {
    fn add(&mut self, class: &str) {
        if !self.class.is_empty() {
            self.class.push(' ');
        }
        self.class += class;
    }
}

/// The lines, in paragraphs that end with empty lines. The text is all there, but for empty lines at its beginning and end.
fn paragraphs(checked: &CheckedText, marks: &[WordMark]) -> Vec<Vec<StoryLine>> {
    let (text, words) = (checked.text(), &checked.report.words);
    let lines = lines(text, checked.plan.start);
    let begins: Vec<_> = lines.iter().map(|line| line.start..line.start + 1).collect();
    let numbers = checked.lines(std::iter::once(&begins[..])).pop().unwrap_or_default();
    let mut paragraphs: Vec<Vec<StoryLine>> = Vec::new();
    let mut seen = vec![false; marks.len()];
    let (mut next, mut empty) = (0, true);
    for (line, number) in lines.iter().zip(numbers) {
        let shown = &text[line.clone()];
        if shown.trim().is_empty() {
            // An empty line belongs to the end of the paragraph before it.
            if let Some(last) = paragraphs.last_mut().and_then(|lines| lines.last_mut()) {
                last.end.push('\n');
            }
            empty = true;
            continue;
        }
        let mut pieces = Vec::new();
        let mut from = line.start;
        while let Some(word) = words.get(next).filter(|word| word.span.start < line.end) {
            let mark = word.type_number;
            // A word that ends beyond its line is shown in two parts.
            let (start, end) = (word.span.start.max(line.start), word.span.end.min(line.end));
            next += usize::from(word.span.end <= line.end);
            if !marks[mark].class.is_empty() {
                if from < start {
                    pieces.push(Stretch { text: text[from..start].to_owned(), mark: None, first: false });
                }
                let first = !std::mem::replace(&mut seen[mark], true);
                pieces.push(Stretch { text: text[start..end].to_owned(), mark: Some(mark), first });
                from = end;
            }
            if word.span.end > line.end {
                break;
            }
        }
        if from < line.end {
            pieces.push(Stretch { text: text[from..line.end].to_owned(), mark: None, first: false });
        }
        let line = StoryLine { number: Some(number), pieces, end: "\n".to_owned() };
        match paragraphs.last_mut() {
            Some(lines) if !empty => lines.push(line),
            _ => paragraphs.push(vec![line]),
        }
        empty = false;
    }
    if let Some(last) = paragraphs.last_mut().and_then(|lines| lines.last_mut()) {
        last.end.truncate(1);
    }
    paragraphs
}

/// The lines of a text from some place on, without their ends: LF, CRLF or a lone CR.
fn lines(text: &str, start: usize) -> Vec<std::ops::Range<usize>> {
    let bytes = text.as_bytes();
    let (mut lines, mut from) = (Vec::new(), start);
    for at in start..bytes.len() {
        let ends = bytes[at] == b'\n' || bytes[at] == b'\r' && bytes.get(at + 1) != Some(&b'\n');
        if ends {
            let before = usize::from(bytes[at] == b'\n' && at > from && bytes[at - 1] == b'\r');
            lines.push(from..at - before);
            from = at + 1;
        }
    }
    lines.push(from..text.len());
    lines
}

#[cfg(test)]
mod tests {
    use super::lines;

    #[test]
    fn every_kind_of_line_end_ends_a_line() {
        let text = "---\n---\none\r\ntwo\rthree\n\nfour";
        let found: Vec<&str> = lines(text, 8).into_iter().map(|line| &text[line]).collect();
        assert_eq!(found, ["one", "two", "three", "", "four"]);
    }
}
