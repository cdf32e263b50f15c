//! `untaught` checks a story against a phonics scope and sequence and reports which words a child cannot yet be expected to
//! read, and why.
//!
//! The library takes text and returns findings; it does not open files or print. A [`Scope`] is parsed from the text of a
//! scope file; a [`Reader`] knows how words are pronounced and spelled; [`check`] uses both to judge a text at a lesson, and
//! [`Judge`] judges single words. [`messages`] writes all sentences for people; [`json`] has the reports for programs.
//!
//! ```
//! use untaught::{LessonIndex, Options, Reader, Scope, check};
//!
//! let reader = Reader::default();
//! let scope = Scope::parse("format: 1\nlessons:\n- teach: [s, a, t, m]\n- teach: [igh]\n", &reader).unwrap();
//! let report = check("Tam sat at night.", &scope, &reader, &Options::at(LessonIndex::FIRST));
//! assert_eq!(report.tokens.decodable, 3);
//! assert_eq!(report.findings[0].word(), "night");
//! ```
//!
//! # Worked examples
//!
//! They are also in the folder `examples`: `cargo run -p untaught --example check_text`.
//!
//! ## Check a text
//!
//! ```
#![doc = include_str!("../examples/check_text.rs")]
//! ```
//!
//! ## Explain a word
//!
//! ```
#![doc = include_str!("../examples/explain_word.rs")]
//! ```
//!
//! ## Find the lesson of a text
//!
//! ```
#![doc = include_str!("../examples/place_text.rs")]
//! ```
//!
//! ## List decodable words
//!
//! ```
#![doc = include_str!("../examples/decodable_words.rs")]
//! ```

mod advice;
mod bank;
mod check;
mod compare;
mod curve;
mod error;
mod explain;
mod focus;
pub mod json;
mod judge;
mod measures;
mod mending;
pub mod messages;
mod position;
mod practice;
mod scope;
mod text;
mod types;
mod versions;
mod word;
mod wording;
pub mod yaml;

pub use advice::{Advice, FEW, advise};
pub use bank::{Candidate, Decodable};
pub use check::{
    Checker, Counts, Finding, FocusCount, Memory, Options, PLACES, Report, TwoReadings, Type, WordAt, check, percent,
};
pub use compare::{Change, LessonMap, Move, ScopeComparison, compare};
pub use curve::{Curve, NeverReadable, Obstacle, all_obstacles, curve, never_readable, obstacles};
pub use error::Error;
pub use explain::{Explanation, PartExplanation, ReadingExplanation};
pub use focus::Focus;
pub use judge::{Cover, CoverStep, Judge, Need, Status, Verdict, skills_demanded};
pub use measures::{Measure, measures};
pub use mending::{MendingPlan, MendingStep, Remedy, mending_plan};
pub use position::Position;
pub use practice::{Practice, TaughtPattern};
pub use scope::{Chunk, ChunkId, Lesson, LessonIndex, Pattern, Scope, Skill, UnknownLesson};
pub use text::{FrontMatter, Lines, Token, TokenKind, Tokens, fold_word, front_matter, tokens};
pub use untaught_phonics as phonics;
pub use untaught_phonics::{Accent, Part, Reading};
pub use versions::DataVersions;
pub use word::{Reader, Word, WordOrigin};
pub use yaml::Fault;
