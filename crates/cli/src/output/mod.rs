//! Results go to standard output, everything else to standard error; control characters of a text never reach a terminal.

mod escape;
mod json;
mod link;
mod message;
mod outcome;
mod progress;
pub(crate) mod sheets;
mod sink;
mod stderr;
mod style;
pub(crate) mod table;

pub(crate) use escape::{is_unsafe, one_line, path_line, safe};
pub(crate) use json::{json, json_bytes};
pub(crate) use link::{link, uri};
pub(crate) use message::Message;
pub(crate) use outcome::{Failure, Outcome};
pub(crate) use progress::{progress, progress_is_over};
pub(crate) use sink::{Sink, goes_to_stdout, named, spare_the_stories};
pub(crate) use stderr::{complain, complain_about, complain_of, error_at, remark, usage};
pub(crate) use style::{DIM, STRONG, TAUGHT, UNTAUGHT, count, wrapped};
