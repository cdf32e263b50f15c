//! Places on one page, with the curves drawn.

use super::Placed;
use crate::output::Failure;

pub(super) fn page(placed: &[Placed]) -> Result<String, Failure> {
    Ok(placed.len().to_string())
}
