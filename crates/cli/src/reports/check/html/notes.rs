//! What the page says of the words that stop a child, and of those that may.

use serde::Serialize;
use untaught::{Report, TwoReadings, messages};

use crate::analysis::CheckedText;

#[derive(Serialize)]
pub(super) struct UntaughtNote {
    note: usize,
    word: String,
    count: usize,
    at: String,
    needs: Vec<NeedNote>,
    remarks: Vec<&'static str>,
}

#[derive(Serialize)]
struct NeedNote {
    what: String,
    when: String,
}

#[derive(Serialize)]
pub(super) struct TwoReadingsNote {
    note: usize,
    word: String,
    at: String,
    counted: String,
    counted_sounds: String,
    other: String,
    other_sounds: String,
}

/// The untaught words, and those with two readings.
pub(super) fn of(checked: &CheckedText) -> (Vec<UntaughtNote>, Vec<TwoReadingsNote>) {
    let report = &checked.report;
    let lines = checked.lines(places(report));
    let at: Vec<String> = lines.into_iter().zip(counted(report)).map(|(lines, n)| on_lines(lines, n)).collect();
    let (of_untaught, of_readings) = at.split_at(report.findings.len());
    (untaught(checked, of_untaught), two_readings(checked, of_readings))
}

/// Where untaught words and words with two readings are.
fn places(report: &Report) -> impl Iterator<Item = &[std::ops::Range<usize>]> + Clone {
    let of_findings = report.findings.iter().map(|finding| &finding.places[..]);
    of_findings.chain(report.two_readings.iter().map(|two| &two.places[..]))
}

fn counted(report: &Report) -> impl Iterator<Item = usize> {
    report.findings.iter().map(|finding| finding.count).chain(report.two_readings.iter().map(|two| two.count))
}

/// `1, 4, 9 …`: each line once.
fn on_lines(mut lines: Vec<usize>, count: usize) -> String {
    let more = if count > lines.len() { " …" } else { "" };
    lines.dedup();
    let listed: Vec<String> = lines.iter().map(ToString::to_string).collect();
    listed.join(", ") + more
}

/// The untaught words, those first that can be read soonest.
fn untaught(checked: &CheckedText, at: &[String]) -> Vec<UntaughtNote> {
    let report = &checked.report;
    let mut order: Vec<usize> = (0..report.findings.len()).collect();
    order.sort_by_cached_key(|number| {
        let finding = &report.findings[*number];
        let names: Vec<String> = finding.needs.iter().map(|need| messages::need(need, checked.plan.scope)).collect();
        (finding.last_lesson(), names, *number)
    });
    let one = |number: usize| {
        let finding = &report.findings[number];
        let mut remarks = Vec::new();
        if finding.likely_name {
            remarks.push("Possibly a name: if you will pre-teach it, declare it.");
        }
        if finding.by_letters {
            remarks.push("Not in the dictionary: sounded out from its letters.");
        }
        let needs = finding.needs.iter().map(|need| NeedNote {
            what: messages::need(need, checked.plan.scope),
            when: checked.id(need.lesson()).map_or("never taught".to_owned(), |id| format!("lesson {id}")),
        });
        UntaughtNote {
            note: finding.type_number,
            word: checked.text()[finding.places[0].clone()].to_owned(),
            count: finding.count,
            at: at[number].clone(),
            needs: needs.collect(),
            remarks,
        }
    };
    order.into_iter().map(one).collect()
}

fn two_readings(checked: &CheckedText, at: &[String]) -> Vec<TwoReadingsNote> {
    let one = |(two, at): (&TwoReadings, &String)| {
        let [counted, other] = two.differ_in(checked.plan.scope);
        TwoReadingsNote {
            note: two.type_number,
            word: two.word().to_owned(),
            at: format!("{}{} {at}", checked.unit(), if at.contains([',', '…']) { "s" } else { "" }),
            counted,
            counted_sounds: two.counted.clone(),
            other,
            other_sounds: two.other.clone(),
        }
    };
    checked.report.two_readings.iter().zip(at).map(one).collect()
}
