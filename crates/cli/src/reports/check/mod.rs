//! The formats of `untaught check`: a file each, and the list of them in `formats`.

mod csv;
mod format;
mod formats;
mod github;
mod html;
mod json;
mod jsonl;
mod junit;
mod lines;
mod pieces;
mod plan;
mod sarif;
mod sentences;
mod summary;
mod text;
mod untaught_words;

pub(crate) use format::{Format, RunTotals};
pub(crate) use formats::chosen;
pub(crate) use jsonl::line;
pub(crate) use summary::StorySummary;
