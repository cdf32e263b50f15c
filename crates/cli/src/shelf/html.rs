//! The shelf on one page.

use super::Whole;
use crate::output::Failure;

pub(super) fn page(whole: &Whole) -> Result<String, Failure> {
    Ok(whole.books.len().to_string())
}
