//! What the client asks for.

use std::collections::BTreeMap;

use lsp_server::RequestId;
use lsp_types::request::{self, Request as _};
use lsp_types::{
    CodeActionParams, CodeLensParams, CompletionParams, DocumentDiagnosticParams, HoverParams, InlayHintParams,
};
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;

use crate::diagnostic_list::DiagnosticList;
use crate::state::State;
use crate::{actions, hover, scopes, summary, wire};

/// The message, or why the parameters cannot be read.
type Answer = Result<String, String>;

/// Answers a request; none for a method that is not offered.
pub(crate) fn answer(state: &mut State, id: &RequestId, method: &str, params: Value) -> Option<Answer> {
    Some(match method {
        request::DocumentDiagnosticRequest::METHOD => read(params).map(|params| diagnostics(state, id, &params)),
        request::InlayHintRequest::METHOD => with(id, params, |params: InlayHintParams| {
            let (buffer, story) = state.checked(&params.text_document.uri)?;
            story.filter(|_| params.range.start.line == 0).map(|story| summary::hints(buffer, story))
        }),
        request::CodeLensRequest::METHOD => with(id, params, |params: CodeLensParams| {
            let (_, story) = state.checked(&params.text_document.uri)?;
            story.map(summary::lenses)
        }),
        request::HoverRequest::METHOD => with(id, params, |params: HoverParams| {
            let at = params.text_document_position_params;
            let client = state.client.clone();
            let (buffer, story) = state.checked(&at.text_document.uri)?;
            match (story, buffer.is_scope()) {
                (Some(story), _) => hover::hover(buffer, story, &client, at.position),
                (None, true) => scopes::hover(buffer, &client, at.position),
                (None, false) => None,
            }
        }),
        request::CodeActionRequest::METHOD => with(id, params, |params: CodeActionParams| {
            let client = state.client.clone();
            let (buffer, story) = state.checked(&params.text_document.uri)?;
            story.map(|story| actions::actions(buffer, story, &client, &params))
        }),
        request::Completion::METHOD => with(id, params, |params: CompletionParams| {
            let at = params.text_document_position;
            let buffer = state.buffers.get(&at.text_document.uri)?;
            buffer.is_scope().then(|| scopes::complete(buffer, at.position))
        }),
        _ => return None,
    })
}

fn with<P: DeserializeOwned, R: Serialize>(id: &RequestId, params: Value, work: impl FnOnce(P) -> R) -> Answer {
    Ok(wire::answer(id, &work(read(params)?)))
}

fn read<P: DeserializeOwned>(params: Value) -> Result<P, String> {
    serde_json::from_value(params).map_err(|error| error.to_string())
}

fn diagnostics(state: &mut State, id: &RequestId, params: &DocumentDiagnosticParams) -> String {
    let uri = &params.text_document.uri;
    let result = state.result_id(uri);
    let head = wire::answer_head(id);
    if params.previous_result_id.as_ref() == Some(&result) {
        return head + &["{\"kind\":\"unchanged\",\"resultId\":\"", &result, "\"}}"].concat();
    }
    let mut list =
        DiagnosticList::after(head + &["{\"kind\":\"full\",\"resultId\":\"", &result, "\",\"items\":"].concat());
    state.diagnostics(uri, &mut list);
    let elsewhere = if state.client.pulls_related { state.elsewhere() } else { BTreeMap::new() };
    let related = elsewhere
        .iter()
        .map(|(uri, items)| [&wire::json(uri), ":{\"kind\":\"full\",\"items\":", items.as_str(), "}"].concat());
    let related: Vec<String> = related.collect();
    match related.is_empty() {
        true => list.end("}}"),
        false => list.end(&[",\"relatedDocuments\":{", &related.join(","), "}}}"].concat()),
    }
}
