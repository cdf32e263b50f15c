//! What the page asks.

use serde::Deserialize;
use untaught::Place;

/// A scope: the name of one that comes with the program, or the text of a scope file.
#[derive(Clone, PartialEq, Eq, Debug, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum Source {
    Name(String),
    Text(String),
}

/// A question.
#[derive(Debug, Deserialize)]
#[serde(tag = "ask", rename_all = "snake_case", deny_unknown_fields)]
pub(crate) enum Ask {
    /// Which scopes come with the program.
    Scopes,
    /// What a scope teaches.
    Scope { scope: Source },
    /// The marks of a story.
    Mark(Story),
    /// The same as a report in plain text.
    Report(Story),
    /// All about one word.
    Word(AboutWord),
    /// The front matter of a text, and its story.
    Open { text: String },
    /// A story with its front matter.
    Save(Box<crate::story::Saved>),
    /// Words for a lesson.
    Words(crate::lists::Words),
    /// A chain of words.
    Chain(crate::lists::Chain),
    /// The sound boxes of words.
    Boxes { text: String },
    /// A listening list.
    Contrast(crate::lists::Contrast),
    /// Words and sentences to spell.
    Dictation(crate::lists::Drawn),
    /// The whole lesson.
    Pack(crate::lists::Drawn),
}

/// A story at a lesson.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Story {
    pub(crate) scope: Source,
    pub(crate) lesson: Place,
    pub(crate) text: String,
    #[serde(default)]
    pub(crate) title: String,
    /// Words told to the child beforehand, names first.
    #[serde(default)]
    pub(crate) names: Vec<String>,
    #[serde(default)]
    pub(crate) story_words: Vec<String>,
    /// Patterns to practise, if not those of the lesson.
    #[serde(default)]
    pub(crate) focus: Vec<String>,
}

/// A word at a lesson.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct AboutWord {
    pub(crate) scope: Source,
    pub(crate) lesson: Place,
    /// As it is written.
    pub(crate) word: String,
    #[serde(default)]
    pub(crate) declared: bool,
}
