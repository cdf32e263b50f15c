//! Texts that are deflated when the crate is built, and inflated when they are asked for first.

use std::io::Read as _;

use flate2::read::DeflateDecoder;

/// A deflated text of the build.
pub(crate) fn inflated(bytes: &[u8]) -> String {
    String::from_utf8(inflated_bytes(bytes)).unwrap_or_default()
}

/// What was deflated in the build.
pub(crate) fn inflated_bytes(bytes: &[u8]) -> Vec<u8> {
    let mut found = Vec::new();
    let read = DeflateDecoder::new(bytes).read_to_end(&mut found);
    debug_assert!(read.is_ok(), "{read:?}");
    found
}
