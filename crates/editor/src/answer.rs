//! What the client asks for.

use std::collections::BTreeMap;

use lsp_types::request::{self, Request as _};
use lsp_types::{
    CodeActionParams, CodeLensParams, CompletionParams, DocumentDiagnosticParams, HoverParams, InlayHintParams,
};
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;

use crate::state::State;
use crate::{actions, hover, scopes, summary, wire};

/// JSON, or why the parameters cannot be read.
type Answer = Result<String, String>;

/// Answers a request; none for a method that is not offered.
pub(crate) fn answer(state: &mut State, method: &str, params: Value) -> Option<Answer> {
    Some(match method {
        request::DocumentDiagnosticRequest::METHOD => read(params).map(|params| diagnostics(state, &params)),
        request::InlayHintRequest::METHOD => with(params, |params: InlayHintParams| {
            let buffer = state.checked(&params.text_document.uri)?;
            buffer.story.as_ref().filter(|_| params.range.start.line == 0).map(|story| summary::hints(buffer, story))
        }),
        request::CodeLensRequest::METHOD => with(params, |params: CodeLensParams| {
            let buffer = state.checked(&params.text_document.uri)?;
            buffer.story.as_ref().map(summary::lenses)
        }),
        request::HoverRequest::METHOD => with(params, |params: HoverParams| {
            let at = params.text_document_position_params;
            state.checked(&at.text_document.uri)?;
            let (buffer, client) = (state.buffers.get(&at.text_document.uri)?, &state.client);
            match (&buffer.story, buffer.is_scope()) {
                (Some(story), _) => hover::hover(buffer, story, client, at.position),
                (None, true) => scopes::hover(buffer, client, at.position),
                (None, false) => None,
            }
        }),
        request::CodeActionRequest::METHOD => with(params, |params: CodeActionParams| {
            state.checked(&params.text_document.uri)?;
            let (buffer, client) = (state.buffers.get(&params.text_document.uri)?, &state.client);
            buffer.story.as_ref().map(|story| actions::actions(buffer, story, client, &params))
        }),
        request::Completion::METHOD => with(params, |params: CompletionParams| {
            let at = params.text_document_position;
            let buffer = state.buffers.get(&at.text_document.uri)?;
            buffer.is_scope().then(|| scopes::complete(buffer, at.position))
        }),
        _ => return None,
    })
}

fn with<P: DeserializeOwned, R: Serialize>(params: Value, work: impl FnOnce(P) -> R) -> Answer {
    Ok(wire::json(&work(read(params)?)))
}

fn read<P: DeserializeOwned>(params: Value) -> Result<P, String> {
    serde_json::from_value(params).map_err(|error| error.to_string())
}

fn diagnostics(state: &mut State, params: &DocumentDiagnosticParams) -> String {
    let items = state.diagnostics(&params.text_document.uri);
    let id = items.fingerprint();
    if params.previous_result_id.as_deref() == Some(&id) {
        return ["{\"kind\":\"unchanged\",\"resultId\":\"", &id, "\"}"].concat();
    }
    let mut out = ["{\"kind\":\"full\",\"resultId\":\"", &id, "\",\"items\":", items.json()].concat();
    let elsewhere = if state.client.pulls_related { state.elsewhere() } else { BTreeMap::new() };
    let related = elsewhere
        .iter()
        .map(|(uri, items)| [&wire::json(uri), ":{\"kind\":\"full\",\"items\":", items.json(), "}"].concat());
    let related: Vec<String> = related.collect();
    if !related.is_empty() {
        out += &[",\"relatedDocuments\":{", &related.join(","), "}"].concat();
    }
    out + "}"
}
