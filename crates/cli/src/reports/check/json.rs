//! The report for programs. Its shape is published in `scope-files/check.schema.json`.

use std::io;

use untaught::json::{FORMAT, PlanDetails, TextDetails, TextReport};

use super::format::{Format, RunTotals};
use crate::analysis::{CheckedText, Detail};
use crate::output;

/// One object.
pub(super) struct Json {
    pub(super) every_word: bool,
    pub(super) suggest: bool,
    pub(super) plan: bool,
}

impl Format for Json {
    fn detail(&self) -> Detail {
        Detail { every_word: self.every_word, suggestions: self.suggest, mending: self.plan, ..Detail::default() }
    }

    fn head(&self) -> String {
        format!("{{\"format\":{FORMAT},\"texts\":[")
    }

    fn between(&self) -> &'static str {
        ","
    }

    fn piece(&self, checked: &CheckedText) -> io::Result<Vec<u8>> {
        output::json_bytes(&text(checked, self.every_word))
    }

    fn tail(&self, totals: &RunTotals) -> io::Result<Vec<u8>> {
        let mut out = b"],\"errors\":".to_vec();
        out.extend(output::json_bytes(&totals.errors)?);
        out.extend(b"}\n");
        Ok(out)
    }
}

/// The report on one text.
pub(super) fn text(checked: &CheckedText, every_word: bool) -> TextReport<'_> {
    let details = TextDetails {
        file: &checked.source.name,
        met: Some(checked.met()),
        every_word,
        replacements: checked.replacements.as_deref(),
        plan: checked
            .mending
            .as_ref()
            .map(|mending| PlanDetails { plan: mending.plan.as_ref(), practise: &mending.practise }),
        ..TextDetails::new(checked.text(), checked)
    };
    TextReport::new(&checked.report, checked.plan.scope, details)
}
