//! Texts that are deflated when the crate is built, and inflated when they are asked for first.

use std::io::Read as _;

use flate2::read::DeflateDecoder;

/// A deflated text of the build.
pub(crate) fn inflated(bytes: &[u8]) -> String {
    let mut text = String::new();
    let read = DeflateDecoder::new(bytes).read_to_string(&mut text);
    debug_assert!(read.is_ok(), "{read:?}");
    text
}
