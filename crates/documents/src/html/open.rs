//! The elements that are open at a place of a page.

use std::collections::HashMap;

use super::elements::{self, ElementRole};

/// An open element.
struct OpenElement {
    name: usize,
    hidden: bool,
    preformatted: bool,
}

/// The elements that are open, outermost first. Each step costs a look-up of a name, however deep the page is nested.
#[derive(Default)]
pub(super) struct OpenElements {
    elements: Vec<OpenElement>,
    names: HashMap<String, usize>,
    /// For each name, where in `elements` it is open.
    places: Vec<Vec<usize>>,
    hidden: usize,
    preformatted: usize,
}

impl OpenElements {
    /// Whether nothing of what stands here is shown.
    pub(super) fn is_hidden(&self) -> bool {
        self.hidden > 0
    }

    pub(super) fn is_preformatted(&self) -> bool {
        self.preformatted > 0
    }

    /// Ends what ends of itself where an element of that name begins.
    pub(super) fn make_way(&mut self, name: &str) {
        let (ended, scopes) = elements::ends_before(name);
        for ended in ended {
            self.end_within(ended, scopes);
        }
        if elements::role(name) == ElementRole::Block && !matches!(name, "body" | "html" | "head") {
            self.end_within("p", elements::PARAGRAPH_SCOPES);
        }
    }

    /// Opens an element.
    pub(super) fn begin(&mut self, name: &str, hidden: bool) {
        let number = match self.names.get(name) {
            Some(number) => *number,
            None => {
                self.places.push(Vec::new());
                self.names.insert(name.to_owned(), self.places.len() - 1);
                self.places.len() - 1
            }
        };
        let preformatted = elements::is_preformatted(name);
        self.hidden += usize::from(hidden);
        self.preformatted += usize::from(preformatted);
        self.places[number].push(self.elements.len());
        self.elements.push(OpenElement { name: number, hidden, preformatted });
    }

    /// Ends the innermost element of that name, and all within. An end without a beginning does nothing.
    pub(super) fn end(&mut self, name: &str) {
        if let Some(place) = self.innermost(name) {
            self.end_all_from(place);
        }
    }

    fn end_within(&mut self, name: &str, scopes: &[&str]) {
        let Some(place) = self.innermost(name) else { return };
        if scopes.iter().all(|scope| self.innermost(scope).is_none_or(|scope| scope < place)) {
            self.end_all_from(place);
        }
    }

    fn innermost(&self, name: &str) -> Option<usize> {
        self.places[*self.names.get(name)?].last().copied()
    }

    fn end_all_from(&mut self, place: usize) {
        while self.elements.len() > place {
            let Some(element) = self.elements.pop() else { return };
            self.places[element.name].pop();
            self.hidden -= usize::from(element.hidden);
            self.preformatted -= usize::from(element.preformatted);
        }
    }
}
