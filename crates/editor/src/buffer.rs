//! The texts that are open in the editor, saved or not.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use lsp_types::{TextDocumentContentChangeEvent, Uri};
use untaught_documents::Kind;

use crate::positions::{Encoding, LineIndex};
use crate::uri;

/// What an open text is for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum BufferRole {
    /// A story, as plain text or Markdown.
    Story(Kind),
    /// The settings of a folder, `untaught.yaml`.
    Settings,
    /// YAML: a scope file if it has lessons that are this program's.
    Yaml,
    /// Nothing that is read here.
    Other,
}

/// An open text.
#[derive(Debug)]
pub(crate) struct Buffer {
    pub(crate) uri: Uri,
    /// Where it is saved, if it is a file.
    pub(crate) path: Option<PathBuf>,
    pub(crate) role: BufferRole,
    pub(crate) version: i32,
    /// Another number for every state of every buffer.
    pub(crate) edition: u64,
    pub(crate) text: String,
    pub(crate) lines: LineIndex,
}

/// All of them, by URI.
#[derive(Debug)]
pub(crate) struct Buffers {
    pub(crate) open: BTreeMap<String, Buffer>,
    encoding: Encoding,
    editions: u64,
}

impl Buffers {
    pub(crate) fn new(encoding: Encoding) -> Buffers {
        Buffers { open: BTreeMap::new(), encoding, editions: 0 }
    }

    pub(crate) fn open(&mut self, uri: Uri, language: &str, version: i32, text: String) {
        self.editions += 1;
        let lines = LineIndex::new(&text, self.encoding);
        let (path, role) = (uri::to_path(&uri), role(&uri, language));
        let (key, edition) = (uri.as_str().to_owned(), self.editions);
        let buffer = Buffer { uri, path, role, version, edition, text, lines };
        self.open.insert(key, buffer);
    }

    /// Applies edits in their order; what lies outside the text is drawn in. Edits of a text that is not open are passed over.
    pub(crate) fn edit(&mut self, uri: &Uri, version: i32, changes: Vec<TextDocumentContentChangeEvent>) {
        let Some(buffer) = self.open.get_mut(uri.as_str()) else { return };
        for change in changes {
            match change.range {
                None => buffer.text = change.text,
                Some(range) => {
                    let (start, end) = (buffer.lines.to_offset(range.start), buffer.lines.to_offset(range.end));
                    buffer.text.replace_range(start.min(end)..start.max(end), &change.text);
                }
            }
            buffer.lines = LineIndex::new(&buffer.text, self.encoding);
        }
        self.editions += 1;
        buffer.version = version;
        buffer.edition = self.editions;
    }

    pub(crate) fn get(&self, uri: &Uri) -> Option<&Buffer> {
        self.open.get(uri.as_str())
    }

    /// The open text of a file.
    pub(crate) fn at(&self, path: &Path) -> Option<&Buffer> {
        self.open.values().find(|buffer| buffer.path.as_deref() == Some(path))
    }
}

impl Buffer {
    /// Whether it is YAML that is meant as a scope file. Other programs have files with `lessons:` too.
    pub(crate) fn is_scope(&self) -> bool {
        let lines = || self.text.lines().map(|line| line.trim_start_matches('\u{feff}'));
        let sign = |line: &str| line.starts_with("format:") || line.contains("teach:");
        self.role == BufferRole::Yaml && lines().any(|line| line.starts_with("lessons:")) && lines().any(sign)
    }
}

/// By the language the client gives, else by the ending of the name.
fn role(uri: &Uri, language: &str) -> BufferRole {
    let name = uri.as_str().rsplit(['/', ':']).next().unwrap_or_default().to_ascii_lowercase();
    let ending = name.rsplit_once('.').map_or("", |(_, ending)| ending);
    match language {
        _ if name == untaught_config::NAME => BufferRole::Settings,
        "yaml" => BufferRole::Yaml,
        "markdown" => BufferRole::Story(Kind::Markdown),
        // Some editors call plain text what they have no name for.
        "plaintext" | "text" | "txt" | "" => match ending {
            "md" | "markdown" => BufferRole::Story(Kind::Markdown),
            "yaml" | "yml" => BufferRole::Yaml,
            _ => BufferRole::Story(Kind::Text),
        },
        _ => match ending {
            "txt" | "text" => BufferRole::Story(Kind::Text),
            "md" | "markdown" => BufferRole::Story(Kind::Markdown),
            "yaml" | "yml" => BufferRole::Yaml,
            _ => BufferRole::Other,
        },
    }
}
