//! The language server of `untaught`: what a child cannot yet read is shown in the editor while the story is written.
//!
//! It speaks the Language Server Protocol 3.17. Messages are answered one after another, in their order, on one thread; verdicts are
//! remembered, so that a keystroke costs one pass over the story. This is the only crate that knows that protocol.

mod actions;
mod answer;
mod buffer;
mod client;
mod diagnose;
mod diagnostic_list;
mod entry;
mod front;
mod hover;
mod offer;
mod plan;
mod positions;
mod queue;
mod review;
mod scopes;
mod server;
mod shared_files;
mod state;
mod stdio;
mod story;
mod summary;
mod take;
mod uri;
mod wire;
mod word_diagnostics;

pub use positions::{Encoding, LineIndex};
pub use server::{End, serve};
pub use wire::{Connection, Peer};

use std::io;

/// Serves on standard input and output until the client says goodbye or is gone.
///
/// # Errors
/// What was wrong with the input or the output.
pub fn run() -> io::Result<End> {
    let (connection, threads) = stdio::connection()?;
    let end = serve(&connection);
    drop(connection);
    threads.finish()?;
    Ok(end)
}
