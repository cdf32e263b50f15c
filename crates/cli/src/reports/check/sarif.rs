//! SARIF 2.1.0 (OASIS standard): findings for tools that show them beside the text.

use std::io;

use serde::Serialize;
use serde_json::json;
use untaught::json::ErrorReport;

use super::format::{Format, RunTotals};
use super::sentences;
use crate::analysis::{CheckedText, Detail, Extent};
use crate::output::{self, uri};

pub(super) struct Sarif;

const UNTAUGHT: &str = "untaught-word";
const SHORT: &str = "falls-short";
const READINGS: &str = "two-readings";

impl Format for Sarif {
    fn detail(&self) -> Detail {
        Detail { places: usize::MAX, ..Detail::default() }
    }

    fn head(&self) -> String {
        // In the order of their ids.
        let rules = json!([
            { "id": SHORT, "shortDescription": { "text": "The text is below a threshold." } },
            { "id": READINGS, "shortDescription": { "text": "Whether the word can be read depends on its pronunciation." } },
            { "id": UNTAUGHT, "shortDescription": { "text": "The word cannot be read yet at the text's lesson." } },
        ]);
        let driver = json!({ "name": "untaught", "semanticVersion": env!("CARGO_PKG_VERSION"), "rules": rules });
        let schema = "https://json.schemastore.org/sarif-2.1.0.json";
        format!(
            "{{\"$schema\":\"{schema}\",\"version\":\"2.1.0\",\"runs\":[{{\"tool\":{{\"driver\":{driver}}},\
             \"columnKind\":\"unicodeCodePoints\",\"results\":["
        )
    }

    fn between(&self) -> &'static str {
        ","
    }

    fn piece(&self, checked: &CheckedText) -> io::Result<Vec<u8>> {
        let report = &checked.report;
        let of_findings = report.findings.iter().map(|finding| &finding.places[..]);
        let of_readings = report.two_readings.iter().map(|two| &two.places[..]);
        let mut extents = checked.extents(of_findings.chain(of_readings)).into_iter();
        let uri = uri(&checked.source.name);
        let mut results = Vec::new();
        let level = if checked.met() { "note" } else { "warning" };
        for finding in &report.findings {
            let message = sentences::untaught(checked, finding);
            for extent in extents.next().unwrap_or_default() {
                results.push(SarifResult::new(UNTAUGHT, level, &message, &uri, Some(extent)));
            }
        }
        for two in &report.two_readings {
            let message = sentences::two_readings(checked, two);
            for extent in extents.next().unwrap_or_default() {
                results.push(SarifResult::new(READINGS, "note", &message, &uri, Some(extent)));
            }
        }
        for short in &checked.shortfalls {
            results.push(SarifResult::new(SHORT, "error", &sentences::shortfall(checked, short), &uri, None));
        }
        let mut out = Vec::new();
        for (number, result) in results.iter().enumerate() {
            if number > 0 {
                out.push(b',');
            }
            out.extend(output::json_bytes(result)?);
        }
        Ok(out)
    }

    fn tail(&self, totals: &RunTotals) -> io::Result<Vec<u8>> {
        let notes: Vec<_> = totals
            .errors
            .iter()
            .map(|ErrorReport { file, message }| {
                let location = json!({ "physicalLocation": { "artifactLocation": { "uri": uri(file) } } });
                json!({ "level": "error", "message": { "text": message }, "locations": [location] })
            })
            .collect();
        let invocation = json!([{
            "executionSuccessful": totals.failed == 0,
            "toolExecutionNotifications": notes,
        }]);
        let mut out = b"],\"invocations\":".to_vec();
        out.extend(output::json_bytes(&invocation)?);
        out.extend(b"}]}\n");
        Ok(out)
    }
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct SarifResult<'a> {
    rule_id: &'static str,
    level: &'static str,
    message: SarifMessage,
    locations: [ResultLocation<'a>; 1],
}

#[derive(Serialize)]
struct SarifMessage {
    text: String,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct ResultLocation<'a> {
    physical_location: PhysicalLocation<'a>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct PhysicalLocation<'a> {
    artifact_location: ArtifactLocation<'a>,
    #[serde(skip_serializing_if = "Option::is_none")]
    region: Option<Region>,
}

#[derive(Serialize)]
struct ArtifactLocation<'a> {
    uri: &'a str,
}

/// Columns from 1, the end one past the last.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Region {
    start_line: usize,
    start_column: usize,
    end_line: usize,
    end_column: usize,
}

impl<'a> SarifResult<'a> {
    fn new(
        rule_id: &'static str,
        level: &'static str,
        message: &str,
        uri: &'a str,
        extent: Option<Extent>,
    ) -> SarifResult<'a> {
        let region = extent.map(|Extent { start, end }| Region {
            start_line: start.line,
            start_column: start.column,
            end_line: end.line,
            end_column: end.column,
        });
        let physical_location = PhysicalLocation { artifact_location: ArtifactLocation { uri }, region };
        SarifResult {
            rule_id,
            level,
            message: SarifMessage { text: message.to_owned() },
            locations: [ResultLocation { physical_location }],
        }
    }
}
