//! What is printed: a folder for each command that has several formats, a file for each format.

pub(crate) mod check;
pub(crate) mod comparison;
pub(crate) mod explain;
pub(crate) mod patterns;
pub(crate) mod place;
pub(crate) mod scope;
pub(crate) mod settings;
pub(crate) mod shelf;
mod titles;
