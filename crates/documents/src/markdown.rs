//! Markdown: what of it is read aloud.

use std::ops::Range;

use pulldown_cmark::{CowStr, Event, LinkType, Options, Parser, Tag, TagEnd};

use crate::Document;
use crate::extract::Extract;

/// What a reader of the page sees of a Markdown file. Front matter stays at the beginning, as it stands.
pub(crate) fn read(source: String, decoded_from: Option<&'static str>) -> Document {
    let mut story = Story::default();
    let mark = if source.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
    let start = mark + front_matter(&source[mark..]);
    story.extract.verbatim(&source, mark..start);
    story.front = start - mark;
    let options = Options::ENABLE_TABLES
        | Options::ENABLE_FOOTNOTES
        | Options::ENABLE_STRIKETHROUGH
        | Options::ENABLE_TASKLISTS
        | Options::ENABLE_HEADING_ATTRIBUTES;
    for (event, range) in Parser::new_ext(&source[start..], options).into_offset_iter() {
        story.event(&source, event, start + range.start..start + range.end);
    }
    Document::extracted(source, story.extract, decoded_from)
}

/// How many bytes of front matter a text begins with: a block with keys between lines of `---`, as the checker reads it.
fn front_matter(text: &str) -> usize {
    let mut lines = text.split_inclusive('\n');
    let Some(first) = lines.next().filter(|line| line.ends_with('\n') && bare(line) == "---") else { return 0 };
    let (mut end, mut blank, mut keyed) = (first.len(), true, false);
    for line in lines {
        end += line.len();
        if matches!(bare(line), "---" | "...") {
            return if blank || keyed { end } else { 0 };
        }
        blank &= line.trim().is_empty();
        keyed |= line.split_once(':').is_some_and(|(key, _)| key.chars().all(|c| c.is_ascii_lowercase() || c == '-'));
    }
    0
}

/// A line without what may stand after its mark.
fn bare(line: &str) -> &str {
    let line = line.strip_suffix('\n').map_or(line, |line| line.strip_suffix('\r').unwrap_or(line));
    line.trim_end_matches([' ', '\t'])
}

/// The gap between two pieces of text. The stronger wins.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
enum Gap {
    #[default]
    None,
    /// Something within a line was left out: what follows is a word of its own.
    Space,
    Line,
    Block,
}

/// Elements of HTML within a line whose text is left out.
const STRUCK: [&str; 7] = ["del", "s", "strike", "rt", "rp", "script", "style"];

#[derive(Default)]
struct Story {
    extract: Extract,
    front: usize,
    gap: Gap,
    /// How many elements are open within one that is left out, itself too.
    left_out: usize,
    /// How many lists are open.
    lists: usize,
    /// How many of each of the elements of HTML are open whose text is left out.
    struck: [usize; STRUCK.len()],
}

impl Story {
    fn event(&mut self, source: &str, event: Event<'_>, range: Range<usize>) {
        if self.left_out > 0 {
            match event {
                Event::Start(_) => self.left_out += 1,
                Event::End(_) => self.left_out -= 1,
                _ => {}
            }
            return;
        }
        match event {
            Event::Start(tag) => self.start(&tag),
            Event::End(tag) => self.end(tag),
            Event::Text(text) => self.text(source, &text, range),
            Event::Code(_) | Event::InlineMath(_) | Event::DisplayMath(_) => self.part(Gap::Space),
            Event::InlineHtml(html) => self.inline_html(&html),
            Event::SoftBreak | Event::HardBreak => self.part(Gap::Line),
            Event::Rule => self.part(Gap::Block),
            Event::Html(_) | Event::FootnoteReference(_) | Event::TaskListMarker(_) => {}
        }
    }

    fn start(&mut self, tag: &Tag<'_>) {
        match tag {
            Tag::CodeBlock(_) | Tag::HtmlBlock | Tag::FootnoteDefinition(_) | Tag::MetadataBlock(_) => {
                self.part(Gap::Block);
                self.left_out = 1;
            }
            Tag::Image { .. } => {
                self.part(Gap::Space);
                self.left_out = 1;
            }
            // Text that is its own target.
            Tag::Link { link_type: LinkType::Autolink | LinkType::Email, .. } => {
                self.part(Gap::Space);
                self.left_out = 1;
            }
            // What is struck through is taken back: the letters around it are one word.
            Tag::Strikethrough => self.left_out = 1,
            Tag::Emphasis | Tag::Strong | Tag::Link { .. } | Tag::Superscript | Tag::Subscript => {}
            Tag::Item | Tag::TableHead | Tag::TableRow | Tag::TableCell => self.block(Gap::Line),
            Tag::List(_) => {
                self.block(if self.lists == 0 { Gap::Block } else { Gap::Line });
                self.lists += 1;
            }
            _ => self.block(Gap::Block),
        }
    }

    fn end(&mut self, tag: TagEnd) {
        match tag {
            TagEnd::Emphasis | TagEnd::Strong | TagEnd::Link | TagEnd::Superscript | TagEnd::Subscript => {}
            TagEnd::Item | TagEnd::TableHead | TagEnd::TableRow | TagEnd::TableCell => self.block(Gap::Line),
            TagEnd::List(_) => {
                self.lists = self.lists.saturating_sub(1);
                self.block(if self.lists == 0 { Gap::Block } else { Gap::Line });
            }
            _ => self.block(Gap::Block),
        }
    }

    /// A block ends or begins: what was open within its last line is no longer.
    fn block(&mut self, gap: Gap) {
        self.struck = Default::default();
        self.part(gap);
    }

