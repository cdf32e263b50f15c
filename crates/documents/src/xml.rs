//! XML as office documents and e-books have it inside.

use std::borrow::Cow;

use quick_xml::escape::resolve_predefined_entity;
use quick_xml::events::{BytesStart, Event};
use quick_xml::name::ResolveResult;
use quick_xml::reader::NsReader;

use crate::{Problem, decode};

/// How deep elements may be nested.
const MAX_DEPTH: usize = 1_000;
/// How many namespaces may be named at a place: real documents name some thirty.
const MAX_NAMESPACES: usize = 256;

/// The namespaces that readers know, under the names they usually go by.
const NAMESPACES: &[(&str, &str)] = &[
    ("http://schemas.openxmlformats.org/wordprocessingml/2006/main", "w"),
    ("http://purl.oclc.org/ooxml/wordprocessingml/main", "w"),
    ("http://schemas.openxmlformats.org/markup-compatibility/2006", "mc"),
    ("http://schemas.openxmlformats.org/package/2006/relationships", "rel"),
    ("urn:oasis:names:tc:opendocument:xmlns:office:1.0", "office"),
    ("urn:oasis:names:tc:opendocument:xmlns:text:1.0", "text"),
    ("urn:oasis:names:tc:opendocument:xmlns:style:1.0", "style"),
    ("urn:oasis:names:tc:opendocument:xmlns:table:1.0", "table"),
    ("urn:oasis:names:tc:opendocument:xmlns:svg-compatible:1.0", "svg"),
    ("urn:oasis:names:tc:opendocument:xmlns:manifest:1.0", "manifest"),
    ("urn:oasis:names:tc:opendocument:xmlns:container", "container"),
    ("http://www.idpf.org/2007/opf", "opf"),
    ("http://www.w3.org/2001/04/xmlenc#", "enc"),
];

/// An element's name: its namespace, under its usual name, and the name in it.
pub(crate) type Name<'n> = (&'static str, &'n str);

/// The attributes of an element.
pub(crate) struct Attributes<'e>(&'e BytesStart<'e>);

impl Attributes<'_> {
    /// The value of an attribute, by its name without its namespace.
    pub(crate) fn get(&self, name: &str) -> Option<String> {
        // Whether names are there twice is not checked: that takes long where there are many.
        let attribute = self.0.attributes().with_checks(false).filter_map(Result::ok).find(|attribute| {
            let key: &str = attribute.key.as_ref();
            key.rsplit_once(':').map_or(key, |(prefix, local)| if prefix == "xmlns" { "" } else { local }) == name
        })?;
        Some(unescaped(&attribute.value))
    }

    pub(crate) fn is(&self, name: &str, value: &str) -> bool {
        self.get(name).as_deref() == Some(value)
    }
}

/// An attribute's value with its entities decoded; one that cannot be decoded stays as written.
fn unescaped(value: &str) -> String {
    quick_xml::escape::unescape(value).map_or_else(|_| value.to_owned(), Cow::into_owned)
}

