//! Places for programs. The shape is published in `scope-files/place.schema.json`.

use std::io;

use untaught::json::{CurvePoint, ErrorReport, FORMAT, MilestoneReport, ObstacleReport, PlaceReport};

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
        reaches: MilestoneReport::all(&placement.curve, scope),
        never_readable: placement.never.as_ref().map_or_else(Vec::new, |never| never.words.clone()),
        if_pretaught: checked.id(placement.never.as_ref().map(|never| never.lesson)),
        obstacles_at: Some(scope.id(placement.at)),
        obstacles: placement.obstacles.iter().map(|obstacle| ObstacleReport::new(obstacle, scope)).collect(),
    })
}

pub(super) fn tail(errors: &[ErrorReport]) -> io::Result<Vec<u8>> {
    Ok([b"],\"errors\":", &json_bytes(&errors)?[..], b"}\n"].concat())
}
