//! What the page asks.

use serde::Deserialize;
use untaught::LessonIndex;

/// A scope: the name of one that comes with the program, or the text of a scope file.
#[derive(Clone, PartialEq, Eq, Debug, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum ScopeSource {
    Name(String),
    Text(String),
}

/// What is asked; the rest of the question says of what.
#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum QuestionKind {
    /// Which scopes come with the program.
    Scopes,
    /// What a scope teaches: [`ScopeQuestion`].
    Scope,
    /// The marks of a story: [`StoryQuestion`].
    Mark,
    /// The same as a report in plain text: [`StoryQuestion`].
    Report,
    /// What would make enough of it readable: [`crate::plan::PlanQuestion`].
    Plan,
    /// All about one word: [`WordQuestion`].
    Word,
    /// The front matter of a text, and its story: [`TextQuestion`].
    Open,
    /// The same of a file, which may be a document: [`FileQuestion`].
    File,
    /// A story with its front matter: [`crate::story::SaveQuestion`].
    Save,
    /// Words for a lesson: [`crate::lists::WordsQuestion`].
    Words,
    /// A chain of words: [`crate::lists::ChainQuestion`].
    Chain,
    /// The sound boxes of words: [`crate::lists::BoxesQuestion`].
    Boxes,
    /// A listening list: [`crate::lists::ContrastQuestion`].
    Contrast,
    /// Words and sentences to spell: [`crate::lists::ListQuestion`].
    Dictation,
    /// The whole lesson: [`crate::lists::ListQuestion`].
    Pack,
    /// What the fields of a scope that is being written can be chosen from.
    DraftChoices,
    /// A scope to go on writing: [`crate::draft::BeginQuestion`].
    BeginDraft,
    /// The file of a scope that is being written, and its faults: [`crate::draft::DraftQuestion`].
    Draft,
    /// Lessons in pasted lines: [`crate::draft::LinesQuestion`].
    Lines,
    /// Patterns to choose: [`crate::catalogue::CatalogueQuestion`].
    Catalogue,
}

/// A question, of which only the kind has been read.
#[derive(Debug, Deserialize)]
pub(crate) struct AnyQuestion {
    pub(crate) ask: QuestionKind,
}

#[derive(Debug, Deserialize)]
pub(crate) struct ScopeQuestion {
    pub(crate) scope: ScopeSource,
}

#[derive(Debug, Deserialize)]
pub(crate) struct TextQuestion {
    pub(crate) text: String,
}

/// A file that was opened on the page.
#[derive(Debug, Deserialize)]
pub(crate) struct FileQuestion {
    pub(crate) name: String,
    /// Its bytes in base 64.
    pub(crate) data: String,
}

/// A story at a lesson.
#[derive(Debug, Deserialize)]
pub(crate) struct StoryQuestion {
    pub(crate) scope: ScopeSource,
    pub(crate) lesson: LessonIndex,
    pub(crate) text: String,
    #[serde(default)]
    pub(crate) title: String,
    /// Words the teacher pre-teaches, names first.
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
pub(crate) struct WordQuestion {
    pub(crate) scope: ScopeSource,
    pub(crate) lesson: LessonIndex,
    /// As it is written.
    pub(crate) word: String,
    /// The text before it in the story, to tell a noun from a verb.
    #[serde(default)]
    pub(crate) before: String,
    /// The text after it.
    #[serde(default)]
    pub(crate) after: String,
    #[serde(default)]
    pub(crate) declared: bool,
}
