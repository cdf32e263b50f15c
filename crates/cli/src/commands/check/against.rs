//! `untaught check --against OLD`: two drafts of a story compared at the lesson of the new one.

use std::collections::HashMap;
use std::path::Path;

use serde::Serialize;
use untaught::json::FORMAT;
use untaught::{Finding, front_matter, messages};

use crate::analysis::{CheckedText, Detail, check};
use crate::args::{CheckArgs, CheckFormat};
use crate::output::{self, DIM, Failure, Outcome, STRONG, Sink, TAUGHT, UNTAUGHT, one_line};
use crate::settings::RunSettings;
use crate::texts::{Worker, read};

/// How two drafts differ.
#[derive(Serialize)]
struct DraftComparison<'a> {
    format: u32,
    file: &'a str,
    against: &'a str,
    scope: &'a str,
    lesson: &'a str,
    met: bool,
    decodable: PercentChange,
    readable: PercentChange,
    focus: PercentChange,
    /// Words that were untaught in the old draft and are in the new one no longer.
    gone: Vec<WordChange<'a>>,
    /// Words that are untaught in the new draft only.
    new: Vec<WordChange<'a>>,
    /// Words that are untaught in both.
    left: Vec<WordChange<'a>>,
}

#[derive(Serialize)]
struct PercentChange {
    old: Option<f64>,
    new: Option<f64>,
}

/// How often an untaught word occurs in each draft.
#[derive(Serialize)]
struct WordChange<'a> {
    word: &'a str,
    old: usize,
    new: usize,
    needs: String,
}

pub(super) fn run(args: &CheckArgs, old: &Path, settings: &RunSettings) -> Result<Outcome, Failure> {
    let refused = |message: &str| Err(Failure::Message(message.to_owned()));
    let [new] = args.texts.files.as_slice() else {
        return refused("--against compares one story with an older draft: name one story");
    };
    if !matches!(args.format, CheckFormat::Text | CheckFormat::Json) {
        return refused("--against needs --format text or json");
    }
    if new.is_dir() || old.is_dir() {
        return refused("--against compares two files, not folders");
    }
    let mut worker = Worker::default();
    let open = |path: &Path| read(path, &args.texts.stdin_name).map_err(Failure::Message);
    let (new, old) = (open(new)?, open(old)?);
    let plan = new.plan(settings)?;
    // The old draft is held against what the new one is: its scope, its lesson, its names.
    let mut old_plan = new.plan(settings)?;
    old_plan.start = front_matter(old.document.text()).map_or(0, |(_, start)| start);
    let new = check(new, plan, Detail::default(), &mut worker, settings)?;
    let old = check(old, old_plan, Detail::default(), &mut worker, settings)?;
    let compared = compare(&old, &new);
    let mut sink = Sink::open(args.texts.output.as_deref(), args.format == CheckFormat::Text)?;
    if args.format == CheckFormat::Json {
        let mut bytes = output::json_bytes(&compared)?;
        bytes.push(b'\n');
        sink.write(&bytes)?;
    } else {
        sink.write(text(&compared).as_bytes())?;
    }
    sink.close()?;
    Ok(if new.met() { Outcome::Met } else { Outcome::Short })
}

fn compare<'a>(old: &'a CheckedText, new: &'a CheckedText) -> DraftComparison<'a> {
    let counts = |checked: &'a CheckedText| -> HashMap<&'a str, usize> {
        checked.report.findings.iter().map(|finding| (finding.word(), finding.count)).collect()
    };
    let (before, after) = (counts(old), counts(new));
    let change = |finding: &'a Finding| WordChange {
        word: finding.word(),
        old: before.get(finding.word()).copied().unwrap_or(0),
        new: after.get(finding.word()).copied().unwrap_or(0),
        needs: messages::needs(&finding.needs, new.plan.scope),
    };
    let of = |checked: &'a CheckedText, wanted: &dyn Fn(&WordChange<'_>) -> bool| -> Vec<WordChange<'a>> {
        checked.report.findings.iter().map(change).filter(|word| wanted(word)).collect()
    };
    let percents = |percent: &dyn Fn(&CheckedText) -> Option<f64>| PercentChange {
        old: messages::rounded(percent(old)),
        new: messages::rounded(percent(new)),
    };
    DraftComparison {
        format: FORMAT,
        file: &new.source.name,
        against: &old.source.name,
        scope: new.plan.scope.title(),
        lesson: new.lesson_id(),
        met: new.met(),
        decodable: percents(&|text| text.report.tokens.percent_decodable()),
        readable: percents(&|text| text.report.tokens.percent_readable()),
        focus: percents(&|text| untaught::percent(text.report.focus.tokens, text.report.tokens.words)),
        gone: of(old, &|word| word.new == 0),
        new: of(new, &|word| word.old == 0),
        left: of(new, &|word| word.old > 0),
    }
}

fn text(compared: &DraftComparison<'_>) -> String {
    let DraftComparison { file, against, scope, lesson, decodable, readable, focus, gone, new, left, .. } = compared;
    let mut out = format!(
        "{STRONG}{}{STRONG:#} against {} at lesson {} of {}\n\n",
        one_line(file),
        one_line(against),
        one_line(lesson),
        one_line(scope)
    );
    for (label, change) in [("readable", readable), ("decodable", decodable), ("practises", focus)] {
        let (old, new) = (messages::percent(change.old), messages::percent(change.new));
        out += &format!("  {label:<10} {old:>7} → {STRONG}{new}{STRONG:#}\n");
    }
    out.push('\n');
    let mut list = |heading: &str, style: anstyle::Style, mark: &str, words: &[WordChange<'_>]| {
        if words.is_empty() {
            return;
        }
        out += &format!("  {heading}\n");
        for WordChange { word, old, new, needs } in words {
            let times =
                if old == new || *old == 0 || *new == 0 { String::new() } else { format!(", {old} → {new} times") };
            out += &format!("    {style}{mark} {}{style:#}{times}  {DIM}{}{DIM:#}\n", one_line(word), one_line(needs));
        }
        out.push('\n');
    };
    list("no longer untaught", TAUGHT, "✓", gone);
    list("newly untaught", UNTAUGHT, "✗", new);
    list("still untaught", UNTAUGHT, "✗", left);
    out
}
