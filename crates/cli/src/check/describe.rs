//! Findings in a sentence, for the formats that show one beside the word.

use untaught::{Finding, say};

use super::found::Shortfall;
use super::{Checked, shown};

/// `“night” is untaught at lesson 12: it needs igh as in night (lesson 48).`
pub(super) fn untaught(checked: &Checked, finding: &Finding) -> String {
    say::untaught(finding, checked.plan.scope, checked.report.lesson)
}

/// `needs igh as in night (lesson 48)`.
pub(super) fn needs(checked: &Checked, finding: &Finding) -> String {
    say::needs(&finding.needs, checked.plan.scope)
}

pub(super) fn shortfall(checked: &Checked, short: &Shortfall) -> String {
    let (percent, what, least) = (shown(Some(short.percent)), short.what, short.least);
    format!("At lesson {} {percent} of the words are {what}, where {least} % are wanted.", checked.lesson_id())
        .replace("are practise its focus", "practise its focus")
}

/// `“wind” can be read with i as in win, but not yet with i as in wild`.
pub(super) fn two_readings(two: &untaught::TwoReadings) -> String {
    say::two_readings(two)
}
