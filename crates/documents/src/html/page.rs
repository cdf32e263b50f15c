//! A page, tag by tag.

use html5gum::emitters::callback::CallbackEvent;
use html5gum::{Span, State};

use super::elements::{self, ElementRole};
use super::events;
use super::open::OpenElements;
use super::text::Flow;
use crate::extract::Extract;

/// Reads a page. Elements are open in a list, not on the stack: nesting costs memory only.
pub(super) fn read(source: &str, line_break: char) -> Extract {
    let mark = if source.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
    let mut page = HtmlPage {
        flow: Flow::new(source, mark, line_break),
        open: OpenElements::default(),
        tag: Tag::default(),
        read: 0,
    };
    events::read(&source[mark..], &mut |event, span| page.event(event, span));
    page.flow.finish()
}

struct HtmlPage<'s> {
    flow: Flow<'s>,
    open: OpenElements,
    tag: Tag,
    /// Where the last tag or comment ended: text begins there.
    read: usize,
}

/// The tag that is being read.
#[derive(Default)]
struct Tag {
    name: String,
    attribute: String,
    hidden: bool,
}

impl HtmlPage<'_> {
    fn event(&mut self, event: &CallbackEvent<'_>, span: Span<usize>) -> Option<State> {
        match event {
            CallbackEvent::String { value } => {
                if !self.open.is_hidden() {
                    let text = String::from_utf8_lossy(value);
                    self.flow.text(&text, self.read..span.end, self.open.is_preformatted());
                }
            }
            CallbackEvent::OpenStartTag { name } => {
                self.tag = Tag { name: String::from_utf8_lossy(name).into_owned(), ..Tag::default() };
            }
            CallbackEvent::AttributeName { name } => {
                self.tag.attribute = String::from_utf8_lossy(name).into_owned();
                // The value, if it has one, comes after.
                self.tag.hidden |= elements::hides(&self.tag.attribute, "");
            }
            CallbackEvent::AttributeValue { value } => {
                self.tag.hidden |= elements::hides(&self.tag.attribute, &String::from_utf8_lossy(value));
            }
            CallbackEvent::CloseStartTag { self_closing } => {
                self.read = span.end;
                return self.start(*self_closing);
            }
            CallbackEvent::EndTag { name } => {
                self.read = span.end;
                // What stands in an end tag like an attribute belongs to no element.
                self.tag = Tag::default();
                self.end(&String::from_utf8_lossy(name));
            }
            CallbackEvent::Comment { .. } | CallbackEvent::Doctype { .. } => self.read = span.end,
            CallbackEvent::Error(_) => {}
        }
        None
    }

    /// An element begins. If what follows is not to be read as tags, the answer says how.
    fn start(&mut self, self_closing: bool) -> Option<State> {
        let tag = std::mem::take(&mut self.tag);
        let name = tag.name.as_str();
        self.open.make_way(name);
        let role = elements::role(name);
        if !self.open.is_hidden() {
            match (name, role) {
                ("br", _) => self.flow.line_break(),
                ("img" | "input" | "embed" | "select" | "textarea" | "iframe" | "object" | "svg" | "math", _) => {
                    self.flow.space()
                }
                (_, ElementRole::Block) => self.flow.block(),
                _ => {}
            }
        }
        // XHTML closes an element in its first tag; where HTML does not know that, nobody writes it.
        if self_closing || elements::is_void(name) {
            return None;
        }
        self.open.begin(name, tag.hidden || role == ElementRole::LeftOut);
        match name {
            "title" | "textarea" => Some(State::RcData),
            "script" => Some(State::ScriptData),
            "style" | "iframe" | "xmp" | "noembed" | "noframes" => Some(State::RawText),
            _ => None,
        }
    }

    fn end(&mut self, name: &str) {
        let hidden = self.open.is_hidden();
        self.open.end(name);
        if hidden && self.open.is_hidden() {
            return;
        }
        match (name, elements::role(name)) {
            // Browsers show these two as if they began something.
            ("br", _) => self.flow.line_break(),
            (_, ElementRole::Block) => self.flow.block(),
            _ => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text(source: &str) -> String {
        read(source, '\n').finish().0
    }

    #[test]
    fn blocks_part_words_and_inline_elements_do_not() {
        assert_eq!(text("<p>f<b>ish</b> and <i>c</i>hips<p>two"), "fish and chips\ntwo");
        assert_eq!(text("<ul>\n <li>one\n <li>two\n</ul>three"), "one\ntwo\nthree");
        assert_eq!(text("<table><tr><td>a<td>b<tr><th>c</table>"), "a\nb\nc");
        assert_eq!(text("a<br>b<br/>c</br>d<hr>e"), "a\nb\nc\nd\ne");
        assert_eq!(text("<div>a<div>b</div>c</div><h1>d</h1>e"), "a\nb\nc\nd\ne");
        assert_eq!(text("sun<wbr>set a&shy;b x<img alt=no>y"), "sunset a\u{ad}b x y");
    }

    #[test]
    fn white_space_is_one_space_but_in_preformatted_text() {
        assert_eq!(text("<p>\n  one\n  two \t three <b> four</b> </p> \n <p> five</p>"), "one two three four\nfive");
        assert_eq!(text("<pre>one\n  two</pre> three\n four"), "one\n  two\nthree four");
        assert_eq!(text("a&nbsp;&nbsp;b"), "a\u{a0}\u{a0}b");
    }

    #[test]
    fn what_is_not_shown_is_left_out() {
        assert_eq!(
            text(
                "<!DOCTYPE html><head><title>no &amp; no</title><style>no</style></head><body>a<!-- no --> b<script>no < no</script>"
            ),
            "a b"
        );
        assert_eq!(
            text("<p hidden>no<p>a<span hidden>no <b>no</b></span>b<div style='display:none'>no<p>no</div>c"),
            "ab\nc"
        );
        assert_eq!(text("a <i aria-hidden=true>no</i><i aria-hidden=false>b</i> <del>no</del><s>no</s>c"), "a b c");
        assert_eq!(text("<ruby>a<rp>(<rt>no<rp>)</ruby>b <ruby>c<rt>no</rt></ruby>d"), "ab cd");
        assert_eq!(
            text(
                "<template>no</template><noscript>no <b>no</b></noscript><textarea>no</textarea><svg><title>no</title><text>no</text></svg>a"
            ),
            "a"
        );
        assert_eq!(text("fish<a role=doc-noteref href=#n>1</a>.<section role='doc-endnotes'><p>no</section>"), "fish.");
    }

    #[test]
    fn an_element_that_closes_itself_is_empty() {
        assert_eq!(text("<head><title/><script src='a.js'/><style/></head><p>a</p><a id='x'/>b"), "a\nb");
    }

    #[test]
    fn faults_of_nesting_do_no_harm() {
        assert_eq!(text("</b></p></div>a<b>b</i>c"), "abc");
        assert_eq!(text("<div hidden>no</span>no</div>a"), "a");
        assert_eq!(text("a </p hidden>b"), "a\nb");
        assert_eq!(text("a <"), "a <");
        assert_eq!(text("a <b"), "a");
        assert_eq!(text("a <!-- b"), "a");
        assert_eq!(text("1 < 2 & 3 > 2 &unknown; &"), "1 < 2 & 3 > 2 &unknown; &");
        let deep = format!("{}a{}", "<div>".repeat(300_000), "</b></div>".repeat(300_000));
        assert_eq!(text(&deep), "a");
        // What takes long if anything is looked at twice.
        assert_eq!(text(&"x</>".repeat(500_000)).len(), 500_000);
        assert_eq!(text(&"&a<p>".repeat(200_000)).len(), 599_999);
    }

    #[test]
    fn the_way_back_leads_to_what_is_shown() {
        let source =
            "\u{feff}<p title='x'>caf&eacute; <!-- - --> f<b>ish</b>\r\n &amp; ch&#105;ps</p>\r\n<p>&notit; a</>b end";
        let (text, map) = read(source, '\n').finish();
        assert_eq!(text, "café fish & chips\n¬it; ab end");
        for (shown, stands) in [
            ("caf", "caf"),
            ("é", "&eacute;"),
            ("f", "f&"),
            ("ish", "ish"),
            ("&", "&amp;"),
            ("ch", "ch&#"),
            ("ps", "ps<"),
            ("ab", "a</>b"),
            ("b end", "b end"),
            ("end", "end"),
        ] {
            let at = map.to_source(text.rfind(shown).unwrap());
            if shown == "f" {
                assert!(source[at..].starts_with("f<b>"), "{}", &source[at..]);
            } else {
                assert!(source[at..].starts_with(stands), "{shown}: {}", &source[at..]);
            }
        }
    }
}
