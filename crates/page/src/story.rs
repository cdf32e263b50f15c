//! Stories as files: front matter and story, as the command reads them.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use serde::{Deserialize, Serialize};
use untaught::yaml::quoted;
use untaught::{Fault, front_matter, messages};
use untaught_documents::Kind;

use crate::ask::FileQuestion;
use crate::refusal::FaultAnswer;

/// A text that was opened.
#[derive(Serialize)]
pub(crate) struct StoryParts {
    title: String,
    lesson: Option<String>,
    scope: Option<String>,
    names: Vec<String>,
    story_words: Vec<String>,
    focus: Vec<String>,
    story: String,
    /// Whether there was front matter.
    front: bool,
    /// What is wrong with the front matter, which then is left in the story.
    fault: Option<FaultAnswer>,
}

/// Parts front matter from story. Nothing is lost: front matter with a fault stays in the story.
pub(crate) fn open(text: &str) -> StoryParts {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let (front, start, fault): (_, _, Option<Fault>) = match front_matter(text) {
        Ok((front, start)) => (front, start, None),
        Err(fault) => (untaught::FrontMatter::default(), 0, Some(fault)),
    };
    StoryParts {
        title: front.title.unwrap_or_default(),
        lesson: front.lesson,
        scope: front.scope,
        names: front.names,
        story_words: front.story_words,
        focus: front.focus,
        story: text[start..].trim_start_matches(['\r', '\n']).to_owned(),
        front: start > 0,
        fault: fault.as_ref().map(FaultAnswer::from),
    }
}

/// The longest file that is read, in bytes: no story is so long.
const LONGEST: usize = 16 << 20;

/// Opens a file as the command reads it: a document, a page, plain text in whatever encoding.
pub(crate) fn open_file(asked: &FileQuestion) -> Result<StoryParts, String> {
    let name = messages::excerpt(&asked.name);
    let bytes = STANDARD.decode(&asked.data).map_err(|_| format!("{name} did not arrive whole"))?;
    if bytes.len() > LONGEST {
        return Err(format!("{name} is larger than {} MB, which no story is", LONGEST >> 20));
    }
    let document = Kind::of(&asked.name, &bytes).and_then(|kind| untaught_documents::read(kind, bytes));
    let document = document.map_err(|problem| format!("{name} {problem}"))?;
    Ok(open(document.text()))
}

/// A story to be saved.
#[derive(Debug, Deserialize)]
pub(crate) struct SaveQuestion {
    #[serde(default)]
    title: String,
    lesson: Option<String>,
    scope: Option<String>,
    #[serde(default)]
    names: Vec<String>,
    #[serde(default)]
    story_words: Vec<String>,
    #[serde(default)]
    focus: Vec<String>,
    story: String,
}

/// A file's text.
#[derive(Serialize)]
pub(crate) struct StoryFile {
    text: String,
}

/// The story with its front matter, as [`front_matter`] reads it.
pub(crate) fn save(saved: &SaveQuestion) -> StoryFile {
    let mut front = String::new();
    let mut line = |key: &str, value: String| front += &format!("{key}: {value}\n");
    let lesson = saved.lesson.as_ref().map(|id| {
        let number = id.parse::<u64>().is_ok_and(|number| number.to_string() == *id);
        if number { id.clone() } else { quoted(id) }
    });
    let title = Some(saved.title.trim()).filter(|title| !title.is_empty());
    for (key, value) in
        [("title", title.map(quoted)), ("lesson", lesson), ("scope", saved.scope.as_deref().map(quoted))]
    {
        if let Some(value) = value {
            line(key, value);
        }
    }
    for (key, words) in [("names", &saved.names), ("story-words", &saved.story_words), ("focus", &saved.focus)] {
        if !words.is_empty() {
            let words: Vec<String> = words.iter().map(|word| quoted(word)).collect();
            line(key, format!("[{}]", words.join(", ")));
        }
    }
    let story = saved.story.trim_end();
    let front = if front.is_empty() { front } else { format!("---\n{front}---\n") };
    StoryFile { text: format!("{front}{story}\n") }
}
