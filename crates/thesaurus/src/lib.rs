//! Words of like meaning that a child can already read: what a writer may put in place of a word that is too hard.
//!
//! The groups of like meaning are WordNet's, without what is unfit for young children. They are packed when the crate is built and
//! read in place: no start-up, no memory.
//!
//! ```
//! use untaught::{Judge, LessonIndex, Reader, Scope};
//!
//! let reader = Reader::default();
//! let scope = Scope::parse("format: 1\nlessons:\n- teach: [b, i, g, s, a, d]\n", &reader).unwrap();
//! let judge = Judge::new(&reader, &scope);
//! assert_eq!(untaught_thesaurus::swaps("Large", "the ", &judge, LessonIndex::FIRST), ["Big"]);
//! ```

mod form;
mod packed;
mod swaps;

pub use swaps::{MOST, swaps};
