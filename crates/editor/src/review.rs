//! What has been found in an open text, and what the client knows of it.

use untaught::Fault;

use crate::story::CheckedStory;

/// What has been found in an open text.
#[derive(Debug)]
pub(crate) struct Review {
    /// What the last check found, if it is a story.
    pub(crate) story: Option<CheckedStory>,
    /// Another number for every check of every story that found something new.
    pub(crate) check: u64,
    /// Whether the story was checked anew since its diagnostics were last pushed.
    pub(crate) fresh: bool,
    /// What is wrong with a scope file or settings file, and the edition that it applies to.
    pub(crate) faults: Option<(u64, Vec<Fault>)>,
    /// The version whose diagnostics were last pushed.
    pub(crate) pushed: Option<i32>,
    /// The message that pushed them, if it is a scope file or settings file.
    pub(crate) message: String,
    /// The summary that was last sent, if the client has them sent.
    pub(crate) summary: Option<String>,
}

impl Default for Review {
    /// Nothing has been found yet, and nothing pushed.
    fn default() -> Review {
        Review { story: None, check: 0, fresh: true, faults: None, pushed: None, message: String::new(), summary: None }
    }
}
