//! Findings in a sentence, for the formats that show one beside the word.

use untaught::Finding;

use super::found::Shortfall;
use super::{Checked, lesson_id, shown};

/// `“night” needs igh as in night, taught in lesson 48`.
pub(super) fn untaught(checked: &Checked, finding: &Finding) -> String {
    let needs = needs(checked, finding);
    let mut sentence = format!("“{}” is untaught at lesson {}: it {needs}.", finding.word, checked.lesson_id());
    if finding.likely_name {
        sentence += " It looks like a name: if the child is told it beforehand, declare it.";
    }
    if finding.by_letters {
        sentence += " It is not in the dictionary and was read by its letters.";
    }
    sentence
}

/// `needs igh as in night (lesson 48)`.
pub(super) fn needs(checked: &Checked, finding: &Finding) -> String {
    let needs: Vec<String> = finding
        .needs
        .iter()
        .map(|need| match lesson_id(checked, need.lesson) {
            Some(id) => format!("{} (lesson {id})", need.label),
            None => format!("{} (never taught)", need.label),
        })
        .collect();
    match needs.as_slice() {
        [] => "needs more than has been taught".to_owned(),
        [need] => format!("needs {need}"),
        [first @ .., last] => format!("needs {} and {last}", first.join(", ")),
    }
}

pub(super) fn shortfall(checked: &Checked, short: &Shortfall) -> String {
    let (percent, what, least) = (shown(Some(short.percent)), short.what, short.least);
    format!("At lesson {} {percent} of the words are {what}, where {least} % are wanted.", checked.lesson_id())
        .replace("are practise its focus", "practise its focus")
}

/// `“wind” can be read with i as in win, but not yet with i as in wild`.
pub(super) fn two_readings(two: &untaught::TwoReadings) -> String {
    let (counted, other) = &two.patterns;
    format!(
        "“{}” can be read with {counted} (/{}/), but not yet with {other} (/{}/).",
        two.word, two.counted, two.other
    )
}
