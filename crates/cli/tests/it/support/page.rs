//! Pages as a browser takes them apart: elements with their attributes and text.

use std::collections::BTreeMap;

use html5gum::{DefaultEmitter, Token, Tokenizer};

/// An element.
#[derive(Debug)]
pub(crate) struct Element {
    pub(crate) name: String,
    pub(crate) attributes: BTreeMap<String, String>,
    /// The text in it and in all that it holds.
    pub(crate) text: String,
    /// The numbers of the elements around it, outermost first.
    around: Vec<usize>,
}

/// The elements of a page in order.
#[derive(Debug)]
pub(crate) struct Page {
    pub(crate) elements: Vec<Element>,
}

/// Elements that end where they begin.
const EMPTY: [&str; 4] = ["meta", "br", "img", "link"];

impl Page {
    /// Takes a page apart. A page that a browser would have to mend fails the test.
    pub(crate) fn read(html: &str) -> Page {
        let mut emitter = DefaultEmitter::default();
        emitter.naively_switch_states(true);
        let (mut elements, mut open): (Vec<Element>, Vec<usize>) = (Vec::new(), Vec::new());
        for token in Tokenizer::new_with_emitter(html, emitter).flatten() {
            match token {
                Token::StartTag(tag) => {
                    let name = String::from_utf8(tag.name.to_vec()).unwrap();
                    let attributes = tag.attributes.iter().map(|(name, value)| (utf8(name), utf8(value)));
                    let (attributes, around) = (attributes.collect(), open.clone());
                    if !tag.self_closing && !EMPTY.contains(&name.as_str()) {
                        open.push(elements.len());
                    }
                    elements.push(Element { name, attributes, text: String::new(), around });
                }
                Token::EndTag(tag) => {
                    let last = open.pop().expect("an open element");
                    assert_eq!(elements[last].name.as_bytes(), &tag.name[..], "{:?}", elements[last]);
                }
                Token::String(text) => {
                    for number in &open {
                        elements[*number].text += std::str::from_utf8(&text).unwrap();
                    }
                }
                Token::Doctype(_) => assert!(elements.is_empty()),
                Token::Comment(comment) => panic!("a comment: {comment:?}"),
                Token::Error(error) => panic!("{error:?}"),
            }
        }
        assert!(open.is_empty(), "{:?}", open.iter().map(|number| &elements[*number].name).collect::<Vec<_>>());
        Page { elements }
    }

    /// The elements of a name with a class, any for an empty one.
    pub(crate) fn all<'p>(&'p self, name: &'p str, class: &'p str) -> impl Iterator<Item = &'p Element> {
        self.elements.iter().filter(move |element| element.name == name && (class.is_empty() || element.has(class)))
    }

    /// The elements in another.
    pub(crate) fn within<'p>(&'p self, outer: &Element) -> impl Iterator<Item = &'p Element> {
        let number =
            self.elements.iter().position(|element| std::ptr::eq(element, outer)).expect("an element of the page");
        self.elements.iter().filter(move |element| element.around.contains(&number))
    }

    pub(crate) fn by_id(&self, id: &str) -> Option<&Element> {
        self.elements.iter().find(|element| element.attributes.get("id").is_some_and(|known| known == id))
    }

    /// The rows of a table: the text of each cell.
    pub(crate) fn rows(&self, table: &Element) -> Vec<Vec<&str>> {
        let rows = self.within(table).filter(|element| element.name == "tr");
        rows.map(|row| {
            self.within(row)
                .filter(|cell| cell.name == "td" || cell.name == "th")
                .map(|cell| cell.text.trim())
                .collect()
        })
        .collect()
    }
}

impl Element {
    pub(crate) fn has(&self, class: &str) -> bool {
        self.attributes.get("class").is_some_and(|classes| classes.split(' ').any(|one| one == class))
    }
}

fn utf8(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).unwrap()
}
