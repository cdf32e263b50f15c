//! The tokenizer, made once: it is large, and every kind of emitter makes another one.

use html5gum::emitters::callback::{CallbackEmitter, CallbackEvent};
use html5gum::{Span, State, Tokenizer};

/// What takes the events of a page: where what follows is not to be read as tags, its answer says how.
pub(super) type Take<'t> = dyn FnMut(&CallbackEvent<'_>, Span<usize>) -> Option<State> + 't;

/// Reads a page event by event.
pub(super) fn read(source: &str, take: &mut Take<'_>) {
    let emitter = CallbackEmitter::new(|event: CallbackEvent<'_>, span: Span<usize>| take(&event, span));
    let mut tokenizer = Tokenizer::new_with_emitter(source, emitter);
    // A token is only made where what follows is not read as tags.
    while let Some(Ok(state)) = tokenizer.next() {
        tokenizer.set_state(state);
    }
}
