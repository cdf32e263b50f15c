//! What an index says of a text.

use serde::Serialize;
use untaught::messages;

use crate::analysis::CheckedText;
use crate::reports::titles;

/// What the index says of a text.
#[derive(Serialize)]
pub(crate) struct StorySummary {
    title: String,
    /// Its file, where the title is not its name.
    file: Option<String>,
    pub(super) scope: String,
    lesson: String,
    decodable: String,
    readable: String,
    words: usize,
    untaught: usize,
    met: bool,
}

impl StorySummary {
    pub(crate) fn of(checked: &CheckedText) -> StorySummary {
        let counts = &checked.report.tokens;
        let (title, file) = titles::of(checked);
        StorySummary {
            title,
            file,
            scope: checked.plan.scope.title().to_owned(),
            lesson: checked.lesson_id().to_owned(),
            decodable: messages::percent(counts.percent_decodable()),
            readable: messages::percent(counts.percent_readable()),
            words: counts.words,
            untaught: counts.untaught,
            met: checked.met(),
        }
    }
}
