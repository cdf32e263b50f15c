//! What the client can, and what it was set to.

use std::path::PathBuf;

use lsp_types::{ClientCapabilities, InitializeParams, MarkupKind, PositionEncodingKind};
use serde_json::Value;
use untaught_config::EditorSettings;

use crate::positions::Encoding;
use crate::uri;

/// Where a client shows the summary of a story: once, and without anybody having to switch it on.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum SummaryPlace {
    /// Wherever it likes: it is sent to it by itself, as `untaught/summary`.
    Notification,
    /// At the end of the first line.
    Hint,
    /// Above the first line.
    Lens,
    /// Among the diagnostics.
    Diagnostic,
}

/// What was agreed on when the session began.
#[derive(Clone, Debug)]
pub(crate) struct Client {
    pub(crate) encoding: Encoding,
    /// It asks for diagnostics itself, and again when it is told that they have changed: then none are pushed. A client that cannot be
    /// told would keep showing those of before a change of the scope or the settings.
    pub(crate) pulls: bool,
    pub(crate) pulls_related: bool,
    pub(crate) related_information: bool,
    pub(crate) hover: MarkupKind,
    pub(crate) code_actions: bool,
    pub(crate) versioned_edits: bool,
    pub(crate) summary: SummaryPlace,
    pub(crate) watches: bool,
    pub(crate) tells_settings: bool,
    /// What it draws anew when asked to: diagnostics, inlay hints, code lenses.
    pub(crate) refreshes: [bool; 3],
}

impl Client {
    /// What was agreed on; `told` is what the client sent, of which the types do not know everything.
    pub(crate) fn new(params: &InitializeParams, told: &Value) -> Client {
        let can = &params.capabilities;
        let text = can.text_document.clone().unwrap_or_default();
        let workspace = can.workspace.clone().unwrap_or_default();
        let pull = text.diagnostic.as_ref().filter(|_| refreshes_diagnostics(told));
        let hover = text.hover.and_then(|hover| hover.content_format).unwrap_or_default();
        Client {
            encoding: encoding(can),
            pulls: pull.is_some(),
            pulls_related: pull.is_some_and(|pull| pull.related_document_support == Some(true)),
            related_information: text
                .publish_diagnostics
                .and_then(|push| push.related_information)
                .unwrap_or(pull.is_some()),
            hover: hover.into_iter().next().unwrap_or(MarkupKind::PlainText),
            code_actions: text.code_action.is_some_and(|action| action.code_action_literal_support.is_some()),
            versioned_edits: workspace.workspace_edit.and_then(|edit| edit.document_changes) == Some(true),
            summary: if told.pointer("/capabilities/experimental/untaughtSummary") == Some(&Value::Bool(true)) {
                SummaryPlace::Notification
            } else if text.inlay_hint.is_some() {
                SummaryPlace::Hint
            } else if text.code_lens.is_some() {
                SummaryPlace::Lens
            } else {
                SummaryPlace::Diagnostic
            },
            watches: workspace.did_change_watched_files.and_then(|watch| watch.dynamic_registration) == Some(true),
            tells_settings: workspace.configuration == Some(true),
            refreshes: [
                refreshes_diagnostics(told),
                workspace.inlay_hint.and_then(|hint| hint.refresh_support) == Some(true),
                workspace.code_lens.and_then(|lens| lens.refresh_support) == Some(true),
            ],
        }
    }
}

/// The types know this capability only by the name that it had before the protocol was settled.
fn refreshes_diagnostics(told: &Value) -> bool {
    let names = ["diagnostics", "diagnostic"];
    let said = names.map(|name| told.pointer(&format!("/capabilities/workspace/{name}/refreshSupport")));
    said.contains(&Some(&Value::Bool(true)))
}

/// Bytes where the client can count them, for the text is UTF-8 here.
fn encoding(can: &ClientCapabilities) -> Encoding {
    let offered = can.general.as_ref().and_then(|general| general.position_encodings.as_deref()).unwrap_or_default();
    let has = |kind: &PositionEncodingKind| offered.contains(kind);
    if has(&PositionEncodingKind::UTF8) {
        Encoding::Utf8
    } else if has(&PositionEncodingKind::UTF32) {
        Encoding::Utf32
    } else {
        Encoding::Utf16
    }
}

/// The folders of the client's workspace: none, one or several.
pub(crate) fn folders(params: &InitializeParams) -> Vec<PathBuf> {
    if let Some(folders) = &params.workspace_folders {
        return folders.iter().filter_map(|folder| uri::to_path(&folder.uri)).collect();
    }
    #[expect(deprecated, reason = "older clients know nothing else")]
    let root = params.root_uri.as_ref().and_then(uri::to_path);
    root.into_iter().collect()
}

/// Reads the client's settings: `{"untaught": {…}}` or the inner object alone. Values of another kind are ignored: it is the user's own
/// settings file.
pub(crate) fn settings(told: &Value) -> EditorSettings {
    let told = told.get("untaught").unwrap_or(told);
    let text = |key: &str| match told.get(key)? {
        Value::String(text) if !text.trim().is_empty() => Some(text.trim().to_owned()),
        Value::Number(number) => Some(number.to_string()),
        _ => None,
    };
    let names = told.get("names").filter(|names| !names.is_null()).map(|names| match names {
        Value::Array(names) => names.iter().filter_map(|name| name.as_str().map(str::to_owned)).collect(),
        Value::String(names) => names.split(',').map(|name| name.trim().to_owned()).collect(),
        _ => Vec::new(),
    });
    EditorSettings { scope: text("scope"), lesson: text("lesson"), names }
}

/// Whether a message of changed settings has any in it.
pub(crate) fn has_settings(told: &Value) -> bool {
    told.get("untaught").is_some_and(Value::is_object)
        || ["scope", "lesson", "names"].iter().any(|key| told.get(key).is_some())
}
