//! The package of an e-book: which pages it has, in which order.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

use percent_encoding::percent_decode_str;

use crate::Problem;
use crate::xml::{self, Attributes, Name, Visitor};

/// The names of the pages in reading order.
pub(super) fn pages(package: Vec<u8>, path: &str) -> Result<Vec<String>, Problem> {
    let mut book = Package::default();
    xml::walk(package, &mut book)?;
    let folder = path.rsplit_once('/').map_or("", |(folder, _)| folder);
    let pages = book.order.iter().filter_map(|id| book.pages.get(id)).map(|href| resolved(folder, href));
    // A page is read once, however often it is listed.
    let mut seen = BTreeSet::new();
    Ok(pages.filter(|page| seen.insert(page.clone())).collect())
}

#[derive(Default)]
struct Package {
    /// The pages by their ids: where each stands, as written.
    pages: BTreeMap<String, String>,
    /// The ids of what is read, in order.
    order: Vec<String>,
}

impl Visitor for Package {
    fn start(&mut self, name: Name<'_>, attributes: &Attributes<'_>) -> bool {
        match name {
            ("opf", "item") => {
                let kind = attributes.get("media-type").unwrap_or_default();
                let is_page = matches!(kind.as_str(), "application/xhtml+xml" | "text/html" | "text/x-oeb1-document");
                let properties = attributes.get("properties").unwrap_or_default();
                let is_contents = properties.split_ascii_whitespace().any(|property| property == "nav");
                if let (true, false, Some(id), Some(href)) =
                    (is_page, is_contents, attributes.get("id"), attributes.get("href"))
                {
                    self.pages.insert(id, href);
                }
            }
            ("opf", "itemref") if !attributes.is("linear", "no") => self.order.extend(attributes.get("idref")),
            _ => {}
        }
        true
    }
}

/// The name of a file in the archive, from an address relative to a folder in it.
fn resolved(folder: &str, href: &str) -> String {
    let path = href.split(['#', '?']).next().unwrap_or("");
    let path = percent_decoded(path);
    let mut parts: Vec<&str> = if path.starts_with('/') { Vec::new() } else { folder.split('/').collect() };
    for part in path.split('/') {
        match part {
            ".." => {
                parts.pop();
            }
            "." => {}
            part => parts.push(part),
        }
    }
    parts.retain(|part| !part.is_empty());
    parts.join("/")
}

/// An address without its `%20`s. What cannot be decoded stays as written.
fn percent_decoded(address: &str) -> String {
    percent_decode_str(address).decode_utf8().map_or_else(|_| address.to_owned(), Cow::into_owned)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn addresses_are_resolved() {
        for (folder, href, name) in [
            ("", "a.xhtml", "a.xhtml"),
            ("OEBPS", "a%20%C3%A9.xhtml#x", "OEBPS/a é.xhtml"),
            ("OEBPS/text", "../a//./b.xhtml?x", "OEBPS/a/b.xhtml"),
            ("OEBPS", "../../../etc/passwd", "etc/passwd"),
            ("OEBPS", "/a.xhtml", "a.xhtml"),
            ("", "100%.xhtml", "100%.xhtml"),
            ("", "%ff%2", "%ff%2"),
            ("", "", ""),
        ] {
            assert_eq!(resolved(folder, href), name);
        }
    }
}
