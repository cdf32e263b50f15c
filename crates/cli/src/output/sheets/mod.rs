//! Tables that can be written in more than one format.

mod xlsx;

use std::borrow::Cow;

use untaught::messages;

pub(crate) use xlsx::workbook;

/// A table: its columns, and its rows as they are asked for, because a long shelf has many.
pub(crate) struct Table<'a> {
    /// What it is called for people.
    pub(crate) name: &'static str,
    pub(crate) columns: Vec<Column>,
    pub(crate) rows: Box<dyn Iterator<Item = Vec<Cell<'a>>> + 'a>,
}

/// A column by its name for programs, `first_readable`.
pub(crate) struct Column {
    pub(crate) name: String,
    /// In letters.
    pub(crate) width: usize,
    /// Whether it is one of many narrow columns of counts, in which nought says nothing.
    pub(crate) count: bool,
}

/// What a table says at a place.
#[derive(Clone, PartialEq, Debug)]
pub(crate) enum Cell<'a> {
    Empty,
    Text(Cow<'a, str>),
    /// The id of a lesson: a spreadsheet sorts those that are numbers as numbers.
    Id(&'a str),
    Number(usize),
    Percent(Option<f64>),
}

impl<'a> From<&'a str> for Cell<'a> {
    fn from(text: &'a str) -> Cell<'a> {
        Cell::Text(text.into())
    }
}

impl From<String> for Cell<'_> {
    fn from(text: String) -> Self {
        Cell::Text(text.into())
    }
}

impl From<usize> for Cell<'_> {
    fn from(number: usize) -> Self {
        Cell::Number(number)
    }
}

impl<'a, T: Into<Cell<'a>>> From<Option<T>> for Cell<'a> {
    fn from(value: Option<T>) -> Cell<'a> {
        value.map_or(Cell::Empty, Into::into)
    }
}

impl Cell<'_> {
    /// The cell as text: a percentage with two decimals.
    pub(crate) fn text(&self) -> Cow<'_, str> {
        match self {
            Cell::Empty => "".into(),
            Cell::Text(text) => text.as_ref().into(),
            Cell::Id(id) => (*id).into(),
            Cell::Number(number) => number.to_string().into(),
            Cell::Percent(percent) => {
                messages::rounded(*percent).map_or_else(String::new, |percent| format!("{percent:.2}")).into()
            }
        }
    }

    /// The number that an id is, if it is written as numbers are.
    fn id_as_number(&self) -> Option<u32> {
        let Cell::Id(id) = self else { return None };
        id.parse().ok().filter(|number: &u32| number.to_string() == *id)
    }
}
