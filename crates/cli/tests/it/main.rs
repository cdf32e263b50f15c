//! The command as it is typed. One program, so that it is linked once.

mod cli;
mod documents;
mod editor;
mod formats;
mod hostile;
mod html;
mod json;
mod large;
mod lists;
mod messages;
mod output;
mod page;
mod readme;
mod records;
mod regression;
mod schemas;
mod series;
mod shelf;
mod shell;
mod support;
mod terminal;
