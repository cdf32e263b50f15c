//! What is found out about texts: each one checked, its place in a scope, and a folder of them as a shelf.

mod checked;
mod mending;
mod placement;
mod refit;
mod shelf;

pub(crate) use checked::{CheckedText, Detail, Extent, Shortfall, Threshold, check};
pub(crate) use mending::Mending;
pub(crate) use placement::{Placement, place};
pub(crate) use refit::{OtherScope, Refit, lesson_map, refit};
pub(crate) use shelf::{
    Book, BookDraft, Fit, LessonSeries, PatternSeries, Shelf, SightSeries, Timing, Trace, Vocabulary, new_words,
};
