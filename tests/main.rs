//! What holds across the crates. One program, so that it is linked once.

mod accents;
mod covering;
mod derived;
mod letters;
mod properties;
mod published_tables;
mod readers;
mod shared;
mod sources;
mod standards;
mod targets;
mod verdicts;
