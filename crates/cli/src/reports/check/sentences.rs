//! Findings in a sentence, for the formats that show one beside the word.

use untaught::{Finding, TwoReadings, messages};

use crate::analysis::{CheckedText, Shortfall};

/// `“night” is untaught at lesson 12: it needs igh as in night (lesson 48).`
pub(super) fn untaught(checked: &CheckedText, finding: &Finding) -> String {
    messages::untaught(finding, checked.plan.scope, checked.report.lesson)
}

/// `needs igh as in night (lesson 48)`.
pub(super) fn needs(checked: &CheckedText, finding: &Finding) -> String {
    messages::needs(&finding.needs, checked.plan.scope)
}

pub(super) fn shortfall(checked: &CheckedText, short: &Shortfall) -> String {
    let (percent, least) = (messages::percent(Some(short.percent)), short.least);
    format!("At lesson {} {percent} of words {}; {least} % is required.", checked.lesson_id(), short.what.predicate())
}

/// `“wind” can be read with i as in win, but not yet with i as in wild`.
pub(super) fn two_readings(checked: &CheckedText, two: &TwoReadings) -> String {
    messages::two_readings(two, checked.plan.scope)
}