/// Receives the contents of a file.
pub(crate) trait Visitor {
    /// An element begins; the answer is whether to go into it. An element that is not gone into does not end either.
    fn start(&mut self, name: Name<'_>, attributes: &Attributes<'_>) -> bool;
    /// An element ends.
    fn end(&mut self, _name: Name<'_>) {}
    /// Text, its entities decoded.
    fn text(&mut self, _text: &str) {}
}

/// Tells a visitor what stands in a file. Only the five entities of XML and numbers are decoded; a file with entities of its own
/// is refused, for no program writes them and they can unfold without end.
pub(crate) fn walk(bytes: Vec<u8>, visitor: &mut impl Visitor) -> Result<(), Problem> {
    let xml = text(bytes)?;
    let mut reader = NsReader::from_str(xml.strip_prefix('\u{feff}').unwrap_or(&xml));
    reader.config_mut().expand_empty_elements = true;
    reader.config_mut().allow_dangling_amp = false;
    reader.resolver_mut().set_max_namespace_bindings(MAX_NAMESPACES);
    let mut depth = 0_usize;
    // How deep the element that is not gone into stands.
    let mut left_out = None;
    loop {
        let (namespace, event) = reader.read_resolved_event().map_err(|error| Problem::damaged(short(&error)))?;
        match event {
            Event::Start(element) => {
                depth += 1;
                if depth > MAX_DEPTH {
                    return Err(Problem::too_large("is nested too deeply"));
                }
                if left_out.is_none()
                    && !visitor.start((usual(&namespace), element.local_name().into_inner()), &Attributes(&element))
                {
                    left_out = Some(depth);
                }
            }
            Event::End(element) => {
                match left_out {
                    None => visitor.end((usual(&namespace), element.local_name().into_inner())),
                    Some(place) if place == depth => left_out = None,
                    Some(_) => {}
                }
                depth = depth.saturating_sub(1);
            }
            Event::Text(text) if left_out.is_none() => visitor.text(&text.xml10_content()),
            Event::CData(text) if left_out.is_none() => visitor.text(&text.xml10_content()),
            Event::GeneralRef(reference) => {
                let character = reference.resolve_char_ref().map_err(|error| Problem::damaged(short(&error)))?;
                let mut buffer = [0; 4];
                let text = match character {
                    Some(character) => &*character.encode_utf8(&mut buffer),
                    None => resolve_predefined_entity(&reference)
                        .ok_or_else(|| Problem::damaged("it defines its own entities, which are not decoded"))?,
                };
                if left_out.is_none() {
                    visitor.text(text);
                }
            }
            Event::Eof if depth == 0 => return Ok(()),
            Event::Eof => return Err(Problem::damaged("it breaks off")),
            _ => {}
        }
    }
}

fn usual(namespace: &ResolveResult<'_>) -> &'static str {
    let ResolveResult::Bound(namespace) = namespace else { return "" };
    let address: &str = namespace.as_ref();
    NAMESPACES.iter().find(|(known, _)| *known == address).map_or("", |(_, usual)| usual)
}

/// Bytes to text: UTF-8 or UTF-16, as XML is unless it says otherwise, and these programs do not.
fn text(bytes: Vec<u8>) -> Result<String, Problem> {
    match decode::decode(bytes) {
        Ok((text, None)) => Ok(text),
        _ => Err(Problem::damaged("its text is not UTF-8")),
    }
}

/// What an error says, without the quoted contents of the file.
fn short(error: &quick_xml::Error) -> &'static str {
    match error {
        quick_xml::Error::Namespace(_) => "its namespaces are ambiguous",
        quick_xml::Error::Escape(_) => "an entity in it cannot be decoded",
        _ => "its XML is not well-formed",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[derive(Default)]
    struct EventLog(String);

    impl Visitor for EventLog {
        fn start(&mut self, (space, name): Name<'_>, attributes: &Attributes<'_>) -> bool {
            let value = attributes.get("a").unwrap_or_default();
            self.0.push_str(&format!("<{space}:{name} {value}>"));
            name != "no"
        }
        fn end(&mut self, (_, name): Name<'_>) {
            self.0.push_str(&format!("</{name}>"));
        }
        fn text(&mut self, text: &str) {
            self.0.push_str(text);
        }
    }

    fn told(xml: &str) -> Result<String, String> {
        let mut told = EventLog::default();
        walk(xml.as_bytes().to_vec(), &mut told).map(|()| told.0).map_err(|problem| problem.to_string())
    }

    #[test]
    fn names_are_told_by_their_namespace() {
        let xml = "<?xml version='1.0'?><x:p xmlns:x='http://purl.oclc.org/ooxml/wordprocessingml/main' x:a='&lt;1'><p xmlns:a='b'/>\
                   <no><x>t</x>t</no>a&amp;b&#105;<![CDATA[<c>]]></x:p>";
        assert_eq!(told(xml).unwrap(), "<w:p <1><:p ></p><:no >a&bi<c></p>");
    }

    #[test]
    fn hostile_files_are_refused() {
        let deep = format!("{}{}", "<a>".repeat(MAX_DEPTH + 1), "</a>".repeat(MAX_DEPTH + 1));
        assert!(told(&deep).unwrap_err().contains("is nested too deeply"));
        let inside = format!("<no>{deep}</no>");
        assert!(told(&inside).unwrap_err().contains("is nested too deeply"));
        let bomb = "<!DOCTYPE a [<!ENTITY b 'ha'><!ENTITY c '&b;&b;'>]><a>&c;</a>";
        assert!(told(bomb).unwrap_err().contains("its own entities"));
        let external = "<!DOCTYPE a [<!ENTITY b SYSTEM 'file:///etc/passwd'>]><a>&b;</a>";
        assert!(told(external).unwrap_err().contains("its own entities"));
        let spaces: String = (0..=MAX_NAMESPACES).map(|n| format!(" xmlns:n{n}='u{n}'")).collect();
        assert!(told(&format!("<a{spaces}/>")).unwrap_err().contains("namespaces"));
        for broken in ["<a>", "<a></b>", "<a", "</a>", "<a>&", "<a>&#0;</a>", "<a>&#x110000;</a>", "<a>&b", "<!-- "] {
            assert!(told(broken).unwrap_err().contains("is damaged"), "{broken}");
        }
        assert!(walk(b"<a>\xe9</a>".to_vec(), &mut EventLog::default()).unwrap_err().to_string().contains("UTF-8"));
        // An attribute that stands there twice, many times.
        let many = format!("<a{}/>", " a='1'".repeat(200_000));
        assert_eq!(told(&many).unwrap(), "<:a 1></a>");
    }
}