    fn part(&mut self, gap: Gap) {
        self.gap = self.gap.max(gap);
    }

    fn inline_html(&mut self, html: &CowStr<'_>) {
        let (closes, rest) = match html.strip_prefix("</") {
            Some(rest) => (true, rest),
            None => (false, html.get(1..).unwrap_or("")),
        };
        let name: String =
            rest.chars().take_while(char::is_ascii_alphanumeric).collect::<String>().to_ascii_lowercase();
        match name.as_str() {
            "br" => self.part(Gap::Line),
            "img" => self.part(Gap::Space),
            name => {
                if let Some(number) = STRUCK.iter().position(|struck| *struck == name) {
                    let open = &mut self.struck[number];
                    *open = if closes { open.saturating_sub(1) } else { *open + 1 };
                }
            }
        }
    }

    fn text(&mut self, source: &str, text: &str, range: Range<usize>) {
        if self.struck.iter().any(|open| *open > 0) || text.is_empty() {
            return;
        }
        let written = &self.extract.text()[self.front..];
        let spaced = || written.ends_with(char::is_whitespace) || text.starts_with(char::is_whitespace);
        let gap = match self.gap {
            _ if written.is_empty() => "",
            Gap::None => "",
            Gap::Space if spaced() => "",
            Gap::Space => " ",
            Gap::Line => "\n",
            Gap::Block => "\n\n",
        };
        self.gap = Gap::None;
        if !gap.is_empty() {
            self.extract.gap(source, gap, range.start);
        }
        if source.get(range.clone()) == Some(text) {
            self.extract.verbatim(source, range);
        } else {
            self.extract.instead(range, text);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(source: &str) -> String {
        read(source.to_owned(), None).text().to_owned()
    }

    /// Where each of the words comes from.
    fn places(source: &str, words: &[&str]) -> Vec<usize> {
        let document = read(source.to_owned(), None);
        words.iter().map(|word| document.to_source(document.text().find(word).unwrap())).collect()
    }

    #[test]
    fn blocks_are_parted_and_marks_left_out() {
        let source = "# The *big* kite {#kite}\n\nSam sat\non a log.  \nTab ran.\n\n> a quote\n\n- one\n- two\n  - three\n\n1. [x] four\n\n---\n\nlast\n====\n";
        assert_eq!(
            text(source),
            "The big kite\n\nSam sat\non a log.\nTab ran.\n\na quote\n\none\ntwo\nthree\n\nfour\n\nlast"
        );
        assert_eq!(text("- [ ] a\n- [x] b\n"), "a\nb");
        assert_eq!(text("| a b | c |\n|---|---|\n| d | e \\| f |\n"), "a b\nc\nd\ne | f");
    }

    #[test]
    fn a_word_is_one_word_whatever_is_marked_in_it() {
        assert_eq!(text("f**ish** and [sh](a.html 'x')op and w<b>is</b>h and c\\*t"), "fish and shop and wish and c*t");
        assert_eq!(text("f~~l~~ish s<del>l</del>ip s<S>l</S>ip"), "fish sip sip");
        assert_eq!(
            places("a f**ish** &amp; caf&eacute; x", &["f", "ish", "&", "caf", "é", "x"]),
            [2, 5, 11, 17, 20, 29]
        );
    }

    #[test]
    fn what_is_not_read_is_left_out() {
        assert_eq!(text("a `code` b\n\n```\ncode\n```\n\n    code\n\nc"), "a  b\n\nc");
        assert_eq!(text("a`b`c ![alt *text*](x.png)d<img src=x>e"), "a c d e");
        assert_eq!(text("<div>\nblock\n</div>\n\n<!-- no\n\nno -->\n\na <!-- no --> b"), "a  b");
        assert_eq!(text("fish[^1]. <https://a.example> b\n\n[^1]: A note.\n\n[ref]: x 'title'\n"), "fish.  b");
        assert_eq!(text("a<br>b<br/>c"), "a\nb\nc");
        assert_eq!(text("<del>a\n\nb"), "b");
    }

    #[test]
    fn front_matter_stays_as_it_stands() {
        let source = "---\nlesson: 3\nnames: [*Tab*]\n---\n# Tab\n";
        assert_eq!(text(source), "---\nlesson: 3\nnames: [*Tab*]\n---\nTab");
        let document = read(source.to_owned(), None);
        assert_eq!(document.to_source(4), 4);
        assert_eq!(document.to_source(document.text().rfind("Tab").unwrap()), source.rfind("Tab").unwrap());
        assert_eq!(text("\u{feff}---\r\nlesson: 3\r\n---\r\n\r\n*Tab*"), "---\r\nlesson: 3\r\n---\r\nTab");
        assert_eq!(text("---\nSam sat.\n---\nTab ran."), "Sam sat.\n\nTab ran.");
        assert_eq!(text("---\nlesson: 3\n"), "lesson: 3");
        assert_eq!(front_matter("---\n---"), 7);
        assert_eq!(front_matter("---"), 0);
        assert_eq!(front_matter("--- a\nb: c\n---\n"), 0);
        assert_eq!(front_matter("---\nA story: one\nb: c\n...\nx"), 26);
    }

    #[test]
    fn a_file_without_marks_needs_one_piece() {
        let source = "Sam sat.\nTab ran.\n\nSam ran.";
        let document = read(source.to_owned(), None);
        assert_eq!(document.text(), source);
        assert!((0..=source.len()).all(|at| document.to_source(at) == at));
        assert_eq!(places("a\r\nb\r\n\r\nc", &["a", "b", "c"]), [0, 3, 8]);
        assert_eq!(text(""), "");
    }
}
