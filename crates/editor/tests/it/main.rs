//! The language server as an editor speaks to it. One program, so that it is linked once.

mod common;
mod edits;
mod files;
mod session;
mod words;
