//! Places for programs. The shape is published in `scope-files/place.schema.json`.

use std::io;

use untaught::json::{CurvePoint, ErrorReport, FORMAT, ObstacleReport, PlaceReport};

use crate::analysis::Placement;
use crate::output::json_bytes;

pub(super) fn head() -> String {
    format!("{{\"format\":{FORMAT},\"texts\":[")
}

/// The report on one text.
pub(super) fn piece(placement: &Placement) -> io::Result<Vec<u8>> {
    let (checked, scope) = (&placement.checked, placement.checked.plan.scope);
    json_bytes(&PlaceReport {
        file: &checked.source.name,
        scope: scope.title(),
        lesson: checked.id(placement.first),
        meant_for: checked.id(placement.meant_for()),
        words: placement.curve.words,
        curve: CurvePoint::all(&placement.curve, scope),
        obstacles_at: Some(scope.id(placement.at)),
        obstacles: placement.obstacles.iter().map(|obstacle| ObstacleReport::new(obstacle, scope)).collect(),
    })
}

pub(super) fn tail(errors: &[ErrorReport]) -> io::Result<Vec<u8>> {
    Ok([b"],\"errors\":", &json_bytes(&errors)?[..], b"}\n"].concat())
}
