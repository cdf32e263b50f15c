//! What the server offers, by what the client can.

use lsp_types::{
    CodeActionKind, CodeActionOptions, CodeActionProviderCapability, CodeLensOptions, CompletionOptions,
    DiagnosticOptions, DiagnosticServerCapabilities, HoverProviderCapability, OneOf, SaveOptions, ServerCapabilities,
    TextDocumentSyncCapability, TextDocumentSyncKind, TextDocumentSyncOptions, TextDocumentSyncSaveOptions,
    WorkspaceFoldersServerCapabilities, WorkspaceServerCapabilities,
};

use crate::client::{Client, SummaryPlace};

pub(crate) fn offer(client: &Client) -> ServerCapabilities {
    let sync = TextDocumentSyncOptions {
        open_close: Some(true),
        change: Some(TextDocumentSyncKind::INCREMENTAL),
        save: Some(TextDocumentSyncSaveOptions::SaveOptions(SaveOptions { include_text: Some(false) })),
        ..TextDocumentSyncOptions::default()
    };
    let pull = DiagnosticOptions {
        identifier: Some("untaught".to_owned()),
        // A story's verdicts depend on its scope file.
        inter_file_dependencies: true,
        ..DiagnosticOptions::default()
    };
    let actions =
        CodeActionOptions { code_action_kinds: Some(vec![CodeActionKind::QUICKFIX]), ..CodeActionOptions::default() };
    let folders =
        WorkspaceFoldersServerCapabilities { supported: Some(true), change_notifications: Some(OneOf::Left(true)) };
    ServerCapabilities {
        position_encoding: Some(client.encoding.kind()),
        text_document_sync: Some(TextDocumentSyncCapability::Options(sync)),
        hover_provider: Some(HoverProviderCapability::Simple(true)),
        completion_provider: Some(CompletionOptions {
            trigger_characters: Some(vec!["[".to_owned(), ",".to_owned(), " ".to_owned()]),
            ..CompletionOptions::default()
        }),
        code_action_provider: client.code_actions.then_some(CodeActionProviderCapability::Options(actions)),
        diagnostic_provider: client.pulls.then_some(DiagnosticServerCapabilities::Options(pull)),
        inlay_hint_provider: (client.summary == SummaryPlace::Hint).then_some(OneOf::Left(true)),
        code_lens_provider: (client.summary == SummaryPlace::Lens)
            .then_some(CodeLensOptions { resolve_provider: Some(false) }),
        workspace: Some(WorkspaceServerCapabilities { workspace_folders: Some(folders), file_operations: None }),
        ..ServerCapabilities::default()
    }
}
