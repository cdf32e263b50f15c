//! Sorted lists of words, one text each, behind one Bloom filter.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use crate::{bloom, generate, generate_deflated};

/// The lists made so far, and the filter for all of their lines.
pub(crate) struct WordLists {
    source: String,
    filter: Vec<u8>,
}

impl Default for WordLists {
    fn default() -> Self {
        WordLists { source: String::new(), filter: vec![0; bloom::BYTES] }
    }
}

impl WordLists {
    /// Adds a list under the name of the constant it becomes.
    pub(crate) fn add<'w>(&mut self, name: &str, words: impl IntoIterator<Item = &'w str>) {
        let words: BTreeSet<&str> = words.into_iter().collect();
        for word in &words {
            let bit = bloom::bit(word.bytes());
            self.filter[bit / 8] |= 1 << (bit % 8);
        }
        // One text with a line a word: a table of slices would be relocated at every start.
        let text = words.into_iter().collect::<Vec<_>>().join("\n");
        let file = format!("{}.bin", name.to_lowercase());
        generate_deflated(&file, &text);
        let _ = writeln!(
            self.source,
            "pub(crate) static {name}: WordList = \
             WordList(LazyLock::new(|| inflated(include_bytes!(concat!(env!(\"OUT_DIR\"), \"/{file}\")))));"
        );
    }

    pub(crate) fn write(&self) {
        generate("word_lists.rs", &self.source);
        generate("bloom.bin", &self.filter);
    }
}
