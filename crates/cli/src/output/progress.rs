//! The line that says how far the work is: it stands at the end of what is shown, and makes room for whatever else is.

use std::io::{self, Write as _};
use std::sync::atomic::{AtomicBool, Ordering};

/// Whether the line is on the terminal.
static STANDS: AtomicBool = AtomicBool::new(false);

/// Shows the line, in place of the one before.
pub(crate) fn progress(line: &str) {
    STANDS.store(true, Ordering::Relaxed);
    // Nothing is lost where this cannot be shown.
    let _ = write!(io::stderr(), "\r{line}");
}

/// Clears the line, if it is shown.
pub(crate) fn progress_is_over() {
    if STANDS.swap(false, Ordering::Relaxed) {
        let _ = write!(io::stderr(), "\r\x1b[K");
    }
}
