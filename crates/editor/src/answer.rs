//! What the client asks for.

use lsp_types::request::{self, Request as _};
use lsp_types::{
    CodeActionParams, CodeLensParams, CompletionParams, DocumentDiagnosticParams, DocumentDiagnosticReport,
    FullDocumentDiagnosticReport, HoverParams, InlayHintParams, RelatedFullDocumentDiagnosticReport,
    RelatedUnchangedDocumentDiagnosticReport, UnchangedDocumentDiagnosticReport,
};
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;

use crate::state::State;
use crate::{actions, hover, scopes, summary};

type Answer = Result<Value, String>;

/// Answers a request: why its parameters cannot be read, or none for a method that is not offered.
pub(crate) fn answer(state: &mut State, method: &str, params: Value) -> Option<Answer> {
    Some(match method {
        request::DocumentDiagnosticRequest::METHOD => with(params, |params| diagnostics(state, params)),
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
    let params = serde_json::from_value(params).map_err(|error| error.to_string())?;
    serde_json::to_value(work(params)).map_err(|error| error.to_string())
}

fn diagnostics(state: &mut State, params: DocumentDiagnosticParams) -> DocumentDiagnosticReport {
    let items = state.diagnostics(&params.text_document.uri);
    let id = result_id(&items);
    if params.previous_result_id.as_deref() == Some(&id) {
        return DocumentDiagnosticReport::Unchanged(RelatedUnchangedDocumentDiagnosticReport {
            related_documents: None,
            unchanged_document_diagnostic_report: UnchangedDocumentDiagnosticReport { result_id: id },
        });
    }
    let related = state.client.pulls_related.then(|| {
        let full = |items| FullDocumentDiagnosticReport { result_id: None, items };
        state.elsewhere().into_iter().map(|(uri, items)| (uri, full(items).into())).collect()
    });
    DocumentDiagnosticReport::Full(RelatedFullDocumentDiagnosticReport {
        related_documents: related,
        full_document_diagnostic_report: FullDocumentDiagnosticReport { result_id: Some(id), items },
    })
}

/// The same for the same diagnostics.
fn result_id(items: &[lsp_types::Diagnostic]) -> String {
    use std::hash::{DefaultHasher, Hash as _, Hasher as _};
    let mut state = DefaultHasher::new();
    serde_json::to_vec(items).unwrap_or_default().hash(&mut state);
    format!("{:016x}", state.finish())
}
