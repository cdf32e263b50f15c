//! One page to paste a story into.
//!
//! The page (`web`) asks questions as JSON, a [`Desk`] answers them as JSON: whether it is compiled into the page itself or stands
//! behind a server on the same machine, the answers are the same. No I/O here, so it builds for WebAssembly.
//!
//! ```
//! let mut desk = untaught_page::Desk::default();
//! let answer = desk.answer(r#"{"ask": "mark", "scope": {"name": "starter"}, "lesson": 4, "text": "Tam sat."}"#);
//! assert!(answer.contains(r#""words":2"#), "{answer}");
//! ```

mod ask;
mod catalogue;
mod desk;
mod draft;

mod known_scope;
mod lists;
mod mark;
mod plan;
mod refusal;
mod report;
mod scopes;
mod story;
pub mod web;
mod word;

pub use desk::Desk;
