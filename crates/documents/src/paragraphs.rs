//! Text by paragraphs, one a line.

/// Paragraphs in the order in which they begin. One may stand inside another, as those of a text box do: they come after it.
#[derive(Default)]
pub(crate) struct Paragraphs {
    text: String,
    /// Whether a paragraph was finished, be it empty.
    begun: bool,
    /// Whether the next paragraph goes on with the line of the last.
    joined: bool,
    /// The outermost open paragraph and those within it.
    group: Vec<String>,
    /// Which of them are open, outermost first.
    open: Vec<usize>,
}

impl Paragraphs {
    pub(crate) fn begin(&mut self) {
        self.open.push(self.group.len());
        self.group.push(String::new());
    }

    /// Ends the innermost paragraph. `joins` says that its end was deleted: the next one goes on with its line.
    pub(crate) fn end(&mut self, joins: bool) {
        self.open.pop();
        if !self.open.is_empty() {
            return;
        }
        let joins = joins && self.group.len() == 1;
        for paragraph in self.group.drain(..) {
            if self.begun && !std::mem::take(&mut self.joined) {
                self.text.push('\n');
            }
            self.begun = true;
            self.text.push_str(&paragraph);
        }
        self.joined = joins;
    }

    /// Adds text to the innermost open paragraph. Text outside of paragraphs is none.
    pub(crate) fn push(&mut self, text: &str) {
        let Some(open) = self.current() else { return };
        // A line is a paragraph: what ends lines becomes a space.
        for (number, line) in text.split(['\n', '\r']).enumerate() {
            if number > 0 {
                open.push(' ');
            }
            open.push_str(line);
        }
    }

    /// Adds text in which any white space is one space.
    pub(crate) fn push_collapsed(&mut self, text: &str) {
        let Some(open) = self.current() else { return };
        for (number, word) in text.split([' ', '\t', '\n', '\r']).enumerate() {
            if number > 0 && !open.is_empty() && !open.ends_with(' ') {
                open.push(' ');
            }
            open.push_str(word);
        }
    }

    fn current(&mut self) -> Option<&mut String> {
        self.open.last().and_then(|number| self.group.get_mut(*number))
    }

    pub(crate) fn finish(mut self) -> String {
        if !self.open.is_empty() {
            self.open.truncate(1);
            self.end(false);
        }
        self.text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inner_paragraphs_come_after_the_outer() {
        let mut paragraphs = Paragraphs::default();
        paragraphs.push("nowhere");
        paragraphs.begin();
        paragraphs.end(false);
        paragraphs.begin();
        paragraphs.push("a");
        paragraphs.begin();
        paragraphs.push("b\nb");
        paragraphs.end(false);
        paragraphs.push("c");
        paragraphs.begin();
        paragraphs.push_collapsed("  d \n");
        paragraphs.push_collapsed(" e");
        paragraphs.end(false);
        paragraphs.end(false);
        paragraphs.begin();
        paragraphs.push("f");
        paragraphs.end(true);
        paragraphs.begin();
        paragraphs.push("g");
        paragraphs.end(false);
        paragraphs.begin();
        assert_eq!(paragraphs.finish(), "\nac\nb b\nd e\nfg\n");
    }
}
