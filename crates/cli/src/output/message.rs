//! What is told of a run that fails.

use std::borrow::Cow;
use std::fmt;

use untaught::Fault;
use untaught::yaml::first;

use super::one_line;

/// Faults of a file that are told; the others are counted.
const SHOWN: usize = 20;

/// Characters of a line that are shown; of a longer one the beginning and the end are. The longest path is longer.
const LONGEST: usize = 1_000;

/// A sentence, or a sentence and the faults of a file, a line each. Names and other things from outside may be in it as they are: each
/// line is made harmless when it is shown, so that no text can begin a line of its own.
#[derive(Clone, Debug)]
pub(crate) struct Message {
    sentence: String,
    faults: Vec<String>,
}

impl Message {
    /// A sentence and the faults of a file: `file:line:column: what`.
    pub(crate) fn faults(sentence: &str, name: &str, faults: &[Fault]) -> Message {
        let place = |fault: &Fault| {
            let Fault { position, message } = fault;
            format!("{name}:{}:{}: {message}", position.line, position.column)
        };
        let mut lines: Vec<String> = faults.iter().take(SHOWN).map(place).collect();
        // That there are more has no place.
        lines.extend(first(faults, SHOWN).into_iter().nth(SHOWN).map(|more| more.message));
        Message { sentence: sentence.to_owned(), faults: lines }
    }

    /// The same with the place where it was found before it.
    pub(crate) fn at(self, place: &str) -> Message {
        Message { sentence: format!("{place}: {}", self.sentence), ..self }
    }

    /// The same with more said after the sentence.
    pub(crate) fn then(self, more: &str) -> Message {
        Message { sentence: format!("{} {more}", self.sentence), ..self }
    }

    /// Whether it lists the faults of a file.
    pub(crate) fn has_faults(&self) -> bool {
        !self.faults.is_empty()
    }

    pub(crate) fn begins_with(&self, name: &str) -> bool {
        self.sentence.starts_with(name)
    }

    /// Its lines as they are shown.
    fn lines(&self) -> impl Iterator<Item = Cow<'_, str>> {
        std::iter::once(&self.sentence).chain(&self.faults).map(|line| shown(line))
    }
}

/// A line as it is shown.
pub(super) fn shown(line: &str) -> Cow<'_, str> {
    let line = one_line(line);
    let ends = line.char_indices().nth(LONGEST).and_then(|_| {
        let (begin, _) = line.char_indices().nth(LONGEST / 2)?;
        let (end, _) = line.char_indices().nth_back(LONGEST / 2)?;
        Some((begin, end))
    });
    match ends {
        Some((begin, end)) => Cow::Owned(format!("{} … {}", &line[..begin], &line[end..])),
        None => line,
    }
}

impl From<String> for Message {
    fn from(sentence: String) -> Message {
        Message { sentence, faults: Vec::new() }
    }
}

impl From<untaught::UnknownLesson> for Message {
    fn from(unknown: untaught::UnknownLesson) -> Message {
        unknown.to_string().into()
    }
}

impl fmt::Display for Message {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (number, line) in self.lines().enumerate() {
            if number > 0 {
                f.write_str("\n")?;
            }
            f.write_str(&line)?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use untaught::Position;

    use super::*;

    #[test]
    fn nothing_from_outside_begins_a_line() {
        let name = "a\n::error::\u{1b}[2J\r\u{202e}b";
        let shown = "a\\u{a}::error::\\u{1b}[2J\\u{d}\\u{202e}b";
        assert_eq!(Message::from(format!("there is no file {name}")).to_string(), format!("there is no file {shown}"));
        let faults = [Fault::new(Position::START, name), Fault::new(Position { line: 2, column: 3 }, "x")];
        assert_eq!(
            Message::faults("the scope file cannot be used", name, &faults).at(name).to_string(),
            format!("{shown}: the scope file cannot be used\n{shown}:1:1: {shown}\n{shown}:2:3: x")
        );
        let faults = vec![faults[1].clone(); 1_021];
        let told = Message::faults("the scope file cannot be used", "::error::", &faults).to_string();
        let lines: Vec<&str> = told.lines().collect();
        assert_eq!((lines.len(), lines[1], lines[21]), (22, "\\u{3a}:error:::2:3: x", "and 1,001 more"));
        let long = format!("there is no file {}, is there?", "é".repeat(100_000));
        let told = Message::from(long).to_string();
        assert!(told.starts_with("there is no file éé") && told.ends_with("éé, is there?"), "{told}");
        assert_eq!(told.chars().count(), 1_004);
        assert_eq!(Message::faults("x", "a", &faults[..20]).to_string().lines().count(), 21);
        assert!(Message::faults("x", "a", &faults[..21]).to_string().ends_with("\nand 1 more"));
    }
}
