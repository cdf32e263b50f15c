//! What the client tells: texts that open, change and close, files and folders that change.

use lsp_types::notification::{self as note, Notification as _};
use lsp_types::{
    DidChangeTextDocumentParams, DidChangeWorkspaceFoldersParams, DidCloseTextDocumentParams,
    DidOpenTextDocumentParams, Uri,
};
use serde_json::Value;

use crate::buffer::BufferRole;
use crate::state::State;
use crate::uri;

/// Takes what was told. Whether other texts than the one it was about may be judged otherwise now.
pub(crate) fn take(state: &mut State, method: &str, params: Value) -> Result<bool, String> {
    fn read<T: serde::de::DeserializeOwned>(params: Value) -> Result<T, String> {
        serde_json::from_value(params).map_err(|error| error.to_string())
    }
    Ok(match method {
        note::DidOpenTextDocument::METHOD => {
            let opened = read::<DidOpenTextDocumentParams>(params)?.text_document;
            let uri = opened.uri.clone();
            state.open(opened.uri, &opened.language_id, opened.version, opened.text);
            governs(state, &uri)
        }
        note::DidChangeTextDocument::METHOD => {
            let params: DidChangeTextDocumentParams = read(params)?;
            let about = params.text_document;
            state.buffers.edit(&about.uri, about.version, params.content_changes);
            governs(state, &about.uri)
        }
        note::DidCloseTextDocument::METHOD => {
            let uri = read::<DidCloseTextDocumentParams>(params)?.text_document.uri;
            let others = governs(state, &uri);
            state.close(&uri);
            others
        }
        note::DidChangeWorkspaceFolders::METHOD => {
            let event = read::<DidChangeWorkspaceFoldersParams>(params)?.event;
            let gone: Vec<_> = event.removed.iter().filter_map(|folder| uri::to_path(&folder.uri)).collect();
            state.folders.retain(|folder| !gone.contains(folder));
            state.folders.extend(event.added.iter().filter_map(|folder| uri::to_path(&folder.uri)));
            true
        }
        // Files are looked at whenever a story is checked: that there is news is enough.
        note::DidSaveTextDocument::METHOD | note::DidChangeWatchedFiles::METHOD => true,
        _ => false,
    })
}

/// Whether an open text may hold for others.
fn governs(state: &State, uri: &Uri) -> bool {
    state.buffers.get(uri).is_some_and(|buffer| matches!(buffer.role, BufferRole::Settings | BufferRole::Yaml))
}
