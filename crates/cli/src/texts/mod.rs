//! The texts of a run: which there are, and the work on all of them.

mod batches;
mod gather;
mod source;
mod stream;
mod trouble;
mod work;

pub(crate) use gather::{Discovery, FileFinder, gather};
pub(crate) use source::{Source, read};
pub(crate) use stream::in_order;
pub(crate) use work::{Worker, each};
